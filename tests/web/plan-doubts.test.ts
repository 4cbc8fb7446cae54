import { afterEach, beforeEach, expect, test } from 'vitest'
import { latestRevision, listPlans } from '#db/plan-store.ts'
import type { Plan } from '#plan/plan.ts'
import { filledForm } from './browser-form.ts'
import { type TestApp, testApp } from './test-app.ts'

let app: TestApp
const planNow = () => latestRevision(app.books, 'ours')!.document as Plan
const send = async (page: string, fields: Record<string, string>) =>
  app.post(page, await filledForm(app, page, fields))

beforeEach(() => {
  app = testApp({ today: '2026-11-20' })
  app.savePlan({
    startMonth: '2026-06',
    household: { people: [{ id: 'ida', name: 'Ida', born: '1980-04-02' }] },
    farm: { phases: [{ from: '2040-01', name: 'Slower' }] },
    storms: [{ id: 'dry-well', name: 'Dry well', from: '2028-01' }],
  })
})
afterEach(() => app.close())

const expectRefused = async (reply: Response, field: string, words: string) => {
  expect(reply.status).toBe(422)
  const html = await reply.text()
  expect(html).toContain(`href="#f-${field}"`)
  expect(html).toContain(words)
  expect(latestRevision(app.books, 'ours')!.revisionNo).toBe(1)
}

test('an adult born in a year to come is refused at the field', async () => {
  const reply = await send('/runway/plan/household', { 'household.people.0.born': '2030-01-01' })
  await expectRefused(reply, 'household.people.0.born', 'cannot be born in 2030')
})

test('a second phase in one month, and a second bad year of one name, are refused at their fields', async () => {
  const phase = await send('/slower-years/phases/new', { from: '2040-01', name: 'Slower still' })
  await expectRefused(phase, 'from', '“Slower” begins in that month')
  const storm = await send('/runway/storms/new', { name: 'dry well', from: '2029-01' })
  await expectRefused(storm, 'name', '“dry well” is here already')
  const past = await send('/runway/storms/new', { name: 'Long ago', from: '2020-01' })
  await expectRefused(past, 'from', 'Choose a month to come')
})

test('a phase that has begun is asked about, and saved with a yes', async () => {
  const phase = { from: '2020-01', name: 'Since then' }
  const asked = await send('/slower-years/phases/new', phase)
  expect(asked.status).toBe(422)
  expect(await asked.text()).toContain('name="sure"')
  expect((await send('/slower-years/phases/new', { ...phase, sure: 'yes' })).status).toBe(303)
  expect(planNow().farm.phases.map(({ name }) => name)).toEqual(['Since then', 'Slower'])
})

test('what stands in the plan already is not asked about when something else is changed', async () => {
  app.savePlan({ ...planNow(), storms: [{ id: 'old', name: 'Old', from: '2020-01' }] }, { basedOn: 1 })
  expect((await send('/runway/storms/old', { months: '3' })).status).toBe(303)
})

test('a plan renamed is renamed in the list, and no two plans have one name', async () => {
  expect((await send('/runway/plan', { name: 'Plan A' })).status).toBe(303)
  expect(listPlans(app.books).map(({ name }) => name)).toEqual(['Plan A'])
  const copy = (name: string, last: number) =>
    app.post('/runway/compare/copy', { formId: `00000000-0000-4000-8000-00000000000${last}`, name })
  expect((await copy('plan a', 1)).status).toBe(422)
  expect((await copy('Plan B', 2)).status).toBe(303)
  const renamed = await send('/runway/plan', { name: 'Plan B' })
  expect(renamed.status).toBe(422)
  expect(await renamed.text()).toContain('href="#f-name"')
  expect(listPlans(app.books).map(({ name }) => name)).toEqual(['Plan A', 'Plan B'])
})

test('the first run asks no less: an adult to be born is refused at the field, and a plan’s own savings stay', async () => {
  const fresh = testApp({ today: '2026-11-20' })
  const who = (born: string, last: number) => ({
    formId: `00000000-0000-4000-8000-00000000001${last}`,
    farmName: 'Wrenfold',
    region: 'contiguous',
    'people.0.name': 'Ida',
    'people.0.born': born,
  })
  const refused = await fresh.post('/start/who', who('2030-01-01', 1))
  expect(refused.status).toBe(422)
  expect(await refused.text()).toContain('href="#f-people.0.born"')
  expect((await fresh.post('/start/who', who('1980-01-01', 2))).status).toBe(303)

  const planId = listPlans(fresh.books)[0]!.id
  const { document, revisionNo } = latestRevision(fresh.books, planId)!
  const account = { id: 'credit-union', name: 'Credit union', kind: 'cash', balance: 12_345 }
  const savings = { ...(document as Plan).savings, accounts: [account] }
  fresh.savePlan({ ...(document as Plan), savings }, { planId, basedOn: revisionNo, name: 'Our plan' })
  const form = await filledForm(fresh, '/start/accounts', { day: '2026-11-01', 'balances.0.amount': '100' })
  const reply = await fresh.post('/start/accounts', form)
  expect(reply.status).toBe(303)
  const page = await (await fresh.get(reply.headers.get('location')!)).text()
  expect(page).toContain('The plan has savings accounts of its own')
  expect((latestRevision(fresh.books, planId)!.document as Plan).savings.accounts).toMatchObject([account])
  fresh.close()
})

