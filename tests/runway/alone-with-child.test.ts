// One adult with a child at home is a head of household (26 USC 2(b)), in the years in which there is one; a plan may say otherwise.
import { expect, test } from 'vitest'
import { type PlanInput, planSchema } from '#plan/plan.ts'
import { project } from '#runway/project.ts'
import { publishedRules } from '#runway/published-rules.ts'
import { householdOfYear } from '#today/cover/cover-household.ts'
import { coverYears } from '#today/cover/cover-years.ts'

const withChild = (filing?: 'single' | 'head'): PlanInput => ({
  startMonth: '2026-01',
  household: {
    people: [{ id: 'noor', name: 'Noor', born: '1980-02-11', planToAge: 60 }],
    dependents: [{ id: 'kit', name: 'Kit', born: '2010-03-01', untilAge: 18 }],
    pay: [{ id: 'pay', name: 'Pay', person: 'noor', perMonth: 5000 }],
  },
  tax: { method: 'law', ...(filing ? { filing } : {}) },
  savings: { accounts: [{ id: 'cash', name: 'Cash', kind: 'cash', balance: 20_000 }] },
  assumptions: { inflation: 0, wageGrowth: 0, bills: 0 },
})

const statuses = (filing?: 'single' | 'head') => {
  const plan = planSchema.parse(withChild(filing))
  const rules = publishedRules(plan)
  return coverYears(plan, rules, project(plan))
    .slice(0, 3)
    .map((year) => [year.projected.filingStatus, householdOfYear(plan, rules.lawFor(year.year), year).status])
}

test('head of household while the child is at home to the end of the year, single after', () => {
  // Kit is 18 in March 2028.
  expect(statuses()).toEqual([
    [2, 2],
    [2, 2],
    [0, 0],
  ])
  expect(statuses('single')[0]).toEqual([0, 0])
  expect(statuses('head')[2]).toEqual([2, 2])
})
