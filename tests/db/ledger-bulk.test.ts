import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { expect, test } from 'vitest'
import { month } from '#calendar/month.ts'
import { changesSince } from '#db/change-log.ts'
import { changeAccount } from '#db/ledger/account-change.ts'
import { addAttachment, attachmentsOf } from '#db/ledger/attachment-store.ts'
import { balancesOn } from '#db/ledger/balances.ts'
import { postCrossing } from '#db/ledger/crossing-store.ts'
import { entryByNo } from '#db/ledger/entry-reader.ts'
import { changeEntries, mostLinesAtOnce, planChange } from '#db/ledger/ledger-bulk.ts'
import { correctEntry, postEntry, voidEntry } from '#db/ledger/ledger-store.ts'
import { registerPage } from '#db/ledger/register.ts'
import { closeMonth } from '#db/reconcile/closing-store.ts'
import { reconcileLines, reconciliationState } from '#db/reconcile/reconcile-reader.ts'
import { changeTicks, finishReconciliation, startReconciliation } from '#db/reconcile/reconcile-store.ts'
import { lastUndoable, undoChange } from '#db/undo.ts'
import { verifyBooks } from '#db/verify/verify.ts'
import type { BulkChange } from '#ledger/bulk-change.ts'
import { moneyOut } from '#ledger/simple-entry.ts'
import { cents } from '#money/cents.ts'
import { act, done, freshBooks, on, type TestBooks } from './fresh-books.ts'

const checkingOf = (books: TestBooks) => books.account('farm', 'Farm checking').id
const accountOf = (books: TestBooks, name: string) => books.account('farm', name).id

const spend = (books: TestBooks, day: string, amount: number, what = 'Supplies', payee = 'HOLLOW 0342') =>
  done(
    postEntry(
      books,
      act(),
      moneyOut({ id: '', sideId: 'farm', day: on(day), payee, memo: '' }, checkingOf(books), [
        { accountId: accountOf(books, what), amountCents: cents(amount) },
      ]),
    ),
  )

/** Lines of the checking account that still stand, newest first. */
const standing = (books: TestBooks) =>
  registerPage(books, { accountId: checkingOf(books), filter: { withoutTakenBack: true }, limit: 500 }).rows

const asking = (books: TestBooks, over: Partial<BulkChange>, postingIds?: number[]) => ({
  accountId: checkingOf(books),
  postingIds: postingIds ?? standing(books).map((row) => row.postingId),
  change: {
    lines: 'others' as const,
    accountId: null,
    enterpriseId: null,
    payee: null,
    memo: null,
    ...over,
  },
})

const sumOf = (books: TestBooks, name: string) => balancesOn(books).get(accountOf(books, name)) ?? 0

const expectSound = (books: TestBooks) => expect(verifyBooks(books.sqlite).findings).toEqual([])

test('several entries go to another account in one act, each on its own day, and the register says so', () => {
  const books = freshBooks()
  for (const [day, amount] of [
    ['2026-01-05', 1000],
    ['2026-01-20', 2500],
  ] as const)
    spend(books, day, amount)
  const { entryNos } = done(
    changeEntries(books, act(), asking(books, { accountId: accountOf(books, 'Feed'), payee: 'Hollow Feed' })),
  )
  expect(entryNos).toHaveLength(2)
  expect(sumOf(books, 'Supplies')).toBe(0)
  expect(sumOf(books, 'Feed')).toBe(3500)
  expect(sumOf(books, 'Farm checking')).toBe(-3500)
  expect(standing(books).map(({ day, payee, amountCents }) => [day, payee, amountCents])).toEqual([
    ['2026-01-20', 'Hollow Feed', -2500],
    ['2026-01-05', 'Hollow Feed', -1000],
  ])
  expect(entryByNo(books, entryNos[0]!)?.correctsNo).toBe(1)
  expectSound(books)
})

