// Where the cash of earlier market days went, and what was sold: the next one opens with the same.
import { and, desc, eq, isNotNull, isNull, ne, or, type SQL, sql } from 'drizzle-orm'
import { addDays, type Day } from '#calendar/day.ts'
import { entriesOfCrossing } from '#db/ledger/entry-reader.ts'
import type { Books } from '#db/open.ts'
import { accounts, entries, postings } from '#db/schema.ts'
import { barterLine } from '#ledger/schedule-f-lines.ts'
import { daysBetweenHalves } from '#ledger/statements/matching.ts'
import type { Cents } from '#money/cents.ts'
import { marketDays } from './schema-notes.ts'

/** The newest settled day of those that `isOfIt`, of this market before others. */
const newestSettled = (books: Books, marketId: string, isOfIt: SQL): { entryNo: number | null } | undefined =>
  books.db
    .select({ entryNo: marketDays.entryNo })
    .from(marketDays)
    .where(and(isNotNull(marketDays.settledAt), isOfIt))
    .orderBy(sql`${marketDays.marketId} <> ${marketId}`, desc(marketDays.day), desc(marketDays.settledAt))
    .limit(1)
    .get()

/** The account in which the cash of the newest settled day lies; null where the bank's statement showed it, or none was settled. */
export const cashBefore = (books: Books, marketId: string): number | null => {
  const day = newestSettled(
    books,
    marketId,
    sql`EXISTS (SELECT 1 FROM market_takings AS taken WHERE taken.market_day_id = ${marketDays.id} AND taken.means IN ('cash', 'check'))`,
  )
  return day?.entryNo ? (moneyLine(books, day.entryNo, sql`${postings.amountCents} > 0`) ?? null) : null
}

export interface FeeBefore {
  /** An account, of farm or household; `line`: by the bank's statement. */
  paid: 'takings' | 'line' | number
  costAccountId: number | null
}

/** How the newest fee was paid, and as which cost it was booked; null without one. */
export const feeBefore = (books: Books, marketId: string): FeeBefore | null => {
  const day = newestSettled(books, marketId, sql`coalesce(${marketDays.feeCents}, 0) > 0`)
  if (!day) return null
  const cost = day.entryNo
    ? books.db
        .select({ accountId: postings.accountId })
        .from(postings)
        .innerJoin(accounts, eq(accounts.id, postings.accountId))
        .where(and(eq(postings.entryNo, day.entryNo), eq(accounts.kind, 'expense')))
        .get()
    : undefined
  if (!day.entryNo || !cost) return { paid: 'line', costAccountId: null }
  const crossing = books.db
    .select({ id: postings.crossingId })
    .from(postings)
    .where(and(eq(postings.entryNo, day.entryNo), isNotNull(postings.crossingId)))
    .get()
  const house = crossing?.id
    ? entriesOfCrossing(books, crossing.id).find((no) => no !== day.entryNo)
    : undefined
  const paid = moneyLine(books, house ?? day.entryNo, sql`${postings.amountCents} < 0`)
  return { paid: paid ?? 'takings', costAccountId: cost.accountId }
}

/** Of an entry the account where money lies and that `isOfIt`. */
const moneyLine = (books: Books, entryNo: number, isOfIt: SQL): number | undefined =>
  books.db
    .select({ accountId: postings.accountId })
    .from(postings)
    .innerJoin(accounts, eq(accounts.id, postings.accountId))
    .where(
      and(
        eq(postings.entryNo, entryNo),
        isOfIt,
        sql`${accounts.kind} IN ('asset', 'liability')`,
        isNull(postings.crossingId),
      ),
    )
    .get()?.accountId

/** What an account has of exactly this amount near a day, that no market day booked; what was taken back does not count. */
export const feeInBooks = (
  books: Books,
  { accountId, amountCents, day }: { accountId: number; amountCents: Cents; day: Day },
): { day: Day; payee: string } | undefined =>
  books.sqlite
    .prepare(
      `SELECT p.day, e.payee FROM postings AS p INDEXED BY postings_register JOIN entries AS e ON e.no = p.entry_no
       WHERE p.account_id = @accountId AND p.day BETWEEN @first AND @last AND p.amount_cents = -@amountCents
         AND e.reverses_no IS NULL AND NOT EXISTS (SELECT 1 FROM entries AS back WHERE back.reverses_no = e.no)
         AND NOT EXISTS (SELECT 1 FROM market_days AS other WHERE other.entry_no = e.no)
         AND NOT EXISTS (SELECT 1 FROM postings AS half JOIN postings AS ours ON ours.crossing_id = half.crossing_id
           JOIN market_days AS other ON other.entry_no = ours.entry_no WHERE half.entry_no = e.no AND half.crossing_id IS NOT NULL)
       ORDER BY abs(julianday(p.day) - julianday(@day)), p.id LIMIT 1`,
    )
    .get({
      accountId,
      amountCents,
      day,
      first: addDays(day, -daysBetweenHalves),
      last: addDays(day, daysBetweenHalves),
    }) as { day: Day; payee: string } | undefined

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
        // What was bartered is other income of the form, and tells nothing of where sales go.
        or(isNull(accounts.scheduleLine), ne(accounts.scheduleLine, barterLine)),
        eq(entries.sideId, 'farm'),
        isNull(entries.reversesNo),
      ),
    )
    .orderBy(desc(postings.day), desc(postings.id))
    .limit(1)
    .get()?.accountId ?? null
