// Care of children in the projection: the credit of the year's law, while a child is under 13.
import { expect, test } from 'vitest'
import { planSchema } from '#plan/plan.ts'
import { emptyHouseholdTax } from '#rules/household-year.ts'
import { assessHousehold } from '#rules/return/assess-household.ts'
import { project } from '#runway/project.ts'
import { publishedRules } from '#runway/published-rules.ts'
import { householdOfYear } from '#today/cover/cover-household.ts'
import { coverYears } from '#today/cover/cover-years.ts'

/** A couple with 30,000 of pay each; care of one child, born in June 2018, costs 500 a month. */
const planWith = (careOfChildren: boolean) =>
  planSchema.parse({
    startMonth: '2027-01',
    household: {
      people: [
        { id: 'ann', name: 'Ann', born: '1985-03-10', planToAge: 60 },
        { id: 'bo', name: 'Bo', born: '1986-05-10', planToAge: 60 },
      ],
      dependents: [{ id: 'cy', name: 'Cy', born: '2018-06-01' }],
      living: [
        { id: 'living', name: 'Living', perMonth: 3000, growth: 'fixed' },
        { id: 'care', name: 'After-school care', perMonth: 500, growth: 'fixed', careOfChildren },
      ],
      pay: ['ann', 'bo'].map((person) => ({ id: `pay-${person}`, name: 'Pay', person, perMonth: 2500 })),
    },
    savings: { accounts: [{ id: 'savings', name: 'Savings', kind: 'cash', balance: 100_000 }] },
    assumptions: { inflation: 0 },
  })

test('a line marked as care lowers each year’s tax by the credit until the child is 13', () => {
  const [without, marked] = [false, true].map((flag) => project(planWith(flag)).years)
  const lowered = (year: number) => {
    const taxOf = (years: typeof marked) => years!.find((one) => one.year === year)!.tax
    return taxOf(without) - taxOf(marked)
  }
  // 3,000 of the 6,000 count for one child, at 35 percent from an income of 45,001 to 150,000 (26 USC 21 from 2026).
  expect(lowered(2027)).toBeCloseTo(1050, 6)
  expect(lowered(2030)).toBeCloseTo(1050, 6)
  expect(lowered(2031)).toBe(0)
})

test('the household the Cover page works with has the same credit and the same tax', () => {
  const plan = planWith(true)
  const rules = publishedRules(plan)
  for (const cover of coverYears(plan, rules, project(plan)).filter(({ year }) => year <= 2032)) {
    const law = rules.lawFor(cover.year)
    const tax = emptyHouseholdTax()
    assessHousehold(law, householdOfYear(plan, law, cover), tax)
    expect(tax.dependentCareCredit).toBeCloseTo(cover.year < 2031 ? 1050 : 0, 6)
    expect(tax.balanceDue).toBeCloseTo(cover.projected.tax, 6)
  }
})
