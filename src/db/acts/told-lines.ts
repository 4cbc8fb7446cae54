// What acts of the log wrote to lines of the books and of statements, as the list of acts tells it.
import { eq, max, min, sql } from 'drizzle-orm'
import type { Day } from '#calendar/day.ts'
import { isAmong } from '#db/among.ts'
import type { Books } from '#db/open.ts'
import { accounts, postings } from '#db/schema.ts'
import { statementLines } from '#db/schema-statements.ts'
import { type Cents, cents } from '#money/cents.ts'

/** What lines of the books come to together, debits positive. */
export const sumOfLines = (books: Books, postingIds: readonly number[]): Cents =>
  cents(
    books.db
      .select({ sum: sql<number>`coalesce(sum(${postings.amountCents}), 0)` })
      .from(postings)
      .where(isAmong(postings.id, postingIds))
      .get()?.sum ?? 0,
  )

/** Of each account the days of the statement lines named, those that are there still. */
export const daysOfStatementLines = (
  books: Books,
  lineIds: readonly number[],
): { account: string; first: Day; last: Day }[] =>
  books.db
    .select({
      account: accounts.name,
      first: sql<Day>`${min(statementLines.day)}`,
      last: sql<Day>`${max(statementLines.day)}`,
    })
    .from(statementLines)
    .innerJoin(accounts, eq(accounts.id, statementLines.accountId))
    .where(isAmong(statementLines.id, lineIds))
    .groupBy(accounts.id)
    .orderBy(accounts.id)
    .all()
