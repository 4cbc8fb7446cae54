// Social Security: the projection’s form against the agency’s steps, and the rules that have no published example, against their own statement.
import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { day } from '#calendar/day.ts'
import { month } from '#calendar/month.ts'
import { steadyIndexing } from '#rules/dated.ts'
import { downToDime } from '#rules/rounding.ts'
import { benefitLaw, firstLawYear, refillBenefitLaw } from '#rules/social-security/benefit-law.ts'
import {
  benefitBirthYear,
  claimFactor,
  earliestClaimAgeMonths,
  factorUntilJanuary,
  fullRetirementAgeMonths,
  spouseFactor,
  survivorFullAgeMonths,
} from '#rules/social-security/claim-factors.ts'
import { coverageStanding, farmYearEffect } from '#rules/social-security/coverage.ts'
import { earningsTestWithheld, monthsGivenBack } from '#rules/social-security/earnings-test.ts'
import {
  type BenefitPerson,
  benefitPerson,
  householdBenefits,
  setPrimaryAmounts,
  survivorAmount,
} from '#rules/social-security/household-benefits.ts'
import { alive, type EarningsRecord } from '#rules/social-security/primary-amount.ts'

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

/** What a living worker is due in a year: nothing without 40 quarters. */
const dueIn = (of: typeof law, record: EarningsRecord, year: number): number => {
  const person = benefitPerson(record, record.bornYear * 12, record.bornYear * 12 + 804)
  setPrimaryAmounts(of, person, null, year, false)
  return person.primary
}

