import { afterEach, expect, test } from 'vitest'
import type { Plan } from '#plan/plan.ts'
import { currentPlan } from '#today/current-plan.ts'
import { twoHouses } from '#web/server/open-house.ts'
import { filledForm } from './browser-form.ts'
import { type TestApp, testApp } from './test-app.ts'

let app: TestApp
afterEach(() => {
  app.close()
})
const formId = (n: number) => `00000000-0000-4000-8000-${String(n).padStart(12, '0')}`

const who = {
  formId: formId(1),
  farmName: 'Wrenfold',
  region: 'contiguous',
  'people.0.name': 'Mara',
  'people.0.born': '1981-06-14',
  'people.1.name': 'Téo',
  'people.1.born': '1979-02-03',
  'children.0.name': 'Junie',
  'children.0.born': '2016-09-22',
  'children.1.name': '',
  'children.1.born': '',
}

test('short steps lead from an empty file to months left', async () => {
  app = testApp({ today: '2026-11-20' })
  expect((await app.post('/start/who', who)).headers.get('location')).toBe('/start/accounts')
  const form = await (await app.get('/start/accounts')).text()
  const rows = [
    ...form.matchAll(
      /name="balances\.(\d+)\.account" value="(\d+)"[\s\S]*?<label for="f-balances\.\d+\.amount">([^<]+)</g,
    ),
  ]
  const amounts: Record<string, string> = {
    'Household checking': '9,400',
    Savings: '54000',
    'Farm checking': '12600',
    'Household card': '400',
  }
  const filled = Object.fromEntries(
    rows.flatMap(([, index, id, label]) => [
      [`balances.${index}.account`, id!],
      [`balances.${index}.amount`, amounts[label!.replace(', owed', '')] ?? ''],
    ]),
  )
  const accounts = await app.post('/start/accounts', { formId: formId(2), day: '2026-11-01', ...filled })
  expect(accounts.headers.get('location')).toBe('/start/owned')
  const costs = await app.post('/start/costs', {
    formId: formId(3),
    living: '3,900',
    premium: '270',
    floorMonths: '6',
    farmSales: '70000',
    farmCosts: '42000',
    farmReserve: '6000',
    drawNow: '1,700',
    drawLater: '',
    drawLaterFrom: '',
  })
  expect(costs.status).toBe(303)
  const current = currentPlan(app.books)
  expect(current.status).toBe('read')
  if (current.status !== 'read') return
  expect(current.plan.household.people.map((one) => one.id)).toEqual(['mara', 'teo'])
  expect(current.plan.savings.accounts).toMatchObject([{ kind: 'cash', balance: 63_000 }])
  expect(current.plan.farm.cash).toBe(12_600)
  const books = (await (await app.get('/books.json')).json()) as {
    sides: { name: string; moneyTotalCents: number }[]
  }
  expect(books.sides.find((side) => side.name === 'Wrenfold')?.moneyTotalCents).toBe(1_260_000)
})

test('no months are told before it is known what a month costs: Now leads on to the next step', async () => {
  app = testApp({ today: '2026-11-20' })
  await app.post('/start/who', who)
  expect(await (await app.get('/now.json')).json()).toMatchObject({
    plan: { status: 'begun', next: '/start/accounts' },
    future: [],
  })
  const page = await (await app.get('/now')).text()
  expect(page).toContain('Setting up is not finished')
  expect(page).toContain('href="/start/accounts"')
  expect(page).not.toContain('Without draws')
})

test('a step with a mistake says so at the field and keeps the rest', async () => {
  app = testApp()
  const reply = await app.post('/start/who', { ...who, 'people.0.born': '1981-02-30', farmName: '' })
  expect(reply.status).toBe(422)
  const page = await reply.text()
  expect(page).toContain('href="#f-people.0.born"')
  expect(page).toContain('Name the farm')
  expect(page).toContain('value="Junie"')
})

test('sending the first step twice makes one set of books', async () => {
  app = testApp()
  await app.post('/start/who', who)
  await app.post('/start/who', who)
  const books = (await (await app.get('/books.json')).json()) as { sides: unknown[] }
  expect(books.sides).toHaveLength(2)
})

test('the later steps send back to the first while there are no books', async () => {
  app = testApp()
  expect((await app.get('/start')).status).toBe(200)
  expect((await app.get('/start/accounts')).headers.get('location')).toBe('/start/who')
  expect((await app.get('/start/costs')).headers.get('location')).toBe('/start/who')
})

test('the sample is opened and left by a cookie of this browser', async () => {
  app = testApp()
  const open = await app.post('/sample/open', {})
  expect(open.headers.get('set-cookie')).toMatch(/dooryard-sample=open.*HttpOnly.*SameSite=Strict/)
  const leave = await app.post('/sample/leave', {})
  expect(leave.headers.get('set-cookie')).toMatch(/dooryard-sample=;.*Max-Age=0/)
})

