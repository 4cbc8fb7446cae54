// Money moved out of an account that does not hold it is asked about at the amount, and booked with a yes. All worked by hand.
import { randomUUID } from 'node:crypto'
import { afterEach, beforeEach, expect, test } from 'vitest'
import { listAccounts } from '#db/ledger/account-store.ts'
import { balancesOn } from '#db/ledger/balances.ts'
import { type TestApp, testApp } from './test-app.ts'

let app: TestApp
beforeEach(async () => {
  app = testApp({ today: '2026-06-15' })
  app.openSides()
  const sold = await app.post('/books/entry', {
    formId: randomUUID(),
    side: 'farm',
    kind: 'in',
    day: '2026-06-01',
    payee: 'Market',
    memo: '',
    moneyAccount: id('Farm checking'),
    'lines.0.account': id('Vegetables and fruit sold'),
    'lines.0.amount': '11,666.60',
  })
  expect(sold.status).toBe(303)
})
afterEach(() => {
  app.close()
})

const id = (name: string) => String(listAccounts(app.books).find((one) => one.name === name)?.id ?? name)
const balance = (name: string) => balancesOn(app.books).get(Number(id(name))) ?? 0

const draw = (over: Record<string, string> = {}) => ({
  formId: randomUUID(),
  kind: 'draw',
  day: '2026-06-10',
  amount: '20,000',
  fromAccount: id('Farm checking'),
  toAccount: id('Household checking'),
  memo: 'for the roof',
  ...over,
})

test('a draw beyond what the account holds on its day is asked about, and booked with a yes for just that', async () => {
  const asked = await app.post('/crossings/new', draw())
  expect(asked.status).toBe(422)
  const page = await asked.text()
  expect(page).toContain('“Farm checking” holds $11,666.60 on Jun 10, 2026')
  expect(page).toContain('would leave it at −$8,333.40')
  expect(page).toContain('value="20,000"')
  expect(page).toContain('value="for the roof"')
  expect(page).toMatch(/<a href="#f-amount">/)
  expect(page).toContain('Yes, $20,000.00 is right')
  const box = /<input type="checkbox" id="f-amount-sure" name="sureOverdraws\[\]" value="([^"]*)"/.exec(page)
  const yes = { 'sureOverdraws[]': box![1]! }
  expect(balance('Farm checking')).toBe(1_166_660)
  // The yes was for 20,000, not for 30,000.
  expect((await app.post('/crossings/new', draw({ ...yes, amount: '30,000' }))).status).toBe(422)
  expect((await app.post('/crossings/new', draw(yes))).status).toBe(303)
  expect(balance('Farm checking')).toBe(-833_340)
})

test('what the account holds to the cent is not asked about, nor the same form sent again', async () => {
  const all = draw({ amount: '11,666.60' })
  expect((await app.post('/crossings/new', all)).status).toBe(303)
  expect((await app.post('/crossings/new', all)).status).toBe(303)
  expect(balance('Farm checking')).toBe(0)
  expect((await app.post('/crossings/new', draw({ amount: '0.01' }))).status).toBe(422)
  // A day before anything was booked has no balance to be held against.
  expect((await app.post('/crossings/new', draw({ amount: '5', day: '2026-05-31' }))).status).toBe(303)
})

test('money moved within a side is asked about too, and a correction counts the entry it stands in for as undone', async () => {
  const moved = (amount: string, over: Record<string, string> = {}) => ({
    formId: randomUUID(),
    side: 'farm',
    kind: 'moved',
    day: '2026-06-10',
    memo: '',
    fromAccount: id('Farm checking'),
    toAccount: id('Cash box'),
    amount,
    ...over,
  })
  expect((await app.post('/books/entry', moved('11,666.61'))).status).toBe(422)
  expect((await app.post('/books/entry', moved('9,000'))).status).toBe(303)
  const no = app.books.sqlite.prepare('SELECT max(no) FROM entries').pluck().get()
  expect((await app.post(`/books/entries/${no}/correct`, moved('12,000'))).status).toBe(422)
  expect((await app.post(`/books/entries/${no}/correct`, moved('10,000'))).status).toBe(303)
  expect(balance('Farm checking')).toBe(166_660)
})
