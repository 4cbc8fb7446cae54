import { expect, test } from 'vitest'
import { changesSince } from '#db/change-log.ts'
import { correctEntry, postEntry, voidEntry } from '#db/ledger/ledger-store.ts'
import { changedSince } from '#db/reconcile/changed-since.ts'
import { findReconciliation, reconcileLines, reconciliationState } from '#db/reconcile/reconcile-reader.ts'
import {
  changeReconciliation,
  changeTicks,
  finishReconciliation,
  startReconciliation,
} from '#db/reconcile/reconcile-store.ts'
import { verifyBooks } from '#db/verify/verify.ts'
import { moneyOut } from '#ledger/simple-entry.ts'
import { cents } from '#money/cents.ts'
import { act, done, freshBooks, on, type TestBooks } from './fresh-books.ts'

const checkingOf = (books: TestBooks) => books.account('farm', 'Farm checking').id

const outOf = (books: TestBooks, day: string, amount: number) =>
  moneyOut({ id: '', sideId: 'farm', day: on(day), payee: 'Country store', memo: '' }, checkingOf(books), [
    { accountId: books.account('farm', 'Supplies').id, amountCents: cents(amount) },
  ])

const spend = (books: TestBooks, day: string, amount: number) =>
  done(postEntry(books, act(), outOf(books, day, amount)))

const start = (books: TestBooks, statementDay: string, balance: number) =>
  done(
    startReconciliation(books, act(), {
      accountId: checkingOf(books),
      statementDay: on(statementDay),
      statementBalanceCents: cents(balance),
    }),
  ).reconciliationId

const tickAll = (books: TestBooks, id: string) =>
  done(changeTicks(books, id, { tick: reconcileLines(books, id).map((line) => line.postingId), untick: [] }))

const seenOf = (books: TestBooks, id: string) => {
  const { statementDay, statementBalanceCents, note } = findReconciliation(books, id)!
  return { statementDay, statementBalanceCents, note }
}

test('a mistyped balance is put right, the ticks stay, and the log has both', () => {
  const books = freshBooks()
  spend(books, '2026-01-05', 1000)
  const id = start(books, '2026-01-31', -100)
  tickAll(books, id)
  const seen = seenOf(books, id)
  const right = { ...seen, seen, statementBalanceCents: cents(-1000) }
  const form = act()
  expect(done(changeReconciliation(books, form, id, right))).toEqual({ ticksTakenAway: 0 })
  expect(changeReconciliation(books, form, id, right)).toMatchObject({ ok: true, repeated: true })
  expect(reconciliationState(books, id)).toMatchObject({ tickedCents: -1000, differenceCents: 0 })
  const change = changesSince(books, 0).find((one) => one.kind === 'reconciliation.changed')
  expect(change).toMatchObject({
    subject: id,
    details: { before: { statementBalanceCents: -100 }, after: { statementBalanceCents: -1000 } },
  })
  done(finishReconciliation(books, act(), id))
  expect(changeReconciliation(books, act(), id, right)).toMatchObject({ ok: false, kind: 'refused' })
})

test('an earlier last day takes the ticks after it away, a later one brings more lines to check', () => {
  const books = freshBooks()
  for (const [day, amount] of [
    ['2026-01-05', 1000],
    ['2026-01-30', 400],
    ['2026-02-03', 70],
  ] as const)
    spend(books, day, amount)
  const id = start(books, '2026-01-31', -1000)
  tickAll(books, id)
  const moved = (day: string) => {
    const seen = seenOf(books, id)
    return done(changeReconciliation(books, act(), id, { ...seen, seen, statementDay: on(day) }))
  }
  expect(moved('2026-01-15')).toEqual({ ticksTakenAway: 1 })
  expect(reconcileLines(books, id).map((line) => [line.amountCents, line.ticked])).toEqual([[-1000, true]])
  expect(moved('2026-02-28')).toEqual({ ticksTakenAway: 0 })
  expect(reconcileLines(books, id).map((line) => [line.amountCents, line.ticked])).toEqual([
    [-1000, true],
    [-400, false],
    [-70, false],
  ])
  expect(verifyBooks(books.sqlite).findings).toEqual([])
})

/** A line of a bank's file that stands for the entry's line in the checking account, on a day of its own. */
const nameByBank = (books: TestBooks, entryNo: number, day: string) => {
  const accountId = checkingOf(books)
  books.sqlite
    .prepare(
      `INSERT OR IGNORE INTO statements (id, account_id, format, content_hash, imported_at) VALUES ('s', ?, 'ofx', 'h', '2026-03-01T00:00:00.000Z')`,
    )
    .run(accountId)
  books.sqlite
    .prepare(
      `INSERT INTO statement_lines (statement_id, account_id, line_key, position, day, amount_cents, state, posting_id)
       SELECT 's', account_id, 'key ' || id, id, ?, amount_cents, 'posted', id FROM postings WHERE entry_no = ? AND account_id = ?`,
    )
    .run(day, entryNo, accountId)
}

