// After a death: the rates of a surviving spouse with a child, and the lines of Medicare's additions.
import { expect, test } from 'vitest'
import { planSchema } from '#plan/plan.ts'
import { emptyHouseholdYear } from '#rules/household-year.ts'
import { fileReturn } from '#rules/return/household-return.ts'
import { project } from '#runway/project.ts'
import { publishedRules } from '#runway/published-rules.ts'

test('who is left with a child files jointly in the year of death, as a surviving spouse for two, then as head of household (26 USC 2(a))', () => {
  const plan = planSchema.parse({
    startMonth: '2027-01',
    household: {
      people: [
        { id: 'ann', name: 'Ann', born: '1976-06-10', planToAge: 51 },
        { id: 'bo', name: 'Bo', born: '1988-02-03', planToAge: 50 },
      ],
      dependents: [{ id: 'kit', name: 'Kit', born: '2022-04-01' }],
      pay: [{ id: 'pay', name: 'Pay', person: 'bo', perMonth: 5000 }],
      living: [{ id: 'living', name: 'Living', perMonth: 1000 }],
    },
    savings: { accounts: [{ id: 'cash', name: 'Cash', kind: 'cash', balance: 10_000 }] },
    assumptions: { inflation: 0, wageGrowth: 0 },
  })
  const { lawFor } = publishedRules(plan)
  const family = { wages: [60_000, 0], childrenUnder17: 1, earnedCreditChildren: 1 }
  const taxAs = (year: number, status: number, age: number[]) =>
    fileReturn(lawFor(year), {
      ...emptyHouseholdYear(),
      ...family,
      status,
      people: status === 1 ? 2 : 1,
      age,
    }).figures.incomeTax
  const paid = project(plan).years.map((year) => year.incomeTax)
  expect(paid[0]).toBeCloseTo(taxAs(2027, 1, [51, 39]), 2)
  expect(paid[1]).toBeCloseTo(taxAs(2028, 4, [40, 0]), 2)
  expect(paid[2]).toBeCloseTo(taxAs(2029, 4, [41, 0]), 2)
  expect(paid[3]).toBeCloseTo(taxAs(2030, 2, [42, 0]), 2)
  expect(paid[3]).toBeGreaterThan(paid[2]! + 500)
})

test('Medicare’s addition goes by the lines of the return it looks back on, joint though one has died since (42 USC 1395r(i)(4)(B))', () => {
  const plan = planSchema.parse({
    startMonth: '2026-01',
    household: {
      people: [
        { id: 'ann', name: 'Ann', born: '1952-03-10', planToAge: 74 },
        { id: 'bo', name: 'Bo', born: '1955-02-03', planToAge: 80 },
      ],
      living: [{ id: 'living', name: 'Living', perMonth: 1000 }],
    },
    savings: { accounts: [{ id: 'cash', name: 'Cash', kind: 'cash', balance: 300_000 }] },
    tax: { lastYear: { adjustedGrossIncome: 200_000, incomeTwoYearsBack: 200_000 } },
    assumptions: { inflation: 0, wageGrowth: 0, premiumGrowth: 0 },
  })
  const { months } = project(plan)
  // 2026: 202.90 and 38.99 a person; 200,000 is under the joint line of 218,000, far over the single one of 109,000.
  expect(months[1]!.premiums).toBeCloseTo(2 * 241.89, 2)
  expect(months[6]!.premiums).toBeCloseTo(241.89, 2)
})

