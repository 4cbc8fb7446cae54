// Medicare against the published premiums, income tiers and an open rules library's cases.
import { describe, expect, test } from 'vitest'
import { steadyIndexing } from '#rules/dated.ts'
import type { FilingStatus } from '#rules/filing-status.ts'
import { medicareCost, returnYearFor } from '#rules/medicare/medicare-cost.ts'

const indexing = steadyIndexing(0.025)
const cost = (premiumYear: number, status: FilingStatus, income: number, quarters = 40) =>
  medicareCost({ premiumYear, status, income, quarters }, indexing)

describe('premium tiers (CMS fact sheets 2024 to 2026; 90 FR 52063): at the line, and a dollar over', () => {
  test.for<[number, FilingStatus, number, number, number]>([
    [2024, 'single', 103000, 174.7, 0],
    [2024, 'single', 103001, 244.6, 12.9],
    [2024, 'single', 129001, 349.4, 33.3],
    [2024, 'single', 161001, 454.2, 53.8],
    [2024, 'single', 193001, 559, 74.2],
    [2024, 'single', 500000, 594, 81],
    [2024, 'married_joint', 206000, 174.7, 0],
    [2024, 'married_joint', 206001, 244.6, 12.9],
    [2024, 'married_joint', 258001, 349.4, 33.3],
    [2024, 'married_joint', 322001, 454.2, 53.8],
    [2024, 'married_joint', 386001, 559, 74.2],
    [2024, 'married_joint', 750000, 594, 81],
    [2024, 'married_separate', 103000, 174.7, 0],
    [2024, 'married_separate', 103001, 559, 74.2],
    [2024, 'married_separate', 397000, 594, 81],
    [2025, 'single', 106000, 185, 0],
    [2025, 'single', 106001, 259, 13.7],
    [2025, 'single', 133001, 370, 35.3],
    [2025, 'single', 167001, 480.9, 57],
    [2025, 'single', 200001, 591.9, 78.6],
    [2025, 'single', 500000, 628.9, 85.8],
    [2025, 'married_joint', 212000, 185, 0],
    [2025, 'married_joint', 212001, 259, 13.7],
    [2025, 'married_joint', 266001, 370, 35.3],
    [2025, 'married_joint', 334001, 480.9, 57],
    [2025, 'married_joint', 400001, 591.9, 78.6],
    [2025, 'married_joint', 750000, 628.9, 85.8],
    [2025, 'married_separate', 106000, 185, 0],
    [2025, 'married_separate', 106001, 591.9, 78.6],
    [2025, 'married_separate', 394000, 628.9, 85.8],
    [2026, 'single', 109000, 202.9, 0],
    [2026, 'single', 109001, 284.1, 14.5],
    [2026, 'single', 137001, 405.8, 37.5],
    [2026, 'single', 171001, 527.5, 60.4],
    [2026, 'single', 205001, 649.2, 83.3],
    [2026, 'single', 500000, 689.9, 91],
    [2026, 'married_joint', 218000, 202.9, 0],
    [2026, 'married_joint', 218001, 284.1, 14.5],
    [2026, 'married_joint', 274001, 405.8, 37.5],
    [2026, 'married_joint', 342001, 527.5, 60.4],
    [2026, 'married_joint', 410001, 649.2, 83.3],
    [2026, 'married_joint', 750000, 689.9, 91],
    [2026, 'married_separate', 109000, 202.9, 0],
    [2026, 'married_separate', 109001, 649.2, 83.3],
    [2026, 'married_separate', 391000, 689.9, 91],
  ])('%i, %s, income %i: Part B %f, Part D addition %f', ([year, status, income, partB, partD]) => {
    const person = cost(year, status, income)
    expect(person.partB + person.partBAddition).toBeCloseTo(partB, 9)
    expect(person.partDAddition).toBe(partD)
  })
})

describe('cases of an open rules library’s tests', () => {
  test.for<[number, FilingStatus, number, number]>([
    [2025, 'single', 80000, 2220],
    [2025, 'married_joint', 266001, 4440],
    [2025, 'single', 500000, 7546.8],
    [2025, 'single', 106002, 3108],
    [2025, 'married_joint', 200000, 2220],
  ])(
    '%i, %s, income two years before %i: Part B %f a year (surviving spouses use the single column)',
    ([year, status, income, total]) => {
      const person = cost(year, status, income)
      expect((person.partB + person.partBAddition) * 12).toBeCloseTo(total, 6)
    },
  )

  test.for<[number, FilingStatus, number, number]>([
    [2025, 'married_joint', 266001, 423.6],
    [2024, 'married_separate', 397000, 972],
  ])('%i, %s, income %i: Part D addition %f a year', ([year, status, income, total]) => {
    expect(cost(year, status, income).partDAddition * 12).toBeCloseTo(total, 6)
  })
})

describe('Part A (Federal Register notices of 2025-11-19 for 2025 and 2026)', () => {
  test('free with 40 quarters, reduced from 30, full below', () => {
    expect(
      [cost(2026, 'single', 0, 40), cost(2026, 'single', 0, 39), cost(2026, 'single', 0, 29)].map(
        (c) => c.partA,
      ),
    ).toEqual([0, 311, 565])
    expect(cost(2025, 'single', 0, 30).partA).toBe(285)
  })
  test('the inpatient deductible of 2026 is 1,736 and the Part B deductible 283', () => {
    expect(cost(2026, 'single', 0).partADeductible).toBe(1736)
    expect(cost(2026, 'single', 0).partBDeductible).toBe(283)
  })
})

test('2026 tier totals follow from the published actuarial rate 405.40 and the 35, 50, 65, 80, 85 percent shares', () => {
  const shares = [0.35, 0.5, 0.65, 0.8, 0.85]
  const incomes = [109001, 137001, 171001, 205001, 500000]
  shares.forEach((share, i) => {
    const person = cost(2026, 'single', incomes[i]!)
    expect(person.partB + person.partBAddition).toBeCloseTo(810.8 * share + 0.3 + 0.1 * i, 1)
  })
})

test('a 2026 premium rests on the return of 2024', () => {
  expect(returnYearFor(2026)).toBe(2024)
})

test('Part D of 2027: the yearly limit of 2,400, and what is added above the lines (second hand and computed, as the data say)', () => {
  const law2027 = { premiumYear: 2027, status: 'single' as const, quarters: 40 }
  const added = (income: number) => medicareCost({ ...law2027, income }, indexing).partDAddition
  // 41.33 × (share − 25.5) ÷ 25.5, to the dime, for shares of 35, 50, 65, 80 and 85 percent (42 USC 1395w-113(a)(7)).
  const byShare = [35, 50, 65, 80, 85].map((share) => Math.round((41.33 * (share - 25.5) * 10) / 25.5) / 10)
  expect(byShare).toEqual([15.4, 39.7, 64, 88.3, 96.4])
  expect([112_001, 142_001, 177_001, 212_001, 500_000].map(added)).toEqual(byShare)
  expect(added(112_000)).toBe(0)
})
