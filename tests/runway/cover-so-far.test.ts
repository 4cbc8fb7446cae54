// A plan that begins within a year, with the marketplace months behind it: the year's return counts them once, as one that ran the whole
// year does. An invented single baker of 52 on pay alone, prices that stand still, credit taken in advance.
import { expect, test } from 'vitest'
import { type PlanInput, planSchema } from '#plan/plan.ts'
import { project } from '#runway/project.ts'

const baker: PlanInput = {
  startMonth: '2026-01',
  years: 3,
  household: {
    people: [{ id: 'wim', name: 'Wim', born: '1974-03-11' }],
    pay: [{ id: 'bakery', name: 'Bakery', person: 'wim', perMonth: 3000 }],
    living: [{ id: 'living', name: 'Living', perMonth: 1800 }],
  },
  health: {
    marketplace: {
      members: [{ person: 'wim' }],
      planAt21: 380,
      benchmarkAt21: 400,
      ageRating: 'federal',
      advanceCredit: true,
    },
  },
  savings: { accounts: [{ id: 'cash', name: 'Cash', kind: 'cash', balance: 30_000 }] },
  assumptions: { inflation: 0, premiumGrowth: 0, careGrowth: 0, wageGrowth: 0, bills: 0 },
}

const first = (plan: PlanInput) => project(planSchema.parse(plan)).years[0]!

test('seven months behind and five to come make one year of twelve, the credit in advance with them', () => {
  const whole = first(baker)
  // 36,000 is 230 percent of 15,650: 7.70 percent by the table of 2026 (Rev. Proc. 2025-25), so 2,772 of the benchmark. The federal
  // age curve has 1.865 at 51 (on January 1): 746.00 a month for the benchmark, 708.70 for the plan.
  expect(whole.premiumTaxCredit).toBeCloseTo(746 * 12 - 2772, 0)
  const behind = {
    wages: 21_000,
    marketplaceMonths: 7,
    marketplacePremiums: 7 * 708.7,
    marketplaceBenchmark: 7 * 746,
    advanceCredit: (7 / 12) * whole.advanceCredit,
  }
  const part = first({ ...baker, continuesFrom: '2026-08', tax: { soFar: behind } })
  expect(part.wages).toBe(whole.wages)
  expect(part.premiumTaxCredit).toBeCloseTo(whole.premiumTaxCredit, 2)
  expect(part.advanceCredit).toBeCloseTo(whole.advanceCredit, 2)
  expect(part.tax).toBeCloseTo(whole.tax, 2)
  // A hundred dollars a month too much was taken: as long as the marketplace is told nothing it goes on, and all of it, twelve hundred, is
  // paid back with the return (26 USC 36B(f), without a limit from 2026 on).
  const { advanceCredit } = behind
  const early = first({
    ...baker,
    continuesFrom: '2026-08',
    tax: { soFar: { ...behind, advanceCredit: advanceCredit + 700 } },
  })
  expect(early.premiumTaxCredit).toBeCloseTo(whole.premiumTaxCredit, 2)
  expect(early.advanceCredit).toBeCloseTo(whole.advanceCredit + 1200, 2)
  expect(early.tax).toBeCloseTo(whole.tax + 1200, 2)
})

test('without them the return has five months of coverage', () => {
  const part = first({ ...baker, continuesFrom: '2026-08', tax: { soFar: { wages: 21_000 } } })
  expect(part.premiumTaxCredit).toBeCloseTo((746 * 12 - 2772) * (5 / 12), 0)
})
