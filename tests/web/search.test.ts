// Search over all books: words, payee, account, amount and day together; the file holds all that was found. Our own small books.

import { mkdtempSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { addAttachment } from '#db/ledger/attachment-store.ts'
import { postEntry, voidEntry } from '#db/ledger/ledger-store.ts'
import { importStatement } from '#db/statements/statement-store.ts'
import { moneyOut } from '#ledger/simple-entry.ts'
import { cents } from '#money/cents.ts'
import { act, done, on, type TestBooks, withAccounts } from '../db/fresh-books.ts'
import { statementFile } from '../db/statement-file.ts'
import { type TestApp, testApp } from './test-app.ts'

let app: TestApp
let books: TestBooks
/** Day, side, paid from, payee, note, and what for: account and cents. */
type Spent = [string, 'farm' | 'household', string, string, string, ...[string, number][]]
const spent: Spent[] = [
  ['2026-01-05', 'farm', 'Farm checking', 'Ridge Supply', 'layer mash', ['Feed', 8000]],
  [
    '2026-02-06',
    'farm',
    'Farm checking',
    'Ridge Supply',
    'twine and mash',
    ['Feed', 500],
    ['Supplies', 7500],
  ],
  ['2026-02-07', 'household', 'Household checking', 'Corner Grocer', 'flour', ['Groceries', 8000]],
  ['2026-03-08', 'household', 'Household checking', 'Ana Ridge', 'piano lesson', ['Groceries', 4000]],
]
const numbers: number[] = []

beforeAll(() => {
  app = testApp({ today: '2026-06-15' })
  app.openSides()
  books = withAccounts(app.books)
  for (const [day, side, from, payee, memo, ...lines] of spent) {
    const head = { id: '', sideId: side, day: on(day), payee, memo }
    const parts = lines.map(([name, amount]) => ({
      accountId: books.account(side, name).id,
      amountCents: cents(amount),
    }))
    numbers.push(done(postEntry(books, act(), moneyOut(head, books.account(side, from).id, parts))).entryNo)
  }
})
afterAll(() => app.close())

const payees = async (query: string) => {
  const found = (await (await app.get(`/books/entries.json?${query}`)).json()) as {
    entries: { says: string; accounts: { name: string }[] }[]
  }
  return found.entries.map((entry) => entry.says)
}

test('words and amounts find over all books, newest first', async () => {
  expect(await payees('')).toEqual(['Ana Ridge', 'Corner Grocer', 'Ridge Supply', 'Ridge Supply'])
  expect(await payees('text=mash')).toEqual(['Ridge Supply', 'Ridge Supply'])
  expect(await payees('payee=ridge')).toEqual(['Ana Ridge', 'Ridge Supply', 'Ridge Supply'])
  expect(await payees('payee=mash')).toEqual([])
  expect(await payees('least=80&most=80')).toEqual(['Corner Grocer', 'Ridge Supply', 'Ridge Supply'])
  expect(await payees('side=farm&least=80&most=80')).toHaveLength(2)
  expect(await payees('text=ridge&from=2026-02-06&to=2026-02-28')).toEqual(['Ridge Supply'])
})

test('account and amount are of one line: 80 dollars on feed is not 80 dollars with 5 of it on feed', async () => {
  const feed = books.account('farm', 'Feed').id
  expect(await payees(`account=${feed}`)).toHaveLength(2)
  const of80 = (await (await app.get(`/books/entries.csv?account=${feed}&least=80`)).text())
    .trim()
    .split(/\r?\n/)
  expect(of80).toHaveLength(2)
  expect(of80[1]).toContain('2026-01-05')
})

test('a receipt is found with its entry, and what was reversed can be left out', async () => {
  const id = findEntryId(numbers[2]!)
  const folder = mkdtempSync(join(tmpdir(), 'dooryard-search-'))
  done(
    addAttachment(books, act(), folder, { entryId: id, fileName: 'r.pdf', bytes: Buffer.from('%PDF-1.4 x') }),
  )
  expect(await payees('receipt=yes')).toEqual(['Corner Grocer'])
  const page = await (await app.get('/books/entries')).text()
  expect(page).toContain(`href="/books/receipts/${numbers[2]}"`)
  done(voidEntry(books, act(), findEntryId(numbers[3]!), on('2026-03-08')))
  expect(await payees('payee=ana')).toHaveLength(2)
  expect(await payees('payee=ana&living=yes')).toEqual([])
})

test('an amount that is none is said at its field, and what else was typed stays', async () => {
  const reply = await app.get('/books/entries?text=mash&least=eighty')
  expect(reply.status).toBe(422)
  const page = await reply.text()
  expect(page).toContain('value="eighty"')
  expect(page).toContain('value="mash"')
})

const findEntryId = (no: number): string =>
  books.sqlite.prepare('SELECT id FROM entries WHERE no = ?').pluck().get(no) as string

test('what waits to be sorted is found by the same words, amounts, days and accounts, and leads to where it is sorted', async () => {
  const lines = [
    { bankNumber: 'w1', day: on('2026-04-02'), amount: cents(-8000), payee: 'RIDGE SUPPLY 44', memo: 'mash' },
    { bankNumber: 'w2', day: on('2026-04-03'), amount: cents(-1250), payee: 'TARN GROCER', memo: '' },
  ]
  const account = books.account('household', 'Household checking').id
  expect(
    importStatement(app.books, act(), account, statementFile(lines, { format: 'ofx' }), on('2026-06-15')).ok,
  ).toBe(true)
  const waiting = async (query: string) =>
    (
      (await (await app.get(`/books/entries.json?${query}`)).json()) as { waiting: { payee: string }[] }
    ).waiting.map(({ payee }) => payee)
  expect(await waiting('')).toEqual([])
  expect(await waiting('text=ridge mash')).toEqual(['RIDGE SUPPLY 44'])
  expect(await waiting('payee=mash')).toEqual([])
  expect(await waiting('least=12.50&most=12.50')).toEqual(['TARN GROCER'])
  expect(await waiting('from=2026-04-03')).toEqual(['TARN GROCER'])
  expect(await waiting(`account=${account}&most=100`)).toEqual(['TARN GROCER', 'RIDGE SUPPLY 44'])
  expect(await waiting('text=ridge&side=farm')).toEqual([])
  expect(await waiting('text=ridge&receipt=yes')).toEqual([])
  const page = await (await app.get('/books/entries?text=tarn')).text()
  expect(page).toContain('1 transaction waits to be sorted')
  expect(page).toMatch(/<a href="\/books\/sorting\/lines\/\d+">TARN GROCER<\/a>/)
  expect(page).toContain('No entry matches.')
})
