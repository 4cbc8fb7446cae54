import { afterEach, beforeEach, expect, test } from 'vitest'
import { addAccount } from '#db/ledger/account-store.ts'
import { latestRevision } from '#db/plan-store.ts'
import { type Plan, planSchema } from '#plan/plan.ts'
import { act, done } from '../db/fresh-books.ts'
import { browserForms, fieldsOf, filledForm } from './browser-form.ts'
import { type TestApp, testApp } from './test-app.ts'

let app: TestApp
const page = '/runway/load'
const ours = planSchema.parse({
  startMonth: '2026-06',
  household: { living: [{ id: 'food', name: 'Food', perMonth: 900 }] },
})
const newest = () => latestRevision(app.books, 'ours')!
const withFood = (perMonth: number): Plan => ({
  ...ours,
  household: { ...ours.household, living: [{ ...ours.household.living[0]!, perMonth }] },
})

beforeEach(() => {
  app = testApp({ today: '2026-11-20' })
  app.savePlan(ours)
})
afterEach(() => app.close())

test('a pasted plan shows what it changes, and is saved once that was seen', async () => {
  const text = JSON.stringify(withFood(950))
  const shown = await app.post(page, await filledForm(app, page, { document: text }))
  expect(shown.status).toBe(200)
  const html = await shown.text()
  for (const words of ['Household, Living costs, food, A month', '$900', '$950'])
    expect(html).toContain(words)
  expect(newest().revisionNo).toBe(1)
  const form = browserForms(html, page).find(({ action }) => action === page)!
  expect((await app.post(page, fieldsOf(form))).status).toBe(303)
  expect(newest().document).toEqual(withFood(950))
})

test('a file is read as well as a pasted text', async () => {
  const form = new FormData()
  for (const [name, value] of Object.entries(await filledForm(app, page))) form.append(name, String(value))
  form.append('file', new File([JSON.stringify(withFood(975))], 'plan.json'))
  const reply = await app.upload(page, form)
  expect(reply.status).toBe(200)
  expect(await reply.text()).toContain('$975')
})

test('what is no plan is told at the field with all it holds, and nothing is saved', async () => {
  const send = async (document: string) => {
    const reply = await app.post(page, await filledForm(app, page, { document }))
    expect(reply.status).toBe(422)
    return reply.text()
  }
  expect(await send('{"startMonth": "2026-06",')).toContain('It is not JSON')
  const slip = await send('{"startMonth": "2026-06", "houshold": {}}')
  expect(slip).toContain('houshold: there is no such key here')
  expect(slip).toContain('href="#f-document"')
  expect(await send('{"startMonth": "soon"}')).toContain('startMonth')
  expect(newest().revisionNo).toBe(1)
})

test('what cannot be is refused here too', async () => {
  const person = { id: 'ole', name: 'Ole', born: '2031-01-01' }
  const document = JSON.stringify({ ...ours, household: { ...ours.household, people: [person] } })
  const reply = await app.post(page, await filledForm(app, page, { document, confirm: 'yes' }))
  expect(reply.status).toBe(422)
  expect(await reply.text()).toContain('cannot be born in 2031')
})

test('a bad year that is over is refused before the preview, not after it', async () => {
  const storms = [{ id: 'hail', name: 'Hail', from: '2026-07', months: 3, salesShare: 0.4 }]
  const document = JSON.stringify({ ...ours, storms })
  const reply = await app.post(page, await filledForm(app, page, { document }))
  expect(reply.status).toBe(422)
  const html = await reply.text()
  expect(html).toContain('storms.0.from: Hail, July 2026')
  expect(html).toContain('over by November 2026')
  expect(html).toContain('&quot;hail&quot;')
  expect(html).not.toContain('Save it as the plan in use')
  expect(newest().revisionNo).toBe(1)
})

test('a document without account numbers keeps the ties that still fit, and the preview says what is untied', async () => {
  app.openSides()
  const loan = (id: string, name: string, bookAccount?: number) => ({
    id,
    name,
    principal: 8000,
    yearlyRate: 0.06,
    months: 60,
    start: '2026-05',
    ...(bookAccount === undefined ? {} : { bookAccount }),
  })
  const numbers = ['Truck', 'Roof', 'Well'].map((name, place) => {
    const number = 2300 + place
    done(
      addAccount(app.books, act(), {
        sideId: 'household',
        number,
        name: `${name} loan`,
        kind: 'liability',
      }),
    )
    return number
  })
  const withHouseLoans = (loans: object[]) => planSchema.parse({ ...ours, household: { loans } })
  app.savePlan(
    withHouseLoans([
      loan('truck', 'Truck', numbers[0]),
      loan('roof', 'Roof', numbers[1]),
      loan('well', 'Well', numbers[2]),
    ]),
    { basedOn: 1 },
  )
  // The truck is the same loan, the roof has another short name, the well is no longer in it; the shed names an account that is none.
  const document = JSON.stringify(
    withHouseLoans([loan('truck', 'Truck'), loan('new-roof', 'Roof'), loan('shed', 'Shed', 2999)]),
  )
  const shown = await app.post(page, await filledForm(app, page, { document }))
  const html = await shown.text()
  for (const says of [
    'Truck stays tied to account 2300, Truck loan',
    'Roof stays tied to account 2301, Roof loan',
    'Account 2302, Well loan, is tied to no loan then: now it holds Well',
    'Shed names account 2999, and the books have no loan of that number',
  ])
    expect(html).toContain(says)
  const form = browserForms(html, page).find(({ action }) => action === page)!
  expect((await app.post(page, fieldsOf(form))).status).toBe(303)
  const { household } = newest().document as Plan
  expect(household.loans.map(({ id, bookAccount }) => [id, bookAccount])).toEqual([
    ['truck', 2300],
    ['new-roof', 2301],
    ['shed', 2999],
  ])
})