test('a surviving spouse’s own return has the lines of one who is single: only a joint return doubles them (42 USC 1395r(i)(3)(C))', () => {
  const plan = planSchema.parse({
    startMonth: '2027-01',
    household: {
      people: [
        { id: 'ann', name: 'Ann', born: '1976-06-10', planToAge: 51 },
        { id: 'bo', name: 'Bo', born: '1960-02-03', planToAge: 80 },
      ],
      dependents: [{ id: 'kit', name: 'Kit', born: '2016-04-01' }],
      pay: [{ id: 'pension', name: 'Pension', person: 'bo', kind: 'pension', perMonth: 12_500 }],
      living: [{ id: 'living', name: 'Living', perMonth: 1000 }],
    },
    savings: { accounts: [{ id: 'cash', name: 'Cash', kind: 'cash', balance: 10_000 }] },
    tax: { lastYear: { adjustedGrossIncome: 150_000, incomeTwoYearsBack: 150_000 } },
    assumptions: { inflation: 0, wageGrowth: 0, premiumGrowth: 0 },
  })
  const { months, years } = project(plan)
  const premiumsIn = (year: number) => months.find(({ month }) => month === `${year}-07`)!.premiums
  // Joint in 2027, the year of the death; a surviving spouse for two years: places 1 and 4 of the statuses.
  expect(years.slice(0, 4).map(({ filingStatus }) => filingStatus)).toEqual([1, 4, 4, 2])
  expect(years.slice(0, 3).map(({ medicareIncome }) => medicareIncome)).toEqual([150_000, 150_000, 150_000])
  // By the figures of 2026 and 2027, prices standing still: 202.90, and 41.33 carried on to ten cents; 150,000 is under the joint line of 224,000.
  expect(premiumsIn(2029)).toBeCloseTo(202.9 + 41.3, 2)
  // Over the second single line of 142,000 and under the third of 177,000: 202.90 and 39.70 more, though the rates are those of a couple.
  expect(premiumsIn(2030)).toBeCloseTo(202.9 + 202.9 + 41.3 + 39.7, 2)
  expect(premiumsIn(2031)).toBeCloseTo(202.9 + 202.9 + 41.3 + 39.7, 2)
})

test('a death pays the children and the parent who cares for them, up to the family maximum, and later the widow', () => {
  const plan = planSchema.parse({
    startMonth: '2026-01',
    household: {
      people: [
        {
          id: 'ann',
          name: 'Ann',
          born: '1981-06-10',
          planToAge: 50,
          earnings: Array.from({ length: 22 }, (_, k) => ({ year: 2004 + k, amount: 48_000 })),
        },
        { id: 'bo', name: 'Bo', born: '1975-02-03', planToAge: 70, claimAge: { years: 67 } },
      ],
      dependents: [
        { id: 'kit', name: 'Kit', born: '2015-04-20' },
        { id: 'lou', name: 'Lou', born: '2019-09-08' },
      ],
      living: [{ id: 'living', name: 'Living', perMonth: 1000 }],
    },
    savings: { accounts: [{ id: 'cash', name: 'Cash', kind: 'cash', balance: 900_000 }] },
    assumptions: { inflation: 0, wageGrowth: 0, bills: 0 },
  })
  const { months, years } = project(plan)
  const law = publishedRules(plan).benefitLaw(2060)
  const at = (month: string) => months.find((one) => one.month === month)!
  // Ann dies after June 2031 at 50: 50 − 22 − 5 = 23 years are averaged, the 22 with earnings among them, moved to the wages of 2029.
  const i = 2031 - law.firstYear
  let sum = 0
  for (let year = 2004; year <= 2025; year += 1)
    sum += (48_000 * Math.max(1, law.wageIndex[2029 - law.firstYear]!)) / law.wageIndex[year - law.firstYear]!
  const average = Math.floor(sum / (23 * 12))
  const primary =
    Math.floor((0.9 * law.firstBend[i]! + 0.32 * (average - law.firstBend[i]!)) * 10 + 1e-6) / 10
  const [first, second, third] = [law.firstFamilyBend[i]!, law.secondFamilyBend[i]!, law.thirdFamilyBend[i]!]
  expect(primary).toBeGreaterThan(second)
  expect(primary).toBeLessThan(third)
  const maximum = 1.5 * first + 2.72 * (second - first) + 1.34 * (primary - second)
  // Parent and two children at three-fourths each come to more: a third of the maximum each.
  expect(at('2031-06').socialSecurity).toBe(0)
  expect(at('2031-07').socialSecurity).toBe(3 * Math.floor(maximum / 3))
  expect(at('2031-07').othersBenefits).toBe(2 * Math.floor(maximum / 3))
  // Kit turns 18 in April 2033; then two share, each with three-fourths. From September 2035 Lou is 16 and Bo 60.
  expect(at('2033-04').socialSecurity).toBe(2 * Math.floor(0.75 * primary))
  const widow = at('2035-10')
  expect(widow.othersBenefits).toBe(Math.floor(0.75 * primary))
  // 71.5 % at 60; the later wages of his own 60th year are no higher where wages stand still.
  expect(widow.socialSecurity - widow.othersBenefits).toBe(Math.floor(0.715 * primary))
  expect(at('2037-09').othersBenefits).toBe(0)
  // What children are paid is their income: the return has only the parent's.
  const of2032 = years.find((one) => one.year === 2032)!
  expect(of2032.benefits).toBeCloseTo(12 * Math.floor(maximum / 3), 6)
})
