// Goes around the code with raw SQL: the file itself must refuse what a bookkeeper would not accept.
import { expect, test } from 'vitest'
import { month } from '#calendar/month.ts'
import { postCrossing } from '#db/ledger/crossing-store.ts'
import { postEntry, voidEntry } from '#db/ledger/ledger-store.ts'
import { moneyOut } from '#ledger/simple-entry.ts'
import { cents } from '#money/cents.ts'
import { act, done, freshBooks, on, type TestBooks } from './fresh-books.ts'

const withEntry = () => {
  const books = freshBooks()
  const cash = books.account('farm', 'Farm checking').id
  const seeds = books.account('farm', 'Seeds and plants').id
  const posted = done(
    postEntry(
      books,
      act(),
      moneyOut({ id: '', sideId: 'farm', day: on('2026-01-10'), payee: 'Seed house', memo: '' }, cash, [
        { accountId: seeds, amountCents: cents(4500) },
      ]),
    ),
  )
  return { books, cash, seeds, ...posted }
}

const refused = (books: TestBooks, ...statements: string[]) => {
  const run = books.sqlite.transaction(() => {
    for (const statement of statements) books.sqlite.exec(statement)
  })
  try {
    run()
  } catch (error) {
    return (error as { code: string }).code
  }
  return 'accepted'
}

const entryRow = (no: number, day = '2026-01-11', extra = '') =>
  `INSERT INTO entries (no, id, side_id, day, source, posted_at${extra ? ', reverses_no' : ''}) VALUES (${no}, 'raw-${no}', 'farm', '${day}', 'form', '2026-01-11T00:00:00Z'${extra})`
const postingRow = (no: number, line: number, account: number, amount: number | string, day = '2026-01-11') =>
  `INSERT INTO postings (entry_no, line_no, account_id, day, amount_cents) VALUES (${no}, ${line}, ${account}, '${day}', ${amount})`
const seal = (no: number) => `INSERT INTO sealed_entries VALUES (${no})`

test('raw SQL can post a balanced entry, so the refusals below are for their own reasons', () => {
  const { books, cash, seeds } = withEntry()
  expect(refused(books, entryRow(9), postingRow(9, 1, cash, -5), postingRow(9, 2, seeds, 5), seal(9))).toBe(
    'accepted',
  )
})

test('an entry that does not balance, has one line, or was never sealed cannot be committed', () => {
  const { books, cash, seeds } = withEntry()
  const trigger = 'SQLITE_CONSTRAINT_TRIGGER'
  expect(refused(books, entryRow(9), postingRow(9, 1, cash, -5), postingRow(9, 2, seeds, 4), seal(9))).toBe(
    trigger,
  )
  expect(refused(books, entryRow(9), postingRow(9, 1, cash, -5), seal(9))).toBe(trigger)
  expect(refused(books, entryRow(9), seal(9))).toBe(trigger)
  expect(refused(books, entryRow(9), postingRow(9, 1, cash, -5), postingRow(9, 2, seeds, 4))).toBe(
    'SQLITE_CONSTRAINT_FOREIGNKEY',
  )
  expect(books.sqlite.prepare('SELECT count(*) FROM entries').pluck().get()).toBe(1)
})

test('an entry keeps to its own side and day, in whole cents that are not zero', () => {
  const { books, cash } = withEntry()
  const groceries = books.account('household', 'Groceries').id
  const line = (sql: string) => refused(books, entryRow(9), sql)
  expect(line(postingRow(9, 1, groceries, 5))).toBe('SQLITE_CONSTRAINT_TRIGGER')
  expect(line(postingRow(9, 1, cash, 5, '2026-01-12'))).toBe('SQLITE_CONSTRAINT_TRIGGER')
  expect(line(postingRow(9, 1, cash, 0))).toBe('SQLITE_CONSTRAINT_CHECK')
  expect(line(postingRow(9, 1, cash, 1.5))).toMatch(/DATATYPE|CHECK/)
  expect(line(postingRow(9, 1, cash, "'abc'"))).toMatch(/DATATYPE|CHECK/)
  expect(line(postingRow(9, 1, cash, 2_000_000_000_000))).toBe('SQLITE_CONSTRAINT_CHECK')
  expect(refused(books, entryRow(9, '2026-02-30'))).toBe('SQLITE_CONSTRAINT_CHECK')
  expect(refused(books, entryRow(9, '2026-1-3'))).toBe('SQLITE_CONSTRAINT_CHECK')
})

test.for([
  'UPDATE entries SET memo = 1',
  'DELETE FROM entries',
  'UPDATE postings SET amount_cents = amount_cents * 2',
  'DELETE FROM postings',
  'DELETE FROM sealed_entries',
  "UPDATE change_log SET at = 'x'",
  'DELETE FROM change_log',
  'DELETE FROM submissions',
  'UPDATE accounts SET side_id = side_id || 1',
  "UPDATE accounts SET kind = 'income' WHERE name = 'Farm checking'",
  'INSERT OR REPLACE INTO entries SELECT * FROM entries',
  'INSERT OR REPLACE INTO postings SELECT * FROM postings',
  'INSERT OR REPLACE INTO change_log SELECT * FROM change_log',
  'INSERT INTO postings (entry_no, line_no, account_id, day, amount_cents) SELECT entry_no, line_no + 2, account_id, day, amount_cents FROM postings',
])('what was posted or logged is never rewritten: %s', (statement) => {
  const { books } = withEntry()
  expect(refused(books, statement)).toBe('SQLITE_CONSTRAINT_TRIGGER')
})

