// Social Security: the projection’s form against the agency’s steps, and the rules that have no published example, against their own statement.
import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { day } from '#calendar/day.ts'
import { month } from '#calendar/month.ts'
import { Decimal } from '#money/decimal.ts'
import { steadyIndexing } from '#rules/dated.ts'
import { benefitLaw, firstLawYear, refillBenefitLaw } from '#rules/social-security/benefit-law.ts'
import {
  type BenefitPerson,
  claimFactor,
  type EarningsRecord,
  earningsTestWithheld,
  fullRetirementAgeMonths,
  householdBenefitsMonthly,
  monthsGivenBack,
  primaryAmountMonthly,
  quartersBefore,
  spouseAmountMonthly,
  survivorAmountMonthly,
  survivorFullAgeMonths,
} from '#rules/social-security/benefits.ts'
import {
  benefitBirthYear,
  claimTerms,
  earliestClaimAgeMonths,
  spousePart,
  survivorBenefit,
  workerBenefit,
} from '#rules/social-security/claim.ts'
import { coverageStanding, farmYearEffect } from '#rules/social-security/coverage.ts'
import { primaryAmount } from '#rules/social-security/primary-amount.ts'

const law = benefitLaw(2085, steadyIndexing(0.025, 0.035))

const recordOf = (bornYear: number, yearly: ReadonlyMap<number, number>): EarningsRecord => {
  const earnings = new Float64Array(law.lastYear - firstLawYear + 1)
  for (const [year, amount] of yearly) earnings[year - firstLawYear] = amount
  return { bornYear, earnings }
}

const steady = (bornYear: number, from: number, to: number, amount: number) =>
  recordOf(bornYear, new Map(Array.from({ length: to - from + 1 }, (_, i) => [from + i, amount] as const)))

const lives = fc.record({
  bornYear: fc.integer({ min: 1950, max: 1990 }),
  earnings: fc.array(fc.integer({ min: 0, max: 250_000 }), { minLength: 15, maxLength: 48 }),
})

describe('primary amount, fast against exact', () => {
  test('they differ by no more than the dimes and dollars the law drops', () => {
    fc.assert(
      fc.property(lives, fc.integer({ min: 0, max: 8 }), ({ bornYear, earnings }, later) => {
        const yearly = new Map(earnings.map((amount, i) => [bornYear + 20 + i, amount] as const))
        const year = bornYear + 62 + later
        const record = recordOf(bornYear, yearly)
        const fast = primaryAmountMonthly(law, record, year)
        if (quartersBefore(law, record, year) < 40) {
          expect(fast).toBe(0)
          return
        }
        const exact = primaryAmount(law, bornYear, yearly, year).amount.toNumber()
        // 0.90 for the dropped dollar of average earnings, ten cents at the start and at each adjustment, all of it adjusted.
        expect(fast - exact).toBeGreaterThanOrEqual(-0.02)
        expect(fast - exact).toBeLessThanOrEqual((1 + 0.1 * (later + 1)) * 1.5)
      }),
      { seed: 20261125, numRuns: 400 },
    )
  })

  test('another year of earnings never lowers it', () => {
    fc.assert(
      fc.property(lives, fc.integer({ min: 0, max: 300_000 }), ({ bornYear, earnings }, more) => {
        const yearly = new Map(earnings.map((amount, i) => [bornYear + 20 + i, amount] as const))
        const before = primaryAmountMonthly(law, recordOf(bornYear, yearly), bornYear + 70)
        yearly.set(bornYear + 69, more)
        expect(primaryAmountMonthly(law, recordOf(bornYear, yearly), bornYear + 70)).toBeGreaterThanOrEqual(
          before - 1e-9,
        )
      }),
      { seed: 7, numRuns: 200 },
    )
  })

  test('doubling earnings, wages, base and bend points doubles it', () => {
    const doubled = structuredClone(law)
    for (const values of [
      doubled.wageIndex,
      doubled.wageBase,
      doubled.firstBend,
      doubled.secondBend,
      doubled.quarterAmount,
    ])
      for (let i = 0; i < values.length; i++) values[i] = values[i]! * 2
    const record = steady(1975, 1998, 2036, 42_000)
    const twice = { ...record, earnings: record.earnings.map((amount) => amount * 2) }
    expect(primaryAmountMonthly(doubled, twice, 2037)).toBeCloseTo(
      2 * primaryAmountMonthly(law, record, 2037),
      6,
    )
  })

  test('39 quarters give nothing, 40 give a benefit', () => {
    const nine = steady(1965, 1990, 1998, 20_000)
    expect(coverageStanding(law, nine, 2027)).toEqual({ quarters: 36, needed: 40, yearsLeft: 1 })
    nine.earnings[2000 - firstLawYear] = 3 * law.quarterAmount[2000 - firstLawYear]!
    expect(primaryAmountMonthly(law, nine, 2027)).toBe(0)
    nine.earnings[2000 - firstLawYear] = 4 * law.quarterAmount[2000 - firstLawYear]!
    expect(primaryAmountMonthly(law, nine, 2027)).toBeGreaterThan(0)
  })

  test('the law written again for another course keeps published years and moves the rest', () => {
    const again = structuredClone(law)
    refillBenefitLaw(again, steadyIndexing(0.04, 0.06))
    expect(again.wageIndex[2024 - firstLawYear]).toBe(69846.57)
    expect(again.wageBase[2027 - firstLawYear]).toBe(192_300)
    expect(again.firstBend[2040 - firstLawYear]!).toBeGreaterThan(law.firstBend[2040 - firstLawYear]!)
    expect(again.costOfLiving[2030 - firstLawYear]).toBe(0.04)
  })
})

