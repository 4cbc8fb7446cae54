// A page is read and a file is kept: the CSV of a register and of a side's entries holds every row that was found, not the page shown.
import { afterAll, beforeAll, expect, test } from 'vitest'
import { postEntry } from '#db/ledger/ledger-store.ts'
import { moneyOut } from '#ledger/simple-entry.ts'
import { cents } from '#money/cents.ts'
import { act, done, on, withAccounts } from '../db/fresh-books.ts'
import { type TestApp, testApp } from './test-app.ts'

let app: TestApp
let register: string
const count = 130

beforeAll(() => {
  app = testApp({ today: '2026-06-15' })
  app.openSides()
  const books = withAccounts(app.books)
  const checking = books.account('farm', 'Farm checking').id
  register = `/books/accounts/${checking}`
  for (let n = 1; n <= count; n += 1) {
    const day = on(`2026-0${1 + (n % 5)}-${String(1 + (n % 28)).padStart(2, '0')}`)
    const head = { id: '', sideId: 'farm', day, payee: n % 2 ? 'Hollow Feed' : 'Seed house', memo: '' }
    const lines = [{ accountId: books.account('farm', 'Feed').id, amountCents: cents(n * 100) }]
    done(postEntry(books, act(), moneyOut(head, checking, lines)))
  }
})
afterAll(() => app.close())

const rowsOf = async (path: string): Promise<string[]> =>
  (await (await app.get(path)).text()).trim().split(/\r?\n/).slice(1)

test('the register’s file has every row with its balance, whatever page it is asked from', async () => {
  const rows = await rowsOf(`${register}.csv`)
  expect(rows).toHaveLength(count)
  const total = -(count * (count + 1)) / 2
  expect(rows[0]).toContain(total.toFixed(2))
  const page = await (await app.get(register)).text()
  const older = /href="([^"]*older=[^"]*)"/.exec(page)![1]!.replaceAll('&amp;', '&')
  expect(await rowsOf(older.replace(register, `${register}.csv`))).toEqual(rows)
})

test('a search gives the whole of what it finds', async () => {
  expect(await rowsOf(`${register}.csv?text=hollow`)).toHaveLength(count / 2)
  expect(await rowsOf('/books/entries.csv?side=farm&text=seed')).toHaveLength(count / 2)
})

test('the entries of a side go out whole, and the page still shows fifty', async () => {
  expect(await rowsOf('/books/entries.csv?side=farm')).toHaveLength(count)
  const figures = (await (await app.get('/books/entries.json?side=farm')).json()) as { entries: unknown[] }
  expect(figures.entries).toHaveLength(50)
})
