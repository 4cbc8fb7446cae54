// What must come out of an inherited retirement account: 26 USC 401(a)(9)(B), (H), worked by hand from the Single Life Table.
import { describe, expect, test } from 'vitest'
import { month } from '#calendar/month.ts'
import { emptyBy, type InheritedAccount, inheritedPart } from '#rules/inherited-distributions.ts'

const from = (more: Partial<InheritedAccount>): InheritedAccount => ({
  heir: 'tenYears',
  diedIn: month(2024, 5),
  ownerBorn: 1944,
  isRoth: false,
  heirBorn: 1974,
  ...more,
})
/** Divisors, 0 where nothing must come out. */
const divisors = (account: InheritedAccount, ...years: number[]) =>
  years.map((year) => {
    const part = inheritedPart(account, year)
    return part === 0 ? 0 : Math.round((1 / part) * 10) / 10
  })

describe('ten years', () => {
  // A father of 80 had begun; his daughter turns 51 in the year after: 35.3, then one less each year, all of it in the tenth.
  test('where the one who died had begun, yearly minimums go on, and the tenth year takes the rest', () => {
    expect(divisors(from({}), 2024, 2025, 2026, 2033, 2034, 2035)).toEqual([0, 35.3, 34.3, 27.3, 1, 1])
    expect(emptyBy(from({}))).toBe(2034)
  })
  // A father of 70 was born in 1954 and would have begun at 73: nothing until the tenth year.
  test('where that one had not begun, only the tenth year asks', () => {
    const young = from({ ownerBorn: 1954 })
    expect(divisors(young, 2025, 2030, 2033, 2034)).toEqual([0, 0, 0, 1])
    // Born in 1951, 73 in 2024: begun on April 1, 2025. A death in March 2025 comes before, one in April after.
    expect(divisors(from({ ownerBorn: 1951, diedIn: month(2025, 3) }), 2026)).toEqual([0])
    expect(divisors(from({ ownerBorn: 1951, diedIn: month(2025, 4) }), 2026)).toEqual([34.3])
  })
  // Notice 2024-35: no tax on a minimum missed from 2021 to 2024.
  test('minimums within the ten years count from 2025 on', () => {
    expect(divisors(from({ diedIn: month(2021, 8), ownerBorn: 1940 }), 2022, 2024, 2025)).toEqual([
      0, 0, 35.1,
    ])
  })
  // A sister of 78 inherits from one of 75: hers would be 12.6 at 78, the one's own 14.8 − 1 is longer (1.401(a)(9)-5(d)).
  test('the longer of both lives counts where the one who died had begun', () => {
    const sister = from({ diedIn: month(2025, 6), ownerBorn: 1950, heirBorn: 1948 })
    expect(divisors(sister, 2026, 2027)).toEqual([13.8, 12.8])
  })
  test('a Roth account has no yearly minimum within the ten years (26 CFR 1.408A-6, Q&A-14(b))', () => {
    expect(divisors(from({ isRoth: true }), 2025, 2033, 2034)).toEqual([0, 0, 1])
  })
  test('a year of birth that nobody knows is taken as begun', () => {
    expect(divisors(from({ ownerBorn: null }), 2025)).toEqual([35.3])
  })
})

describe('over a life', () => {
  // A brother of 60 in the year after, of one who died at 62: 27.1, 26.1 … until one year is left.
  test('from the year after the death, one less each year, with no end but the life', () => {
    const brother = from({ heir: 'lifetime', diedIn: month(2025, 6), ownerBorn: 1963, heirBorn: 1966 })
    expect(emptyBy(brother)).toBeNull()
    expect(divisors(brother, 2025, 2026, 2027, 2052, 2053, 2060)).toEqual([0, 27.1, 26.1, 1.1, 1, 1])
  })
  // She is 60, he died at 66 (born 1959: 73 in 2032). Kept as his: nothing before 2032, then by her age of each year: 66 → 22.
  test('a spouse waits for the year in which the one who died would have begun, and reads the table anew each year', () => {
    const widow = from({ heir: 'spouse', diedIn: month(2025, 6), ownerBorn: 1959, heirBorn: 1966 })
    expect(divisors(widow, 2026, 2031, 2032, 2033)).toEqual([0, 0, 22, 21.2])
  })
})

test('ten years of minimums and the last take out everything, and never more', () => {
  for (const heir of ['tenYears', 'lifetime', 'spouse'] as const)
    for (const heirBorn of [1930, 1974, 2008]) {
      let left = 100_000
      for (let year = 2025; year <= 2130; year += 1) {
        const part = inheritedPart(from({ heir, heirBorn }), year)
        expect(part).toBeGreaterThanOrEqual(0)
        expect(part).toBeLessThanOrEqual(1)
        left -= left * part
        if (heir === 'tenYears' && year >= 2034) expect(left).toBe(0)
      }
    }
})
