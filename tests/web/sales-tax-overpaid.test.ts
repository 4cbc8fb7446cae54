// Sales tax paid to the state that was never booked as collected: no debt below zero, and said with the way to put it right.
import { afterEach, beforeEach, expect, test } from 'vitest'
import { listAccounts } from '#db/ledger/account-store.ts'
import { postByName } from './post-by-name.ts'
import { type TestApp, testApp } from './test-app.ts'

let app: TestApp
beforeEach(() => {
  app = testApp({ today: '2026-10-20' })
  app.openSides()
  const post = (on: string, amounts: Record<string, number>) => postByName(app.books, 'farm', on, amounts, {})
  post('2026-01-01', { 'Farm checking': 5000, 'Term loan': -8400, 'Opening balances': 3400 })
  post('2026-06-12', { 'Farm checking': 2100, 'Vegetables and fruit sold': -2100 })
  post('2026-07-20', { 'Sales tax collected': 93.12, 'Farm checking': -93.12 })
  post('2026-10-19', { 'Sales tax collected': 41.55, 'Farm checking': -41.55 })
})
afterEach(() => app.close())

interface Figures {
  sides: { kind: string; groups: { name: string; accounts: { name: string; balanceCents: number }[] }[] }[]
}
const groups = async () =>
  Object.fromEntries(
    ((await (await app.get('/books.json')).json()) as Figures).sides
      .find(({ kind }) => kind === 'farm')!
      .groups.map(({ name, accounts }) => [name, accounts.map((one) => [one.name, one.balanceCents])]),
  )
const text = async (path: string) => (await app.get(path)).text()
const gaps = async () =>
  ((await (await app.get('/year-pack.json?year=2026')).json()) as { gaps: { says: string; href: string }[] })
    .gaps
const idOf = (name: string) => listAccounts(app.books).find((one) => one.name === name)!.id

test('what is owed and what was paid beyond it stand apart', async () => {
  expect(await groups()).toMatchObject({
    'What is owed': [['Term loan', 840_000]],
    'Paid beyond what is owed': [['Sales tax collected', 13_467]],
  })
})

test('it is said on Books and among the open points, until the tax is taken out of the takings', async () => {
  const says = '“Sales tax collected”: $134.67 more was paid than was booked as collected.'
  expect(await text('/books')).toContain(says)
  expect(await text('/year-pack?year=2026')).toContain(says)
  const href = (await gaps()).find((gap) => gap.says.startsWith(says))!.href.replaceAll('&amp;', '&')
  expect(await text(href)).toContain('Debits and credits')
  const reply = await app.post('/books/entry', {
    formId: crypto.randomUUID(),
    side: 'farm',
    kind: 'journal',
    day: '2026-10-20',
    payee: '',
    memo: 'Sales tax in the takings',
    'lines.0.account': String(idOf('Vegetables and fruit sold')),
    'lines.0.debit': '134.67',
    'lines.0.credit': '',
    'lines.1.account': String(idOf('Sales tax collected')),
    'lines.1.debit': '',
    'lines.1.credit': '134.67',
  })
  expect(reply.status).toBe(303)
  expect(await text('/books')).not.toContain('more was paid than was booked')
  expect((await gaps()).some(({ says: one }) => one.includes('Sales tax collected'))).toBe(false)
  expect(Object.keys(await groups())).not.toContain('Paid beyond what is owed')
})

test('a card with a credit is no debt below zero either', async () => {
  postByName(app.books, 'farm', '2026-08-01', { 'Farm card': 25, 'Farm checking': -25 }, {})
  expect((await groups())['What is owed']).toEqual([['Term loan', 840_000]])
  expect((await groups())['Paid beyond what is owed']).toEqual([
    ['Farm card', 2500],
    ['Sales tax collected', 13_467],
  ])
})
