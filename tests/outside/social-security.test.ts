// Social Security against the agency's published retirement benefit calculations, tables and determinations.
import { describe, expect, test } from 'vitest'
import {
  bendPoints,
  contributionAndBenefitBase,
  earningsTestAmounts,
  quarterOfCoverageAmount,
} from '#rules/data/social-security.ts'
import { steadyIndexing } from '#rules/dated.ts'
import { downToDime, downToDollar } from '#rules/rounding.ts'
import { benefitLaw, firstLawYear } from '#rules/social-security/benefit-law.ts'
import {
  claimFactor,
  spouseFactor,
  survivorFactor,
  survivorFullAgeMonths,
} from '#rules/social-security/claim-factors.ts'
import { withheldOf } from '#rules/social-security/earnings-test.ts'
import { survivorAmount } from '#rules/social-security/household-benefits.ts'
import { mostMonthlyBenefit } from '#rules/social-security/most-benefit.ts'
import {
  adjusted,
  indexedCents,
  primaryAmount,
  primaryFromAverage,
} from '#rules/social-security/primary-amount.ts'

const law = benefitLaw(2030, steadyIndexing(0.025, 0.03))

// SSA Office of the Chief Actuary, retirement benefit examples, 2023 edition, as transcribed in a public repository.
// Year, earnings, indexed earnings as published.
const caseA: readonly [number, number, number][] = [
  [1983, 14249, 56639],
  [1984, 15134, 56817],
  [1985, 15828, 56994],
  [1986, 16349, 57173],
  [1987, 17446, 57352],
  [1988, 18362, 57530],
  [1989, 19149, 57710],
  [1990, 20095, 57887],
  [1991, 20908, 58066],
  [1992, 22053, 58244],
  [1993, 22311, 58423],
  [1994, 22980, 58602],
  [1995, 23974, 58781],
  [1996, 25223, 58960],
  [1997, 26776, 59139],
  [1998, 28262, 59317],
  [1999, 29927, 59496],
  [2000, 31677, 59675],
  [2001, 32529, 59852],
  [2002, 32954, 60032],
  [2003, 33860, 60211],
  [2004, 35539, 60389],
  [2005, 36948, 60567],
  [2006, 38760, 60745],
  [2007, 40639, 60925],
  [2008, 41695, 61103],
  [2009, 41187, 61282],
  [2010, 42283, 61461],
  [2011, 43735, 61640],
  [2012, 45231, 61818],
  [2013, 45941, 61996],
  [2014, 47709, 62175],
  [2015, 49511, 62354],
  [2016, 50214, 62533],
  [2017, 52096, 62711],
  [2018, 54138, 62889],
  [2019, 56326, 63068],
  [2020, 58082, 63247],
  [2021, 63425, 63425],
  [2022, 65712, 65712],
]

// The same, case B: maximum earnings every year.
const caseB: readonly [number, number, number][] = [
  [1983, 35700, 117886],
  [1984, 37800, 117890],
  [1985, 39600, 118457],
  [1986, 42000, 122015],
  [1987, 43800, 119616],
  [1988, 45000, 117124],
  [1989, 48000, 120174],
  [1990, 51300, 122766],
  [1991, 53400, 123200],
  [1992, 55500, 121771],
  [1993, 57600, 125301],
  [1994, 60600, 128381],
  [1995, 61200, 124656],
  [1996, 62700, 121756],
  [1997, 65400, 119998],
  [1998, 68400, 119260],
  [1999, 72600, 119901],
  [2000, 76200, 119252],
  [2001, 80400, 122893],
  [2002, 84900, 128483],
  [2003, 87000, 128519],
  [2004, 87900, 124081],
  [2005, 90000, 122560],
  [2006, 94200, 122643],
  [2007, 97500, 121429],
  [2008, 102000, 124177],
  [2009, 106800, 132011],
  [2010, 106800, 128963],
  [2011, 106800, 125045],
  [2012, 110100, 125005],
  [2013, 113700, 127463],
  [2014, 117000, 126667],
  [2015, 118500, 123977],
  [2016, 118500, 122592],
  [2017, 127200, 127200],
  [2018, 128400, 128400],
  [2019, 132900, 132900],
  [2020, 137700, 137700],
  [2021, 142800, 142800],
  [2022, 147000, 147000],
]

