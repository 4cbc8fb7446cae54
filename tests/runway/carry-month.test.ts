// The carry month: what it is judged over when a plan slows down, and what the page says about the years after.
import { expect, test } from 'vitest'
import { type PlanInput, planSchema } from '#plan/plan.ts'
import { project } from '#runway/project.ts'
import { whySentences } from '#runway/why.ts'

/** Costs of 2,000 a month; a farm with cash enough for any draw; no tax, no inflation. */
const planWith = (steps: { from: string; perMonth: number }[], slowerFrom?: string) => {
  const input: PlanInput = {
    startMonth: '2027-01',
    years: 10,
    household: { living: [{ id: 'living', name: 'Living', perMonth: 2000 }] },
    savings: { accounts: [{ id: 'savings', name: 'Savings', kind: 'cash', balance: 200_000 }] },
    farm: {
      cash: 900_000,
      phases: slowerFrom === undefined ? [] : [{ name: 'Slower', from: slowerFrom }],
    },
    draw: { policy: 'steps', steps },
    tax: { method: 'none' },
    assumptions: { inflation: 0 },
  }
  return planSchema.parse(input)
}

const milestonesOf = (plan: ReturnType<typeof planWith>) => project(plan).milestones
const carrySays = (plan: ReturnType<typeof planWith>) =>
  whySentences(plan, project(plan)).find((sentence) => sentence.includes('draws cover all household costs'))

test('without slower years it is judged to the end of the plan', () => {
  const plan = planWith([
    { from: '2027-01', perMonth: 500 },
    { from: '2029-01', perMonth: 2000 },
  ])
  expect(milestonesOf(plan)).toMatchObject({
    carryMonth: '2029-01',
    carryJudgedTo: null,
    carryMonthToEnd: '2029-01',
  })
  expect(carrySays(plan)).toBe(
    'From January 2029 the farm’s draws cover all household costs, up to the end of the plan.',
  )
})

test('with slower years it is judged up to the first of them, and says how far draws reach after it', () => {
  const plan = planWith(
    [
      { from: '2027-01', perMonth: 2500 },
      { from: '2032-01', perMonth: 800 },
    ],
    '2032-01',
  )
  expect(milestonesOf(plan)).toMatchObject({
    carryMonth: '2027-01',
    carryJudgedTo: '2032-01',
    carryMonthToEnd: null,
  })
  expect(carrySays(plan)).toBe(
    'From January 2027 the farm’s draws cover all household costs, up to the first slower year, January 2032. From then to the end of the plan draws, which fall by the plan, cover 40% of household costs; with Social Security, pay and side ventures it is 40%, and savings do the rest.',
  )
})

test('a farm that carries the household through its slower years says so', () => {
  const plan = planWith([{ from: '2027-01', perMonth: 2100 }], '2032-01')
  expect(milestonesOf(plan)).toMatchObject({ carryMonth: '2027-01', carryMonthToEnd: '2027-01' })
  expect(carrySays(plan)).toContain('and beyond it to the end of the plan')
})

test('twelve good months that do not last are not a carry month', () => {
  const plan = planWith([
    { from: '2027-01', perMonth: 2500 },
    { from: '2029-01', perMonth: 800 },
  ])
  expect(milestonesOf(plan)).toMatchObject({ carryMonth: null, carryMonthToEnd: null })
})
