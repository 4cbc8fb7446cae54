// Plants one error of each kind in a file by raw SQL with the guards taken off; verify must find that error and no other file must alarm it.
import { describe, expect, test } from 'vitest'
import { month } from '#calendar/month.ts'
import { postCrossing } from '#db/ledger/crossing-store.ts'
import { postEntry, voidEntry } from '#db/ledger/ledger-store.ts'
import { savePlan } from '#db/plan-store.ts'
import { postOccurrence, startStanding } from '#db/transfers/standing-store.ts'
import { verifyBooks } from '#db/verify/verify.ts'
import { moneyOut } from '#ledger/simple-entry.ts'
import { cents } from '#money/cents.ts'
import { act, done, freshBooks, on, writeRows } from './fresh-books.ts'
import { pastTheGuards } from './past-the-guards.ts'

const fullBooks = () => {
  const books = freshBooks()
  const cash = books.account('farm', 'Farm checking').id
  const savings = books.account('household', 'Savings').id
  const buySeeds = (day: string) =>
    done(
      postEntry(
        books,
        act(),
        moneyOut({ id: '', sideId: 'farm', day: on(day), payee: 'Seed house', memo: 'spring' }, cash, [
          { accountId: books.account('farm', 'Seeds and plants').id, amountCents: cents(4500) },
        ]),
      ),
    )
  const first = buySeeds('2026-01-10')
  buySeeds('2026-02-10')
  done(voidEntry(books, act(), first.entryId, on('2026-01-12')))
  const standing = done(
    startStanding(books, act(), {
      name: 'Monthly draw',
      kind: 'draw',
      fromAccountId: cash,
      toAccountId: savings,
      amountCents: cents(50000),
      dayOfMonth: 5,
      firstMonth: month(2026, 1),
      lastMonth: null,
      posting: 'confirm',
      memo: '',
    }),
  )
  done(postOccurrence(books, act(), standing.standingId, month(2026, 1)))
  done(
    postCrossing(books, act(), {
      kind: 'contribution',
      day: on('2026-01-03'),
      amountCents: cents(300000),
      fromAccountId: savings,
      toAccountId: cash,
      memo: '',
    }),
  )
  for (const revision of [0, 1])
    savePlan(books, act(), {
      planId: 'p',
      basedOn: revision,
      name: 'Plan',
      schemaVersion: 1,
      document: { revision },
    })
  const posting = books.sqlite
    .prepare('SELECT id FROM postings WHERE account_id = ? ORDER BY id DESC')
    .pluck()
    .get(cash)
  writeRows(
    books,
    `
    INSERT INTO reconciliations (id, account_id, statement_day, statement_balance_cents, previous_balance_cents, started_at) VALUES ('r', ${cash}, '2026-01-31', 300000, 0, 'x');
    INSERT INTO reconciliation_ticks (posting_id, reconciliation_id) VALUES (${posting}, 'r');
    UPDATE reconciliations SET state = 'finished', finished_at = 'x' WHERE id = 'r';
    INSERT INTO statements (id, account_id, format, content_hash, imported_at) VALUES ('s', ${cash}, 'ofx', 'h', 'x');
    INSERT INTO statement_lines (statement_id, account_id, line_key, position, day, amount_cents, state, posting_id) VALUES ('s', ${cash}, 'k', 1, '2026-01-03', 300000, 'matched', ${posting});
    INSERT INTO month_closings (id, side_id, month, closed_at) VALUES ('c', 'household', ${month(2026, 1)}, '2026-02-01T00:00:00Z');`,
  )
  return books
}

test('verify finds nothing wrong with books made by the stores', () => {
  const report = verifyBooks(fullBooks().sqlite)
  expect(report.findings).toEqual([])
  expect(report.checked.find((row) => row.check === 'crossing-halves-equal')?.count).toBe(2)
})

