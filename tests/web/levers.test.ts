// The levers of the Runway page: what each does to the plan, by hand, and what it refuses.
import { readFileSync } from 'node:fs'
import { expect, test } from 'vitest'
import { type Plan, planSchema } from '#plan/plan.ts'
import { project } from '#runway/project.ts'
import { openingForm } from '#web/forms/form.ts'
import { readLevers } from '#web/pages/runway/runway-levers.ts'
import { testApp } from './test-app.ts'

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

test('a lever of a return that no account earns says so at its field', async () => {
  const hints = (plan: Plan) =>
    readLevers(plan, openingForm({})).levers.flatMap(({ name, hint }) => (hint ? [name] : []))
  expect(hints(stepped)).toEqual([])
  const plan = planSchema.parse({
    startMonth: '2026-04',
    savings: {
      accounts: [
        { id: 'cash', name: 'Cash and savings', kind: 'cash', balance: 56_000 },
        { id: 'ira', name: 'IRA', kind: 'traditional', balance: 62_000, mix: { stocks: 0.6, bonds: 0.4 } },
      ],
    },
  })
  expect(hints(plan)).toEqual(['bills'])
  // What it says is so: the plan with the lever pulled ends with the same savings.
  const savings = (of: Plan) => project(of).months.at(-1)!.cash
  expect(savings(pulled(plan, { bills: '9' }))).toBe(savings(plan))
  const app = testApp({ today: '2026-04-20' })
  app.savePlan(plan)
  const page = await (await app.get('/runway')).text()
  app.close()
  expect(page).toMatch(/name="bills"[^>]*aria-describedby="[^"]*bills-hint/)
  expect(page.match(/No account of the plan earns this/g)).toHaveLength(1)
})
