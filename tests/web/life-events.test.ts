// Life events by their form: entered, changed, taken out, refused at their fields, undone by revision; the plan that goes on honors
// them. A house of a tiler and a baker of our own invention.
import { afterEach, beforeEach, expect, test } from 'vitest'
import { day } from '#calendar/day.ts'
import { listAccounts } from '#db/ledger/account-store.ts'
import { postEntry } from '#db/ledger/ledger-store.ts'
import { cents } from '#money/cents.ts'
import type { Plan } from '#plan/plan.ts'
import { readPlan } from '#plan/upgrade.ts'
import { project } from '#runway/project.ts'
import { currentPlan } from '#today/current-plan.ts'
import { act, done } from '../db/fresh-books.ts'
import { filledForm } from './browser-form.ts'
import { type TestApp, testApp } from './test-app.ts'

let app: TestApp
beforeEach(() => {
  app = testApp({ today: '2027-09-10' })
  app.openSides()
  const read = readPlan({
    planVersion: 4,
    startMonth: '2027-01',
    household: {
      people: [
        { id: 'ilse', name: 'Ilse', born: '1981-04-02' },
        { id: 'bram', name: 'Bram', born: '1979-11-23' },
      ],
      dependents: [{ id: 'tom', name: 'Tom', born: '2010-02-03' }],
      living: [{ id: 'living', name: 'Living', perMonth: 2000 }],
      survivorShare: 0.5,
      pay: [{ id: 'oven', name: 'Oven', person: 'bram', perMonth: 1200 }],
    },
    savings: {
      accounts: [
        { id: 'cash', name: 'Cash', kind: 'cash', balance: 50_000 },
        { id: 'bram-ira', name: 'Bram’s IRA', kind: 'traditional', owner: 'bram', balance: 9000 },
        { id: 'ilse-ira', name: 'Ilse’s IRA', kind: 'traditional', owner: 'ilse', balance: 9000 },
      ],
    },
    tax: { method: 'none' },
    assumptions: { inflation: 0, premiumGrowth: 0 },
  })
  if (!read.ok) throw new Error(JSON.stringify(read.faults))
  app.savePlan(read.plan)
  const id = (name: string) =>
    listAccounts(app.books).find((one) => one.sideId === 'household' && one.name === name)!.id
  const lines = [
    { accountId: id('Savings'), amountCents: cents(4_000_000) },
    { accountId: id('Retirement, traditional'), amountCents: cents(1_000_000) },
    { accountId: id('Opening balances'), amountCents: cents(-5_000_000) },
  ]
  const head = { sideId: 'household', payee: '', memo: '', source: 'form' } as const
  done(postEntry(app.books, act(), { ...head, day: day('2027-08-31'), lines }))
})
afterEach(() => app.close())

const plan = (): Plan => {
  const current = currentPlan(app.books)
  if (current.status !== 'read') throw new Error('no plan')
  return current.plan
}
const form = (n: number) => `00000000-0000-4000-8000-00000000000${n}`
const send = (path: string, n: number, basedOn: number, fields: Record<string, string>) =>
  app.post(path, { formId: form(n), planId: 'ours', basedOn: String(basedOn), ...fields })
interface Runway {
  months: { month: string; living: number; pay: number; traditional: number; oneOffs: number }[]
}
const months = async () => ((await (await app.get('/runway.json')).json()) as Runway).months

test('a separation of July is in every page from then on, and undone by its revision', async () => {
  expect((await months())[0]).toMatchObject({ month: '2027-09', living: 2000, pay: 1200 })
  const apart = { kind: 'separation', person: 'bram', month: '2027-07', takes: '5000', lessPremium: '0' }
  expect((await send('/runway/events/new', 1, 1, apart)).status).toBe(303)
  expect((await send('/runway/events/new', 1, 1, apart)).status).toBe(303)
  expect(plan().events).toEqual([
    { kind: 'separation', person: 'bram', month: '2027-07', takes: 5000, lessPremium: 0 },
  ])
  // Half of 2,000 for one alone; what the books hold of retirement accounts is hers.
  expect((await months())[0]).toMatchObject({ month: '2027-09', living: 1000, pay: 0, traditional: 10_000 })
  const page = await (await app.get('/runway/plan')).text()
  expect(page).toContain('Separation from Bram, July 2027')
  // Of the year's months behind the plan he was there in six.
  const { rows } = (await (await app.get('/cover.json')).json()) as {
    rows: { people: { name: string; cover: { kind: string; months: number }[] }[] }[]
  }
  expect(rows[0]!.people.find(({ name }) => name === 'Bram')!.cover).toEqual([
    { kind: 'not known', from: 1, months: 6 },
  ])
  await app.post('/runway/revisions/undo?from=2&plan=ours', { formId: form(2) })
  expect(plan().events).toEqual([])
  expect((await months())[0]).toMatchObject({ living: 2000, pay: 1200 })
})

