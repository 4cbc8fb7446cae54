// What hangs on a posted entry, when it is taken back or another is posted in its place: statement lines, receipts, ticks.
import { asc, eq } from 'drizzle-orm'
import { isAmong } from '#db/among.ts'
import type { Books } from '#db/open.ts'
import { openReconciliation } from '#db/reconcile/reconcile-reader.ts'
import { tickCancelledLines } from '#db/reconcile/reconcile-ticks.ts'
import { postings } from '#db/schema.ts'
import { attachments } from '#db/schema-records.ts'
import { statementLines } from '#db/schema-statements.ts'
import { pairLines } from '#ledger/reversal.ts'

/** Lines that stood for entries now taken back wait to be sorted again. */
export const freeStatementLines = (books: Books, entryNos: readonly number[]): void => {
  for (const line of linesOf(books, entryNos)) free(books, line.id)
}

/**
 * What hung on a corrected entry hangs on the one that stands in for it: its receipts, and the statement lines whose account
 * and amount are still there; the other lines wait to be sorted again.
 */
export const carryTies = (books: Books, originalNo: number, replacementNo: number): void => {
  const before = postingsOf(books, originalNo)
  const after = postingsOf(books, replacementNo)
  const pairs = pairLines(before, after)
  for (const line of linesOf(books, [originalNo])) {
    const place = pairs.get(before.findIndex((posting) => posting.id === line.postingId))
    if (place === undefined) free(books, line.id)
    else
      books.db
        .update(statementLines)
        .set({ postingId: after[place]!.id })
        .where(eq(statementLines.id, line.id))
        .run()
  }
  books.db
    .update(attachments)
    .set({ entryNo: replacementNo })
    .where(eq(attachments.entryNo, originalNo))
    .run()
}

/** In reconciliations under way, what was just taken back cancels out without anyone having to look for it. */
export const settleTicks = (books: Books, reversalNos: readonly number[]): void => {
  const accountIds = books.db
    .selectDistinct({ id: postings.accountId })
    .from(postings)
    .where(isAmong(postings.entryNo, reversalNos))
    .all()
  for (const { id } of accountIds) {
    const open = openReconciliation(books, id)
    if (open) tickCancelledLines(books, open, { reversalNos })
  }
}

const free = (books: Books, lineId: number): void => {
  books.db
    .update(statementLines)
    .set({ postingId: null, state: 'unsorted', sortedAt: null })
    .where(eq(statementLines.id, lineId))
    .run()
}

const linesOf = (books: Books, entryNos: readonly number[]) =>
  books.db
    .select({ id: statementLines.id, postingId: statementLines.postingId })
    .from(statementLines)
    .innerJoin(postings, eq(postings.id, statementLines.postingId))
    .where(isAmong(postings.entryNo, entryNos))
    .all()

const postingsOf = (books: Books, entryNo: number) =>
  books.db
    .select({ id: postings.id, accountId: postings.accountId, amountCents: postings.amountCents })
    .from(postings)
    .where(eq(postings.entryNo, entryNo))
    .orderBy(asc(postings.lineNo))
    .all()
