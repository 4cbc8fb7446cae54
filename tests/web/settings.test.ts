import { afterAll, beforeAll, expect, test } from 'vitest'
import { listAccounts, listSides } from '#db/ledger/account-store.ts'
import { currentPlan } from '#today/current-plan.ts'
import { helpTexts } from '#views/help-texts.ts'
import { wordId } from '#views/settings/glossary.ts'
import { type TestApp, testApp } from './test-app.ts'

let app: TestApp
const formId = (n: number) => `00000000-0000-4000-8000-${String(n).padStart(12, '0')}`

beforeAll(() => {
  app = testApp()
  app.openSides()
})
afterAll(() => {
  app.close()
})

const account = {
  formId: formId(1),
  side: 'farm',
  kind: 'asset',
  name: 'Second checking',
  number: '',
  cashRole: 'cash',
  scheduleLine: '',
  note: '',
}

test('an account is added with the next free number, once', async () => {
  expect((await app.post('/settings/accounts/new', account)).status).toBe(303)
  expect((await app.post('/settings/accounts/new', account)).status).toBe(303)
  const found = listAccounts(app.books).filter((one) => one.name === 'Second checking')
  expect(found).toMatchObject([{ sideId: 'farm', kind: 'asset', cashRole: 'cash' }])
})

test('a name or number that is taken is told at its field', async () => {
  const reply = await app.post('/settings/accounts/new', {
    ...account,
    formId: formId(2),
    name: 'Farm checking',
    number: '1000',
  })
  expect(reply.status).toBe(422)
  const page = await reply.text()
  expect(page).toContain('href="#f-name"')
  expect(page).toContain('This number is taken')
})

test('an account is renamed, given its line of Schedule F and archived', async () => {
  const feed = listAccounts(app.books).find((one) => one.name === 'Feed')!
  const form = await (await app.get(`/settings/accounts/${feed.id}`)).text()
  expect(form).toContain('value="Feed"')
  const wrong = await app.post(`/settings/accounts/${feed.id}`, {
    ...account,
    kind: 'expense',
    formId: formId(3),
    name: 'Feed',
    scheduleLine: 'sixteen',
  })
  expect(wrong.status).toBe(422)
  const done = await app.post(`/settings/accounts/${feed.id}`, {
    ...account,
    kind: 'expense',
    formId: formId(4),
    name: 'Feed and hay',
    scheduleLine: '16',
    archived: 'yes',
  })
  expect(done.status).toBe(303)
  const after = listAccounts(app.books, { withArchived: true }).find((one) => one.id === feed.id)
  expect(after).toMatchObject({ name: 'Feed and hay', scheduleLine: '16', cashRole: 'none' })
  expect(after?.archivedAt).not.toBeNull()
})

test('a side venture gets books of its own', async () => {
  expect((await app.post('/settings/sides/new', { formId: formId(5), name: 'Repair bench' })).status).toBe(
    303,
  )
  expect(listSides(app.books).map((side) => side.name)).toContain('Repair bench')
})

test('people and place are kept in the plan', async () => {
  const reply = await app.post('/settings/people', {
    formId: formId(6),
    farmName: 'Wrenfold',
    state: 'AK',
    county: 'juneau city and borough',
    'people.0.name': 'Mara',
    'people.0.born': '1981-06-14',
  })
  expect(reply.status).toBe(303)
  const figures = await (await app.get('/settings.json')).json()
  expect(figures).toMatchObject({
    people: [{ name: 'Mara', isChild: false }],
    placeSays: 'In Juneau City and Borough, Alaska',
  })
  const wrong = await app.post('/settings/people', {
    formId: formId(7),
    farmName: 'Wrenfold',
    state: 'PA',
    county: 'Juneau',
    'people.0.name': 'Mara',
    'people.0.born': '1981-06-14',
  })
  expect(wrong.status).toBe(422)
  const again = await wrong.text()
  // What was typed stays, beside the counties of the state that was chosen.
  expect(again).toContain('value="Juneau"')
  expect(again).toContain('Pennsylvania has no county called Juneau')
  expect(again).toContain('<option value="Erie County"')
})

test('a name put right keeps what the plan knows of the person, and the place stays as it was', async () => {
  const people = (name: string, id: number) => ({
    formId: formId(id),
    farmName: 'Wrenfold',
    state: 'AK',
    county: 'juneau city and borough',
    'people.0.name': name,
    'people.0.born': '1981-06-14',
  })
  await app.post('/settings/people', people('Mara', 20))
  const before = currentPlan(app.books)
  await app.post('/settings/people', people('Maria', 21))
  const after = currentPlan(app.books)
  if (before.status !== 'read' || after.status !== 'read') throw new Error('no plan')
  expect(after.plan.household.people).toEqual([{ ...before.plan.household.people[0]!, name: 'Maria' }])
  const form = await (await app.get('/settings/people')).text()
  expect(form).toMatch(/<option value="AK" selected/)
})

test('the glossary explains every word of the trade and of our own that pages lead to', async () => {
  const page = await (await app.get('/settings/words')).text()
  const led = Object.values(helpTexts).flatMap((help) => help.words.map(wordId))
  const promised = [
    ...['ledger', 'account', 'entry', 'posting', 'owner’s draw', 'owner’s contribution', 'reimbursement'],
    ...['statement', 'reconcile', 'close a month', 'enterprise', 'enterprise budget', 'gross margin'],
    ...['return to labor', 'overhead', 'working capital', 'reserve', 'floor', 'runway', 'premium'],
    ...['benchmark plan', 'filing status', 'paid by the farm', 'schedule (of draws)', 'side', 'crossing'],
    ...[
      'mixed receipt',
      'house money in the farm',
      'months left',
      'carry month',
      'bad year',
      'slower year',
      'cushion',
    ],
  ].map(wordId)
  expect([...led, ...promised].filter((id) => !page.includes(`id="${id}"`))).toEqual([])
})

test('words and sources stand on pages of their own, with their tables', async () => {
  for (const path of [
    '/settings',
    '/settings/accounts',
    '/settings/words',
    '/settings/sources',
    '/settings/sides/new',
  ]) {
    expect((await app.get(path)).status).toBe(200)
  }
  const csv = await (await app.get('/settings/sources.csv')).text()
  expect(csv.split('\r\n').length).toBeGreaterThan(100)
})
