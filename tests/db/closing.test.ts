import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { expect, test } from 'vitest'
import { month } from '#calendar/month.ts'
import { changesSince, latestChangeId } from '#db/change-log.ts'
import { attachmentPath } from '#db/ledger/attachment-files.ts'
import {
  addAttachment,
  attachmentsOf,
  readAttachment,
  removeAttachment,
} from '#db/ledger/attachment-store.ts'
import { balancesOn } from '#db/ledger/balances.ts'
import { crossOver, waiveSuspicion, watchBooks } from '#db/ledger/commingling-store.ts'
import { listCrossings, postCrossing } from '#db/ledger/crossing-store.ts'
import { householdMonths } from '#db/ledger/household-months.ts'
import { postEntry } from '#db/ledger/ledger-store.ts'
import { closedThrough } from '#db/ledger/ledger-writer.ts'
import { registerPage } from '#db/ledger/register.ts'
import { savePlan } from '#db/plan-store.ts'
import {
  checklistOf,
  closeMonth,
  listClosings,
  monthsShutBy,
  reopenMonth,
  standingClosing,
} from '#db/reconcile/closing-store.ts'
import { reconcileLines, reconciliationState } from '#db/reconcile/reconcile-reader.ts'
import {
  changeTicks,
  dropReconciliation,
  finishReconciliation,
  reopenReconciliation,
  startReconciliation,
} from '#db/reconcile/reconcile-store.ts'
import { writeSetting } from '#db/settings-store.ts'
import {
  changeStanding,
  dueTransfers,
  postDueTransfers,
  postOccurrence,
  skipOccurrence,
  startStanding,
} from '#db/transfers/standing-store.ts'
import { lastUndoable, undoChange } from '#db/undo.ts'
import { verifyBooks } from '#db/verify/verify.ts'
import { leakByMonth } from '#ledger/leak.ts'
import { moneyOut } from '#ledger/simple-entry.ts'
import { cents } from '#money/cents.ts'
import { act, done, freshBooks, on, type TestBooks } from './fresh-books.ts'

const spend = (
  books: TestBooks,
  day: string,
  amount: number,
  what = 'Supplies',
  payee = 'Country store',
  form = act(),
) =>
  done(
    postEntry(
      books,
      form,
      moneyOut(
        { id: '', sideId: 'farm', day: on(day), payee, memo: '' },
        books.account('farm', 'Farm checking').id,
        [{ accountId: books.account('farm', what).id, amountCents: cents(amount) }],
      ),
    ),
  )

const problemsOf = (outcome: { ok: boolean; problems?: { path: string; message: string }[] }) =>
  outcome.ok ? [] : outcome.problems!.map((problem) => problem.message)

test('what is apart on a card is told in the sign in which a card is read', () => {
  const books = freshBooks()
  const accountId = books.account('farm', 'Farm card').id
  // The card owes 10.00 by its statement, and nothing by the books.
  const { reconciliationId } = done(
    startReconciliation(books, act(), {
      accountId,
      statementDay: on('2026-01-31'),
      statementBalanceCents: cents(-1000),
    }),
  )
  expect(problemsOf(finishReconciliation(books, act(), reconciliationId))[0]).toContain('differ by $10.00')
})

test('an account is reconciled when its ticks lead from the last statement to this one, and not before', () => {
  const books = freshBooks()
  const accountId = books.account('farm', 'Farm checking').id
  for (const [day, amount] of [
    ['2026-01-05', 1000],
    ['2026-01-20', 2500],
    ['2026-01-30', 400],
  ] as const)
    spend(books, day, amount)
  const january = { accountId, statementDay: on('2026-01-31'), statementBalanceCents: cents(-3500) }
  const { reconciliationId } = done(startReconciliation(books, act(), january))
  expect(problemsOf(startReconciliation(books, act(), january))[0]).toContain('being reconciled already')
  const lines = reconcileLines(books, reconciliationId)
  expect(lines.map((line) => [line.amountCents, line.ticked])).toEqual([
    [-1000, false],
    [-2500, false],
    [-400, false],
  ])
  done(changeTicks(books, reconciliationId, { tick: [lines[0]!.postingId], untick: [] }))
  expect(reconciliationState(books, reconciliationId)!.differenceCents).toBe(-2500)
  expect(problemsOf(finishReconciliation(books, act(), reconciliationId))[0]).toContain('differ by −$25.00')
  done(changeTicks(books, reconciliationId, { tick: [lines[0]!.postingId, lines[1]!.postingId], untick: [] }))
  done(finishReconciliation(books, act(), reconciliationId))
  expect(registerPage(books, { accountId }).rows.map((row) => row.reconciled)).toEqual([
    'no',
    'finished',
    'finished',
  ])
  const february = done(
    startReconciliation(books, act(), {
      accountId,
      statementDay: on('2026-02-28'),
      statementBalanceCents: cents(-3900),
    }),
  )
  expect(reconcileLines(books, february.reconciliationId).map((line) => line.amountCents)).toEqual([-400])
  expect(problemsOf(reopenReconciliation(books, act(), reconciliationId, 'typo'))[0]).toContain(
    'later statement',
  )
  done(dropReconciliation(books, act(), february.reconciliationId))
  done(reopenReconciliation(books, act(), reconciliationId, 'The bank corrected its statement'))
  expect(verifyBooks(books.sqlite).findings).toEqual([])
})