describe('primary amount', () => {
  test('another year of earnings never lowers it', () => {
    fc.assert(
      fc.property(lives, fc.integer({ min: 0, max: 300_000 }), ({ bornYear, earnings }, more) => {
        const yearly = new Map(earnings.map((amount, i) => [bornYear + 20 + i, amount] as const))
        const before = dueIn(law, recordOf(bornYear, yearly), bornYear + 70)
        yearly.set(bornYear + 69, more)
        expect(dueIn(law, recordOf(bornYear, yearly), bornYear + 70)).toBeGreaterThanOrEqual(before - 1e-9)
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
      doubled.firstFamilyBend,
      doubled.secondFamilyBend,
      doubled.thirdFamilyBend,
      doubled.quarterAmount,
    ])
      for (let i = 0; i < values.length; i++) values[i] = values[i]! * 2
    const record = steady(1975, 1998, 2036, 42_000)
    const twice = { ...record, earnings: record.earnings.map((amount) => amount * 2) }
    // But for the dollar of average earnings and the dime that are rounded down.
    const once = 2 * dueIn(law, record, 2037)
    expect(Math.abs(dueIn(doubled, twice, 2037) - once)).toBeLessThanOrEqual(1.2)
  })

  test('39 quarters give nothing, 40 give a benefit', () => {
    const nine = steady(1965, 1990, 1998, 20_000)
    expect(coverageStanding(law, nine, 2027)).toEqual({ quarters: 36, needed: 40, yearsLeft: 1 })
    nine.earnings[2000 - firstLawYear] = 3 * law.quarterAmount[2000 - firstLawYear]!
    expect(dueIn(law, nine, 2027)).toBe(0)
    nine.earnings[2000 - firstLawYear] = 4 * law.quarterAmount[2000 - firstLawYear]!
    expect(dueIn(law, nine, 2027)).toBeGreaterThan(0)
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
  test('people born on January 1 count as born the year before; 62 throughout the month', () => {
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
    expect(claimFactor(1960, 822)).toBeCloseTo(1.12, 9)
    expect(factorUntilJanuary(1960, 822, 10)).toBeCloseTo(1.06, 9)
    expect(factorUntilJanuary(1960, 840, 10)).toBeCloseTo(1.24, 9)
  })
  test('a benefit of even dimes keeps its last one (42 USC 402(q), 415(g): rounded down to ten cents, not below)', () => {
    // Twelve months early take 12 × 5/9 %: 14/15 are left. 1,500 × 14/15 = 1,400 and 1,501.50 × 14/15 = 1,401.40.
    const paid = (primary: number, age: number) => downToDime(primary * claimFactor(1960, age))
    expect(paid(1500, 792)).toBe(1400)
    expect(paid(1501.5, 792)).toBe(1401.4)
    // 1,000.10 × 14/15 = 933.4266…: down to 933.40.
    expect(paid(1000.1, 792)).toBe(933.4)
    // Every factor is a whole number of 1/7200: whatever the month, a primary amount of 7,200 gives whole dollars.
    for (const born of [1926, 1932, 1938, 1941, 1958, 1960])
      for (let age = 744; age <= 840; age += 1) {
        const monthly = downToDime(7200 * claimFactor(born, age))
        expect(monthly, `${born} at ${age}`).toBeCloseTo(claimFactor(born, age) * 7200, 6)
        expect(Number.isInteger(monthly), `${born} at ${age}`).toBe(true)
      }
  })
})

describe('spouse and survivor (from memory; no published example was read)', () => {
  test('nothing for waiting past full age, 65 percent of the half at 62', () => {
    expect(spouseFactor(1962, 804)).toBe(1)
    expect(spouseFactor(1962, 840)).toBe(1)
    expect(downToDime(1000 * spouseFactor(1962, 744))).toBe(650)
  })
  test('a survivor gets 71.5 percent at 60 and all at full age; after a claim at 62 at least 82.5 percent', () => {
    expect(survivorAmount(2000, 2000, 1, 1964, 720)).toBe(1430)
    expect(survivorAmount(2480, 2000, 1.24, 1964, 804)).toBe(2480)
    expect(survivorAmount(2000, 2000, 0.7, 1964, 804)).toBe(1650)
    expect(survivorAmount(2000, 2000, 0.9, 1964, 804)).toBe(1800)
    expect(survivorAmount(2000, 2000, 1, 1964, 719)).toBe(0)
  })

  const person = (bornYear: number, claimAge: number, primary: number, deathMonth = alive): BenefitPerson => {
    const bornMonth = month(bornYear, 6)
    const record = steady(bornYear, bornYear + 22, bornYear + 60, 1)
    const known = { primary, survivorPrimary: primary, familyMaximum: primary * 1.75 }
    return { ...benefitPerson(record, bornMonth, bornMonth + claimAge, deathMonth), ...known }
  }
  const nobody = { count: 0, inCare: false }
  const benefits = (first: BenefitPerson, second: BenefitPerson | null, at: number, children = nobody) => {
    const out = new Float64Array(4)
    householdBenefits(first, second, children, at, out)
    return [...out].slice(0, 3)
  }

  test('two at full age: the own amounts, and half of the larger less the own for the other', () => {
    expect(benefits(person(1962, 804, 2400), person(1962, 804, 500), month(2035, 1))).toEqual([2400, 1200, 0])
  })
  test('the spouse part waits for the worker’s claim', () => {
    expect(benefits(person(1962, 840, 2400), person(1962, 804, 500), month(2030, 1))).toEqual([0, 500, 0])
  })
  test('after a death the survivor keeps the larger of the two', () => {
    const died = person(1960, 804, 2400, month(2040, 1))
    expect(benefits(died, person(1962, 804, 500), month(2041, 1))).toEqual([0, 2400, 0])
  })
  test('a death before any claim leaves a survivor of 60 a reduced benefit', () => {
    const died = person(1970, 804, 2000, month(2032, 6))
    expect(benefits(died, person(1972, 804, 0), month(2032, 6))).toEqual([0, 1430, 0])
    expect(benefits(died, person(1973, 804, 0), month(2032, 6))).toEqual([0, 0, 0])
  })
  test('one alone, and two in either order, are paid the same', () => {
    expect(benefits(person(1962, 804, 2400), null, month(2035, 1))).toEqual([2400, 0, 0])
    const [a, b] = [person(1962, 760, 2400), person(1964, 830, 500)]
    const both = { count: 2, inCare: true }
    const one = benefits(a, b, month(2036, 1), both)
    const other = benefits(b, a, month(2036, 1), both)
    expect([one[0], one[1], one[2]]).toEqual([other[1], other[0], other[2]])
  })
  test('months of a widow’s benefit that earnings held back count as not taken', () => {
    const died = person(1960, 804, 2000, month(2024, 6))
    const survivor = person(1964, 804, 0)
    survivor.survivorMonthsBack = 12
    // At 60 and 12 months later: 28.5 % over the 84 months to 67 is taken off for 72 of them.
    expect(benefits(died, survivor, month(2032, 6))[1]).toBe(Math.floor(2000 * (1 - (0.285 * 72) / 84)))
    survivor.survivorMonthsBack = 200
    expect(benefits(died, survivor, month(2032, 6))[1]).toBe(2000)
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
