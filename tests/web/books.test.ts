import { afterAll, beforeAll, expect, test } from 'vitest'
import { listAccounts } from '#db/ledger/account-store.ts'
import { moveIn } from '../today/moved.ts'
import { type TestApp, testApp } from './test-app.ts'

let app: TestApp
const formId = (n: number) => `00000000-0000-4000-8000-${String(n).padStart(12, '0')}`
const account = (name: string) =>
  String(listAccounts(app.books).find((one) => one.name === name)?.id ?? `no account ${name}`)

beforeAll(() => {
  app = testApp()
  app.openSides()
})
afterAll(() => {
  app.close()
})

const moneyOut = (over: Record<string, string> = {}) => ({
  formId: formId(1),
  side: 'farm',
  kind: 'out',
  day: '2026-03-10',
  payee: 'Feed store',
  memo: '',
  moneyAccount: account('Farm checking'),
  'lines.0.account': account('Feed'),
  'lines.0.amount': '120.50',
  'lines.0.memo': '',
  'lines.1.account': '',
  'lines.1.amount': '',
  ...over,
})

test('an entry by form lands in the register with its running balance, and sending it twice books it once', async () => {
  for (let time = 0; time < 2; time += 1) {
    const reply = await app.post('/books/entry', moneyOut())
    expect(reply.status).toBe(303)
    expect(reply.headers.get('location')).toMatch(/^\/books\?notice=/)
  }
  const figures = await (await app.get(`/books/accounts/${account('Farm checking')}.json`)).json()
  expect(figures).toMatchObject({
    balanceCents: -12050,
    rows: [{ payee: 'Feed store', amountCents: -12050 }],
  })
})

test('a mistake comes back at its field with what was typed, in a summary that takes the focus', async () => {
  const reply = await app.post('/books/entry', moneyOut({ formId: formId(2), 'lines.0.amount': 'lots' }))
  expect(reply.status).toBe(422)
  expect(await reply.clone().text()).toContain('<title>Error: ')
  const page = await reply.text()
  expect(page).toContain('href="#f-lines.0.amount"')
  expect(page).toMatch(/<section class="error-summary"[^>]*autofocus/)
  expect(page).toMatch(/<input id="f-lines\.0\.amount"[^>]*value="lots"[^>]*aria-invalid="true"/)
  expect(page).toContain(`value="${formId(2)}"`)
})

test('debits and credits that differ are told by how much', async () => {
  const reply = await app.post('/books/entry', {
    formId: formId(3),
    side: 'farm',
    kind: 'journal',
    day: '2026-03-11',
    payee: '',
    memo: '',
    'lines.0.account': account('Feed'),
    'lines.0.debit': '100',
    'lines.0.credit': '',
    'lines.1.account': account('Farm checking'),
    'lines.1.debit': '',
    'lines.1.credit': '90',
  })
  expect(reply.status).toBe(422)
  expect(await reply.text()).toContain('debits are larger than credits by $10.00')
})

test('more lines are given without losing what was typed', async () => {
  const reply = await app.post('/books/entry', moneyOut({ formId: formId(4), more: 'yes', rows: '3' }))
  expect(reply.status).toBe(200)
  const page = await reply.text()
  expect(page).toContain('name="lines.4.amount"')
  expect(page).toContain('value="120.50"')
})

test('a mixed receipt makes its own crossing, seen from both sides', async () => {
  const reply = await app.post('/books/receipt', {
    formId: formId(5),
    day: '2026-03-12',
    payee: 'General store',
    memo: '',
    paidFrom: account('Household checking'),
    crossAs: 'equity',
    'lines.0.account': account('Feed'),
    'lines.0.amount': '30',
    'lines.0.memo': '',
    'lines.1.account': account('Groceries'),
    'lines.1.amount': '12.40',
    'lines.1.memo': '',
  })
  expect(reply.status).toBe(303)
  const books = (await (await app.get('/books.json')).json()) as {
    gates: { kindName: string; amountCents: number }[]
  }
  expect(books.gates[0]).toMatchObject({ kindName: 'Owner’s contribution', amountCents: 3000 })
})

test('an entry is corrected by one that stands in its place, and the first is reversed', async () => {
  const form = await (await app.get('/books/entries/1/correct')).text()
  expect(form).toContain('value="120.50"')
  const reply = await app.post('/books/entries/1/correct', {
    formId: formId(6),
    side: 'farm',
    kind: 'journal',
    day: '2026-03-10',
    payee: 'Feed store',
    memo: '',
    'lines.0.account': account('Feed'),
    'lines.0.debit': '125.50',
    'lines.0.credit': '',
    'lines.1.account': account('Farm checking'),
    'lines.1.debit': '',
    'lines.1.credit': '125.50',
  })
  expect(reply.status).toBe(303)
  const page = await (await app.get('/books/entries/1')).text()
  expect(page).toContain('Reversed by')
  const register = await (await app.get(`/books/accounts/${account('Farm checking')}.json`)).json()
  expect(register).toMatchObject({ balanceCents: -12550 })
})