test('a later last day ticks what the bank named in the days that came to it, and not what was unticked before', () => {
  const books = freshBooks()
  nameByBank(books, spend(books, '2026-01-05', 1000).entryNo, '2026-01-06')
  nameByBank(books, spend(books, '2026-02-03', 70).entryNo, '2026-02-04')
  // Dated after the last day in the books, before it by the bank: an earlier last day leaves its tick.
  nameByBank(books, spend(books, '2026-01-28', 400).entryNo, '2026-01-27')
  const mistake = spend(books, '2026-02-10', 55)
  done(voidEntry(books, act(), mistake.entryId, on('2026-02-10')))
  const id = start(books, '2026-01-31', -1000)
  const [first] = reconcileLines(books, id)
  done(changeTicks(books, id, { tick: [], untick: [first!.postingId] }))
  const moved = (day: string) => {
    const seen = seenOf(books, id)
    done(changeReconciliation(books, act(), id, { ...seen, seen, statementDay: on(day) }))
    return reconcileLines(books, id).map((line) => [line.amountCents, line.ticked])
  }
  expect(moved('2026-01-27')).toEqual([
    [-1000, false],
    [-400, true],
  ])
  expect(moved('2026-02-28')).toEqual([
    [-1000, false],
    [-400, true],
    [-70, true],
    [-55, true],
    [55, true],
  ])
})

test('what was changed on another device meanwhile is a conflict, and a day that is reconciled already a mistake', () => {
  const books = freshBooks()
  spend(books, '2026-01-05', 1000)
  const first = start(books, '2026-01-31', -1000)
  tickAll(books, first)
  done(finishReconciliation(books, act(), first))
  const id = start(books, '2026-02-28', -900)
  const seen = seenOf(books, id)
  done(changeReconciliation(books, act(), id, { ...seen, seen, note: 'blue folder' }))
  expect(
    changeReconciliation(books, act(), id, { ...seen, seen, statementBalanceCents: cents(-1) }),
  ).toMatchObject({ ok: false, kind: 'conflict' })
  expect(seenOf(books, id)).toMatchObject({ note: 'blue folder', statementBalanceCents: -900 })
  const now = seenOf(books, id)
  expect(
    changeReconciliation(books, act(), id, { ...now, seen: now, statementDay: on('2026-01-31') }),
  ).toMatchObject({
    ok: false,
    problems: [
      {
        path: 'statementDay',
        message: 'This account is reconciled through Jan 31, 2026. Enter a later statement',
      },
    ],
  })
})

test('an entry reversed before its statement came is checked with what reverses it: no one looks for it', () => {
  const books = freshBooks()
  const mistake = spend(books, '2026-01-05', 1000)
  spend(books, '2026-01-06', 300)
  done(voidEntry(books, act(), mistake.entryId, on('2026-01-20')))
  const id = start(books, '2026-01-31', -300)
  expect(reconcileLines(books, id).map((line) => [line.amountCents, line.ticked])).toEqual([
    [-1000, true],
    [1000, true],
    [-300, false],
  ])
  expect(reconciliationState(books, id)).toMatchObject({ tickedCents: 0, differenceCents: -300 })
})

test('a reconciled amount that is corrected later is left to a person, as the difference it makes', () => {
  const books = freshBooks()
  const { entryId } = spend(books, '2026-01-05', 1000)
  const first = start(books, '2026-01-31', -1000)
  tickAll(books, first)
  done(finishReconciliation(books, act(), first))
  done(correctEntry(books, act(), entryId, outOf(books, '2026-01-05', 1010)))
  const id = start(books, '2026-02-28', -1010)
  expect(reconcileLines(books, id).map((line) => [line.amountCents, line.ticked])).toEqual([
    [1000, false],
    [-1010, false],
  ])
})

test('a correction of a line checked on an open statement keeps its check while the amount stays', () => {
  const books = freshBooks()
  const { entryId } = spend(books, '2026-01-05', 1000)
  const id = start(books, '2026-01-31', -1000)
  tickAll(books, id)
  const again = done(correctEntry(books, act(), entryId, outOf(books, '2026-01-07', 1000)))
  expect(reconciliationState(books, id)!.differenceCents).toBe(0)
  done(correctEntry(books, act(), again.entryId, outOf(books, '2026-01-07', 1100)))
  expect(reconciliationState(books, id)!.differenceCents).toBe(-1000)
  expect(reconcileLines(books, id).filter((line) => !line.ticked)).toMatchObject([{ amountCents: -1100 }])
})