test('a reversal that reverses anything else than the first entry is refused', () => {
  const { books, cash, seeds, entryNo } = withEntry()
  const reversal = (amount: number) => [
    entryRow(9, '2026-01-11', `, ${entryNo}`),
    postingRow(9, 1, cash, amount),
    postingRow(9, 2, seeds, -amount),
    seal(9),
  ]
  expect(refused(books, ...reversal(4400))).toBe('SQLITE_CONSTRAINT_TRIGGER')
  expect(refused(books, ...reversal(4500))).toBe('accepted')
})

test('a crossing with unequal halves, one half, or no half cannot be committed', () => {
  const { books, cash } = withEntry()
  done(
    postCrossing(books, act('d'), {
      kind: 'draw',
      day: on('2026-01-11'),
      amountCents: cents(100),
      fromAccountId: cash,
      toAccountId: books.account('household', 'Savings').id,
      memo: '',
    }),
  )
  const draws = books.account('farm', "Owner's draws to The house").id
  const crossing = `INSERT INTO crossings (id, kind, day, amount_cents, from_side_id, to_side_id, posted_at) VALUES ('raw', 'draw', '2026-01-11', 50, 'farm', 'household', 'x')`
  const half = `INSERT INTO postings (entry_no, line_no, account_id, day, amount_cents, crossing_id) VALUES (9, 1, ${draws}, '2026-01-11', 50, 'raw')`
  const sealed = `INSERT INTO sealed_crossings VALUES ('raw')`
  expect(refused(books, crossing)).toBe('SQLITE_CONSTRAINT_FOREIGNKEY')
  expect(refused(books, crossing, sealed)).toBe('SQLITE_CONSTRAINT_TRIGGER')
  expect(refused(books, crossing, entryRow(9), half, postingRow(9, 2, cash, -50), seal(9), sealed)).toBe(
    'SQLITE_CONSTRAINT_TRIGGER',
  )
  expect(refused(books, entryRow(9), postingRow(9, 1, draws, 50))).toBe('SQLITE_CONSTRAINT_TRIGGER')
  expect(refused(books, entryRow(9), half.replace("'raw'", "'d'"))).toBe('SQLITE_CONSTRAINT_TRIGGER')
  expect(refused(books, 'UPDATE crossings SET amount_cents = 1')).toBe('SQLITE_CONSTRAINT_TRIGGER')
  expect(refused(books, 'DELETE FROM crossings')).toBe('SQLITE_CONSTRAINT_TRIGGER')
})

test('a closed month takes no entry by any way in, nor does any month before it', () => {
  const { books, cash, seeds, entryId } = withEntry()
  books.sqlite.exec(
    `INSERT INTO month_closings (id, side_id, month, closed_at) VALUES ('c', 'farm', ${month(2026, 2)}, '2026-03-01T00:00:00Z')`,
  )
  const into = (day: string) =>
    refused(
      books,
      entryRow(9, day),
      postingRow(9, 1, cash, -5, day),
      postingRow(9, 2, seeds, 5, day),
      seal(9),
    )
  expect(into('2026-02-28')).toBe('SQLITE_CONSTRAINT_TRIGGER')
  expect(into('2025-12-31')).toBe('SQLITE_CONSTRAINT_TRIGGER')
  expect(into('2026-03-01')).toBe('accepted')
  expect(refused(books, 'DELETE FROM month_closings')).toBe('SQLITE_CONSTRAINT_TRIGGER')
  expect(refused(books, 'UPDATE month_closings SET month = month - 5')).toBe('SQLITE_CONSTRAINT_TRIGGER')
  expect(voidEntry(books, act(), entryId, on('2026-02-20'))).toMatchObject({
    ok: false,
    problems: [{ path: 'day' }],
  })
  expect(voidEntry(books, act(), entryId, on('2026-03-02'))).toMatchObject({ ok: true })
})

test('a statement line stands only for a posting of its account and amount, and what the bank said stays', () => {
  const { books, cash } = withEntry()
  books.sqlite.exec(
    `INSERT INTO statements (id, account_id, format, content_hash, imported_at) VALUES ('s', ${cash}, 'ofx', 'h', 'x')`,
  )
  const posting = books.sqlite.prepare('SELECT id FROM postings WHERE account_id = ?').pluck().get(cash)
  const line = (amount: number) =>
    `INSERT INTO statement_lines (statement_id, account_id, line_key, position, day, amount_cents, state, posting_id)
     VALUES ('s', ${cash}, 'k', 1, '2026-01-10', ${amount}, 'matched', ${posting})`
  expect(refused(books, line(-4400))).toBe('SQLITE_CONSTRAINT_TRIGGER')
  expect(refused(books, line(-4500))).toBe('accepted')
  expect(refused(books, line(-4500).replace("'k'", "'k2'"))).toBe('SQLITE_CONSTRAINT_UNIQUE')
  expect(refused(books, 'UPDATE statement_lines SET amount_cents = -1')).toBe('SQLITE_CONSTRAINT_TRIGGER')
})