test('the first run asks about a date of birth that is hardly meant, at its field, and takes a yes', async () => {
  const fresh = testApp({ today: '2026-11-20' })
  const who = (last: number, more: Record<string, string>) =>
    fresh.post('/start/who', {
      formId: `00000000-0000-4000-8000-00000000003${last}`,
      farmName: 'Wrenfold',
      region: 'contiguous',
      'people.0.name': 'Ida',
      'people.0.born': '1990-01-01',
      'children.0.name': 'Una',
      'children.0.born': '1999-01-01',
      ...more,
    })
  const asked = await who(1, {})
  expect(asked.status).toBe(422)
  const html = await asked.text()
  expect(html).toContain('href="#f-children.0.born"')
  expect(html).toContain('name="sure"')
  expect(listPlans(fresh.books)).toEqual([])
  const old = await who(2, { 'people.0.born': '1900-01-01', sure: 'yes' })
  expect(old.status).toBe(422)
  expect(await old.text()).toContain('Ida is past 95 when the plan begins')
  expect((await who(3, { sure: 'yes' })).status).toBe(303)
  fresh.close()
})

test('a child older than its parents is asked about as that, and the yes below stands after what it is about', async () => {
  const fresh = testApp({ today: '2026-12-01' })
  const asked = await fresh.post('/start/who', {
    formId: '00000000-0000-4000-8000-000000000041',
    farmName: 'Wrenfold',
    region: 'contiguous',
    'people.0.name': 'Ruta',
    'people.0.born': '1990-08-30',
    'children.0.name': 'Nils',
    'children.0.born': '1999-05-22',
  })
  expect(asked.status).toBe(422)
  const list = /<section class="error-summary"[\s\S]*?<\/section>/.exec(await asked.text())![0]
  const problems = [...list.matchAll(/<a href="#([^"]*)">([^<]*)</g)].map(([, at, says]) => [at, says])
  expect(problems).toEqual([
    ['f-children.0.born', expect.stringContaining('Nils, born in 1999, is hardly younger than the adults')],
    ['f-sure', expect.stringContaining('say yes below the form')],
  ])
  fresh.close()
  // A form of the plan lists them in the same order.
  const dependents = { id: 'nils', name: 'Nils', born: '1999-05-22' }
  const plan = await send('/runway/plan/household', {
    'household.people.0.born': '1990-08-30',
    'household.dependents.0.id': dependents.id,
    'household.dependents.0.name': dependents.name,
    'household.dependents.0.born': dependents.born,
  })
  const html = await plan.text()
  const at = (words: string) => html.indexOf(words)
  expect(at('hardly younger than the adults')).toBeGreaterThan(0)
  expect(at('hardly younger than the adults')).toBeLessThan(at('say yes below the form'))
})

test('whose the retirement accounts of a couple are stays a first step until the plan says it', async () => {
  app.openSides()
  const living = [{ id: 'food', name: 'Food', perMonth: 700 }]
  const people = ['Ida', 'Ole'].map((name) => ({ id: name.toLowerCase(), name, born: '1980-04-02' }))
  const accounts = [
    { id: 'cash', name: 'Cash', kind: 'cash' as const, balance: 9000 },
    { id: 'ira', name: 'IRA', kind: 'traditional' as const, balance: 9000 },
  ]
  app.savePlan(
    { startMonth: '2026-06', household: { people, living }, savings: { accounts } },
    { basedOn: 1 },
  )
  const steps = async () =>
    ((await (await app.get('/now.json')).json()) as { firstSteps: { id: string }[] }).firstSteps.map(
      ({ id }) => id,
    )
  expect(await steps()).toContain('owners')
  expect((await send('/runway/plan/savings', { 'savings.accounts.1.owner': 'ole' })).status).toBe(303)
  expect(await steps()).not.toContain('owners')
})

test('a later draw from the first month on is refused at its month in the first run', async () => {
  const reply = await app.post('/start/costs', {
    formId: '00000000-0000-4000-8000-000000000041',
    living: '2000',
    premium: '',
    floorMonths: '6',
    farmSales: '',
    farmCosts: '',
    farmReserve: '',
    drawNow: '100',
    drawLater: '300',
    drawLaterFrom: '2026-06',
  })
  expect(reply.status).toBe(422)
  expect(await reply.text()).toContain('href="#f-drawLaterFrom"')
})

test('a plan archived is listed apart and brought back, unless another has its name by then', async () => {
  const post = (path: string, form: Record<string, string>, last: number) =>
    app.post(path, { formId: `00000000-0000-4000-8000-00000000002${last}`, ...form })
  await post('/runway/compare/copy', { name: 'Plan B' }, 1)
  const [, { id: planId }] = listPlans(app.books) as unknown as [unknown, { id: string }]
  await post('/runway/compare/use', { planId, putAway: 'yes' }, 2)
  expect(listPlans(app.books)).toHaveLength(1)
  const page = await (await app.get('/runway/compare')).text()
  expect(page).toContain('Bring it back: Plan B')
  expect((await post('/runway/compare/use', { planId }, 3)).status).toBe(404)

  expect((await post('/runway/compare/copy', { name: 'Plan B' }, 4)).status).toBe(303)
  expect((await post('/runway/compare/use', { planId, putAway: 'no' }, 5)).status).toBe(422)
  const second = listPlans(app.books).find((one) => one.name === 'Plan B')!
  await post('/runway/compare/use', { planId: second.id, putAway: 'yes' }, 6)
  expect((await post('/runway/compare/use', { planId, putAway: 'no' }, 7)).status).toBe(303)
  expect(listPlans(app.books).map(({ id }) => id)).toContain(planId)
})
