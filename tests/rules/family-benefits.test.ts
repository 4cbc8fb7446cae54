// Benefits of families: what a death or a claim pays children, a parent who cares for one, a widow or widower, up to the family maximum.
import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { month } from '#calendar/month.ts'
import { steadyIndexing } from '#rules/dated.ts'
import { benefitLaw, firstLawYear } from '#rules/social-security/benefit-law.ts'
import {
  type BenefitPerson,
  benefitPerson,
  householdBenefits,
  setPrimaryAmounts,
} from '#rules/social-security/household-benefits.ts'
import {
  alive,
  familyMaximumOf,
  primaryAmount,
  quartersNeededBy,
  yearsAveraged,
} from '#rules/social-security/primary-amount.ts'

const law = benefitLaw(2085, steadyIndexing(0.025, 0.035))

const recordOf = (bornYear: number, from: number, to: number, amount: number) => {
  const earnings = new Float64Array(law.lastYear - firstLawYear + 1)
  for (let year = from; year <= to; year += 1) earnings[year - firstLawYear] = amount
  return { bornYear, earnings }
}

const known = (
  born: number,
  claimAge: number,
  amounts: Partial<BenefitPerson>,
  deathMonth = alive,
): BenefitPerson => ({
  ...benefitPerson(recordOf(Math.floor(born / 12), 2000, 1999, 0), born, born + claimAge * 12, deathMonth),
  ...amounts,
})

const paid = (
  worker: BenefitPerson,
  other: BenefitPerson | null,
  children: { count: number; inCare: boolean },
  at: number,
) => {
  const out = new Float64Array(4)
  householdBenefits(worker, other, children, at, out)
  return [...out].slice(0, 3)
}

describe('the family maximum', () => {
  // SSA Office of the Chief Actuary, formula for family maximum benefit: bend points of 2009 and 2018, read.
  test('published bend points: 950, 1,372, 1,789 in 2009 and 1,144, 1,651, 2,154 in 2018', () => {
    const of = (year: number) =>
      [law.firstFamilyBend, law.secondFamilyBend, law.thirdFamilyBend].map(
        (bend) => bend[year - firstLawYear],
      )
    expect(of(2009)).toEqual([950, 1372, 1789])
    expect(of(2018)).toEqual([1144, 1651, 2154])
  })
  // By the same page's formula: 150 % of 1,144, 272 % of the next 507, 134 % of the next 349.
  test('a primary amount of 2,000 in 2018 allows 3,562.70', () => {
    expect(1.5 * 1144 + 2.72 * 507 + 1.34 * 349).toBeCloseTo(3562.7, 9)
    expect(familyMaximumOf(law, 2000, 2018)).toBe(3562.7)
  })
  test('it lies between 150 and 188 percent of any primary amount', () => {
    for (let primary = 100; primary < 5000; primary += 7) {
      const share = familyMaximumOf(law, primary, 2026) / primary
      expect(share).toBeGreaterThan(1.499)
      expect(share).toBeLessThan(1.881)
    }
  })

  // SSA POMS RS 00615.756, example: a widow of 65 and seven children, 492.90 and 862.60: 138.00 and 103.50 each.
  test('the agency’s case of a widow and seven children', () => {
    const died = known(
      month(1935, 3),
      65,
      { primary: 492.9, survivorPrimary: 492.9, familyMaximum: 862.6 },
      month(2000, 12),
    )
    const widow = known(month(1935, 1), 70, {})
    expect(paid(died, widow, { count: 7, inCare: false }, month(2001, 1))).toEqual([0, 138, 7 * 103])
  })
  // SSA POMS RS 00615.712, example: 400 with 10 of delayed credits, one child at 300, a maximum of 700: 404.20 and 295.70.
  test('the agency’s case of delayed credits under the maximum', () => {
    const died = known(
      month(1924, 1),
      65 + 10 / 12,
      { primary: 400, survivorPrimary: 400, familyMaximum: 700 },
      month(2000, 2),
    )
    const widow = known(month(1930, 1), 80, {})
    expect(paid(died, widow, { count: 1, inCare: false }, month(2000, 3))).toEqual([0, 404, 295])
  })
  // SSA POMS RS 00615.340, example: a widow's 71.5 % rises to the parent's 75 % while a child is in care; her 92.9 % would not.
  test('a widow with a child in care gets no less than a parent', () => {
    const of = (age: number, inCare: boolean) => {
      const died = known(
        month(1940, 1),
        62,
        { primary: 1000, survivorPrimary: 1000, familyMaximum: 9999 },
        month(1941 + age, 6),
      )
      died.claimMonth = month(1941 + age, 7)
      const widow = known(month(1941, 6), 80, {})
      return paid(died, widow, { count: inCare ? 1 : 0, inCare }, month(1941 + age, 6))[1]
    }
    expect([of(60, false), of(60, true)]).toEqual([715, 750])
    expect(of(64, false)).toBe(of(64, true))
  })
})

