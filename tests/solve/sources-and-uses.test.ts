// Where the household's money comes from and goes to, year by year: cash that falls is money from savings too. Worked by hand on an
// invented household, and held on random plans against the balances, which know nothing of sources and uses.
import fc from 'fast-check'
import { expect, test } from 'vitest'
import { type Plan, planSchema } from '#plan/plan.ts'
import { project } from '#runway/project.ts'
import { type SlowerYear, slowerYears } from '#solve/slower-years.ts'
import { assertFuzz, fuzzLimit } from '../fuzz/batches.ts'
import { randomPlan } from '../runway/random-plan.ts'

const comesIn = (one: SlowerYear) =>
  one.draws + one.socialSecurity + one.side + one.pay + one.otherIn + one.fromSavings + one.unmetNeed
const goesOut = (one: SlowerYear) =>
  one.living +
  one.premiumsAndCare +
  one.taxes +
  one.loanPayments +
  one.oneOffCosts +
  one.intoFarm +
  one.intoSavings

/** Costs 3,000 a month; draws of 500 from mid-2026 on, of 4,000 in 2029; 50,000 in cash, then 30,000 in a traditional account. */
const household = planSchema.parse({
  startMonth: '2026-01',
  household: {
    people: [{ id: 'a', name: 'A', born: '1961-01-01', planToAge: 70 }],
    living: [{ id: 'l', name: 'L', perMonth: 3000 }],
    oneOffs: [{ id: 'sold', name: 'Truck sold', month: '2029-03', cost: -1000, todaysPrices: false }],
  },
  savings: {
    accounts: [
      { id: 'c', name: 'C', kind: 'cash', balance: 50_000 },
      { id: 't', name: 'T', kind: 'traditional', balance: 30_000, owner: 'a' },
    ],
  },
  draw: {
    policy: 'steps',
    steps: [
      { from: '2026-07', perMonth: 500 },
      { from: '2029-01', perMonth: 4000 },
    ],
  },
  health: { medicareFrom65: false },
  tax: { method: 'none' },
  assumptions: { inflation: 0, premiumGrowth: 0, careGrowth: 0, stocks: 0, bonds: 0, bills: 0 },
})

test('what cash gives counts as from savings, beside what is taken out of other accounts', () => {
  const years = slowerYears(household, project(household))
  const of = (year: number) => years.find((one) => one.year === year)!
  // 36,000 of costs less six draws of 500, all out of cash.
  expect(of(2026).fromSavings).toBeCloseTo(33_000, 6)
  expect(of(2026).fromTraditional).toBe(0)
  // 36,000 less twelve draws: the last 17,000 of cash, then 13,000 of the traditional account.
  expect(of(2027).fromSavings).toBeCloseTo(30_000, 6)
  expect(of(2027).fromTraditional).toBeCloseTo(13_000, 6)
  // 17,000 are left for the 30,000 that are needed.
  expect(of(2028).fromSavings).toBeCloseTo(17_000, 6)
  expect(of(2028).unmetNeed).toBeCloseTo(13_000, 6)
  // Draws of 48,000 and the 1,000 of the truck pay for 36,000 and leave 13,000.
  expect(of(2029)).toMatchObject({ otherIn: 1000, fromSavings: 0 })
  expect(of(2029).intoSavings).toBeCloseTo(13_000, 6)
})

/** What all savings gained over the year but for what they earned and the saver's match. */
const putIn = (plan: Plan) => {
  const { months } = project(plan)
  const held = (at: number) => {
    const one = months[at]!
    return one.cash + one.taxable + one.traditional + one.roth + one.health
  }
  return (year: number): number | null => {
    const at = months.findIndex(({ month }) => month === `${year}-01`)
    if (at < 1 || at + 12 > months.length) return null
    const own = months.slice(at, at + 12).reduce((sum, one) => sum + one.returns + one.saversMatch, 0)
    return held(at + 11) - held(at - 1) - own
  }
}

test('what comes in is what goes out, and savings move by what they give and get', {
  timeout: fuzzLimit(),
}, async () => {
  await assertFuzz(
    fc.property(randomPlan(), (plan) => {
      const gained = putIn(plan)
      for (const one of slowerYears(plan, project(plan))) {
        const near = 1e-6 * Math.max(1, goesOut(one))
        expect(Math.abs(comesIn(one) - goesOut(one))).toBeLessThan(near)
        expect(one.fromSavings).toBeGreaterThanOrEqual(0)
        expect(one.intoSavings).toBeGreaterThanOrEqual(-near)
        const put = gained(one.year)
        if (put !== null) expect(Math.abs(put - (one.intoSavings - one.fromSavings))).toBeLessThan(0.01)
      }
    }),
    0.02,
    500,
  )
})
