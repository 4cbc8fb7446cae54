// A payee of whom many transactions wait is gone through in parts, and what is said of one stays while others are looked at.
import { randomUUID } from 'node:crypto'
import { afterEach, beforeEach, expect, test } from 'vitest'
import { day } from '#calendar/day.ts'
import { listAccounts } from '#db/ledger/account-store.ts'
import { balancesOn } from '#db/ledger/balances.ts'
import { importStatement } from '#db/statements/statement-store.ts'
import { countWaiting } from '#db/statements/waiting-lines.ts'
import { cents } from '#money/cents.ts'
import { statementFile } from '../db/statement-file.ts'
import { deskFields } from './desk-fields.ts'
import { type TestApp, testApp } from './test-app.ts'

let app: TestApp
beforeEach(() => {
  app = testApp()
  app.openSides()
})
afterEach(() => app.close())

const id = (name: string) => listAccounts(app.books).find((one) => one.name === name)!.id
const balance = (name: string) => balancesOn(app.books).get(id(name)) ?? 0

/** The n-th costs n cents. */
const read = (payee: string, count: number, on: string, size = 0) => {
  const lines = Array.from({ length: count }, (_, at) => ({
    bankNumber: `${payee}${at}`,
    day: day(`${on}-${String(1 + (at % 28)).padStart(2, '0')}`),
    amount: cents(-(size || at + 1)),
    payee,
  }))
  const act = { formId: randomUUID(), at: '2026-03-01T00:00:00.000Z', actor: 'test' }
  const file = statementFile(lines)
  expect(importStatement(app.books, act, id('Farm checking'), file, day('2026-03-15')).ok).toBe(true)
}

const page = async (address: string) => (await app.get(address)).text()
const send = async (html: string, more: Record<string, string | string[]>, from = '/books/sorting') => {
  const reply = await app.post(from, { ...deskFields(html).fields, ...more })
  expect(reply.status).toBe(303)
  return reply.headers.get('location')!.replace(/#.*$/, '')
}
const numbersShown = (html: string) =>
  [...html.matchAll(/name="(g\.n\d+\.own\.n\d+)"/g)].map(([, name]) => name!)

test('fifteen at a time; one left out and one sent elsewhere stay so on the other parts, and are booked so', async () => {
  // Lines before them, so that theirs have numbers of four digits.
  read('COUNTY SCALE', 1100, '2025-11', 500)
  read('MILL', 40, '2026-02')
  const first = await page('/books/sorting')
  const { name } = deskFields(first)
  const [, mill] =
    /name="go" value="(open:\d+)" data-act="See each">See each<span class="hidden-text"> MILL</.exec(first)!
  const row = name('MILL', '').slice(0, -1)
  const one = await send(first, { [`${row}.to`]: `a:${id('Feed')}`, go: mill! })
  const opened = await page(one)
  const [newest] = numbersShown(opened)
  expect(numbersShown(opened)).toHaveLength(15)
  const [, later] = /value="(open:\d+\.15)"/.exec(opened)!
  const two = await send(opened, { [newest!]: `a:${id('Seeds and plants')}`, go: later! }, one)
  const second = await page(two)
  expect(second).toContain('16 to 30 of 40')
  // The one of before goes along, unseen.
  expect(numbersShown(second)).toHaveLength(16)
  const left = /name="g\.n\d+\.own\.n(\d+)"/.exec(
    second.slice(second.indexOf('<ul>', second.indexOf('desk-lines" open'))),
  )![1]!
  const [, last] = /value="(open:\d+\.30)"/.exec(second)!
  const three = await send(second, { [`${row}.without[]`]: left, go: last! }, two)
  const third = await page(three)
  expect(third).toContain('31 to 40 of 40')
  const sizeOf = (number: string) =>
    app.books.sqlite
      .prepare('SELECT -amount_cents FROM statement_lines WHERE id = ?')
      .pluck()
      .get(Number(number)) as number
  const elsewhere = sizeOf(/\d+$/.exec(newest!)![0])
  await send(third, {}, three)
  const all = (40 * 41) / 2
  expect(balance('Seeds and plants')).toBe(elsewhere)
  expect(balance('Feed')).toBe(all - elsewhere - sizeOf(left))
  expect(countWaiting(app.books).waiting).toBe(1101)
})

test('one left out before the row has a place stays out on the other parts and once it has one', async () => {
  read('MILL', 20, '2026-02')
  const first = await page('/books/sorting')
  const row = deskFields(first).name('MILL', '').slice(0, -1)
  const [, see] = /name="go" value="(open:\d+)" data-act="See each"/.exec(first)!
  const one = await send(first, { go: see! })
  const opened = await page(one)
  const [, left] = /name="g\.n\d+\.own\.n(\d+)"/.exec(opened)!
  const [, later] = /value="(open:\d+\.15)"/.exec(opened)!
  const two = await send(opened, { [`${row}.without[]`]: left!, go: later! }, one)
  const second = await page(two)
  expect(second).toContain(`name="${row}.without[]" value="${left}"`)
  await send(second, { [`${row}.to`]: `a:${id('Feed')}` }, two)
  const size = app.books.sqlite.prepare('SELECT -amount_cents FROM statement_lines WHERE id = ?').pluck()
  expect(balance('Feed')).toBe((20 * 21) / 2 - (size.get(Number(left)) as number))
  expect(countWaiting(app.books).waiting).toBe(1)
  expect(await page('/books/sorting')).not.toContain('as you chose')
})
