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
      dependants: [{ id: 'kit', name: 'Kit', born: '2022-04-01' }],
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
