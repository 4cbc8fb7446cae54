// What an entry typed by hand is asked about or refused for: amounts below zero. All worked by hand.
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
