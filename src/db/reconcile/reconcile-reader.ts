// Reconciliations read back: how they stand, what may be ticked, which was the last.
import { and, asc, desc, eq, type SQL, sql } from 'drizzle-orm'
import { type Day, firstDayOf, monthOfDay } from '#calendar/day.ts'
import { isAmong } from '#db/among.ts'
import type { Books } from '#db/open.ts'
import { entries, postings } from '#db/schema.ts'
import { reconciliations, reconciliationTicks } from '#db/schema-statements.ts'
import { reconcileDifference } from '#ledger/reconcile.ts'
import { type Cents, cents } from '#money/cents.ts'

export type Reconciliation = typeof reconciliations.$inferSelect

export interface ReconcileLine {
  postingId: number
  entryId: string
  entryNo: number
  day: Day
  payee: string
  memo: string
  amountCents: Cents
  ticked: boolean
  /** Taken back, or itself taking an entry back: no statement shows it, the two cancel out. */
  isReversed: boolean
  reversesNo: number | null
}

export interface ReconciliationState {
  reconciliation: Reconciliation
  tickedCents: Cents
  differenceCents: Cents
}

export const reconciliationState = (books: Books, id: string): ReconciliationState | undefined => {
  const reconciliation = findReconciliation(books, id)
  if (!reconciliation) return undefined
  const ticked = books.db
    .select({ sum: sql<number>`coalesce(sum(${postings.amountCents}), 0)` })
    .from(reconciliationTicks)
    .innerJoin(postings, eq(postings.id, reconciliationTicks.postingId))
    .where(eq(reconciliationTicks.reconciliationId, id))
    .get()
  const tickedCents = cents(ticked?.sum ?? 0)
  return {
    reconciliation,
    tickedCents,
    differenceCents: reconcileDifference({ ...reconciliation, tickedCents }),
  }
}

/** What may be ticked: this one's ticks, and lines up to the statement's day that no finished statement has, oldest first. */
export const reconcileLines = (books: Books, id: string): ReconcileLine[] => {
  const reconciliation = findReconciliation(books, id)
  if (!reconciliation) return []
  const wanted =
    reconciliation.state === 'finished'
      ? sql`${reconciliationTicks.reconciliationId} = ${id}`
      : sql`(${reconciliationTicks.reconciliationId} = ${id} OR (${reconciliationTicks.reconciliationId} IS NULL AND ${postings.day} <= ${reconciliation.statementDay}))`
  return linesWhere(books, reconciliation.accountId, wanted, (ticks) => ticks === id)
}

/** Lines up to a day that no statement has, all of them counted: the books as they would be held against its balance. */
export const linesToReconcile = (books: Books, accountId: number, through: Day): ReconcileLine[] =>
  linesWhere(
    books,
    accountId,
    sql`${reconciliationTicks.reconciliationId} IS NULL AND ${postings.day} <= ${through}`,
    () => true,
  )

const linesWhere = (
  books: Books,
  accountId: number,
  wanted: SQL,
  isTicked: (reconciliationId: string | null) => boolean,
): ReconcileLine[] =>
  books.db
    .select({
      postingId: postings.id,
      entryId: entries.id,
      entryNo: entries.no,
      day: postings.day,
      payee: entries.payee,
      memo: entries.memo,
      amountCents: postings.amountCents,
      isReversed: sql<number>`EXISTS (SELECT 1 FROM entries AS back WHERE back.reverses_no = ${entries.no})`,
      reversesNo: entries.reversesNo,
      reconciliationId: reconciliationTicks.reconciliationId,
    })
    .from(postings)
    .innerJoin(entries, eq(entries.no, postings.entryNo))
    .leftJoin(reconciliationTicks, eq(reconciliationTicks.postingId, postings.id))
    .where(and(eq(postings.accountId, accountId), wanted))
    .orderBy(asc(postings.day), asc(postings.id))
    .all()
    .map(({ reconciliationId, isReversed, ...line }) => ({
      ...line,
      isReversed: isReversed === 1,
      ticked: isTicked(reconciliationId),
    }))

/** Which of these postings stand on a finished statement, with the statement's day. */
export const reconciledDays = (books: Books, postingIds: readonly number[]): Map<number, Day> =>
  new Map(
    books.db
      .select({ postingId: reconciliationTicks.postingId, day: reconciliations.statementDay })
      .from(reconciliationTicks)
      .innerJoin(reconciliations, eq(reconciliations.id, reconciliationTicks.reconciliationId))
      .where(and(isAmong(reconciliationTicks.postingId, postingIds), eq(reconciliations.state, 'finished')))
      .all()
      .map(({ postingId, day }) => [postingId, day]),
  )

export const findReconciliation = (books: Books, id: string): Reconciliation | undefined =>
  books.db.select().from(reconciliations).where(eq(reconciliations.id, id)).get()

export const openReconciliation = (books: Books, accountId: number): Reconciliation | undefined =>
  books.db
    .select()
    .from(reconciliations)
    .where(and(eq(reconciliations.accountId, accountId), eq(reconciliations.state, 'open')))
    .get()

export const lastFinished = (books: Books, accountId: number): Reconciliation | undefined =>
  books.db
    .select()
    .from(reconciliations)
    .where(and(eq(reconciliations.accountId, accountId), eq(reconciliations.state, 'finished')))
    .orderBy(desc(reconciliations.statementDay), desc(reconciliations.finishedAt))
    .limit(1)
    .get()

/**
 * Whether an account is reconciled through a month's end: by a statement of that day or later, or by the balance that a file states
 * for its own day in the month, where the file was read when the month was over and nothing of the account is dated after it.
 */
export const isReconciledThrough = (books: Books, accountId: number, end: Day): boolean =>
  reconciledThrough(books, accountId)(end)

/** The same for many ends of one account, whose last statement is read once. */
export const reconciledThrough = (books: Books, accountId: number): ((end: Day) => boolean) => {
  const through = lastFinished(books, accountId)?.statementDay
  if (through === undefined) return () => false
  return (end) =>
    through >= end ||
    (through >= firstDayOf(monthOfDay(end)) &&
      books.sqlite.prepare(endsThereText).pluck().get({ accountId, through, end }) === 1)
}

const endsThereText = `
  SELECT EXISTS (SELECT 1 FROM statements
      WHERE account_id = @accountId AND closing_day = @through AND closing_balance_cents IS NOT NULL
        AND substr(imported_at, 1, 10) > @end)
    AND NOT EXISTS (SELECT 1 FROM postings INDEXED BY postings_register
      WHERE account_id = @accountId AND day > @through AND day <= @end)
    AND NOT EXISTS (SELECT 1 FROM statement_lines
      WHERE account_id = @accountId AND day > @through AND day <= @end)`