const recordOf = (
  bornYear: number,
  rows: readonly (readonly [year: number, earned: number, ...rest: number[]])[],
) => {
  const earnings = new Float64Array(law.lastYear - firstLawYear + 1)
  for (const [year, earned] of rows) earnings[year - firstLawYear] = earned
  return { bornYear, earnings }
}

const maximum = (bornYear: number, from: number, to: number) =>
  recordOf(
    bornYear,
    Array.from({ length: to - from + 1 }, (_, i) => [from + i, 10_000_000] as const),
  )

const offByMoreThanADollar = (eligibleYear: number, published: readonly [number, number, number][]) =>
  published.filter(
    ([year, earned, indexed]) => Math.abs(indexedCents(law, earned, year, eligibleYear) / 100 - indexed) > 1,
  )

/** The amount of eligibility after each adjustment up to the one before `year`. */
const steps = (amount: number, from: number, year: number) =>
  Array.from({ length: year - from }, (_, k) => {
    amount = adjusted(amount, law.costOfLiving[from + k - firstLawYear]!)
    return amount
  })

const paidWholeDollars = (primary: number, factor: number) => downToDollar(downToDime(primary * factor))

describe('the agency’s worked cases of 2023', () => {
  test('case A: born 1961, claims at 62: indexed earnings within a dollar, average 5,052, amount 2,263.30, paid 1,584', () => {
    const computed = primaryAmount(law, recordOf(1961, caseA), 2023)
    expect(offByMoreThanADollar(computed.eligibleYear, caseA)).toEqual([])
    expect(computed.average).toBe(5052)
    expect([computed.firstBend, computed.secondBend]).toEqual([1115, 6721])
    expect(computed.amount).toBe(2263.3)
    expect(downToDime(computed.amount * claimFactor(1961, 744))).toBe(1584.3)
    expect(paidWholeDollars(computed.amount, claimFactor(1961, 744))).toBe(1584)
  })

  test('case B: born 1957, claims at 66 and 6 months: average 10,503, four adjustments to 3,627.10, paid 3,627', () => {
    const computed = primaryAmount(law, recordOf(1957, caseB), 2023)
    expect(offByMoreThanADollar(computed.eligibleYear, caseB)).toEqual([])
    expect(computed.average).toBe(10503)
    expect([computed.firstBend, computed.secondBend]).toEqual([926, 5583])
    expect(computed.atEligibility).toBe(3061.6)
    expect(steps(3061.6, 2019, 2023)).toEqual([3110.5, 3150.9, 3336.8, 3627.1])
    expect(computed.amount).toBe(3627.1)
    expect(paidWholeDollars(computed.amount, claimFactor(1957, 798))).toBe(3627)
  })
})

describe('the agency’s worked cases of 2026, as reported in a public document', () => {
  // Case A's yearly earnings could not be read; its published sum of indexed earnings is where the check starts.
  test('case A: 2,446,845 over 35 years gives 5,825, the amount 2,609.80, and 1,826 at 62', () => {
    const average = Math.floor(2_446_845 / 420)
    expect(average).toBe(5825)
    const amount = primaryFromAverage(average, law.firstBend[2026 - 1951]!, law.secondBend[2026 - 1951]!)
    expect(amount).toBe(2609.8)
    expect(paidWholeDollars(amount, claimFactor(1964, 744))).toBe(1826)
  })

  // The published amount is 4,152.40; maximum earnings are how the agency describes the case.
  test('case B: maximum earnings, born 1959, claims at full age: 4,152.40, paid 4,152', () => {
    const computed = primaryAmount(law, maximum(1959, 1981, 2025), 2026)
    expect(computed.average).toBe(11463)
    expect(steps(computed.atEligibility, 2021, 2026)).toEqual([3513.1, 3818.7, 3940.8, 4039.3, 4152.4])
    expect(paidWholeDollars(computed.amount, 1)).toBe(4152)
  })
})

