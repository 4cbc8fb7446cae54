// The plan against the books: variance by line, suggestions that are never applied by themselves, and courses that go on from real balances.
import { expect, test } from 'vitest'
import { type Plan, planSchema } from '#plan/plan.ts'
import { type ActualMonth, suggestionsFrom, varianceOf } from '#runway/actual.ts'
import { project } from '#runway/project.ts'
import { publishedRules } from '#runway/published-rules.ts'

const plan: Plan = planSchema.parse({
  startMonth: '2027-01',
  years: 5,
  household: {
    living: [{ id: 'living', name: 'Living', perMonth: 2000 }],
    floor: { kind: 'dollars', dollars: 10_000 },
  },
  savings: { accounts: [{ id: 'savings', name: 'Savings', kind: 'cash', balance: 40_000 }] },
  draw: { policy: 'steps', steps: [{ from: '2027-01', perMonth: 1000 }] },
  tax: { method: 'none' },
  assumptions: { inflation: 0 },
})

const month = (text: string, changes: Partial<ActualMonth> = {}): ActualMonth => ({
  month: text,
  living: 2200,
  premiums: 0,
  taxes: 0,
  draws: 900,
  contributions: 0,
  otherIncome: 0,
  spendable: 30_000,
  ...changes,
})

const half = ['2027-01', '2027-02', '2027-03', '2027-04', '2027-05', '2027-06'].map((text) => month(text))

test('months that plan and books share are compared line by line', () => {
  const variance = varianceOf(project(plan).months, half)!
  expect(variance.sameMonths).toBe(true)
  expect(variance.lines.find((line) => line.name.startsWith('Living'))).toMatchObject({
    planned: 12_000,
    actual: 13_200,
    difference: 1200,
    isWorse: true,
  })
  expect(variance.lines.find((line) => line.name === 'Draws')).toMatchObject({
    planned: 6000,
    actual: 5400,
    isWorse: true,
  })
})

test('a plan that begins after the books end is compared by its first months', () => {
  const variance = varianceOf(project(plan).months, [month('2026-11'), month('2026-12')])!
  expect(variance.sameMonths).toBe(false)
  expect(variance.planned).toEqual({ from: '2027-01', to: '2027-02' })
})

test('half a year of books suggests their pace, and leaves the plan as it is', () => {
  const before = structuredClone(plan)
  const suggestions = suggestionsFrom(plan, varianceOf(project(plan).months, half)!, half)
  expect(plan).toEqual(before)
  expect(suggestions).toHaveLength(2)
  expect(suggestions[0]!.plan.household.living[0]!.perMonth).toBe(2200)
  expect(suggestions[1]!.plan.draw).toMatchObject({
    steps: [
      { from: '2027-01', perMonth: 1000 },
      { from: '2027-07', perMonth: 900 },
    ],
  })
  expect(suggestionsFrom(plan, varianceOf(project(plan).months, half)!, half.slice(0, 3))).toEqual([])
})

test('a course goes on from the books’ balances: savings 25,000 in July, 15,000 above the floor, last fifteen months', () => {
  const restart = { month: 6, spendable: 25_000, farmCash: 0 }
  const { milestones, months } = project(plan, publishedRules(plan), undefined, { restart })
  expect(months[6]!.cash).toBe(24_000)
  // Ten thousand is left after fifteen months; the sixteenth goes below. Counted from the plan's first month: 6 + 15.
  expect(milestones.floorMonth).toBe('2028-10')
  expect(milestones.monthsLeft).toBe(21)
})
