// Where the cash of earlier market days went, and what was sold: the next one opens with the same.
import { and, desc, eq, isNotNull, isNull, sql } from 'drizzle-orm'
import type { Books } from '#db/open.ts'
import { accounts, entries, postings } from '#db/schema.ts'
import { marketDays } from './schema-notes.ts'

/** The account in which the cash of the newest settled day lies, of this market before others; null where the bank's statement showed it, or none was settled. */
export const cashBefore = (books: Books, marketId: string): number | null => {
  const day = books.db
    .select({ entryNo: marketDays.entryNo })
    .from(marketDays)
    .where(isNotNull(marketDays.settledAt))
    .orderBy(sql`${marketDays.marketId} <> ${marketId}`, desc(marketDays.day), desc(marketDays.settledAt))
    .limit(1)
    .get()
  if (!day?.entryNo) return null
  const debit = books.db
    .select({ accountId: postings.accountId })
    .from(postings)
    .where(and(eq(postings.entryNo, day.entryNo), sql`${postings.amountCents} > 0`))
    .get()
  return debit?.accountId ?? null
}

/** The income account to which sales of an enterprise were booked last; of what was not told apart, at a market. Null where none were. */
export const salesBefore = (books: Books, enterpriseId: string, marketId: string): number | null =>
  books.db
    .select({ accountId: postings.accountId })
    .from(postings)
    .innerJoin(accounts, eq(accounts.id, postings.accountId))
    .innerJoin(entries, eq(entries.no, postings.entryNo))
    .leftJoin(marketDays, eq(marketDays.entryNo, postings.entryNo))
    .where(
      and(
        enterpriseId === ''
          ? and(isNull(postings.enterpriseId), eq(marketDays.marketId, marketId))
          : eq(postings.enterpriseId, enterpriseId),
        eq(accounts.kind, 'income'),
        isNull(accounts.systemRole),
        isNull(accounts.archivedAt),
        eq(entries.sideId, 'farm'),
        isNull(entries.reversesNo),
      ),
    )
    .orderBy(desc(postings.day), desc(postings.id))
    .limit(1)
    .get()?.accountId ?? null