test('the form is drawn by the schema, for each kind its own fields, and keeps what was typed', async () => {
  const page = await (await app.get('/runway/events/new')).text()
  for (const text of [
    'A death',
    'A separation',
    'A birth',
    'A child leaves home',
    'Month of the death',
    'Bram',
  ])
    expect(page).toContain(text)
  const birth = await (
    await send('/runway/events/new', 1, 1, { kind: 'birth', show: 'yes', month: '2027-09' })
  ).text()
  expect(birth).toContain('Living costs rise by')
  const refused = await send('/runway/events/new', 2, 1, {
    kind: 'leaving',
    child: 'tom',
    month: '2009-05',
    lessPerMonth: '250',
  })
  expect(refused.status).toBe(422)
  const shown = await refused.text()
  expect(shown).toContain('Tom was not born yet')
  expect(shown).toContain('value="2009-05"')
  expect(shown).toContain('250')
  expect(plan().events).toEqual([])
  const nobody = await send('/runway/events/new', 3, 1, { kind: 'leaving', child: '', month: '2028-05' })
  expect(await nobody.text()).toContain('Choose the child')
  const noone = await send('/runway/events/new', 4, 1, { kind: 'death', person: '', month: '2028-05' })
  const unnamed = await noone.text()
  expect(unnamed).toContain('Choose the person')
  expect(unnamed).not.toContain('short name')
  const early = await send('/runway/events/new', 5, 1, { kind: 'death', person: 'bram', month: '1999-05' })
  expect(early.status).toBe(422)
  expect(await early.text()).toContain('href="#f-month"')
  const much = { kind: 'birth', name: 'Noor', born: '2028-02-20', perMonth: '999999', untilAge: '18' }
  const asked = await send('/runway/events/new', 6, 1, much)
  expect(asked.status).toBe(422)
  expect(await asked.text()).toContain('name="sure"')
  expect((await send('/runway/events/new', 7, 1, { ...much, sure: 'yes' })).status).toBe(303)
})

test('an event is changed and taken out again', async () => {
  const birth = { kind: 'birth', name: 'Noor', born: '2027-11-20', perMonth: '300', untilAge: '18' }
  expect((await send('/runway/events/new', 1, 1, birth)).status).toBe(303)
  expect((await months()).find((one) => one.month === '2027-11')!.living).toBe(2300)
  expect((await send('/runway/events/0', 2, 2, { ...birth, perMonth: '350' })).status).toBe(303)
  expect((await months()).find((one) => one.month === '2027-11')!.living).toBe(2350)
  expect((await send('/runway/events/0/remove', 3, 3, {})).status).toBe(303)
  expect(plan().events).toEqual([])
  expect((await app.get('/runway/events/0')).status).toBe(404)
})

test('what an event costs once is paid once, whatever the day and whoever projects', async () => {
  const death = { kind: 'death', person: 'bram', month: '2027-09', cost: '9000', lessPremium: '0' }
  expect((await send('/runway/events/new', 1, 1, death)).status).toBe(303)
  const paid = async () => (await months()).filter((one) => one.oneOffs !== 0).map((one) => one.oneOffs)
  expect(await paid()).toEqual([9000])
  expect(project(plan()).months.filter((one) => one.oneOffs !== 0)).toMatchObject([{ oneOffs: 9000 }])
  // Late in a month bad years begin only with the next: the plan goes on as yet another object.
  app.setToday('2027-09-20')
  expect(await paid()).toEqual([9000])
  const apart = {
    kind: 'separation',
    person: 'bram',
    month: '2027-11',
    takes: '5000',
    sure: 'yes',
    lessPremium: '40',
  }
  expect((await send('/runway/events/0', 2, 2, apart)).status).toBe(303)
  expect(await paid()).toEqual([5000])
})

test('a separation that takes more than there is is asked about at its field, and told by its name once it is meant', async () => {
  const apart = { kind: 'separation', person: 'bram', month: '2027-11', takes: '500000', lessPremium: '0' }
  const asked = await send('/runway/events/new', 1, 1, apart)
  expect(asked.status).toBe(422)
  const page = await asked.text()
  expect(page).toContain('href="#f-takes"')
  expect(page).toContain(
    '$500,000 is more than all that the plan begins with beside Bram’s own accounts, $59,000',
  )
  expect(page).toContain('value="500000"')
  expect(plan().events).toEqual([])
  expect((await send('/runway/events/new', 2, 1, { ...apart, sure: 'yes' })).status).toBe(303)
  const runway = await (await app.get('/runway')).text()
  expect(runway).toContain('Money runs short in November 2027 (Ilse is 46)')
  expect(runway).not.toMatch(/Bram is \d/)
  app.setToday('2028-02-03')
  for (const path of ['/now', '/cover', '/slower-years', '/runway'])
    expect(await (await app.get(path)).text(), path).not.toContain('Bram</t')
})

test('with htmx the fields of a kind come in place as soon as it is chosen', async () => {
  const page = await (await app.get('/runway/events/new')).text()
  for (const says of ['hx-post="/runway/events/new"', 'hx-trigger="change"', 'id="f-kind-fields"'])
    expect(page).toContain(says)
  const form = await filledForm(app, '/runway/events/new', { kind: 'birth', show: 'kind', month: '2028-02' })
  const htmx = { 'HX-Request': 'true', 'HX-Target': 'div#f-kind-fields' }
  const part = await app.post('/runway/events/new', form, htmx)
  expect(part.status).toBe(200)
  const fields = await part.text()
  expect(fields).toMatch(/^<div id="f-kind-fields"/)
  expect(fields).toContain('Living costs rise by')
  expect(fields).not.toContain('name="formId"')
  // Without htmx the same press shows the whole page.
  expect(await (await app.post('/runway/events/new', form)).text()).toContain('name="formId"')
})
