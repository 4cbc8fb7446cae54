// The tie between statement lines and the postings they stand for, when an entry is taken back or corrected.
import { and, eq, inArray } from 'drizzle-orm'
import type { Books } from './open.ts'
import { postings } from './schema.ts'
import { statementLines } from './schema-statements.ts'

/** Lines that stood for entries now taken back wait to be sorted again. */
export const freeStatementLines = (books: Books, entryNos: readonly number[]): void => {
  for (const line of linesOf(books, entryNos)) free(books, line.id)
}

/** Lines that stood for a corrected entry now stand for the posting of the same account and amount in the new one. */
export const moveStatementLines = (books: Books, fromEntryNo: number, toEntryNo: number): void => {
  for (const line of linesOf(books, [fromEntryNo])) {
    const target = books.db
      .select({ id: postings.id })
      .from(postings)
      .where(
        and(
          eq(postings.entryNo, toEntryNo),
          eq(postings.accountId, line.accountId),
          eq(postings.amountCents, line.amountCents),
        ),
      )
      .get()
    if (target)
      books.db
        .update(statementLines)
        .set({ postingId: target.id })
        .where(eq(statementLines.id, line.id))
        .run()
    else free(books, line.id)
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
    .select({
      id: statementLines.id,
      accountId: statementLines.accountId,
      amountCents: statementLines.amountCents,
    })
    .from(statementLines)
    .innerJoin(postings, eq(postings.id, statementLines.postingId))
    .where(inArray(postings.entryNo, [...entryNos]))
    .all()