test('sent twice it books once, and another body under its id is a conflict', () => {
  const books = freshBooks()
  spend(books, '2026-01-05', 1000)
  const request = asking(books, { accountId: accountOf(books, 'Feed') })
  const first = changeEntries(books, act('form-a'), request)
  const again = changeEntries(books, act('form-a'), request)
  expect(again).toEqual({ ...first, repeated: true })
  expect(
    changeEntries(books, act('form-a'), asking(books, { accountId: accountOf(books, 'Fuel and oil') })),
  ).toMatchObject({ ok: false, kind: 'conflict' })
  expect(registerPage(books, { accountId: checkingOf(books) }).rows).toHaveLength(3)
})

test('what cannot be changed is named before, and when one of them cannot after all, nothing is booked', () => {
  const books = freshBooks()
  spend(books, '2026-01-05', 1000)
  const late = spend(books, '2026-02-05', 700)
  const request = asking(books, { accountId: accountOf(books, 'Feed') })
  const looked = planChange(books, request)
  expect(looked.ok && looked.planned.map(({ fate }) => fate.ok)).toEqual([true, true])
  done(voidEntry(books, act(), late.entryId, on('2026-02-05')))
  const before = balancesOn(books)
  const refused = changeEntries(books, act(), request)
  expect(refused).toMatchObject({ ok: false, kind: 'conflict' })
  expect(refused.ok ? '' : refused.problems[0]!.message).toContain(`entry ${late.entryNo} must stay`)
  expect(balancesOn(books)).toEqual(before)
  const again = planChange(books, request)
  expect(again.ok && again.planned.map(({ entry, fate }) => [entry.no, fate.ok])).toEqual([
    [late.entryNo, false],
    [1, true],
  ])
})

test('a closed month, a crossing and what is reconciled in the account it would leave stay as they are', () => {
  const books = freshBooks()
  spend(books, '2025-12-05', 300)
  done(closeMonth(books, act(), { sideId: 'farm', month: month(2025, 12), note: '' }, on('2026-01-15')))
  const crossing = { kind: 'draw' as const, day: on('2026-01-08'), amountCents: cents(5000), memo: '' }
  const toAccountId = books.account('household', 'Savings').id
  done(postCrossing(books, act(), { ...crossing, fromAccountId: checkingOf(books), toAccountId }))
  spend(books, '2026-01-20', 900)
  const { reconciliationId } = done(
    startReconciliation(books, act(), {
      accountId: checkingOf(books),
      statementDay: on('2026-01-31'),
      statementBalanceCents: cents(-900),
    }),
  )
  const [line] = reconcileLines(books, reconciliationId).filter((one) => one.amountCents === -900)
  done(changeTicks(books, reconciliationId, { tick: [line!.postingId], untick: [] }))
  done(finishReconciliation(books, act(), reconciliationId))
  const looked = planChange(
    books,
    asking(books, { lines: 'chosen', accountId: accountOf(books, 'Farm card') }),
  )
  expect(looked.ok && looked.planned.map(({ fate }) => (fate.ok ? 'changed' : fate.why))).toEqual([
    'Its line in Farm checking is reconciled with the statement of Jan 31, 2026',
    expect.stringContaining('half of a crossing'),
    'These books are closed through December 2025. Reopen the month first',
  ])
})

test('an account of other books, lines of other accounts and too many lines are refused at their fields', () => {
  const books = freshBooks()
  spend(books, '2026-01-05', 1000)
  const groceries = books.account('household', 'Groceries').id
  const pathsOf = (request: Parameters<typeof planChange>[1]) => {
    const looked = planChange(books, request)
    return looked.ok ? [] : looked.problems.map((problem) => problem.path)
  }
  expect(pathsOf(asking(books, { accountId: groceries }))).toEqual(['account'])
  expect(pathsOf(asking(books, { payee: 'x' }, []))).toEqual(['lines'])
  expect(pathsOf(asking(books, { payee: 'x' }, [1, 2, 999]))).toEqual(['lines'])
  const many = Array.from({ length: mostLinesAtOnce + 1 }, (_, index) => index + 1)
  expect(pathsOf(asking(books, { payee: 'x' }, many))).toEqual(['lines'])
})

