// Where a projection begins before today, since the books miss months, the lowest savings are those still to come. An invented ropemaker: 10,000, 800 a
// month to live on, and pay of 2,000 from August 2026. By hand, without tax and prices: 4,400 in July, 9,200 in November, the month of today.
import { expect, test } from 'vitest'
import { month } from '#calendar/month.ts'
import { planSchema } from '#plan/plan.ts'
import { inDollars } from '#runway/dollars/dollars.ts'
import { project } from '#runway/project.ts'

const ropemaker = planSchema.parse({
  startMonth: '2026-01',
  household: {
    people: [{ id: 'hem', name: 'Hem', born: '1980-04-02', planToAge: 60 }],
    living: [{ id: 'living', name: 'Living', perMonth: 800 }],
    pay: [{ id: 'walk', name: 'Rope walk', person: 'hem', perMonth: 2000, from: '2026-08' }],
  },
  savings: { accounts: [{ id: 'cash', name: 'Cash', kind: 'cash', balance: 10_000 }] },
  tax: { method: 'none' },
  assumptions: { inflation: 0, bills: 0 },
})

test('savings that were lower before today are behind: only the months to come are looked at', () => {
  const leftFrom = month(2026, 11)
  const seen = { ...ropemaker, seenFrom: { leftFrom, badYearsFrom: leftFrom } }
  const told = project(seen)
  for (const { milestones } of [told, inDollars(told, { of: 'today', month: '2026-11' })])
    expect(milestones).toMatchObject({ lowestMonth: '2026-11', lowestSpendable: expect.closeTo(9200, 6) })
  expect(project(ropemaker).milestones).toMatchObject({ lowestMonth: '2026-07', lowestSpendable: 4400 })
})

test('a plan that begins only after today is looked at from its first month', () => {
  const leftFrom = month(2025, 11)
  const { milestones } = project({ ...ropemaker, seenFrom: { leftFrom, badYearsFrom: leftFrom } })
  expect(milestones).toMatchObject({ lowestMonth: '2026-07', lowestSpendable: 4400 })
})
