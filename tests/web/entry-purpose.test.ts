// "What was it for?": one step, over the line and back, split, with the bank's line and receipts following.

import { randomUUID } from 'node:crypto'
import { afterEach, beforeEach, expect, test } from 'vitest'
import { day } from '#calendar/day.ts'
import { listAccounts } from '#db/ledger/account-store.ts'
import { balancesOn } from '#db/ledger/balances.ts'
import { sortingDesk } from '#db/statements/sorting-desk.ts'
import { sortLines } from '#db/statements/sorting-store.ts'
import { importStatement } from '#db/statements/statement-store.ts'
import { lastUndoable, undoChange } from '#db/undo.ts'
import { verifyBooks } from '#db/verify/verify.ts'
import { cents } from '#money/cents.ts'
import { statementFile } from '../db/statement-file.ts'
import { type TestApp, testApp } from './test-app.ts'

let app: TestApp
beforeEach(() => {
  app = testApp()
  app.openSides()
})
afterEach(() => {
  app.close()
})

const id = (name: string) => listAccounts(app.books).find((one) => one.name === name)!.id
const balance = (name: string) => balancesOn(app.books).get(id(name)) ?? 0
const act = () => ({ formId: randomUUID(), at: '2026-03-01T00:00:00.000Z', actor: 'test' })

/** A payment of 40.00 from the farm's account, read in and sorted to a farm account. */
const paid = (): number => {
  const line = { bankNumber: '1', day: day('2026-02-03'), amount: cents(-4000), payee: 'VALLEY STORE' }
  const file = statementFile([line])
  expect(importStatement(app.books, act(), id('Farm checking'), file, day('2026-03-15')).ok).toBe(true)
  const lineId = sortingDesk(app.books).lines[0]!.line.id
  const target = { kind: 'account', accountId: id('Feed'), enterpriseId: null } as const
  expect(sortLines(app.books, act(), [{ lineId, kind: 'target', target }]).ok).toBe(true)
  return app.books.sqlite.prepare('SELECT max(no) FROM entries').pluck().get() as number
}

const say = async (no: number, parts: readonly (readonly [name: string, amount: string])[]) => {
  const fields = Object.fromEntries(
    parts.flatMap(([name, amount], index) => [
      [`parts.${index}.account`, String(id(name))],
      [`parts.${index}.amount`, amount],
    ]),
  )
  const reply = await app.post(`/books/entries/${no}/for`, { formId: randomUUID(), ...fields })
  expect(reply.status).toBe(303)
  return Number(/entries\/(\d+)/.exec(reply.headers.get('location')!)![1])
}

const state = () => app.books.sqlite.prepare('SELECT state FROM statement_lines').pluck().get()
const sound = () => expect(verifyBooks(app.books.sqlite).findings).toEqual([])

test('to the other side, split over both, and back: the bank’s line stays sorted and each cent is where it belongs', async () => {
  let no = paid()
  no = await say(no, [['Groceries', '']])
  expect([balance('Feed'), balance('Groceries'), balance('Farm checking'), state()]).toEqual([
    0,
    4000,
    -4000,
    'posted',
  ])
  sound()
  no = await say(no, [
    ['Feed', '25%'],
    ['Groceries', ''],
  ])
  expect([balance('Feed'), balance('Groceries'), balance('Farm checking'), state()]).toEqual([
    1000,
    3000,
    -4000,
    'posted',
  ])
  no = await say(no, [['Supplies', '']])
  expect([balance('Feed'), balance('Groceries'), balance('Supplies'), balance('Farm checking')]).toEqual([
    0, 0, 4000, -4000,
  ])
  expect([state(), sortingDesk(app.books).waiting]).toEqual(['posted', 0])
  sound()
})

test('a correction over the line is reversed by one press, and the page opens in a state that can be sent', async () => {
  const no = paid()
  const page = await (await app.get(`/books/entries/${no}/for`)).text()
  expect(page).toContain('Booked so far as')
  expect(page).toMatch(new RegExp(`<option value="${id('Feed')}" selected`))
  await say(no, [['Groceries', '']])
  const last = lastUndoable(
    app.books,
    app.books.sqlite.prepare('SELECT actor FROM change_log ORDER BY id DESC').pluck().get() as string,
  )!
  expect(undoChange(app.books, act(), last.id, day('2026-03-15')).ok).toBe(true)
  expect([balance('Feed'), balance('Groceries'), balance('Farm checking'), state()]).toEqual([
    4000,
    0,
    -4000,
    'posted',
  ])
  sound()
})

test('parts that do not add up come back with what was typed; what moved no money is told where to go', async () => {
  const no = paid()
  const reply = await app.post(`/books/entries/${no}/for`, {
    formId: randomUUID(),
    'parts.0.account': String(id('Feed')),
    'parts.0.amount': '39.00',
  })
  expect(reply.status).toBe(422)
  const text = await reply.text()
  expect(text).toContain('The parts add up to $39.00, but the transaction is $40.00')
  expect(text).toContain('value="39.00"')
  expect((await app.get('/books/entries/999/for')).status).toBe(404)
})

test('named parts of more than the transaction leave no rest below zero: refused at the rest, saying by how much', async () => {
  const no = paid()
  const send = (...amounts: string[]) =>
    app.post(`/books/entries/${no}/for`, {
      formId: randomUUID(),
      ...Object.fromEntries(
        ['Feed', 'Supplies', 'Groceries'].flatMap((name, index) => [
          [`parts.${index}.account`, String(id(name))],
          [`parts.${index}.amount`, amounts[index]!],
        ]),
      ),
    })
  // 41.00 + 12.50 is 13.50 more than the 40.00 of the bill.
  const reply = await send('41.00', '12.50', '')
  expect(reply.status).toBe(422)
  const text = await reply.text()
  expect(text).toContain('The other parts are $13.50 more than the $40.00 of the transaction')
  expect(text).toContain('href="#f-parts.2.amount"')
  expect(text).toContain('value="41.00"')
  expect((await send('80%', '30%', '')).status).toBe(422)
  expect(balance('Groceries')).toBe(0)
  // A refund on the bill is typed so.
  expect((await send('41.00', '12.50', '-13.50')).status).toBe(303)
  expect([balance('Feed'), balance('Supplies'), balance('Groceries')]).toEqual([4100, 1250, -1350])
  sound()
})