describe('what low farm profit does', () => {
  const record = steady(1982, 2004, 2024, 45_000)
  test('a year of 4,000 dollars of profit counts one quarter and adds little', () => {
    const effect = farmYearEffect(law, record, 2026, 4000 * 0.9235)
    expect(effect.quarters).toBe(1)
    expect(effect.primaryAmountChange).toBeGreaterThan(0)
    expect(effect.primaryAmountChange).toBeLessThan(10)
  })
  test('the optional amount of 7,560 in 2026 counts four', () => {
    expect(farmYearEffect(law, record, 2026, 7560).quarters).toBe(4)
  })
})

describe('claims', () => {
  test('people born on 1 January count as born the year before; 62 throughout the month', () => {
    expect(benefitBirthYear(day('1964-01-01'))).toBe(1963)
    expect(benefitBirthYear(day('1964-01-02'))).toBe(1964)
    expect(earliestClaimAgeMonths(day('1964-05-02'))).toBe(744)
    expect(earliestClaimAgeMonths(day('1964-05-03'))).toBe(745)
  })
  test('full age steps two months a birth year between 66 and 67', () => {
    expect([1954, 1955, 1957, 1959, 1960].map(fullRetirementAgeMonths)).toEqual([792, 794, 798, 802, 804])
    expect([1956, 1957, 1962].map(survivorFullAgeMonths)).toEqual([792, 794, 804])
  })
  test('waiting never pays less, and nothing is gained after 70', () => {
    for (let age = 745; age <= 840; age++)
      expect(claimFactor(1965, age)).toBeGreaterThan(claimFactor(1965, age - 1))
    expect(claimFactor(1965, 852)).toBe(claimFactor(1965, 840))
  })
  test('credits of the year of claim are paid from January, except at 70', () => {
    const terms = claimTerms(1960, 822, 10)
    expect(terms.factor).toBeCloseTo(1.12, 9)
    expect(terms.factorUntilJanuary).toBeCloseTo(1.06, 9)
    expect(claimTerms(1960, 840, 10).factorUntilJanuary).toBeCloseTo(1.24, 9)
  })
  test('a benefit of even dimes keeps its last one (42 USC 402(q), 415(g): rounded down to ten cents, not below)', () => {
    // Twelve months early take 12 × 5/9 %: 14/15 are left. 1,500 × 14/15 = 1,400 and 1,501.50 × 14/15 = 1,401.40.
    const paid = (primary: number, age: number) =>
      workerBenefit(new Decimal(primary), claimFactor(1960, age)).monthly.toNumber()
    expect(paid(1500, 792)).toBe(1400)
    expect(paid(1501.5, 792)).toBe(1401.4)
    // 1,000.10 × 14/15 = 933.4266…: down to 933.40.
    expect(paid(1000.1, 792)).toBe(933.4)
    // Every factor is a whole number of 1/7200: whatever the month, a primary amount of 7,200 gives whole dollars.
    for (const born of [1926, 1932, 1938, 1941, 1958, 1960])
      for (let age = 744; age <= 840; age += 1) {
        const { monthly } = workerBenefit(new Decimal(7200), claimFactor(born, age))
        expect(monthly.toNumber(), `${born} at ${age}`).toBeCloseTo(claimFactor(born, age) * 7200, 6)
        expect(monthly.isInteger(), `${born} at ${age}`).toBe(true)
      }
  })
})