test('a finished statement is held against what came into its days since, until a later statement has it', () => {
  const books = freshBooks()
  const { entryId } = spend(books, '2026-01-05', 1000)
  spend(books, '2026-01-20', 300)
  const january = start(books, '2026-01-31', -1000)
  done(changeTicks(books, january, { tick: [reconcileLines(books, january)[0]!.postingId], untick: [] }))
  done(finishReconciliation(books, act(), january))
  const later = () => ({ ...act(), at: '2026-02-10T12:00:00.000Z' })
  const changed = () => {
    const found = changedSince(books, findReconciliation(books, january)!)
    return found && [found.cents as number, found.lines.map((line) => line.amountCents as number)]
  }
  // The 300 was not on the statement and is no change; neither is what comes after the statement's last day.
  done(postEntry(books, later(), outOf(books, '2026-02-01', 77)))
  expect(changed()).toBeNull()
  // The same amount again: the statement still meets. Another amount: by so much it does not.
  const same = done(correctEntry(books, later(), entryId, outOf(books, '2026-01-06', 1000)))
  expect(changed()).toBeNull()
  const more = done(correctEntry(books, later(), same.entryId, outOf(books, '2026-01-06', 1010)))
  expect(changed()).toEqual([-10, [1000, -1010]])
  // A slip that is taken back at a later day cancels out.
  const slip = done(postEntry(books, later(), outOf(books, '2026-01-12', 5)))
  expect(changed()).toEqual([-15, [1000, -1010, -5]])
  done(voidEntry(books, later(), slip.entryId, on('2026-02-10')))
  expect(changed()).toEqual([-10, [1000, -1010]])
  // A later statement that has them settles it: −1,000 + 1,000 − 1,010.
  const february = start(books, '2026-02-28', -1010)
  const lines = reconcileLines(books, february).filter((line) => [1000, -1010].includes(line.amountCents))
  done(changeTicks(books, february, { tick: lines.map((line) => line.postingId), untick: [] }))
  expect(changed()).toEqual([-10, [1000, -1010]])
  done(finishReconciliation(books, later(), february))
  expect(changed()).toBeNull()
  done(voidEntry(books, { ...later(), at: '2026-03-01T12:00:00.000Z' }, more.entryId, on('2026-01-06')))
  expect(changed()).toEqual([1010, [1010]])
})

test('the debt a card was opened with is settled by its first statement; one opened after its last day is not', () => {
  const books = freshBooks()
  const card = books.account('household', 'Household card').id
  const opening = books.account('household', 'Opening balances').id
  const groceries = books.account('household', 'Groceries').id
  const post = (on_: string, amount: number, other: number, source: 'opening' | 'form') =>
    done(
      postEntry(books, act(), {
        sideId: 'household',
        day: on(on_),
        payee: '',
        memo: '',
        source,
        lines: [
          { accountId: card, amountCents: cents(-amount) },
          { accountId: other, amountCents: cents(amount) },
        ],
      }),
    )
  post('2026-01-01', 64_000, opening, 'opening')
  post('2026-01-09', 2500, groceries, 'form')
  const begin = (statementDay: string, owed: number) =>
    done(
      startReconciliation(books, act(), {
        accountId: card,
        statementDay: on(statementDay),
        statementBalanceCents: cents(-owed),
      }),
    ).reconciliationId
  const first = begin('2026-01-31', 66_500)
  expect(reconcileLines(books, first).map(({ ticked }) => ticked)).toEqual([true, false])
  // 665.00 owed less the 640.00 it began with: what is left to find is the purchase alone.
  expect(reconciliationState(books, first)!.differenceCents).toBe(-2500)
  tickAll(books, first)
  done(finishReconciliation(books, act(), first))
  // Afterwards nothing is taken as settled: what was opened later is looked at.
  post('2026-02-03', 100, opening, 'opening')
  const second = begin('2026-02-28', 66_600)
  expect(reconcileLines(books, second).map(({ ticked }) => ticked)).toEqual([false])
})

test('what a reconciled entry of a closed month was for is put right at a later day: nothing of it is open on the next statement', () => {
  for (const isNamed of [true, false]) {
    const books = freshBooks()
    const feed = spend(books, '2026-01-05', 1000)
    if (isNamed) nameByBank(books, feed.entryNo, '2026-01-06')
    const january = start(books, '2026-01-31', -1000)
    tickAll(books, january)
    done(finishReconciliation(books, act(), january))
    // Of a closed month it is dated on the day it is found, after the next statement's last day.
    done(correctEntry(books, act(), feed.entryId, outOf(books, '2026-03-10', 1000)))
    spend(books, '2026-02-10', 70)
    const february = start(books, '2026-02-28', -1070)
    const open = () => reconcileLines(books, february).filter(({ ticked }) => !ticked)
    expect(open().map(({ amountCents }) => amountCents)).toEqual([-70])
    tickAll(books, february)
    expect(reconciliationState(books, february)!.differenceCents).toBe(0)
    done(finishReconciliation(books, act(), february))
    expect(verifyBooks(books.sqlite).findings).toEqual([])
  }
})
