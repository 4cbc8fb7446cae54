// Looking a fact of law up: enacted years as printed, later ones carried as the law rounds, earlier ones refused by name.
import { describe, expect, test } from 'vitest'
import { childCredit, childRefundableMax } from '#rules/data/credits.ts'
import { standardDeduction } from '#rules/data/income-tax.ts'
import { applicablePercentage } from '#rules/data/marketplace.ts'
import { deferralCatchUpSixties } from '#rules/data/retirement-accounts.ts'
import { wageBase } from '#rules/data/self-employment.ts'
import { type Dated, lookUp, RuleYearError, steadyIndexing } from '#rules/dated.ts'
import { firstLawYear, lastPublishedLawYear, lawFor } from '#rules/law.ts'

const indexing = steadyIndexing(0.03, 0.04)

describe('looking up', () => {
  test('a published year is the printed amount, whatever prices do', () => {
    expect(lookUp(standardDeduction, 2025, indexing)).toEqual({
      value: [15750, 31500, 23625, 15750],
      basis: 'enacted',
    })
  })

  test('a year computed before it is published counts as projected', () => {
    expect(lookUp(standardDeduction, 2027, indexing)).toEqual({
      value: [16600, 33200, 24950, 16600],
      basis: 'projected',
    })
  })

  test('a later year grows from the amount before rounding, is rounded as the law rounds, and says it is projected', () => {
    // 15,750 and 23,625 of 2025 with the index of 2027, 1.05636, and 3 % more: 17,136.80 and 25,705.20; joint is twice the single.
    expect(lookUp(standardDeduction, 2028, indexing)).toEqual({
      value: [17100, 34200, 25700, 17100],
      basis: 'projected',
    })
  })

  test('the child credit of 26 USC 24(h), (i) is indexed from 2,200 of 2025 and 1,400 of 2018, then cut to hundreds', () => {
    // 2,324 × 1.03² = 2,465.53 and 1,851.92 × 1.03³ = 2,023.64: from the rounded 2,300 and 1,800 it would be 2,400 and 1,900.
    const at = (fact: Dated<number>, year: number) => lookUp(fact, year, indexing).value
    expect([2026, 2027, 2028, 2029].map((year) => at(childCredit, year))).toEqual([2200, 2300, 2300, 2400])
    expect([2026, 2027, 2030].map((year) => at(childRefundableMax, year))).toEqual([1700, 1800, 2000])
  })

  test('of the catch-up at 60 to 63 only the increase over 11,250 is rounded (26 USC 414(v)(2)(E))', () => {
    // 11,960 × 1.03 = 12,318.80: 11,250 and two steps of 500.
    const at = (year: number) => lookUp(deferralCatchUpSixties, year, indexing).value
    expect([2026, 2027, 2028].map(at)).toEqual([11_250, 11_750, 12_250])
  })

  test('what the law ties to wages grows with wages, rounded to 300 dollars', () => {
    // 192,300 × 1.04 = 199,992 → 200,100.
    expect(lookUp(wageBase, 2028, indexing)).toEqual({ value: 200_100, basis: 'projected' })
  })

  test('with steady prices a later year keeps every figure', () => {
    expect(lookUp(standardDeduction, 2060, steadyIndexing(0)).value).toEqual([16600, 33200, 24950, 16600])
  })

  test('a year before the data is refused with rule and year', () => {
    expect(() => lookUp(standardDeduction, 2019, indexing)).toThrow(
      'No figure for “standard deduction” in 2019: figures start in 2024',
    )
    try {
      lawFor(firstLawYear - 1, indexing)
      expect.unreachable()
    } catch (error) {
      expect(error).toBeInstanceOf(RuleYearError)
      expect((error as RuleYearError).year).toBe(2023)
    }
  })

  test('a rule that must not be carried on is refused after its last year', () => {
    const ended: Dated<number> = {
      rule: 'an ended rule',
      unit: 'dollars',
      source: 'this test',
      obtained: 'computed',
      values: { 2024: 1 },
      after: { by: 'none' },
    }
    expect(() => lookUp(ended, 2025, indexing)).toThrow('figures end in 2024')
  })

  test('prices of nothing are a broken invariant', () => {
    expect(() => lookUp(standardDeduction, 2030, { prices: () => 0 })).toThrow('Price levels must be above 0')
  })
})

describe('the law of a year', () => {
  test('is enacted up to the last published year and projected from the next', () => {
    for (let year = firstLawYear; year <= lastPublishedLawYear; year += 1) {
      expect(lawFor(year, indexing).basis).toBe('enacted')
    }
    const next = lawFor(2027, indexing)
    expect(next.basis).toBe('projected')
    expect(next.projected).toContain('standard deduction')
    // Published for 2027 already (Rev. Proc. 2026-26), so not among the projected.
    expect(next.projected).not.toContain(applicablePercentage.rule)
  })

  test('follows the statute where it says when a rule ends: senior deduction 2028, saver’s credit 2026', () => {
    expect([2024, 2025, 2028, 2029].map((year) => lawFor(year, indexing).seniorDeduction)).toEqual([
      0, 6000, 6000, 0,
    ])
    expect([2026, 2027].map((year) => lawFor(year, indexing).saversRates[0])).toEqual([0.5, 0])
  })

  test('uses the poverty guidelines of the year before for credits and of the year itself for Medicaid', () => {
    const law = lawFor(2026, indexing)
    expect([law.povertyFirst[0], law.medicaidPovertyFirst[0]]).toEqual([15650, 15960])
  })

  test('can be posted to a worker', () => {
    const law = lawFor(2031, indexing)
    expect(structuredClone(law)).toEqual(law)
    expect(JSON.parse(JSON.stringify(law))).toEqual(law)
  })
})