describe('maximum earners at 62 (SSA figures for 2023 and 2025; 2026 is a computation of our reference, not published)', () => {
  test.for([
    { year: 2023, average: 12427, amount: 3653.3 },
    { year: 2025, average: 13689, amount: 4020.9 },
    { year: 2026, average: 14358, amount: 4216.9 },
  ])('$year: average $average, amount $amount', ({ year, average, amount }) => {
    const computed = primaryAmount(law, maximum(year - 62, 1984, year - 1), year)
    expect(computed.average).toBe(average)
    expect(computed.amount).toBe(amount)
  })
})

describe('primary amounts of an open rules library’s tests (2024 and 2026 bend points)', () => {
  test.for([
    { year: 2024, aime: 1000, pia: 900 },
    { year: 2024, aime: 1174, pia: 1056.6 },
    { year: 2024, aime: 3500, pia: 1800.9 },
    { year: 2024, aime: 4000, pia: 1960.9 },
    { year: 2024, aime: 7078, pia: 2945.8 },
    { year: 2024, aime: 10000, pia: 3384.1 },
    { year: 2024, aime: 15000, pia: 4134.1 },
    { year: 2026, aime: 10000, pia: 3563.2 },
  ])('$aime in $year gives $pia', ({ year, aime, pia }) => {
    expect(primaryFromAverage(aime, law.firstBend[year - 1951]!, law.secondBend[year - 1951]!)).toBe(pia)
  })
})

describe('the earnings test, cases of an open rules library’s tests', () => {
  test.for([
    { year: 2024, earnings: 50000, benefit: 24000, withheld: 13840, stage: 'under' },
    { year: 2024, earnings: 100000, benefit: 20000, withheld: 20000, stage: 'under' },
    { year: 2024, earnings: 80000, benefit: 30000, withheld: 6826.67, stage: 'year-of' },
    { year: 2026, earnings: 30000, benefit: 100000, withheld: 2760, stage: 'under' },
    { year: 2026, earnings: 70000, benefit: 100000, withheld: 1613.33, stage: 'year-of' },
  ])('$earnings in $year against $benefit of benefits withholds $withheld', (published) => {
    const { year, earnings, benefit, withheld } = published
    expect(withheldOf(law, year, published.stage === 'year-of', earnings, benefit)).toBeCloseTo(withheld, 2)
  })
})

test('percent of the primary amount by age of claim when full age is 67 (SSA table)', () => {
  const published: Record<number, number> = {
    62: 70,
    63: 75,
    64: 80,
    65: 86.6667,
    66: 93.3333,
    67: 100,
    68: 108,
    69: 116,
    70: 124,
  }
  for (const [age, percent] of Object.entries(published))
    expect(claimFactor(1960, Number(age) * 12) * 100).toBeCloseTo(percent, 4)
})

// SSA, frequently asked questions, KA-03391: 1,000 at the full age of 66 is 750 from 62 on and 1,320 from 70 on.
test('the agency’s example of claiming early and late', () => {
  const paid = (years: number) => downToDollar(1000 * claimFactor(1954, years * 12))
  expect([paid(62), paid(66), paid(70)]).toEqual([750, 1000, 1320])
})

// 42 USC 402(b)(2) and (q)(1); the agency’s page on benefits for spouses says “as little as 32.5 percent”.
test('a spouse at 62 with a full age of 67 gets 32.5 percent of the worker’s amount, at full age 50', () => {
  expect(500 * spouseFactor(1960, 744)).toBeCloseTo(325, 9)
  expect(spouseFactor(1960, 804)).toBe(1)
})

// SSA POMS RS 00615.201: 144 less the months, over 144, up to 36 months; then 180 less the months beyond 36, over 240.
test('a spouse’s reduction by the agency’s fractions, for every number of months', () => {
  for (let months = 0; months <= 60; months += 1) {
    const fraction = months <= 36 ? (144 - months) / 144 : (180 - (months - 36)) / 240
    expect(spouseFactor(1960, 804 - months), `${months}`).toBeCloseTo(fraction, 9)
  }
})