describe('a death before 62 (42 USC 414(a), 415(b)(2); 20 CFR 404.211)', () => {
  // By hand: born 1985, dead in 2027 at 42: 42 − 22 = 20 years, five left out: 15. Earnings of 30,000 in 2015 to 2026, all indexed to 2025.
  test('fewer years are averaged and fewer quarters needed', () => {
    expect(yearsAveraged(1985, 2027)).toBe(15)
    expect(quartersNeededBy(1985, 2027)).toBe(20)
    expect(yearsAveraged(1985, alive)).toBe(35)
    expect(quartersNeededBy(1985, alive)).toBe(40)
    expect(yearsAveraged(2004, 2027)).toBe(2)
    expect(quartersNeededBy(2004, 2027)).toBe(6)
  })
  test('the average by hand: twelve years of 30,000 over fifteen, moved to the wages of 2025', () => {
    const record = recordOf(1985, 2015, 2026, 30_000)
    let sum = 0
    for (let year = 2015; year <= 2026; year += 1)
      sum += year < 2025 ? (30_000 * 72_790) / law.wageIndex[year - firstLawYear]! : 30_000
    const { average, firstBend, amount } = primaryAmount(law, record, 2027, 2027)
    expect(average).toBe(Math.floor(sum / 180))
    expect(firstBend).toBe(law.firstBend[2027 - firstLawYear])
    expect(amount).toBeCloseTo(0.9 * firstBend + 0.32 * (average - firstBend), 0)
  })
  test('six quarters of late pay child and parent, but no widow', () => {
    const survivor = benefitPerson(recordOf(1968, 2000, 1999, 0), month(1968, 1), month(2035, 1))
    const died = benefitPerson(
      recordOf(1980, 2025, 2026, 20_000),
      month(1980, 1),
      month(2047, 1),
      month(2027, 3),
    )
    setPrimaryAmounts(law, died, survivor, 2027, true)
    expect(died.primary).toBeGreaterThan(0)
    expect(died.survivorPrimary).toBe(0)
    died.record.earnings.fill(0, 2026 - firstLawYear)
    setPrimaryAmounts(law, died, survivor, 2027, true)
    expect(died.primary).toBe(0)
  })
  // SSA Actuarial Note 141: the year of the survivor's 60th birthday or of the worker's 62nd stands in for that of the death.
  test('a widow who turns 60 long after has the later wages, but no more years to the average', () => {
    const survivor = benefitPerson(recordOf(1987, 2000, 1999, 0), month(1987, 1), month(2054, 1))
    const died = benefitPerson(
      recordOf(1985, 2007, 2026, 40_000),
      month(1985, 1),
      month(2052, 1),
      month(2027, 1),
    )
    setPrimaryAmounts(law, died, survivor, 2046, true)
    expect(died.survivorPrimary).toBe(died.primary)
    setPrimaryAmounts(law, died, survivor, 2047, true)
    const later = primaryAmount(law, died.record, 2047, 2027, 2047)
    expect(later.yearsAveraged).toBe(15)
    expect(died.survivorPrimary).toBe(later.amount)
    expect(died.survivorPrimary).toBeGreaterThan(died.primary)
  })
})

describe('a living worker’s family', () => {
  const worker = known(month(1963, 5), 62, { primary: 1800, familyMaximum: 3200 })
  const spouse = known(month(1975, 5), 67, { primary: 0 })
  test('a spouse of any age with a child below 16 shares what the maximum leaves', () => {
    // 3,200 − 1,800 = 1,400 for a spouse and two children of 900 each: 466.60 each.
    expect(paid(worker, spouse, { count: 2, inCare: true }, month(2026, 1))).toEqual([1260, 466, 2 * 466])
    expect(paid(worker, spouse, { count: 1, inCare: false }, month(2026, 1))).toEqual([1260, 0, 900])
  })
  test('nothing before the claim', () => {
    expect(paid(worker, spouse, { count: 2, inCare: true }, month(2025, 1))).toEqual([0, 0, 0])
  })
  test('a spouse with a benefit of her own leaves the children what she does not use', () => {
    const own = known(month(1962, 5), 62, { primary: 800, familyMaximum: 1400 })
    // 1,400 for a spouse and two children of 900: her 466.66 is below her own 800, so that the children share it all: 700 each.
    const [, , children] = paid(worker, own, { count: 2, inCare: false }, month(2026, 1))
    expect(children).toBe(1400)
  })
})

test('what all are paid on a record never goes above its maximum, and every child more keeps or raises the sum', () => {
  fc.assert(
    fc.property(
      fc.record({
        primary: fc.integer({ min: 300, max: 4500 }),
        age: fc.integer({ min: 40, max: 72 }),
        children: fc.integer({ min: 0, max: 6 }),
        inCare: fc.boolean(),
        died: fc.boolean(),
      }),
      ({ primary, age, children, inCare, died }) => {
        const at = month(2026, 1)
        const maximum = familyMaximumOf(law, primary, 2026)
        const amounts = { primary, survivorPrimary: primary, familyMaximum: maximum }
        const worker = known(month(1962, 1), 64, amounts, died ? at : alive)
        if (died) worker.claimMonth = at + 1
        const other = known(at - age * 12, 80, {})
        const sumWith = (count: number) => {
          const all = paid(worker, other, { count, inCare: inCare && count > 0 }, at)
          return all[1]! + all[2]! + (died ? 0 : primary)
        }
        const sum = sumWith(children)
        if (children > 0) expect(sum).toBeLessThanOrEqual(Math.max(maximum, died ? 0 : primary) + 1e-9)
        // Each benefit is rounded down to the dollar.
        if (!inCare) expect(sumWith(children + 1)).toBeGreaterThanOrEqual(sum - children - 2)
      },
    ),
    { seed: 20261128, numRuns: 500 },
  )
})