test('two people ticking the same line at the same time check it once', () => {
  const books = freshBooks()
  const accountId = books.account('farm', 'Farm checking').id
  spend(books, '2026-01-05', 1000)
  const { reconciliationId } = done(
    startReconciliation(books, act(), {
      accountId,
      statementDay: on('2026-01-31'),
      statementBalanceCents: cents(-1000),
    }),
  )
  const [line] = reconcileLines(books, reconciliationId)
  for (let person = 0; person < 2; person += 1)
    done(changeTicks(books, reconciliationId, { tick: [line!.postingId], untick: [] }))
  expect(reconciliationState(books, reconciliationId)!.differenceCents).toBe(0)
})

test('a month is closed by its checklist, stays shut, and reopening leaves closing and reason in the list', () => {
  const books = freshBooks()
  spend(books, '2026-01-05', 1000)
  spend(books, '2026-02-05', 700)
  const today = on('2026-03-10')
  const item = (id: string, when = today) =>
    checklistOf(books, 'farm', month(2026, 2), when).find((one) => one.id === id)!
  expect(item('over', on('2026-02-28')).state).toBe('stops')
  expect(item('over').state).toBe('done')
  expect(item('reconciled')).toMatchObject({
    state: 'look',
    text: 'Not reconciled through the month’s end: Farm checking',
  })
  expect(item('before').text).toBe('1 month before this one will be shut with it')
  const close = { sideId: 'farm', month: month(2026, 2), note: '' }
  const { closingId } = done(closeMonth(books, act('close'), close, today))
  expect(done(closeMonth(books, act('close'), close, today)).closingId).toBe(closingId)
  expect(problemsOf(closeMonth(books, act(), close, today))[0]).toContain('closed through February 2026')
  const late = postEntry(
    books,
    act(),
    moneyOut(
      { id: '', sideId: 'farm', day: on('2026-01-31'), payee: '', memo: '' },
      books.account('farm', 'Farm checking').id,
      [{ accountId: books.account('farm', 'Supplies').id, amountCents: cents(5) }],
    ),
  )
  expect(problemsOf(late)).toEqual([
    'These books are closed through February 2026. Choose a later day, or reopen the month first',
  ])
  expect(problemsOf(reopenMonth(books, act(), closingId, ' '))[0]).toContain('Say why')
  done(reopenMonth(books, act(), closingId, 'A receipt was found in the truck'))
  expect(standingClosing(books, 'farm')).toBeUndefined()
  expect(listClosings(books, 'farm')).toMatchObject([
    { id: closingId, reopenReason: 'A receipt was found in the truck' },
  ])
  spend(books, '2026-01-31', 5)
  done(closeMonth(books, act(), close, today))
  expect(listClosings(books, 'farm')).toHaveLength(2)
})

test('unsorted statement lines and due transfers stop a closing', () => {
  const books = freshBooks()
  const cash = books.account('farm', 'Farm checking').id
  books.sqlite.exec(`
    INSERT INTO statements (id, account_id, format, content_hash, imported_at) VALUES ('s', ${cash}, 'ofx', 'h', 'x');
    INSERT INTO statement_lines (statement_id, account_id, line_key, position, day, amount_cents) VALUES ('s', ${cash}, 'k', 1, '2026-01-03', 5);`)
  done(
    startStanding(books, act(), {
      name: 'Draw',
      kind: 'draw',
      fromAccountId: cash,
      toAccountId: books.account('household', 'Savings').id,
      amountCents: cents(100),
      dayOfMonth: 31,
      firstMonth: month(2026, 1),
      lastMonth: null,
      posting: 'confirm',
      memo: '',
    }),
  )
  expect(
    problemsOf(
      closeMonth(books, act(), { sideId: 'farm', month: month(2026, 1), note: '' }, on('2026-02-10')),
    ),
  ).toEqual(['1 transaction is not sorted. Sort it first', '1 standing transfer is due. Record or skip it'])
})

