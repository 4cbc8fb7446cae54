// The levers of the Runway page: what each does to the plan, by hand, and what it refuses.
import { readFileSync } from 'node:fs'
import { expect, test } from 'vitest'
import { type Plan, planSchema } from '#plan/plan.ts'
import { openingForm } from '#web/forms/form.ts'
import { readLevers } from '#web/pages/runway/runway-levers.ts'

const sample = JSON.parse(readFileSync(new URL('../../sample/plan.json', import.meta.url), 'utf8'))
const planWith = (draw: object): Plan => planSchema.parse({ ...sample, startMonth: '2026-11', draw })
const stepped = planWith({
  policy: 'steps',
  steps: [
    { from: '2026-09', perMonth: 1700.004 },
    { from: '2027-01', perMonth: 3000 },
  ],
})
const pulled = (plan: Plan, typed: Record<string, string>) => {
  const read = readLevers(plan, openingForm(typed))
  expect(read.errors).toEqual({})
  return read.pull()
}

test('levers that nobody pulled leave the plan as it is, with all its digits', () => {
  const read = readLevers(stepped, openingForm({}))
  expect(read.areUntouched).toBe(true)
  expect(read.pull()).toEqual(stepped)
  const asShown = Object.fromEntries(read.levers.map(({ name, text }) => [name, text]))
  expect(pulled(stepped, asShown)).toEqual(stepped)
})

test('a step is typed anew, then all are scaled, and only those to come are put off', () => {
  expect(pulled(stepped, { 'steps.1': '$2,000', draws: '150', late: '3' }).draw).toMatchObject({
    steps: [
      { from: '2026-09', perMonth: 1700.004 * 1.5 },
      { from: '2027-04', perMonth: 3000 },
    ],
  })
})

test('a share of what the farm can spare is scaled up to all of it, and put off', () => {
  const ramp = planWith({ policy: 'ramp', from: '2027-01', fromShare: 0.4, to: '2029-01', toShare: 0.8 })
  expect(pulled(ramp, { draws: '150', late: '12' }).draw).toMatchObject({
    from: '2028-01',
    fromShare: 0.4 * 1.5,
    to: '2030-01',
    toShare: 1,
  })
})

test('living costs are scaled line by line, and a rate takes the place of the plan’s', () => {
  const plan = pulled(stepped, { living: '90', stocks: '4.25' })
  expect(plan.household.living.map((line) => line.perMonth)).toEqual(
    stepped.household.living.map((line) => line.perMonth * 0.9),
  )
  expect(plan.assumptions).toEqual({ ...stepped.assumptions, stocks: 0.0425 })
})

test('each lever says at its own field how far it goes', () => {
  const { levers } = readLevers(stepped, openingForm({}))
  const tooFar = { money: '-1', percent: '501', months: '241' }
  for (const { name, kind } of levers) {
    const { errors } = readLevers(stepped, openingForm({ [name]: tooFar[kind] }))
    expect(Object.keys(errors), name).toEqual([name])
    expect(errors[name], name).toMatch(
      /^Enter (between .* percent|a whole number from 0 to 240|an amount from 0)/,
    )
  }
})
