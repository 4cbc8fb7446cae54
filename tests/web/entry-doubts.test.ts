// What an entry typed by hand is asked about or refused for: amounts below zero, and what the books have already. All worked by hand.
import { randomUUID } from 'node:crypto'
import { afterEach, beforeEach, expect, test } from 'vitest'
import { listAccounts } from '#db/ledger/account-store.ts'
import { balancesOn } from '#db/ledger/balances.ts'
import { type TestApp, testApp } from './test-app.ts'

let app: TestApp
beforeEach(() => {
  app = testApp({ today: '2026-06-15' })
  app.openSides()
})
afterEach(() => {
  app.close()
})

const id = (name: string) => String(listAccounts(app.books).find((one) => one.name === name)?.id ?? name)
const balance = (name: string) => balancesOn(app.books).get(Number(id(name))) ?? 0

const entry = (over: Record<string, string> = {}) => ({
  formId: randomUUID(),
  side: 'household',
  kind: 'out',
  day: '2026-06-10',
  payee: 'Corner store',
  memo: '',
  moneyAccount: id('Household checking'),
  'lines.0.account': id('Groceries'),
  'lines.0.amount': '50',
  ...over,
})

test('money out below zero is refused at its amount with what to do; a discount beside what it is of is booked', async () => {
  const refused = await app.post('/books/entry', entry({ 'lines.0.amount': '-50' }))
  expect(refused.status).toBe(422)
  const page = await refused.text()
  expect(page).toContain('This comes to −$50.00')
  expect(page).toContain('is recorded as Money in')
  expect(page).toContain('href="#f-lines.0.amount"')
  expect(page).toContain('value="-50"')
  expect((await app.post('/books/entry', entry({ kind: 'in', 'lines.0.amount': '-50' }))).status).toBe(422)
  expect(balance('Groceries')).toBe(0)
  const discount = { 'lines.1.account': id('Groceries'), 'lines.1.amount': '-8.50' }
  expect((await app.post('/books/entry', entry(discount))).status).toBe(303)
  expect(balance('Groceries')).toBe(4150)
  // More discount than goods is money that came in.
  const more = await app.post('/books/entry', entry({ ...discount, 'lines.1.amount': '-58.50' }))
  expect(more.status).toBe(422)
  expect(await more.text()).toContain('href="#f-lines.1.amount"')
  // A refund is money in, to the same account.
  expect((await app.post('/books/entry', entry({ kind: 'in' }))).status).toBe(303)
  expect(balance('Groceries')).toBe(-850)
})

test('a mixed receipt is held to the same', async () => {
  const { moneyAccount: paidFrom, ...rest } = entry({ crossAs: 'equity', 'lines.0.amount': '-20' })
  const refused = await app.post('/books/receipt', { ...rest, paidFrom: paidFrom! })
  expect(refused.status).toBe(422)
  expect(await refused.text()).toContain('This comes to −$20.00')
})

test('an entry like one of the books is asked about at its day, with what was typed, and booked with a yes', async () => {
  expect((await app.post('/books/entry', entry())).status).toBe(303)
  const again = entry({ payee: 'corner STORE' })
  const asked = await app.post('/books/entry', again)
  expect(asked.status).toBe(422)
  const page = await asked.text()
  expect(page).toMatch(/Entry \d+ has the same amount and account on Jun 10, 2026, with corner STORE/)
  expect(page).toContain('Yes, another one')
  expect(page).toContain('value="50"')
  expect(balance('Groceries')).toBe(5000)
  const yes = /name="sureAnother\[\]" value="([^"]*)"/.exec(page)![1]!
  expect((await app.post('/books/entry', { ...again, 'sureAnother[]': yes })).status).toBe(303)
  expect(balance('Groceries')).toBe(10_000)
  // Sent again, it is the same success, box or no box; a yes to another day says nothing of this one.
  expect((await app.post('/books/entry', again)).status).toBe(303)
  expect(
    (await app.post('/books/entry', entry({ 'sureAnother[]': '2026-06-09 Corner store ' }))).status,
  ).toBe(422)
  expect(balance('Groceries')).toBe(10_000)
})

test('another amount, day, payee or account is another entry, and so is one whose like was reversed', async () => {
  await app.post('/books/entry', entry())
  for (const over of [
    { 'lines.0.amount': '50.01' },
    { day: '2026-06-11' },
    { payee: 'Corner stores' },
    { moneyAccount: id('Cash at home') },
    { payee: '' },
  ])
    expect((await app.post('/books/entry', entry(over))).status, JSON.stringify(over)).toBe(303)
  // Two without a payee are two.
  expect((await app.post('/books/entry', entry({ payee: '' }))).status).toBe(303)
  const no = app.books.sqlite
    .prepare("SELECT no FROM entries WHERE payee = 'Corner store' ORDER BY no")
    .pluck()
    .get()
  await app.post(`/books/entries/${no}/void`, { formId: randomUUID() })
  // Another entry of that day and payee has another account or amount.
  expect((await app.post('/books/entry', entry())).status).toBe(303)
})

test('money moved twice alike on one day, and debits and credits alike, are asked about too', async () => {
  await app.post(
    '/books/entry',
    entry({ kind: 'in', payee: 'Pay', 'lines.0.account': id('Off-farm pay'), 'lines.0.amount': '900' }),
  )
  const moved = (over: Record<string, string> = {}) => ({
    formId: randomUUID(),
    side: 'household',
    kind: 'moved',
    day: '2026-06-12',
    memo: '',
    fromAccount: id('Household checking'),
    toAccount: id('Cash at home'),
    amount: '100',
    ...over,
  })
  expect((await app.post('/books/entry', moved())).status).toBe(303)
  const asked = await app.post('/books/entry', moved())
  expect(asked.status).toBe(422)
  const yes = /name="sureAnother\[\]" value="([^"]*)"/.exec(await asked.text())![1]!
  expect((await app.post('/books/entry', moved({ 'sureAnother[]': yes }))).status).toBe(303)
  expect(balance('Cash at home')).toBe(20_000)
})

test('a mixed receipt sent in anew is asked about too, by what the paying account holds of it', async () => {
  const { moneyAccount: paidFrom, ...rest } = entry({
    crossAs: 'equity',
    'lines.1.account': id('Feed'),
    'lines.1.amount': '20',
  })
  const receipt = () => ({ ...rest, formId: randomUUID(), paidFrom: paidFrom! })
  expect((await app.post('/books/receipt', receipt())).status).toBe(303)
  const again = receipt()
  const asked = await app.post('/books/receipt', again)
  expect(asked.status).toBe(422)
  const yes = /name="sureAnother\[\]" value="([^"]*)"/.exec(await asked.text())![1]!
  for (let time = 0; time < 2; time += 1)
    expect((await app.post('/books/receipt', { ...again, 'sureAnother[]': yes })).status).toBe(303)
  expect([balance('Groceries'), balance('Feed')]).toEqual([10_000, 4000])
})