test('standing transfers catch up missed months, fall on the last day of short ones, and never post twice', () => {
  const books = freshBooks()
  const transfer = {
    name: 'Monthly draw',
    kind: 'draw' as const,
    fromAccountId: books.account('farm', 'Farm checking').id,
    toAccountId: books.account('household', 'Savings').id,
    amountCents: cents(90_000),
    dayOfMonth: 31,
    firstMonth: month(2026, 1),
    lastMonth: null,
    posting: 'automatic' as const,
    memo: '',
  }
  const { standingId } = done(startStanding(books, act(), transfer))
  expect(dueTransfers(books, on('2026-03-30')).map((due) => due.day)).toEqual(['2026-01-31', '2026-02-28'])
  expect(postDueTransfers(books, act(), on('2026-03-30')).posted).toHaveLength(2)
  expect(postDueTransfers(books, act(), on('2026-03-30')).posted).toHaveLength(0)
  expect(postOccurrence(books, act(), standingId, month(2026, 1))).toMatchObject({ ok: true, repeated: true })
  expect(listCrossings(books)).toHaveLength(2)
  done(skipOccurrence(books, act(), standingId, month(2026, 3)))
  expect(dueTransfers(books, on('2026-04-01'))).toEqual([])
  expect(problemsOf(postOccurrence(books, act(), standingId, month(2026, 3)))[0]).toContain('was skipped')
  expect(
    problemsOf(changeStanding(books, act(), standingId, { ...transfer, firstMonth: month(2026, 2) }))[0],
  ).toContain('March 2026 was settled already')
  done(
    changeStanding(books, act(), standingId, {
      ...transfer,
      amountCents: cents(120_000),
      firstMonth: month(2026, 4),
    }),
  )
  expect(dueTransfers(books, on('2026-05-31')).map((due) => [due.day, due.transfer.amountCents])).toEqual([
    ['2026-04-30', 120_000],
    ['2026-05-31', 120_000],
  ])
  expect(verifyBooks(books.sqlite).findings).toEqual([])
})

test('the leak is contributions less draws less reimbursements, per month and running, loans left out', () => {
  const books = freshBooks()
  const savings = books.account('household', 'Savings').id
  const checking = books.account('farm', 'Farm checking').id
  const cross = (kind: 'draw' | 'contribution' | 'reimbursement' | 'loan', day: string, amount: number) => {
    const out = kind === 'contribution' || kind === 'loan'
    done(
      postCrossing(books, act(), {
        kind,
        day: on(day),
        amountCents: cents(amount),
        fromAccountId: out ? savings : checking,
        toAccountId: out ? checking : savings,
        memo: '',
      }),
    )
  }
  cross('contribution', '2026-01-03', 100_000)
  cross('loan', '2026-01-04', 50_000)
  cross('reimbursement', '2026-02-03', 20_000)
  cross('draw', '2026-03-03', 30_000)
  const months = householdMonths(books, month(2026, 1), month(2026, 4))
  expect(leakByMonth(months).map(({ leakCents, runningCents }) => [leakCents, runningCents])).toEqual([
    [100_000, 100_000],
    [-20_000, 80_000],
    [-30_000, 50_000],
    [0, 50_000],
  ])
  expect(months.map((one) => one.spendableCents)).toEqual([-150_000, -130_000, -100_000, -100_000])
  expect(months[0]).toMatchObject({ lentCents: 50_000, costCents: 0 })
})

test('goods used at home move value without cash and are no household cost that savings must cover', () => {
  const books = freshBooks()
  const goods = { quantity: 12.5, unit: 'pounds', unitPriceCents: cents(425) }
  const draft = {
    kind: 'goods_used_at_home' as const,
    day: on('2026-06-01'),
    amountCents: cents(5313),
    fromAccountId: books.account('farm', 'Value of goods used at home').id,
    toAccountId: books.account('household', 'Food from the farm').id,
    memo: 'Tomatoes',
    goods,
  }
  done(postCrossing(books, act(), draft))
  expect(householdMonths(books, month(2026, 6), month(2026, 6))[0]).toMatchObject({
    goodsCents: 5313,
    costCents: 0,
    drawCents: 0,
    spendableCents: 0,
  })
  expect(problemsOf(postCrossing(books, act(), { ...draft, amountCents: cents(5312) }))[0]).toContain(
    'quantity times the price',
  )
})