test('one undo puts all of them back, with an act of its own in the log', () => {
  const books = freshBooks()
  spend(books, '2026-01-05', 1000)
  spend(books, '2026-01-20', 2500)
  const request = asking(books, {
    accountId: accountOf(books, 'Feed'),
    payee: 'Hollow Feed',
    memo: 'Ration',
    enterpriseId: 'sheep',
  })
  done(changeEntries(books, act(), request))
  const change = lastUndoable(books, 'test')!
  expect(change.kind).toBe('entries.changed')
  done(undoChange(books, act(), change.id, on('2026-02-01')))
  expect(sumOf(books, 'Supplies')).toBe(3500)
  expect(sumOf(books, 'Feed')).toBe(0)
  expect(standing(books).map(({ payee, memo, amountCents }) => [payee, memo, amountCents])).toEqual([
    ['HOLLOW 0342', '', -2500],
    ['HOLLOW 0342', '', -1000],
  ])
  const kinds = changesSince(books, 0).map((one) => one.kind)
  expect(kinds.slice(-2)).toEqual(['entries.changed', 'change.undone'])
  expect(undoChange(books, act(), change.id, on('2026-02-01'))).toMatchObject({ ok: false })
  expectSound(books)
})

test('undo of a bulk change is refused whole when one of its months was closed since', () => {
  const books = freshBooks()
  spend(books, '2025-12-05', 1000)
  spend(books, '2026-01-20', 2500)
  done(changeEntries(books, act(), asking(books, { accountId: accountOf(books, 'Feed') })))
  const change = lastUndoable(books, 'test')!
  done(
    closeMonth(
      books,
      { ...act(), actor: 'other' },
      { sideId: 'farm', month: month(2025, 12), note: '' },
      on('2026-02-01'),
    ),
  )
  const before = balancesOn(books)
  const refused = undoChange(books, act(), change.id, on('2026-02-01'))
  expect(refused.ok ? '' : refused.problems[0]!.message).toContain('closed through December 2025')
  expect(balancesOn(books)).toEqual(before)
})

test('a single correction is undone too', () => {
  const books = freshBooks()
  const { entryId } = spend(books, '2026-01-05', 1000)
  const anew = moneyOut(
    { id: '', sideId: 'farm', day: on('2026-01-06'), payee: 'Feed store', memo: '' },
    checkingOf(books),
    [{ accountId: accountOf(books, 'Feed'), amountCents: cents(1100) }],
  )
  done(correctEntry(books, act(), entryId, anew))
  done(undoChange(books, act(), lastUndoable(books, 'test')!.id, on('2026-02-01')))
  expect(standing(books).map(({ day, amountCents }) => [day, amountCents])).toEqual([['2026-01-05', -1000]])
  expect(sumOf(books, 'Supplies')).toBe(1000)
  expectSound(books)
})

test('receipts follow the entry that stands in, and come back with an undo', () => {
  const folder = mkdtempSync(join(tmpdir(), 'dooryard-receipts-'))
  const books = freshBooks()
  const { entryId, entryNo } = spend(books, '2026-01-05', 1000)
  const receipt = { entryId, fileName: 'slip.pdf', bytes: Buffer.from('%PDF-1.7 a slip') }
  done(addAttachment(books, act(), folder, receipt))
  const changed = done(changeEntries(books, act(), asking(books, { payee: 'Hollow Feed' })))
  expect(attachmentsOf(books, entryNo)).toEqual([])
  expect(attachmentsOf(books, changed.entryNos[0]!).map((one) => one.fileName)).toEqual(['slip.pdf'])
  done(undoChange(books, act(), lastUndoable(books, 'test')!.id, on('2026-02-01')))
  expect(attachmentsOf(books, standing(books)[0]!.entryNo)).toHaveLength(1)
  rmSync(folder, { recursive: true })
})

/** A line of a bank's file that stands for a posting. */
const nameByBank = (books: TestBooks, postingId: number, position: number) => {
  const accountId = checkingOf(books)
  const insert = (text: string, ...values: unknown[]) => books.sqlite.prepare(text).run(...values)
  insert(
    `INSERT OR IGNORE INTO statements (id, account_id, format, content_hash, imported_at) VALUES ('s', ?, 'ofx', 'h', '2026-02-01T00:00:00.000Z')`,
    accountId,
  )
  insert(
    `INSERT INTO statement_lines (statement_id, account_id, line_key, position, day, amount_cents, state, posting_id)
     SELECT 's', account_id, ?, ?, day, amount_cents, 'posted', id FROM postings WHERE id = ?`,
    `key ${position}`,
    position,
    postingId,
  )
}

