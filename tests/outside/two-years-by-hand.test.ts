// Three invented households in three states, two years each, worked by hand on the forms' lines; what the first year leaves goes into
// the second as `estimate` prints it. Lines are those of Form 1040, Schedules D, F and SE, Forms 4562, 8995 and 172, PA-40, VA 760, NC D-400.
import { expect, test } from 'vitest'
import { estimate } from '../../src/cli/estimate/estimate.ts'
import { estimateSchema } from '../../src/cli/estimate/estimate-household.ts'

type Printed = ReturnType<typeof estimate>

const year = (taxYear: number, facts: object, before?: Printed): Printed =>
  estimate(
    estimateSchema.parse({
      taxYear,
      ...facts,
      ...(before ? { carryforwards: before.carryforwards } : {}),
    }),
  )

test('Pennsylvania couple of 40: a farm loss beside wages, then a profit (26 USC 172(a)(2), (b)(1)(B), 199A(c)(2); PA-40 takes no loss of one class off another)', () => {
  const couple = { filingStatus: 'married_joint', people: [{ age: 40 }, { age: 40 }], state: 'PA' }
  const first = year(2025, { ...couple, income: { wages: [0, 30_000], farmProfit: [-60_000, 0] } })
  // Line 11: 30,000 - 60,000. Form 172: the loss is what is left of it, all of it from farming; the standard deduction adds nothing.
  expect(first).toMatchObject({ adjustedGrossIncome: -30_000, totalTax: 0, earnedIncomeCredit: 0 })
  expect(first.carryforwards).toMatchObject({
    netOperatingLoss: 30_000,
    farmLoss: 30_000,
    qualifiedBusiness: 60_000,
  })
  // PA-40 line 1a 30,000, line 4 a loss that stays in its class: 3.07 %.
  expect(first.stateIncomeTax).toBeCloseTo(921, 2)

  // All of it goes forward; the farming part, which could have gone back instead, is in it.
  const second = year(2026, { ...couple, income: { farmProfit: [70_000, 0] } }, first)
  // Schedule SE: 70,000 x .9235 = 64,645 x .153 = 9,890.69, half 4,945.34 or a cent more.
  expect(second.selfEmploymentTax).toBeCloseTo(9890.69, 2)
  const half = 9890.69 / 2
  const before = 70_000 - half - 32_200
  const loss = Math.round(before * 0.8 * 100) / 100
  expect(loss).toBeCloseTo(26_283.73, 1)
  expect(second.netOperatingLossDeduction).toBeCloseTo(loss, 1)
  expect(second.carryforwards.netOperatingLoss).toBeCloseTo(30_000 - loss, 1)
  expect(second.adjustedGrossIncome).toBeCloseTo(38_770.93, 1)
  // Form 8995: 65,054.66 less the 60,000 carried here, a fifth; under a fifth of the 6,570.93 before it.
  expect(second.qbiDeduction).toBeCloseTo(1010.93, 1)
  expect(second.taxableIncome).toBeCloseTo(5560, 1)
  expect(second.incomeTax).toBeCloseTo(556, 1)
  expect(second.totalTax).toBeCloseTo(10_446.69, 1)
  expect(second.carryforwards.qualifiedBusiness).toBe(0)
  // PA-40 line 4: neither half of the tax nor the loss of the year before comes off.
  expect(second.stateIncomeTax).toBeCloseTo(2149, 2)
})

test('Virginian of 58: a capital loss beyond 3,000, then a gain that uses part of it (Schedule D, lines 6, 14 and 21)', () => {
  const alone = { filingStatus: 'single', people: [{ age: 58 }], state: 'VA' }
  const first = year(2025, { ...alone, income: { wages: [40_000], longTermGains: -10_000 } })
  // 37,000 - 15,750 = 21,250: 11,925 at 10 %, 9,325 at 12 %.
  expect(first).toMatchObject({ adjustedGrossIncome: 37_000, taxableIncome: 21_250, incomeTax: 2311.5 })
  expect(first.carryforwards).toMatchObject({ capitalLoss: 7000, capitalLossShortTerm: 0 })
  // Form 760: 37,000 - 8,750 - 930 = 27,320: 720 and 5.75 % over 17,000.
  expect(first.stateIncomeTax).toBeCloseTo(1313.4, 2)
  const second = year(2026, { ...alone, income: { wages: [40_000], longTermGains: 5000 } }, first)
  // 5,000 - 7,000: 2,000 comes off, nothing is left. 38,000 - 16,100 = 21,900: 12,400 at 10 %, 9,500 at 12 %.
  expect(second).toMatchObject({ adjustedGrossIncome: 38_000, taxableIncome: 21_900, incomeTax: 2380 })
  expect(second.carryforwards.capitalLoss).toBe(0)
  expect(second.stateIncomeTax).toBeCloseTo(1370.9, 2)
})

test('North Carolinian of 45: section 179 of which the year’s profit lets no more in, taken in the next (Form 4562, lines 11 to 13)', () => {
  const alone = { filingStatus: 'single', people: [{ age: 45 }], state: 'NC' }
  const second = year(2026, {
    ...alone,
    income: { farmProfit: [40_000] },
    carryforwards: { section179: 10_000 },
  })
  // Schedule F 30,000; Schedule SE 27,705 x .153; Form 8995 a fifth of the 11,780.57 before it, under a fifth of 27,880.57.
  expect(second.selfEmploymentTax).toBeCloseTo(4238.87, 2)
  expect(second.adjustedGrossIncome).toBeCloseTo(27_880.57, 1)
  expect(second.qbiDeduction).toBeCloseTo(2356.11, 1)
  expect(second.taxableIncome).toBeCloseTo(9424.46, 1)
  expect(second.totalTax).toBeCloseTo(942.45 + 4238.87, 1)
  expect(second.carryforwards.section179).toBe(0)
  // D-400: 27,880.57 - 12,750 at 3.99 %.
  expect(second.stateIncomeTax).toBeCloseTo(603.71, 1)
  const lean = year(2026, {
    ...alone,
    income: { farmProfit: [4000] },
    carryforwards: { section179: 10_000 },
  })
  expect(lean.carryforwards.section179).toBe(6000)
  expect(lean.selfEmploymentTax).toBe(0)
})