test('a receipt is kept by its content, shown only as what it is, and a changed file is not shown at all', () => {
  const folder = mkdtempSync(join(tmpdir(), 'dooryard-test-'))
  try {
    const books = freshBooks()
    const { entryId, entryNo } = spend(books, '2026-01-05', 1000)
    const bytes = Buffer.from('%PDF-1.4 receipt')
    const { attachmentId, contentHash } = done(
      addAttachment(books, act(), folder, { entryId, fileName: '../../etc/<b>receipt.pdf', bytes }),
    )
    expect(attachmentsOf(books, entryNo)).toMatchObject([
      { fileName: '<b>receipt.pdf', mediaType: 'application/pdf' },
    ])
    expect(readAttachment(books, folder, attachmentId)!.bytes).toEqual(bytes)
    expect(
      problemsOf(
        addAttachment(books, act(), folder, {
          entryId,
          fileName: 'page.html',
          bytes: Buffer.from('<script>'),
        }),
      ),
    ).toEqual(['Choose a PDF, or a photo as JPEG, PNG or WebP'])
    expect(
      problemsOf(
        addAttachment(books, act(), folder, {
          entryId,
          fileName: 'big.pdf',
          bytes: Buffer.alloc(10 * 1024 * 1024 + 1),
        }),
      )[0],
    ).toContain('10 MB')
    writeFileSync(attachmentPath(folder, contentHash), 'something else')
    expect(readAttachment(books, folder, attachmentId)!.bytes).toBeNull()
    done(addAttachment(books, act(), folder, { entryId, fileName: 'again.pdf', bytes }))
    expect(readFileSync(attachmentPath(folder, contentHash))).toEqual(bytes)
    done(removeAttachment(books, act(), attachmentId))
    expect(attachmentsOf(books, entryNo)).toHaveLength(1)
  } finally {
    rmSync(folder, { recursive: true, force: true })
  }
})

test('undo reverses the last action of the one who asks, once, and not what someone else did', () => {
  const books = freshBooks()
  spend(books, '2026-01-05', 1000)
  const before = latestChangeId(books)
  spend(books, '2026-01-06', 500)
  const today = on('2026-01-20')
  expect(lastUndoable(books, 'the other browser')).toBeUndefined()
  const change = lastUndoable(books, 'test')!
  done(undoChange(books, act('undo'), change.id, today))
  expect(done(undoChange(books, act('undo'), change.id, today))).toBeTruthy()
  expect(problemsOf(undoChange(books, act(), change.id, today))[0]).toContain('Something was done since')
  expect(balancesOn(books).get(books.account('farm', 'Supplies').id)).toBe(1000)
  done(undoChange(books, act(), lastUndoable(books, 'test')!.id, today))
  expect(balancesOn(books).get(books.account('farm', 'Supplies').id)).toBe(0)
  expect(changesSince(books, before, 'someone else').map((one) => one.kind)).toEqual([
    'entry.posted',
    'entry.voided',
    'change.undone',
    'entry.voided',
    'change.undone',
  ])
})

test('undo of a crossing takes both halves back, and of a closing opens the month', () => {
  const books = freshBooks()
  done(
    postCrossing(books, act(), {
      kind: 'draw',
      day: on('2026-01-05'),
      amountCents: cents(10),
      fromAccountId: books.account('farm', 'Farm checking').id,
      toAccountId: books.account('household', 'Savings').id,
      memo: '',
    }),
  )
  done(closeMonth(books, act(), { sideId: 'farm', month: month(2026, 1), note: '' }, on('2026-02-02')))
  const undo = () => done(undoChange(books, act(), lastUndoable(books, 'test')!.id, on('2026-02-02')))
  undo()
  expect(standingClosing(books, 'farm')).toBeUndefined()
  undo()
  expect([...balancesOn(books).values()].every((balance) => balance === 0)).toBe(true)
})