const namedBy = (books: TestBooks) =>
  books.sqlite.prepare('SELECT posting_id FROM statement_lines ORDER BY position').pluck().all()

test('statement lines follow their line, also when two lines of one entry look the same', () => {
  const books = freshBooks()
  const twice = {
    sideId: 'farm',
    day: on('2026-01-05'),
    payee: 'Two parcels',
    memo: '',
    source: 'statement' as const,
    lines: [
      { accountId: accountOf(books, 'Supplies'), amountCents: cents(2000) },
      { accountId: checkingOf(books), amountCents: cents(-1000) },
      { accountId: checkingOf(books), amountCents: cents(-1000) },
    ],
  }
  done(postEntry(books, act(), twice))
  for (const [index, row] of standing(books).reverse().entries()) nameByBank(books, row.postingId, index + 1)
  done(changeEntries(books, act(), asking(books, { accountId: accountOf(books, 'Feed') })))
  const living = standing(books).map((row) => row.postingId)
  expect(namedBy(books)).toEqual([...living].reverse())
  expectSound(books)
})

test('an open statement stays as far along as it was when checked entries are changed', () => {
  const books = freshBooks()
  spend(books, '2026-01-05', 1000)
  spend(books, '2026-01-20', 2500)
  const { reconciliationId } = done(
    startReconciliation(books, act(), {
      accountId: checkingOf(books),
      statementDay: on('2026-01-31'),
      statementBalanceCents: cents(-3500),
    }),
  )
  const [first] = reconcileLines(books, reconciliationId)
  done(changeTicks(books, reconciliationId, { tick: [first!.postingId], untick: [] }))
  done(changeEntries(books, act(), asking(books, { accountId: accountOf(books, 'Feed') })))
  expect(reconciliationState(books, reconciliationId)).toMatchObject({
    tickedCents: -1000,
    differenceCents: -2500,
  })
  const open = reconcileLines(books, reconciliationId).filter((line) => !line.ticked)
  expect(open.map((line) => line.amountCents)).toEqual([-2500])
})

test('after a reconciled entry is changed, the next statement starts at a difference that is its own', () => {
  const books = freshBooks()
  spend(books, '2026-01-05', 1000)
  nameByBank(books, standing(books)[0]!.postingId, 1)
  const first = done(
    startReconciliation(books, act(), {
      accountId: checkingOf(books),
      statementDay: on('2026-01-31'),
      statementBalanceCents: cents(-1000),
    }),
  )
  done(finishReconciliation(books, act(), first.reconciliationId))
  // Changed twice: what stands in today is two steps on.
  done(changeEntries(books, act(), asking(books, { accountId: accountOf(books, 'Feed') })))
  done(changeEntries(books, act(), asking(books, { payee: 'Hollow Feed' })))
  spend(books, '2026-02-10', 400)
  const second = done(
    startReconciliation(books, act(), {
      accountId: checkingOf(books),
      statementDay: on('2026-02-28'),
      statementBalanceCents: cents(-1400),
    }),
  )
  expect(reconciliationState(books, second.reconciliationId)).toMatchObject({
    tickedCents: 0,
    differenceCents: -400,
  })
  const open = reconcileLines(books, second.reconciliationId).filter((line) => !line.ticked)
  expect(open.map((line) => line.amountCents)).toEqual([-400])
  expectSound(books)
})

test('what was posted to an account archived since moves out of it, and nothing moves into it', () => {
  const books = freshBooks()
  spend(books, '2026-01-05', 1000)
  const { id } = books.account('farm', 'Supplies')
  done(changeAccount(books, act(), books.account('farm', 'Supplies'), { archived: true }))
  const request = asking(books, { accountId: accountOf(books, 'Feed') })
  done(changeEntries(books, act(), request))
  expect(sumOf(books, 'Supplies')).toBe(0)
  const back = planChange(books, asking(books, { accountId: id }))
  expect(back.ok ? [] : back.problems.map((problem) => problem.path)).toEqual(['account'])
})