test('a crossing is reversed on both sides at once', async () => {
  const figures = (await (await app.get(`/books/accounts/${account('Household checking')}.json`)).json()) as {
    rows: { entryNo: number }[]
  }
  const no = figures.rows[0]!.entryNo
  const page = await (await app.get(`/books/entries/${no}`)).text()
  expect(page).toContain('Reverse the crossing on both sides')
  const reply = await app.post(`/books/entries/${no}/void`, { formId: formId(7) })
  expect(reply.status).toBe(303)
  const after = await (await app.get(`/books/accounts/${account('Household checking')}.json`)).json()
  expect(after).toMatchObject({ balanceCents: 0 })
})

test('the register is searched by words, days and amounts, and goes out as CSV', async () => {
  const id = account('Farm checking')
  const some = await (await app.get(`/books/accounts/${id}.json?text=feed&least=122`)).json()
  expect(some).toMatchObject({ isFiltered: true, rows: [{ amountCents: -12550 }] })
  const csv = await app.get(`/books/accounts/${id}.csv`)
  expect(csv.headers.get('content-type')).toContain('text/csv')
  expect((await csv.text()).split('\r\n')[0]).toBe(
    'day,entry,payee,memo,other accounts,amount,balance,statement',
  )
  const part = await app.get(`/books/accounts/${id}?text=zzz`, {
    'HX-Request': 'true',
    'HX-Target': 'div#register',
  })
  expect(await part.text()).toMatch(/^<div id="register">/)
})

test('script typed into every text field is shown as text', async () => {
  const evil = '<script>alert(1)</script>"><img src=x onerror=alert(1)>'
  const reply = await app.post(
    '/books/entry',
    moneyOut({ formId: formId(8), payee: evil, memo: evil, 'lines.0.memo': evil }),
  )
  expect(reply.status).toBe(303)
  for (const path of [
    '/books',
    '/books/entries?side=farm',
    `/books/accounts/${account('Feed')}`,
    '/books/entries/9',
  ]) {
    const page = await (await app.get(path)).text()
    expect(page).not.toContain('<script>alert')
    expect(page).not.toContain('<img src=x')
  }
})

test('account numbers that are not there are told on a page that leads on', async () => {
  for (const path of ['/books/accounts/99999', '/books/entries/99999', '/books/entries?side=nowhere']) {
    expect((await app.get(path)).status).toBe(404)
  }
})

test('a search full of quotes and operators finds nothing and breaks nothing', async () => {
  for (const typed of ['"', '* OR 1=1', "'; DROP TABLE entries; --", 'NEAR(a b)', '%', '\u0000']) {
    const reply = await app.get(`/books/entries?side=farm&text=${encodeURIComponent(typed)}`)
    expect(reply.status).toBe(200)
  }
  expect((await app.get('/books/entries?side=farm')).status).toBe(200)
})

test('what stands on Books is named for what is in it: cash with a brokerage, what else is owned, equity before the year is in it', async () => {
  const other = testApp({ today: '2026-04-01' })
  other.openSides()
  const moved = (from: string, to: string, dollars: number) =>
    moveIn(other.books, 'household', '2026-03-01', from, to, dollars)
  moved('Opening balances', 'Household checking', 4100)
  moved('Opening balances', 'Savings', 900)
  const sideOf = async () =>
    (
      (await (await other.get('/books.json')).json()) as {
        sides: { kind: string; moneyTotalName: string; moneyTotalCents: number; groups: { name: string }[] }[]
      }
    ).sides.find(({ kind }) => kind === 'household')!
  expect(await sideOf()).toMatchObject({ moneyTotalName: 'Total cash', moneyTotalCents: 500_000 })
  moved('Opening balances', 'Taxable investments', 26_000)
  moved('Opening balances', 'Retirement, traditional', 81_000)
  moved('Household checking', 'Groceries', 300)
  const side = await sideOf()
  expect(side).toMatchObject({ moneyTotalName: 'Total of cash and investments', moneyTotalCents: 3_070_000 })
  const names = side.groups.map(({ name }) => name)
  expect(names).toContain('What else is owned')
  expect(names).toContain('Equity before income and costs')
  expect(await (await other.get('/books')).text()).toContain('Total of cash and investments')
  other.close()
})