describe('spouse and survivor (from memory; no published example was read)', () => {
  test('the spouse part is half less the own amount, with nothing for waiting past full age', () => {
    expect(spouseAmountMonthly(600, 2000, 1962, 804)).toBe(400)
    expect(spouseAmountMonthly(600, 2000, 1962, 840)).toBe(400)
    expect(spouseAmountMonthly(1100, 2000, 1962, 804)).toBe(0)
    expect(spousePart(new Decimal(0), new Decimal('2000.10'), 1962, 744).toNumber()).toBe(650)
  })
  test('a survivor gets 71.5 percent at 60 and all at full age; after a claim at 62 at least 82.5 percent', () => {
    expect(survivorAmountMonthly(2000, 1, 1964, 720)).toBeCloseTo(1430, 9)
    expect(survivorAmountMonthly(2000, 1.24, 1964, 804)).toBeCloseTo(2480, 9)
    expect(survivorAmountMonthly(2000, 0.7, 1964, 804)).toBeCloseTo(1650, 9)
    expect(survivorAmountMonthly(2000, 0.9, 1964, 804)).toBeCloseTo(1800, 9)
    expect(survivorAmountMonthly(2000, 1, 1964, 719)).toBe(0)
    expect(survivorBenefit(new Decimal(2000), 0.7, 1964, 804).toNumber()).toBe(1650)
  })

  const person = (
    bornYear: number,
    claimAge: number,
    deathMonth = Number.POSITIVE_INFINITY,
  ): BenefitPerson => {
    const bornMonth = month(bornYear, 6)
    return {
      record: steady(bornYear, bornYear + 22, bornYear + 60, 1),
      bornMonth,
      claimMonth: bornMonth + claimAge,
      deathMonth,
    }
  }
  const benefits = (first: BenefitPerson, second: BenefitPerson | null, at: number) => {
    const out = new Float64Array(2)
    householdBenefitsMonthly(first, second, 2400, 500, at, out)
    return [...out]
  }

  test('two at full age: the own amounts, and half of the larger less the own for the other', () => {
    expect(benefits(person(1962, 804), person(1962, 804), month(2035, 1))).toEqual([2400, 1200])
  })
  test('the spouse part waits for the worker’s claim', () => {
    expect(benefits(person(1962, 840), person(1962, 804), month(2030, 1))).toEqual([0, 500])
  })
  test('after a death the survivor keeps the larger of the two', () => {
    const died = person(1960, 804, month(2040, 1))
    const [gone, left] = benefits(died, person(1962, 804), month(2041, 1))
    expect([gone, left]).toEqual([0, 2400])
  })
  test('a death before any claim leaves a survivor of 60 a reduced benefit', () => {
    const died = person(1970, 804, month(2032, 6))
    const out = new Float64Array(2)
    householdBenefitsMonthly(died, person(1972, 804), 2000, 0, month(2032, 6), out)
    expect([...out]).toEqual([0, 1430])
    householdBenefitsMonthly(died, person(1973, 804), 2000, 0, month(2032, 6), out)
    expect(out[1]).toBe(0)
  })
  test('one alone, and two in either order, are paid the same', () => {
    expect(benefits(person(1962, 804), null, month(2035, 1))).toEqual([2400, 0])
    const [a, b] = [person(1962, 760), person(1964, 830)]
    const one = new Float64Array(2)
    const other = new Float64Array(2)
    householdBenefitsMonthly(a, b, 2400, 500, month(2036, 1), one)
    householdBenefitsMonthly(b, a, 500, 2400, month(2036, 1), other)
    expect([...one]).toEqual([...other].reverse())
  })
})

describe('the earnings test, fast', () => {
  test('before, in and after the year of full age', () => {
    expect(earningsTestWithheld(law, 2026, 1963, 6, 30_000, 20_000)).toBeCloseTo(2760, 9)
    expect(earningsTestWithheld(law, 2026, 1959, 8, 30_000, 20_000)).toBe(0)
    expect(earningsTestWithheld(law, 2026, 1958, 1, 300_000, 20_000)).toBe(0)
  })
  test('withheld months come back at full age', () => {
    expect(monthsGivenBack(2760, 1000)).toBe(3)
    expect(monthsGivenBack(0, 1000)).toBe(0)
    expect(monthsGivenBack(99_999, 1000)).toBe(12)
  })
})
