// Premiums by age and family: the federal curve, states with their own, states with none, and who counts.
import { expect, test } from 'vitest'
import { steadyIndexing } from '#rules/dated.ts'
import { lawFor } from '#rules/law.ts'
import { silverValueAt } from '#rules/marketplace/cost-sharing.ts'
import {
  ageFactor,
  ageRating,
  familyPremium,
  memberFactors,
  placesOfTheirOwn,
  premiumAtAge,
  type Rated,
} from '#rules/marketplace/premium-by-age.ts'

const known = { premiumMonthly: 400, age: 21 }

/** Adults from 21 on, dependents below. */
const family = (...ages: number[]): Rated[] => ages.map((age) => ({ age, isDependent: age < 21 }))

test('the federal curve triples from 21 to 64 and holds for all older ages (45 CFR 147.102(e))', () => {
  expect([0, 14, 15, 20, 21, 24, 25, 40, 53, 63, 64, 70].map((age) => ageFactor('', age, 2026))).toEqual([
    0.765, 0.765, 0.833, 0.97, 1, 1, 1.004, 1.278, 2.04, 2.952, 3, 3,
  ])
})

test('states with their own curve end at the published ratios to age 21: 3.000 in the District, 2 to 1 in Massachusetts', () => {
  expect(ageFactor('DC', 64, 2026)! / ageFactor('DC', 21, 2026)!).toBeCloseTo(3, 3)
  expect(ageFactor('MA', 64, 2026)! / ageFactor('MA', 21, 2026)!).toBeCloseTo(2, 2)
  expect(ageFactor('UT', 59, 2026)).toBe(3)
  expect(['', 'PA', 'AL', 'MA', 'NY'].map((state) => ageRating(state, 2026))).toEqual([
    'federal',
    'federal',
    'federal but children',
    'own',
    'none',
  ])
})

test('one known premium tells every other age', () => {
  expect(premiumAtAge(known, 45, '', 2026)).toBe(577.6)
  expect(premiumAtAge({ premiumMonthly: 577.6, age: 45 }, 21, '', 2026)).toBe(400)
})

test('of people under 21 only the three oldest count; everyone of 21 and over counts', () => {
  const factors = memberFactors('', family(45, 43, 20, 18, 12, 8, 3), 2026)
  expect(factors.map((factor) => factor > 0)).toEqual([true, true, true, true, true, false, false])
  const premium = familyPremium(known, family(45, 43, 12, 8, 3, 1), '', 2026)
  expect(premium.perPerson).toEqual([577.6, 542.8, 306, 306, 306, 0])
  expect(premium.total).toBe(2038.4)
})

test('New York and Vermont rate the family, not its ages', () => {
  expect(familyPremium(known, family(60, 58, 12, 8), 'NY', 2026).total).toBe(1140)
  expect(familyPremium(known, family(30), 'NY', 2026).total).toBe(400)
  expect(familyPremium(known, family(60, 12), 'VT', 2026).total).toBe(772)
  expect(familyPremium(known, [], 'NY', 2026).total).toBe(0)
})

test('a member’s factor is on the premium at 21 of the same place, in whatever base its curve is printed', () => {
  expect(memberFactors('federal', family(21, 64), 2026)).toEqual([1, 3])
  expect(memberFactors('DC', family(21, 64), 2026)).toEqual([1, 2.181 / 0.727])
  expect(memberFactors('MA', family(45, 20), 2026)).toEqual([1.511 / 1.183, 0.751 / 1.183])
  expect(memberFactors('AL', family(45, 20), 2026)).toEqual([1.444, 0.635])
  expect(placesOfTheirOwn).toEqual(['AL', 'DC', 'MA', 'MN', 'MS', 'NY', 'OR', 'UT', 'VT'])
})

test('where the family is rated, grown children under 26 and any number of them add one amount', () => {
  const couple = family(60, 58)
  const grown = (age: number): Rated => ({ age, isDependent: true })
  const sum = (members: readonly Rated[], place = 'NY') =>
    memberFactors(place, members, 2026).reduce((total, factor) => total + factor, 0)
  expect(sum(couple)).toBe(2)
  expect(sum([...couple, grown(12), grown(8), grown(25)])).toBeCloseTo(2.85, 12)
  expect(sum([...couple, grown(26)])).toBe(3)
  expect(sum([grown(12), ...family(60)])).toBeCloseTo(1.7, 12)
  expect(sum([grown(12)])).toBe(0.412)
  expect(sum([...couple, grown(12)], 'VT')).toBeCloseTo(2.81, 12)
})

test('a silver plan covers more at low income, each upper end included (45 CFR 156.420)', () => {
  const law = lawFor(2026, steadyIndexing(0))
  const line = 1_000_000
  const values = [99, 100, 150, 150.01, 200, 250, 250.01].map((percent) =>
    silverValueAt(law, percent * 10_000, line),
  )
  expect(values).toEqual([0.7, 0.94, 0.94, 0.87, 0.87, 0.73, 0.7])
})
