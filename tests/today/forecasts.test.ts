// One forecast a closed month: what was expected as the next one began, kept as it stood. A mill house of our own invention, where
// nothing grows: 2,000 a month, 30,000 at the start, a floor of 6,000.
import { afterEach, beforeEach, expect, test } from 'vitest'
import { day } from '#calendar/day.ts'
import { listAccounts } from '#db/ledger/account-store.ts'
import { postEntry } from '#db/ledger/ledger-store.ts'
import { listSayings } from '#db/runway-history-store.ts'
import { cents, dollarsToCents } from '#money/cents.ts'
import { readPlan } from '#plan/upgrade.ts'
import { act, done } from '../db/fresh-books.ts'
import { type TestApp, testApp } from '../web/test-app.ts'

let app: TestApp
const mill = (living: number) => {
  const read = readPlan({
    planVersion: 4,
    startMonth: '2027-01',
    household: {
      living: [{ id: 'living', name: 'Living', perMonth: living }],
      floor: { kind: 'dollars', dollars: 6000 },
    },
    savings: { accounts: [{ id: 'cash', name: 'Cash', kind: 'cash', balance: 30_000 }] },
    tax: { method: 'none' },
    assumptions: { inflation: 0, premiumGrowth: 0 },
  })
  if (!read.ok) throw new Error(JSON.stringify(read.faults))
  return read.plan
}
const id = (name: string) =>
  listAccounts(app.books).find((one) => one.sideId === 'household' && one.name === name)!.id
const moved = (on: string, from: string, to: string, dollars: number) => {
  const amountCents = dollarsToCents(dollars)
  const lines = [
    { accountId: id(to), amountCents },
    { accountId: id(from), amountCents: cents(-amountCents) },
  ]
  const head = { sideId: 'household', payee: '', memo: '', source: 'form' } as const
  done(postEntry(app.books, act(), { ...head, day: day(on), lines }))
}
const closed = (month: string, formId: string) =>
  app.post('/books/close', { formId, side: 'household', at: '0', month_0: month, note_0: '' })
const form = (n: number) => `00000000-0000-4000-8000-00000000000${n}`

beforeEach(() => {
  app = testApp({ today: '2027-01-02' })
  app.openSides()
  app.savePlan(mill(2000))
  moved('2026-12-31', 'Opening balances', 'Savings', 30_000)
  moved('2027-01-12', 'Savings', 'Groceries', 2000)
  moved('2027-02-12', 'Savings', 'Groceries', 2400)
  moved('2027-03-12', 'Savings', 'Groceries', 1900)
  app.setToday('2027-04-03')
})
afterEach(() => app.close())

const said = () => listSayings(app.books).map(({ month, monthsLeft }) => [month % 12, monthsLeft])

test('three months closed on one day leave three forecasts, each from where its month ended', async () => {
  for (const [n, month] of ['2027-01', '2027-02', '2027-03'].entries())
    expect((await closed(month, form(n))).status).toBe(303)
  // December, which the books begin in, is closed with January: 30,000 is below 6,000 in its thirteenth month.
  // 28,000 is below 6,000 in its twelfth month (4,000): eleven left from February. 25,600 in its tenth, 23,700 in its ninth.
  expect(said()).toEqual([
    [0, 12],
    [1, 11],
    [2, 9],
    [3, 8],
  ])
})

test('months closed together leave one each as well', async () => {
  expect((await closed('2027-03', form(1))).status).toBe(303)
  expect(said()).toEqual([
    [0, 12],
    [1, 11],
    [2, 9],
    [3, 8],
  ])
})

test('neither a visit nor the same form again changes what a closing kept', async () => {
  await closed('2027-03', form(1))
  app.savePlan(mill(3000), { basedOn: 1 })
  await app.post('/runway/actual/say', { formId: form(2) })
  await closed('2027-03', form(1))
  expect(said()).toEqual([
    [0, 12],
    [1, 11],
    [2, 9],
    [3, 8],
  ])
})

interface Against {
  variance: {
    lines: { name: string; planned: number; actual: number; difference: number; isCost: boolean }[]
    change: { planned: number; actual: number; difference: number }
  }
}
const against = async () => ((await (await app.get('/runway/actual.json')).json()) as Against).variance

test('plan against the books compares each month with the forecast kept for it, whatever the plan has become', async () => {
  await closed('2027-01', form(1))
  app.savePlan(mill(2200), { basedOn: 1 })
  await closed('2027-02', form(2))
  app.savePlan(mill(5000), { basedOn: 2 })
  // Each month as it was expected when the one before it was closed: January by the plan of 2,000 that stood at its own closing; February and March as they were expected when the month before was closed.
  const { lines, change } = await against()
  expect(lines.find(({ name }) => name === 'Living costs')).toMatchObject({
    planned: 2000 + 2000 + 2200,
    actual: 6300,
  })
  expect(change).toMatchObject({ planned: -6200, actual: -6300 })
  const sum = lines.reduce((all, one) => all + (one.isCost ? -one.difference : one.difference), 0)
  expect(sum).toBeCloseTo(change.difference, 6)
})

test('plan against the books says what living costs hold, and which costs have a row of their own', async () => {
  await closed('2027-01', form(1))
  const page = (await (await app.get('/runway/actual')).text()).replaceAll(/\s+/g, ' ')
  expect(page).toContain('Living costs leave out what has a row of its own: premiums and taxes')
  expect(page).toContain(
    'Household spending on Now is living costs together with care, premiums, taxes, loan payments and what was paid on cards',
  )
})
