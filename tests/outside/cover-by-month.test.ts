// The premium credit month by month, by Form 8962 lines 12 to 23 (26 CFR 1.36B-3(d)), worked by hand: where one of a couple comes to
// Medicare in July, each month is the lesser of its premium and of its benchmark less the monthly contribution (line 8b).
import { expect, test } from 'vitest'
import { type PlanInput, planSchema } from '#plan/plan.ts'
import { steadyIndexing } from '#rules/dated.ts'
import { emptyHouseholdYear } from '#rules/household-year.ts'
import { lawFor } from '#rules/law.ts'
import { fileReturn } from '#rules/return/household-return.ts'
import { project } from '#runway/project.ts'

const law = lawFor(2026, steadyIndexing(0))

/** A couple on 60,000 of wages: 283 % of 21,150, so 9.44 % by the table of 2026 (Rev. Proc. 2025-25), 5,664 a year, 472 a month. */
const creditOf = (first: [number, number], second: [number, number]) => {
  const half = (place: 0 | 1) =>
    Float64Array.from({ length: 12 }, (_, k) => (k < 6 ? first[place] : second[place]))
  return fileReturn(law, {
    ...emptyHouseholdYear(),
    status: 1,
    people: 2,
    age: [65, 52],
    wages: [60_000, 0],
    coverMonths: 12,
    premiumMonthly: (first[0] + second[0]) / 2,
    benchmarkMonthly: (first[1] + second[1]) / 2,
    coverByMonth: { premium: half(0), benchmark: half(1) },
  }).figures.premiumTaxCredit
}

test('months that bring less than the contribution take nothing from the others', () => {
  // Six months of 1,600 less 472, below the premium of 1,500; six of 450, which is less than 472. By means it would be 6,636.
  expect(creditOf([1500, 1600], [600, 450])).toBe(6 * (1600 - 472))
})

test('a month’s credit stops at its own premium', () => {
  expect(creditOf([1500, 1600], [150, 700])).toBe(6 * (1600 - 472) + 6 * 150)
})

test('months that are alike give the year’s sum (line 11)', () => {
  expect(creditOf([1500, 1600], [1500, 1600])).toBe(12 * 1600 - 5664)
})

/** Bo is 65 on July 10, 2026; both are on the marketplace before, by the federal age curve 3.000 and 1.865 of 400. */
const couple: PlanInput = {
  startMonth: '2026-01',
  household: {
    people: [
      { id: 'bo', name: 'Bo', born: '1961-07-10', planToAge: 70 },
      { id: 'ann', name: 'Ann', born: '1974-03-11', planToAge: 60 },
    ],
    pay: [{ id: 'pay', name: 'Pay', person: 'ann', perMonth: 5000 }],
  },
  health: {
    marketplace: {
      members: [{ person: 'bo' }, { person: 'ann' }],
      planAt21: 400,
      benchmarkAt21: 400,
    },
  },
  savings: { accounts: [{ id: 'cash', name: 'Cash', kind: 'cash', balance: 30_000 }] },
  assumptions: { inflation: 0, premiumGrowth: 0, careGrowth: 0, wageGrowth: 0, bills: 0 },
}

test('the advance of each month is its own credit, and the return has nothing left to settle of it', () => {
  const { months, years } = project(planSchema.parse(couple))
  const advance = months.slice(0, 12).map((one) => Math.round(one.advanceCredit * 100) / 100)
  expect(advance).toEqual([...Array(6).fill(4.865 * 400 - 472), ...Array(6).fill(1.865 * 400 - 472)])
  expect(years[0]!.premiumTaxCredit).toBeCloseTo(6 * (1474 + 274), 2)
  expect(years[0]!.advanceCredit).toBeCloseTo(years[0]!.premiumTaxCredit, 2)
})

test('a small benchmark leaves the months after the move without any', () => {
  const cheap = { ...couple.health!.marketplace!, planAt21: 240, benchmarkAt21: 240 }
  const { months, years } = project(planSchema.parse({ ...couple, health: { marketplace: cheap } }))
  expect(months[0]!.advanceCredit).toBeCloseTo(4.865 * 240 - 472, 2)
  expect(months[6]!.advanceCredit).toBe(0)
  expect(years[0]!.premiumTaxCredit).toBeCloseTo(6 * (4.865 * 240 - 472), 2)
})
