// The levers of the Runway page: what each does to the plan, by hand, and what it refuses.
import { readFileSync } from 'node:fs'
import { expect, test } from 'vitest'
import { month } from '#calendar/month.ts'
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

test('what has begun by this month goes on however late the rest comes, with whatever policy', () => {
  // 2026-11 is the plan's month: a sweep since September goes on, one from 2027 waits a year; a ramp under way ends a year later.
  const sweep = (from: string) => planWith({ policy: 'sweep', from })
  expect(pulled(sweep('2026-09'), { late: '12' })).toEqual(sweep('2026-09'))
  expect(pulled(sweep('2027-01'), { late: '12' })).toEqual(sweep('2028-01'))
  const ramp = { policy: 'ramp', from: '2026-09', fromShare: 0.2, to: '2027-09', toShare: 0.8 }
  expect(pulled(planWith(ramp), { late: '12' })).toEqual(planWith({ ...ramp, to: '2028-09' }))
  // A year on, in November 2027, the step of January 2027 has begun too: nothing of it is taken back.
  const read = readLevers(stepped, openingForm({ late: '3' }), month(2027, 11))
  expect(read.pull()).toEqual(stepped)
  expect(read.levers.find(({ name }) => name === 'late')!.hint).toBe(
    'No draw of the plan is still to come: this moves nothing',
  )
})

/** Goats and flowers: 1,800 a month from the farm, 3,000 to live on, and the farm has 9,000 more than its reserve. */
const goats = (draw: object) =>
  planSchema.parse({
    startMonth: '2026-06',
    household: {
      people: [
        { id: 'ada', name: 'Ada', born: '1968-01-01' },
        { id: 'bruno', name: 'Bruno', born: '1985-01-01' },
      ],
      living: [{ id: 'living', name: 'Living', perMonth: 3000 }],
      floor: { kind: 'dollars', dollars: 6000 },
    },
    savings: { accounts: [{ id: 'cash', name: 'Cash', kind: 'cash', balance: 40_000 }] },
    farm: {
      cash: 12_000,
      reserve: 3000,
      enterprises: [{ id: 'goats', name: 'Goats', salesPerUnit: 36_000, costsPerUnit: 14_400 }],
    },
    draw,
    tax: { method: 'none' },
    assumptions: { inflation: 0 },
    health: { medicareFrom65: false },
  })

test('a lever of draws says so where the plan draws what can be spared and no level moves it', async () => {
  const hints = (plan: Plan) =>
    Object.fromEntries(readLevers(plan, openingForm({})).levers.map(({ name, hint }) => [name, hint]))
  const sweep = goats({ policy: 'sweep', from: '2026-06' })
  expect(hints(sweep)).toMatchObject({
    draws: 'The plan draws all that the farm can spare, up to household costs: a percentage moves nothing',
    late: 'No draw of the plan is still to come: this moves nothing',
  })
  // What they say is so.
  expect(project(pulled(sweep, { draws: '50', late: '24' }))).toEqual(project(sweep))
  const steps = goats({
    policy: 'steps',
    steps: [
      { from: '2026-06', perMonth: 1000 },
      { from: '2027-06', perMonth: 1800 },
    ],
  })
  expect(hints(steps)).toMatchObject({ draws: undefined, late: undefined })
  // 40,000 and the 9,000 that the farm can spare, less 1,200 a month: 7,000 after 35 months, 5,800 after the 36th, whatever is planned.
  for (const typed of [{}, { draws: '50' }, { draws: '0' }, { late: '24' }] as Record<string, string>[])
    expect(project(pulled(steps, typed)).milestones).toMatchObject({ monthsLeft: 35, floorMonth: '2029-05' })
  const app = testApp({ today: '2026-06-20' })
  app.savePlan(steps)
  const page = async (path: string) => (await (await app.get(path)).text()).replace(/\s+/g, ' ')
  const says =
    /Before savings fall below the floor, all that the farm can spare is drawn, whatever draws are typed here/g
  // As planned 18,600 are called on from February 2028 on: the levers say so. Without the switch they do not.
  expect((await page('/runway')).match(says)).toHaveLength(1)
  const without = { ...steps, savings: { ...steps.savings, drawsToHoldFloor: false } }
  app.savePlan(without, { basedOn: 1 })
  expect((await page('/runway')).match(says)).toBeNull()
  app.close()
})

test('what the levers say of the floor comes in place with each course, among the levers, as it is with what was typed', async () => {
  const app = testApp({ today: '2026-06-20' })
  app.savePlan(goats({ policy: 'steps', steps: [{ from: '2026-06', perMonth: 1000 }] }))
  const said = async (path: string, part?: string) => {
    const html = await (
      await app.get(path, part ? { 'HX-Request': 'true', 'HX-Target': `div#${part}` } : {})
    ).text()
    return html.replace(/\s+/g, ' ').match(/<p id="levers-floor"[^>]*>[^<]*/g)
  }
  const sentence =
    'Before savings fall below the floor, all that the farm can spare is drawn, whatever draws are typed here.'
  // Living of 1,700 is under the farm's 1,800: with draws of 1,800 nothing is called on. As planned, 3,000 a month, it is.
  const well = '/runway?living=50&draws=180'
  const quiet = '<p id="levers-floor" class="hint" hidden="">'
  expect(await said('/runway')).toEqual([`<p id="levers-floor" class="hint">${sentence}`])
  expect(await said(well)).toEqual([quiet])
  expect(await said('/runway?draws=50', 'course')).toEqual([
    `<p id="levers-floor" class="hint" hx-swap-oob="true">${sentence}`,
  ])
  expect(await said(well, 'course')).toEqual([quiet.replace('>', ' hx-swap-oob="true">')])
  app.close()
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
  // It has no draws either, that could come later.
  expect(hints(plan)).toEqual(['late', 'bills'])
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
