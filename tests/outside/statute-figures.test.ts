// Figures of the law against texts read after the first collection: statute, regulation, the agency's own examples.
import { describe, expect, test } from 'vitest'
import { bandReadings } from '#ledger/measures/bands.ts'
import type { MeasureId } from '#ledger/measures/measure-definitions.ts'
import { earnedCreditAmount, earnedCreditRate } from '#rules/data/credits.ts'
import { openEnrollment } from '#rules/data/enrollment.ts'
import {
  minimumTaxExemption,
  minimumTaxPhaseOutFrom,
  minimumTaxPhaseOutRate,
} from '#rules/data/income-tax.ts'
import { repaymentLimit } from '#rules/data/marketplace.ts'
import { steadyIndexing } from '#rules/dated.ts'
import { type EstimatedTaxInput, estimatedTaxPlan } from '#rules/estimated-tax.ts'
import { lawFor } from '#rules/law.ts'
import { ageFactor } from '#rules/marketplace/premium-by-age.ts'
import { medicareCost } from '#rules/medicare/medicare-cost.ts'
import { careRate } from '#rules/return/care-credit.ts'

// A published rates guide for 2024: where the exemption is gone, by status (single, joint, separate).
test('the 2024 minimum tax exemptions are used up at the published incomes', () => {
  const end = [0, 1, 3].map(
    (status) =>
      minimumTaxPhaseOutFrom.values[2024]![status]! +
      minimumTaxExemption.values[2024]![status]! / minimumTaxPhaseOutRate.values[2024]!,
  )
  expect(end).toEqual([952_150, 1_751_900, 875_950])
})

describe('earned income amounts of 2024 and 2025, which were not read, are the only ones that fit what was', () => {
  // Read: the published maximum credits and rates; 26 USC 32(b)(2): the statutory amounts, indexed to the nearest 10.
  const statutory = [4220, 6330, 8890, 8890]
  const published = new Map([
    [2024, [632, 4213, 6960, 7830]],
    [2025, [649, 4328, 7152, 8046]],
    [2026, [664, 4427, 7316, 8231]],
  ])

  test.for([...published])('%i: the published maximum is the rate times the amount', ([year, max]) => {
    expect(lawFor(year, steadyIndexing(0)).earnedCreditMax).toEqual(max)
  })

  test.for([2024, 2025])('%i', (year) => {
    const [max, amounts] = [published.get(year)!, earnedCreditAmount.values[year]!]
    const rates = earnedCreditRate.values[2024]!
    const indexed = amounts[1]! / statutory[1]!
    amounts.forEach((amount, children) => {
      const fits = Array.from({ length: 3000 }, (_, i) => i * 10).filter(
        (tens) => Math.round(tens * rates[children]! + 1e-9) === max[children],
      )
      const byIndex = Math.round((statutory[children]! * indexed) / 10) * 10
      expect(fits.length, `${children}`).toBeLessThanOrEqual(2)
      expect(fits).toContain(amount)
      if (fits.length > 1) expect(byIndex).toBe(amount)
    })
  })
})

describe('estimated tax by the statute (26 USC 6654(d), (e), (i))', () => {
  const input = (facts: Partial<EstimatedTaxInput>): EstimatedTaxInput => ({
    taxYear: 2026,
    thisYear: { farm: 0, total: 100_000 },
    lastYear: { farm: 0, total: 100_000 },
    taxThisYear: 12_000,
    taxLastYear: 10_000,
    adjustedGrossIncomeLastYear: 90_000,
    withheld: 0,
    paid: 0,
    marriedSeparate: false,
    ...facts,
  })
  const required = (facts: Partial<EstimatedTaxInput>) => estimatedTaxPlan(input(facts)).requiredAnnualPayment

  test('the lesser of 90 percent of this year’s tax and all of last year’s', () => {
    expect(required({})).toBe(10_000)
    expect(required({ taxThisYear: 11_000 })).toBeCloseTo(9_900, 9)
    expect(required({ taxLastYear: null })).toBeCloseTo(10_800, 9)
  })

  test('110 percent of last year’s after an income over 150,000, or over 75,000 on a separate return', () => {
    expect(required({ taxThisYear: 20_000, adjustedGrossIncomeLastYear: 150_000 })).toBe(10_000)
    expect(required({ taxThisYear: 20_000, adjustedGrossIncomeLastYear: 150_001 })).toBeCloseTo(11_000, 9)
    expect(
      required({ taxThisYear: 20_000, adjustedGrossIncomeLastYear: 75_001, marriedSeparate: true }),
    ).toBeCloseTo(11_000, 9)
  })

  test('a farmer: two thirds of this year’s tax, never 110 percent of last year’s, one payment on January 15', () => {
    const farm = { farm: 70_000, total: 100_000 }
    expect(required({ thisYear: farm, taxLastYear: null })).toBeCloseTo(8_000, 9)
    const plan = estimatedTaxPlan(
      input({ thisYear: farm, taxThisYear: 20_000, adjustedGrossIncomeLastYear: 400_000 }),
    )
    expect(plan.requiredAnnualPayment).toBe(10_000)
    expect(plan.installments.map((one) => one.due)).toEqual(['2027-01-15'])
  })

  test('nothing in advance when less than 1,000 is left after withholding, or when last year had no tax', () => {
    expect(estimatedTaxPlan(input({ withheld: 11_001 })).installments).toEqual([])
    expect(estimatedTaxPlan(input({ taxLastYear: 0 })).installments).toEqual([])
    expect(estimatedTaxPlan(input({ taxThisYear: 1_000, taxLastYear: null })).installments).toHaveLength(4)
  })
})