describe('a widow’s or widower’s benefit', () => {
  // SSA POMS RS 00615.301: born June 15, 1940, entitled from July 2002, 37 of 62 months early, 987.60 gives 819.60.
  test('the agency’s case: 987.60 taken 37 months early of 62 pays 819.60', () => {
    expect(survivorFullAgeMonths(1940)).toBe(65 * 12 + 2)
    expect(survivorFactor(1940, 65 * 12 + 2 - 37)).toBeCloseTo(1 - (37 * 0.285) / 62, 9)
    expect(survivorAmount(987.6, 987.6, 1, 1940, 65 * 12 + 2 - 37)).toBe(819.6)
  })

  // 20 CFR 404.338(c), 42 USC 402(e)(2)(D): after an early claim, what was paid or 82½ percent, whichever is larger.
  test('after a claim at 62 the survivor at full age gets 82.5 percent, after one at 66 what was paid', () => {
    expect(survivorAmount(1000, 1000, 0.7, 1960, 804)).toBe(825)
    expect(survivorAmount(1000, 1000, 0.9333, 1960, 804)).toBe(933.3)
    expect(survivorAmount(1000, 1000, 1, 1960, 720)).toBe(715)
  })
})

describe('the wage-indexed amounts by their statutory rules give every published year', () => {
  const index = (year: number) => law.wageIndex[year - 1951]!
  const years = (values: Readonly<Record<number, unknown>>) => Object.keys(values).map(Number)

  test('bend points 1979 to 2026', () => {
    for (const year of years(bendPoints.values)) {
      const factor = index(year - 2) / 9779.44
      expect([Math.round(180 * factor), Math.round(1085 * factor)], String(year)).toEqual(
        bendPoints.values[year],
      )
    }
  })

  test('the base from 1995, but for the three years after no adjustment', () => {
    for (const year of years(contributionAndBenefitBase.values).filter(
      (y) => y >= 1995 && ![2010, 2011, 2016].includes(y),
    ))
      expect(Math.round((60600 * index(year - 2)) / 22935.42 / 300) * 300, String(year)).toBe(
        contributionAndBenefitBase.values[year],
      )
  })

  test('earnings-test amounts and quarters of coverage', () => {
    for (const year of years(earningsTestAmounts.values)) {
      const under = 12 * Math.round((670 * index(year - 2)) / 22935.42 / 10) * 10
      const yearOf = 12 * Math.round((2500 * index(year - 2)) / 32154.82 / 10) * 10
      expect([under, yearOf], String(year)).toEqual(earningsTestAmounts.values[year])
    }
    for (const year of years(quarterOfCoverageAmount.values))
      expect(Math.round((250 * index(year - 2)) / 9226.48 / 10) * 10, String(year)).toBe(
        quarterOfCoverageAmount.values[year],
      )
  })

  test('2027: quarter of coverage 1,970, first bend point 1,339 to 1,341, second 8,071 to 8,081, from the three published amounts', () => {
    expect(law.quarterAmount[2027 - 1951]).toBe(1970)
    expect([1339, 1340, 1341]).toContain(law.firstBend[2027 - 1951])
    expect(law.secondBend[2027 - 1951]).toBeGreaterThanOrEqual(8071)
    expect(law.secondBend[2027 - 1951]).toBeLessThanOrEqual(8081)
  })
})

// Not reproduced: the yearly indexed earnings of case A of 2026 (the earnings were not readable).

// The agency’s own page of the maximum benefit, by the age at which one retires in the year with earnings at the base since 22; from memory.
test.each([
  [2025, 62, 1, 1963, 2831],
  [2025, 70, 0, 1955, 5108],
  [2026, 62, 1, 1964, 2969],
  [2026, 70, 0, 1956, 5181],
])('the most paid to one who retires in %i at %i and %i months', (year, age, months, bornYear, published) => {
  const most = mostMonthlyBenefit(bornYear, age * 12 + months, year)!
  expect(most).toBeGreaterThanOrEqual(published)
  expect(most).toBeLessThan(published * 1.01)
})
