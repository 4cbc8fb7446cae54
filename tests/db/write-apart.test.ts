// Long writing on a connection of its own: unseen until it is through, whole or not at all, and behind every other write.
import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterEach, beforeEach, expect, test } from 'vitest'
import { writeApart } from '#db/apart/write-apart.ts'
import { postEntry } from '#db/ledger/ledger-store.ts'
import { readingIn } from '#db/statements/statement-store.ts'
import { countWaiting } from '#db/statements/waiting-lines.ts'
import { verifyBooks } from '#db/verify/verify.ts'
import type { InTurns } from '#kept/in-turns.ts'
import { moneyOut } from '#ledger/simple-entry.ts'
import { cents } from '#money/cents.ts'
import { act, done, freshBooks, on, type TestBooks } from './fresh-books.ts'
import { statementFile } from './statement-file.ts'

let folder: string
let books: TestBooks
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'dooryard-apart-'))
  books = freshBooks(join(folder, 'books.sqlite'))
})
afterEach(() => {
  books.close()
  rmSync(folder, { recursive: true, force: true })
})

const count = 5000
const now = new Date('2026-01-15T12:00:00Z')
const lines = Array.from({ length: count }, (_, at) => ({
  bankNumber: `n${at}`,
  day: on(`2025-${String(1 + (at % 12)).padStart(2, '0')}-${String(1 + (at % 28)).padStart(2, '0')}`),
  amount: cents(-100 - at),
  payee: `SHOP ${at}`,
}))
const file = { ...statementFile(lines), columns: null }
const reading = (own: typeof books | Parameters<typeof readingIn>[0], form = act()) =>
  readingIn(own, form, books.account('household', 'Household checking').id, file, on('2026-01-15'))
const waiting = () => countWaiting(books).waiting
const spend = () => {
  const [from, to] = [books.account('farm', 'Farm checking').id, books.account('farm', 'Feed').id]
  const head = { id: '', sideId: 'farm', day: on('2026-01-10'), payee: 'MILL', memo: '' }
  done(postEntry(books, act(), moneyOut(head, from, [{ accountId: to, amountCents: cents(500) }])))
}

test('until all is read in nobody sees any of it; then all of it is there, and the chain holds', async () => {
  const seen: number[] = []
  const read = await writeApart(
    books,
    now,
    (own) => reading(own),
    async () => void seen.push(waiting()),
  )
  expect(read).toMatchObject({ ok: true, result: { newLines: count } })
  expect(seen.length).toBeGreaterThan(10)
  expect(new Set(seen)).toEqual(new Set([0]))
  expect(waiting()).toBe(count)
  expect(books.standing.problem()).toBeNull()
  expect(verifyBooks(books.sqlite).findings).toEqual([])
})

test('another write goes first and loses nothing, however often; what was under way begins anew and ends whole', async () => {
  let turns = 0
  let spent = 0
  const read = await writeApart(
    books,
    now,
    (own) => reading(own),
    async () => {
      turns += 1
      if (turns % 7 !== 0) return
      spend()
      spent += 1
    },
  )
  expect(read.ok).toBe(true)
  expect(spent).toBeGreaterThan(1)
  expect(waiting()).toBe(count)
  expect(books.sqlite.prepare("SELECT count(*) FROM entries WHERE payee = 'MILL'").pluck().get()).toBe(spent)
  expect(verifyBooks(books.sqlite).findings).toEqual([])
})

test('what breaks midway leaves nothing behind, and the next write finds no lock', async () => {
  const breaking = writeApart(
    books,
    now,
    function* (own): InTurns<void> {
      const work = reading(own)
      for (let step = 0; step < 8; step += 1) {
        expect(work.next().done).toBe(false)
        yield
      }
      throw new Error('the disk is full')
    },
    async () => {},
  )
  await expect(breaking).rejects.toThrow('the disk is full')
  spend()
  expect(waiting()).toBe(0)
  expect(verifyBooks(books.sqlite).findings).toEqual([])
})

test('the same form sent twice at once reads in once', async () => {
  const form = act()
  const both = await Promise.all(
    [1, 2].map(() =>
      writeApart(
        books,
        now,
        (own) => reading(own, form),
        async () => {},
      ),
    ),
  )
  expect(both.map((one) => one.ok && one.repeated)).toEqual([false, true])
  expect(waiting()).toBe(count)
})