test('a sample that cannot be opened says so, lets go of its cookie, and leaves one’s own books open', async () => {
  app = testApp()
  const own = { fetch: () => new Response('own') }
  const house = twoHouses(own, () => Promise.reject(new Error('no room')))
  const cookie = 'a=1; dooryard-sample=open'
  const reply = await house.fetch(new Request('http://localhost/now', { headers: { cookie } }))
  expect(reply.status).toBe(503)
  expect(reply.headers.get('set-cookie')).toContain('dooryard-sample=;')
  expect(await (await house.fetch(new Request('http://localhost/now'))).text()).toBe('own')
})

test('the sample stands in for one’s own books while its cookie is there', async () => {
  app = testApp()
  let opened = 0
  const house = twoHouses({ fetch: () => new Response('own') }, async () => {
    opened += 1
    return { fetch: () => new Response('sample') }
  })
  const ask = async (cookie: string) =>
    (await house.fetch(new Request('http://localhost/now', { headers: { cookie } }))).text()
  expect(await ask('dooryard-sample=open')).toBe('sample')
  expect(await ask('dooryard-sample=open')).toBe('sample')
  expect(await ask('dooryard-sample=')).toBe('own')
  expect(opened).toBe(1)
})

test('the local income tax is asked with the place', async () => {
  app = testApp({ today: '2026-11-20' })
  const home = { ...who, state: 'PA', county: 'Centre', localRate: '1.95%' }
  await app.post('/start/who', home)
  const first = currentPlan(app.books)
  if (first.status !== 'read') throw new Error('no plan')
  expect(first.plan.tax.stateTax).toEqual({ kind: 'law', localRate: 0.0195 })
  expect(first.plan.household.place.county).toBe('Centre County')
  const section = await app.get('/start/who')
  expect(await section.text()).toContain('1.95%')
  const bad = await app.post('/start/who', { ...home, localRate: '40' })
  expect(bad.status).toBe(422)
  expect(await bad.text()).toContain('from 0 to 20')
})

/** The plan of the day, changed as the Runway page would. */
const replan = (change: (plan: Plan) => unknown) => {
  const before = currentPlan(app.books)
  if (before.status !== 'read') throw new Error('no plan')
  app.savePlan(change(before.plan), { planId: before.planId, basedOn: before.revisionNo })
}
const planNow = () => {
  const now = currentPlan(app.books)
  if (now.status !== 'read') throw new Error('no plan')
  return now.plan
}

test('property tax, rent and local rate stay when any step of the first run is saved again', async () => {
  app = testApp({ today: '2026-11-20' })
  const home = { ...who, state: 'PA', county: 'Centre', localRate: '1.95' }
  await app.post('/start/who', home)
  replan((plan) => {
    const { household } = plan
    return {
      ...plan,
      household: { ...household, place: { ...household.place, propertyTax: 3200, rent: 8400 } },
    }
  })
  const told = { place: planNow().household.place, stateTax: planNow().tax.stateTax }
  expect(told.place).toMatchObject({ county: 'Centre County', propertyTax: 3200, rent: 8400 })
  const filled: Record<string, Record<string, string>> = {
    accounts: { 'balances.0.amount': '9400' },
    costs: { living: '3900', premium: '270' },
  }
  let steps = 0
  for (const step of ['who', 'accounts', 'owned', 'year', 'costs', 'who']) {
    const page = `/start/${step}`
    const reply = await app.post(page, await filledForm(app, page, filled[step]))
    expect(reply.status, step).toBe(303)
    expect({ place: planNow().household.place, stateTax: planNow().tax.stateTax }, step).toEqual(told)
    steps += 1
  }
  expect(steps).toBe(6)
  // Moved within the state: what the home costs is still theirs to change, and the rest of the place follows.
  await app.post('/start/who', { ...home, formId: formId(9), county: 'Union' })
  expect(planNow().household.place).toEqual({ ...told.place, county: 'Union County' })
})

test('a local rate beside state rates of one’s own is refused at its field, and nothing is saved', async () => {
  app = testApp({ today: '2026-11-20' })
  await app.post('/start/who', { ...who, state: 'PA' })
  const own = { kind: 'flat', base: 'federal-agi', deduction: 0, rate: 0.04 }
  replan((plan) => ({ ...plan, tax: { ...plan.tax, stateTax: own } }))
  const again = { ...who, formId: formId(2), farmName: 'Larkrise', state: 'PA' }
  const refused = await app.post('/start/who', { ...again, localRate: '1' })
  expect(refused.status).toBe(422)
  expect(await refused.text()).toContain('state rates of your own')
  expect(await (await app.get('/start/who')).text()).toContain('Wrenfold')
  expect((await app.post('/start/who', { ...again, formId: formId(3), localRate: '' })).status).toBe(303)
  expect(planNow().tax.stateTax).toEqual(own)
})