/** Each planted by going around every guard; the check that must name it. Others may see its consequences too. */
const planted: [string, string, string][] = [
  [
    'entry-balances',
    'a posting with a changed amount',
    'UPDATE postings SET amount_cents = amount_cents + 1 WHERE id = 1',
  ],
  [
    'side-adds-up-to-zero',
    'a side that no longer adds up',
    'UPDATE postings SET amount_cents = amount_cents + 1 WHERE id = 1',
  ],
  ['entry-balances', 'an entry whose lines were taken away', 'DELETE FROM postings WHERE entry_no = 2'],
  ['entry-sealed', 'an entry that was never sealed', 'DELETE FROM sealed_entries WHERE entry_no = 2'],
  [
    'posting-on-its-side-and-day',
    'a posting on another day',
    "UPDATE postings SET day = '2026-01-11' WHERE id = 1",
  ],
  [
    'posting-on-its-side-and-day',
    'a posting in the other books',
    "UPDATE postings SET account_id = (SELECT id FROM accounts WHERE side_id = 'household' AND name = 'Groceries') WHERE id = 1",
  ],
  [
    'crossing-halves-equal',
    'a crossing with another amount',
    'UPDATE crossings SET amount_cents = amount_cents + 1',
  ],
  [
    'crossing-halves-equal',
    'a crossing without its second half',
    'UPDATE postings SET crossing_id = NULL WHERE id = (SELECT max(id) FROM postings WHERE crossing_id IS NOT NULL)',
  ],
  ['crossing-sealed', 'a crossing that was never sealed', 'DELETE FROM sealed_crossings'],
  [
    'only-crossings-on-crossing-accounts',
    'a draw without its crossing',
    'UPDATE postings SET crossing_id = NULL',
  ],
  [
    'sides-agree-about-each-other',
    'two sides that tell different draws',
    "UPDATE postings SET account_id = (SELECT id FROM accounts WHERE system_role = 'opening_balances' AND side_id = 'farm') WHERE account_id = (SELECT id FROM accounts WHERE crossing_role = 'draws' AND side_id = 'farm')",
  ],
  [
    'reversal-takes-back-exactly',
    'a reversal of another amount',
    'UPDATE postings SET amount_cents = amount_cents * 2 WHERE entry_no = 3',
  ],
  ['month-sums-recomputed', 'a month sum that is off', 'UPDATE account_months SET sum_cents = sum_cents + 1'],
  ['month-sums-recomputed', 'a month sum that is missing', 'DELETE FROM account_months'],
  [
    'year-sums-recomputed',
    'a year sum for nothing',
    'INSERT INTO account_years SELECT id, 2001, 5, 1 FROM accounts LIMIT 1',
  ],
  [
    'nothing-posted-into-closed-months',
    'an entry slipped into a closed month',
    "UPDATE entries SET posted_at = '2026-03-01T00:00:00Z' WHERE side_id = 'household'",
  ],
  [
    'stand-ins-are-for-what-was-taken-back',
    'a correction of what still stands',
    'UPDATE entries SET corrects_no = 2 WHERE no = (SELECT max(no) FROM entries)',
  ],
  [
    'search-knows-every-entry',
    'an entry the search lost',
    "INSERT INTO entries (id, side_id, day, source, posted_at) VALUES ('lost', 'farm', '2026-01-01', 'form', 'x')",
  ],
  [
    'standing-posted-as-agreed',
    'a standing transfer posted with another amount',
    'UPDATE standing_transfers SET amount_cents = 1',
  ],
  [
    'statement-lines-are-postings',
    'a statement line tied to another amount',
    'UPDATE statement_lines SET amount_cents = 5',
  ],
  [
    'reconciliations-agree',
    'a reconciliation whose ticks do not lead to its balance',
    'DELETE FROM reconciliation_ticks',
  ],
  [
    'reconciliations-follow-each-other',
    'a reconciliation that starts from nowhere',
    'UPDATE reconciliations SET previous_balance_cents = 7',
  ],
  [
    'plan-revisions-in-a-row',
    'a plan revision that is gone',
    'DELETE FROM plan_revisions WHERE revision_no = 1',
  ],
  [
    'kept-to-breed-is-young',
    'a grown head marked as young that is kept to breed',
    "INSERT INTO head_tallies (id, day, herd_id, kind, head_class, count, recorded_at, kept_to_breed) VALUES ('k', '2026-01-01', 'ewes', 'counted', 'females', 3, 'x', 1)",
  ],
  [
    'kept-to-breed-is-young',
    'a mark that is neither yes nor no',
    "INSERT INTO head_tallies (id, day, herd_id, kind, head_class, count, recorded_at, kept_to_breed) VALUES ('k', '2026-01-01', 'ewes', 'counted', 'young', 3, 'x', 7)",
  ],
  ['change-log-in-a-row', 'a change struck from the log', 'DELETE FROM change_log WHERE id = 3'],
  [
    'submissions-known',
    'an acknowledged entry that is not there',
    "INSERT INTO submissions (id, kind, body_digest, result, at) VALUES ('gone', 'entry.post', 'd', 'null', 'x')",
  ],
  ['parents', 'a row without its parent', 'UPDATE postings SET account_id = 9999 WHERE id = 1'],
  ['pages', 'an amount that is not whole cents', 'UPDATE postings SET amount_cents = 0 WHERE id = 1'],
  ['structure', 'a guard that was taken away', 'DROP TRIGGER postings_update'],
]

describe('verify finds a planted error', () => {
  test.for(planted)('%s: %s', ([check, , statement]) => {
    const books = fullBooks()
    pastTheGuards(books.sqlite, statement)
    expect(verifyBooks(books.sqlite).findings.map((finding) => finding.check)).toContain(check)
  })
})

test('verify names an attachment that is missing or changed', () => {
  const books = fullBooks()
  const hash = 'a'.repeat(64)
  writeRows(
    books,
    `INSERT INTO attachments (id, entry_no, content_hash, file_name, media_type, byte_count, added_at) VALUES ('a', 1, '${hash}', 'r.pdf', 'application/pdf', 5, 'x')`,
  )
  const found = (read: string | null) =>
    verifyBooks(books.sqlite, () => read).findings.map((finding) => finding.message)
  expect(found(hash)).toEqual([])
  expect(found(null)[0]).toContain('missing')
  expect(found('b'.repeat(64))[0]).toContain('changed')
})
