import fc from 'fast-check'
import { expect, test } from 'vitest'
import { lastDayOf } from '#calendar/day.ts'
import { month } from '#calendar/month.ts'
import { listAccounts } from '#db/ledger/account-store.ts'
import { balanceOn, balancesOn } from '#db/ledger/balances.ts'
import { registerPage } from '#db/ledger/register.ts'
import { verifyBooks } from '#db/verify/verify.ts'
import { assertFuzz, fuzzLimit } from '../fuzz/batches.ts'
import { anyCommand, anyCommandOrBulk, carryOut } from './commands.ts'
import { freshBooks, type TestBooks } from './fresh-books.ts'

/** Every row of an account's register by pages of 7, newest first. */
const wholeRegister = (books: TestBooks, accountId: number) => {
  const rows = []
  let key: { day: string; postingId: number } | null = null
  do {
    const page = registerPage(books, { accountId, limit: 7, ...(key ? { olderThan: key as never } : {}) })
    rows.push(...page.rows)
    key = page.older
  } while (key)
  return rows
}

test('any sequence of commands leaves every side at zero, every crossing with equal halves, every register true', {
  timeout: fuzzLimit(60_000),
}, async () => {
  await assertFuzz(
    fc.property(fc.array(anyCommandOrBulk, { minLength: 5, maxLength: 60 }), (commands) => {
      const books = freshBooks()
      const accounts = listAccounts(books)
      carryOut(books, accounts, commands)
      expect(verifyBooks(books.sqlite).findings).toEqual([])
      const all = listAccounts(books, { withArchived: true })
      const balances = balancesOn(books)
      for (const side of ['farm', 'household']) {
        const sum = all
          .filter((account) => account.sideId === side)
          .reduce((total, account) => total + (balances.get(account.id) ?? 0), 0)
        expect(sum).toBe(0)
      }
      for (const account of all.filter(({ id }) => balances.has(id)).slice(0, 8))
        checkRegister(books, account.id, balances.get(account.id)!)
      books.close()
    }),
    0.02,
    2000,
  )
})

const checkRegister = (books: TestBooks, accountId: number, balance: number) => {
  const raw = books.sqlite
    .prepare('SELECT id, amount_cents AS amount FROM postings WHERE account_id = ? ORDER BY day, id')
    .all(accountId) as { id: number; amount: number }[]
  let running = 0
  const expected = raw.map((row) => {
    running += row.amount
    return { postingId: row.id, balanceCents: running }
  })
  const rows = wholeRegister(books, accountId)
  expect(rows.map(({ postingId, balanceCents }) => ({ postingId, balanceCents })).reverse()).toEqual(expected)
  expect(running).toBe(balance)
  const filtered = registerPage(books, { accountId, filter: { text: 'someone' }, limit: 1000 }).rows
  for (const row of filtered)
    expect(row.balanceCents).toBe(expected.find((one) => one.postingId === row.postingId)!.balanceCents)
  const end = lastDayOf(month(2025, 1))
  const through = books.sqlite
    .prepare('SELECT coalesce(sum(amount_cents), 0) FROM postings WHERE account_id = ? AND day <= ?')
    .pluck()
    .get(accountId, end)
  expect(balanceOn(books, accountId, end)).toBe(through)
  expect(balancesOn(books, end).get(accountId) ?? 0).toBe(through)
}

// Of a closed month nothing is taken back, and in these samples months are closed early.
test('commands are accepted often enough for the property to mean something', () => {
  const books = freshBooks()
  const commands = fc.sample(anyCommand, { seed: 4610, numRuns: 400 })
  expect(carryOut(books, listAccounts(books), commands)).toBeGreaterThan(40)
})

test('bulk changes and undoing them are among what is accepted, and leave their entries tied together', () => {
  const books = freshBooks()
  const commands = fc
    .sample(anyCommandOrBulk, { seed: 77, numRuns: 500 })
    .filter((command) => command.do !== 'close')
  carryOut(books, listAccounts(books), commands)
  const count = (text: string) => books.sqlite.prepare(text).pluck().get() as number
  expect(count("SELECT count(*) FROM change_log WHERE kind = 'entries.changed'")).toBeGreaterThan(5)
  expect(
    count(`SELECT count(*) FROM change_log JOIN change_log AS undone ON undone.id = change_log.undoes_id
      WHERE undone.kind = 'entries.changed'`),
  ).toBeGreaterThan(0)
  // An entry is taken back at most once, and what stands in for it lies on the same side.
  expect(
    count(`SELECT count(*) FROM entries AS next JOIN entries AS first ON first.no = next.corrects_no
      WHERE next.side_id <> first.side_id OR NOT EXISTS (SELECT 1 FROM entries AS back WHERE back.reverses_no = first.no)`),
  ).toBe(0)
  expect(verifyBooks(books.sqlite).findings).toEqual([])
})

test('going back through pages shows the same rows as going on', () => {
  const books = freshBooks()
  carryOut(books, listAccounts(books), fc.sample(anyCommand, { seed: 7, numRuns: 300 }))
  const busiest = books.sqlite
    .prepare('SELECT account_id FROM postings GROUP BY 1 ORDER BY count(*) DESC LIMIT 1')
    .pluck()
    .get() as number
  const pages = []
  let page = registerPage(books, { accountId: busiest, limit: 3 })
  pages.push(page)
  while (page.older) {
    page = registerPage(books, { accountId: busiest, limit: 3, olderThan: page.older })
    pages.push(page)
  }
  expect(pages.length).toBeGreaterThan(2)
  for (let index = pages.length - 1; index > 0; index -= 1) {
    const newer = registerPage(books, { accountId: busiest, limit: 3, newerThan: pages[index]!.newer! })
    expect(newer.rows.map((row) => row.postingId)).toEqual(pages[index - 1]!.rows.map((row) => row.postingId))
  }
})