// 26 USC 21(a)(2) before and after P.L. 119-21 sec. 70405, at the steps of its own words: “or fraction thereof”.
describe('the percentage of care costs credited', () => {
  const rate = (year: number, status: number, income: number) =>
    careRate(lawFor(year, steadyIndexing(0)), status, income * 100)

  test('to 2025: 35 percent, a point less for each 2,000 or part over 15,000, not below 20', () => {
    expect(
      [0, 15_000, 15_001, 17_000, 17_001, 43_000, 43_001, 400_000].map((at) => rate(2025, 1, at)),
    ).toEqual([0.35, 0.35, 0.34, 0.34, 0.33, 0.21, 0.2, 0.2])
  })

  test('from 2026: 50 percent down to 35, then from 150,000 (joint) or 75,000 down to 20', () => {
    expect(
      [15_000, 15_001, 44_999, 45_001, 150_000, 150_001, 154_001, 206_001, 206_002].map((at) =>
        rate(2026, 1, at),
      ),
    ).toEqual([0.5, 0.49, 0.35, 0.35, 0.35, 0.34, 0.33, 0.2, 0.2])
    expect([75_000, 75_001, 77_001, 105_001].map((at) => rate(2026, 0, at))).toEqual([0.35, 0.34, 0.33, 0.2])
  })
})

// 42 CFR 408.26: months counted and the increase the regulation's examples state.
test.for([
  { example: 1, months: 19, percent: 10 },
  { example: 2, months: 15, percent: 10 },
  { example: 3, months: 28, percent: 20 },
  { example: 4, months: 36, percent: 30 },
])('late for Part B, example $example: $months months add $percent percent', ({ months, percent }) => {
  const cost = (partBYearsLate: number) =>
    medicareCost(
      { premiumYear: 2026, status: 'single', income: 0, quarters: 40, partBYearsLate },
      steadyIndexing(0.025),
    )
  expect(cost(Math.floor(months / 12)).partBLate).toBeCloseTo(
    Math.round(cost(0).partB * (percent / 10)) / 10,
    9,
  )
})

// 45 CFR 155.410(e) as quoted: November 1 to January 15 up to 2026; for 2027 the rule that shortened it was vacated.
test('open enrollment of the years read lies within the regulation’s days', () => {
  for (const year of [2025, 2026, 2027])
    expect(openEnrollment.values[year]).toEqual({ opens: 1101, forJanuary: 1215, closes: 115 })
})

// The table of limits for 2024 on a health policy institute's page.
test('excess advance credit of 2024 is limited to the published amounts', () => {
  expect(repaymentLimit.values[2024]).toEqual({
    to: [200, 300, 400],
    single: [375, 950, 1575],
    other: [750, 1900, 3150],
  })
})

// CMS, State Specific Age Curve Variations, May 31, 2017: the columns of the seven places, at the ages of the table.
describe('age curves of the states as CMS prints them', () => {
  const ages = [0, 14, 15, 20, 21, 24, 27, 37, 44, 50, 59, 61, 64]
  test.for([
    { state: 'AL', factors: [0.635, 0.635, 0.635, 0.635, 1, 1, 1.048, 1.238, 1.397, 1.786, 2.603, 2.81, 3] },
    { state: 'MS', factors: [0.635, 0.635, 0.635, 0.635, 1, 1, 1.048, 1.238, 1.397, 1.786, 2.603, 2.81, 3] },
    { state: 'OR', factors: [0.635, 0.635, 0.635, 0.635, 1, 1, 1.048, 1.238, 1.397, 1.786, 2.603, 2.81, 3] },
    { state: 'MN', factors: [0.89, 0.89, 0.89, 0.89, 1, 1, 1.048, 1.238, 1.397, 1.786, 2.603, 2.81, 3] },
    {
      state: 'DC',
      factors: [0.654, 0.654, 0.654, 0.654, 0.727, 0.727, 0.727, 0.916, 1.137, 1.431, 2.02, 2.181, 2.181],
    },
    {
      state: 'MA',
      factors: [0.751, 0.751, 0.751, 0.751, 1.183, 1.183, 1.22, 1.363, 1.478, 1.741, 2.28, 2.365, 2.365],
    },
    { state: 'UT', factors: [0.793, 0.793, 0.793, 0.793, 1, 1.191, 1.39, 1.404, 1.681, 2.127, 3, 3, 3] },
  ])('$state', ({ state, factors }) => {
    expect(ages.map((age) => ageFactor(state, age, 2026))).toEqual(factors)
  })
})

// Farm finance scorecard of the University of Minnesota in a public copy: vulnerable limit, strong limit.
test.for<[MeasureId, number, number]>([
  ['currentRatio', 1.3, 2],
  ['workingCapitalToRevenue', 0.1, 0.3],
  ['debtToAsset', 0.6, 0.3],
  ['returnOnAssets', 0.04, 0.08],
  ['returnOnEquity', 0.03, 0.1],
  ['operatingProfitMargin', 0.15, 0.25],
  ['termDebtCoverage', 1.25, 1.75],
  ['assetTurnover', 0.3, 0.45],
  ['operatingExpenseRatio', 0.8, 0.6],
  ['interestRatio', 0.1, 0.05],
  ['netIncomeRatio', 0.1, 0.2],
])('the scorecard calls %s vulnerable at %f and strong at %f', ([measure, weak, strong]) => {
  const step = Math.sign(strong - weak) * 0.001
  const label = (value: number) =>
    bandReadings(measure, value).find((reading) => reading.source.includes('University of Minnesota'))!.label
  expect(label(weak - step)).toBe('vulnerable')
  expect(label(weak + step)).toBe('middle')
  expect(label(strong - step)).toBe('middle')
  expect(label(strong + step)).toBe('strong')
})
