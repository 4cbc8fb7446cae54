// The saver's match in the projection: who gets it, when, into which account, and what takes it away.
import { expect, test } from 'vitest'
import { planSchema } from '#plan/plan.ts'
import { project } from '#runway/project.ts'

/** A couple with 19,200 of pay each, 38,400 together; Ann sets aside 100 a month, Bo 250, from the first month. */
const planOf = (
  kinds: readonly ('traditional' | 'roth')[],
  change: { startMonth?: string; pay?: number; costs?: number } = {},
) =>
  planSchema.parse({
    startMonth: change.startMonth ?? '2027-01',
    household: {
      people: [
        { id: 'ann', name: 'Ann', born: '1985-03-10', planToAge: 50 },
        { id: 'bo', name: 'Bo', born: '1986-05-10', planToAge: 50 },
      ],
      living: [{ id: 'living', name: 'Living', perMonth: change.costs ?? 2000, growth: 'fixed' }],
      pay: ['ann', 'bo'].map((person) => ({
        id: `pay-${person}`,
        name: 'Pay',
        person,
        perMonth: change.pay ?? 1600,
      })),
    },
    savings: {
      accounts: [
        { id: 'cash', name: 'Cash', kind: 'cash', balance: 20_000 },
        ...kinds.flatMap((kind) =>
          ['ann', 'bo'].map((owner) => ({ id: `${kind}-${owner}`, name: kind, kind, owner, balance: 0 })),
        ),
      ],
      contributions: [
        { id: 'a', account: `${kinds.at(-1)}-ann`, perMonth: 100 },
        { id: 'b', account: `${kinds.at(-1)}-bo`, perMonth: 250 },
      ],
    },
    assumptions: { inflation: 0, returns: { stocks: 0, bonds: 0, bills: 0 } },
  })

const matches = (plan: Parameters<typeof project>[0]) =>
  project(plan)
    .months.filter((month) => month.saversMatch !== 0)
    .map((month) => [month.month, month.saversMatch])

test('comes in April for the year before: 600 for Ann’s 1,200, 1,000 for Bo’s 3,000', () => {
  const [first, second] = matches(planOf(['traditional']))
  expect(first).toEqual(['2028-04', 1600])
  expect(second).toEqual(['2029-04', 1600])
  const { months } = project(planOf(['traditional']))
  const at = months.findIndex((month) => month.month === '2028-04')
  expect(months[at]!.traditional - months[at - 1]!.traditional).toBeCloseTo(350 + 1600, 6)
})

test('goes into a traditional account also for Roth contributions, and nowhere without one', () => {
  expect(matches(planOf(['traditional', 'roth']))[0]).toEqual(['2028-04', 1600])
  expect(matches(planOf(['roth']))).toEqual([])
})

test('is paid for no year before 2027: the credit of that year lowers the tax instead', () => {
  expect(matches(planOf(['traditional'], { startMonth: '2026-01' }))[0]![0]).toBe('2028-04')
})

test('is nothing for an income above the range, while both earn', () => {
  const early = matches(planOf(['traditional'], { pay: 3500 })).filter(([month]) => month! < '2036')
  expect(early).toEqual([])
})

test('is nothing while savings are taken out of retirement accounts', () => {
  const spent = planOf(['traditional'], { costs: 6000 })
  const taken = project(spent).months.filter((month) => month.withdrawnTraditional > 0)
  expect(taken.length).toBeGreaterThan(0)
  expect(matches(spent)).toEqual([])
})
