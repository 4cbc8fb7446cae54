// The fast kernel against the plain one: to the cent, each month, on the sample plan and on random plans.
import { readFileSync } from 'node:fs'
import fc from 'fast-check'
import { expect, test } from 'vitest'
import { planSchema } from '#plan/plan.ts'
import { readPlanText } from '#plan/upgrade.ts'
import { filingStatuses } from '#rules/filing-status.ts'
import { project } from '#runway/project.ts'
import { assertFuzz } from '../fuzz/batches.ts'
import { randomPlan } from './random-plan.ts'
import { firstDifference } from './what-holds.ts'

test('the sample plan comes out the same to the cent in every month', () => {
  const read = readPlanText(readFileSync(new URL('../../sample/plan.json', import.meta.url), 'utf8'))
  if (!read.ok) throw new Error(JSON.stringify(read.faults))
  expect(firstDifference(read.plan)).toBe(null)
}, 240_000)

test('what the second of a couple is paid evenly counts as hers in the estimate of a state that asks by age', () => {
  const plan = planSchema.parse({
    startMonth: '2026-01',
    household: {
      place: { state: 'PA' },
      people: [
        { id: 'a', name: 'A', born: '1956-06-15', planToAge: 74 },
        { id: 'b', name: 'B', born: '1976-06-15', planToAge: 54 },
      ],
    },
    savings: {
      accounts: [
        { id: 'c', name: 'C', kind: 'cash', balance: 90_000 },
        {
          id: 't',
          name: 'T',
          kind: 'traditional',
          owner: 'b',
          balance: 600_000,
          evenPaymentsFrom: '2026-01',
        },
      ],
    },
    tax: { method: 'law' },
  })
  expect(firstDifference(plan)).toBe(null)
})

test('who lives to the end of December died in that year: two years of joint rates follow, not three', () => {
  const plan = planSchema.parse({
    startMonth: '2026-01',
    household: {
      people: [
        { id: 'a', name: 'A', born: '1960-12-05', planToAge: 68 },
        { id: 'b', name: 'B', born: '1986-06-15', planToAge: 50 },
      ],
      dependents: [{ id: 'c', name: 'C', born: '2020-03-01' }],
      pay: [{ id: 'job', name: 'Job', person: 'b', perMonth: 4000 }],
    },
    savings: { accounts: [{ id: 'cash', name: 'Cash', kind: 'cash', balance: 50_000 }] },
    tax: { method: 'law' },
  })
  // A is 68 in December 2028. 26 USC 2(a): a spouse who died in one of the two years before.
  const status = new Map(project(plan).years.map((one) => [one.year, filingStatuses[one.filingStatus]]))
  expect([2028, 2029, 2030, 2031].map((year) => status.get(year))).toEqual([
    'married_joint',
    'surviving_spouse',
    'surviving_spouse',
    'head_of_household',
  ])
  expect(firstDifference(plan)).toBe(null)
})

test('random plans come out the same to the cent in every month', async () => {
  const property = fc.property(randomPlan(), (plan) => {
    expect(firstDifference(plan)).toBe(null)
  })
  await assertFuzz(property, 0.04, 200)
}, 1_200_000)