test('household-looking spending in the farm’s books is asked about, and one click makes a draw of it', () => {
  const books = freshBooks()
  spend(books, '2026-01-05', 3200, 'Supplies', 'Corner Pharmacy')
  spend(books, '2026-01-06', 800, 'Supplies', 'Country store')
  const [found, ...others] = watchBooks(books, on('2026-01-01'), on('2026-01-31'))
  expect(others).toEqual([])
  expect(found).toMatchObject({
    looksLike: 'household',
    because: '“pharmacy” is more often household spending',
  })
  const { crossingIds } = done(
    crossOver(books, act(), {
      entryId: found!.line.entryId,
      lineNo: found!.line.lineNo,
      toAccountId: books.account('household', 'Care and medicine').id,
      day: on('2026-01-31'),
    }),
  )
  expect(listCrossings(books)).toMatchObject([
    { id: crossingIds[0], kind: 'draw', amountCents: 3200, day: '2026-01-05' },
  ])
  expect(balancesOn(books).get(books.account('farm', 'Supplies').id)).toBe(800)
  expect(balancesOn(books).get(books.account('farm', 'Farm checking').id)).toBe(-4000)
  expect(watchBooks(books, on('2026-01-01'), on('2026-01-31'))).toEqual([])
  expect(verifyBooks(books.sqlite).findings).toEqual([])
})

test('what a payee was before outweighs the word list, and what was waved through stays away', () => {
  const books = freshBooks()
  for (const day of ['2025-10-01', '2025-11-01', '2025-12-01'])
    spend(books, day, 2000, 'Feed', 'Dr Green, large animal clinic')
  spend(books, '2026-01-05', 2000, 'Feed', 'Dr Green, large animal clinic')
  spend(books, '2026-01-06', 2000, 'Supplies', 'Toys and more')
  const found = () => watchBooks(books, on('2026-01-01'), on('2026-01-31'))
  expect(found().map(({ line }) => line.payee)).toEqual(['Toys and more'])
  done(waiveSuspicion(books, act(), found()[0]!.line.postingId))
  expect(found()).toEqual([])
})

test('two people saving the same plan or setting: the second sees the first instead of losing it', () => {
  const books = freshBooks()
  const save = (basedOn: number, document: unknown) =>
    savePlan(books, act(), { planId: 'p', basedOn, name: 'Plan', schemaVersion: 1, document })
  expect(save(0, { a: 1 })).toEqual({ ok: true, revisionNo: 1 })
  expect(save(1, { a: 2 })).toEqual({ ok: true, revisionNo: 2 })
  expect(save(1, { a: 3 })).toMatchObject({
    ok: false,
    kind: 'newer-revision',
    theirs: { revisionNo: 2, document: { a: 2 } },
  })
  expect(save(1, { a: 2 })).toEqual({ ok: true, revisionNo: 2 })
  expect(writeSetting(books, act(), 'k', 1, 0)).toEqual({ ok: true, revision: 1 })
  expect(writeSetting(books, act(), 'k', 2, 0)).toMatchObject({ ok: false, kind: 'conflict' })
})

test('of months that were closed in one, the last is opened alone, or from any of them on; what is before stays shut', () => {
  const books = freshBooks()
  for (const day of ['2026-05-05', '2026-06-05', '2026-08-05']) spend(books, day, 1000)
  const today = on('2026-09-10')
  const { closingId } = done(
    closeMonth(books, act(), { sideId: 'farm', month: month(2026, 8), note: '' }, today),
  )
  const shut = () => monthsShutBy(books, standingClosing(books, 'farm')!)
  expect(shut()).toEqual([5, 6, 7, 8].map((one) => month(2026, one)))
  expect(problemsOf(reopenMonth(books, act(), closingId, 'late bill', month(2026, 4)))[0]).toContain(
    'closed together',
  )
  const again = act('again')
  for (const _ of [1, 2]) done(reopenMonth(books, again, closingId, 'late bill', month(2026, 7)))
  expect(closedThrough(books, 'farm')).toBe(month(2026, 6))
  expect(shut()).toEqual([5, 6].map((one) => month(2026, one)))
  spend(books, '2026-07-31', 5)
  const refused = postEntry(
    books,
    act(),
    moneyOut(
      { id: '', sideId: 'farm', day: on('2026-06-30'), payee: '', memo: '' },
      books.account('farm', 'Farm checking').id,
      [{ accountId: books.account('farm', 'Supplies').id, amountCents: cents(5) }],
    ),
  )
  expect(problemsOf(refused)[0]).toContain('closed through June 2026')
  expect(listClosings(books, 'farm').map(({ month: one, reopenedAt }) => [one, reopenedAt === null])).toEqual(
    expect.arrayContaining([
      [month(2026, 6), true],
      [month(2026, 8), false],
    ]),
  )
  expect(verifyBooks(books.sqlite).findings).toEqual([])
})
