// How many transactions wait to be sorted, and how much money that is: what Now and the books say of the desk.
import { and, asc, eq, sql } from 'drizzle-orm'
import type { Day } from '#calendar/day.ts'
import type { Books } from '#db/open.ts'
import { accounts } from '#db/schema.ts'
import { statementLines } from '#db/schema-statements.ts'
import type { Cents } from '#money/cents.ts'

/** How many lines wait, for Now and for the books' page. */
export const countWaiting = (books: Books, accountId?: number): { waiting: number; doubtful: number } => {
  const rows = books.db
    .select({ state: statementLines.state, count: sql<number>`count(*)` })
    .from(statementLines)
    .where(
      and(
        sql`state IN ('unsorted', 'doubtful')`,
        accountId === undefined ? undefined : eq(statementLines.accountId, accountId),
      ),
    )
    .groupBy(statementLines.state)
    .all()
  const of = (state: string) => rows.find((row) => row.state === state)?.count ?? 0
  return { waiting: of('unsorted') + of('doubtful'), doubtful: of('doubtful') }
}

/** How many lines of these days wait. */
export const waitingBetween = (books: Books, first: Day, last: Day): number =>
  books.sqlite
    .prepare(
      `SELECT count(*) FROM statement_lines WHERE state IN ('unsorted', 'doubtful') AND day BETWEEN @first AND @last`,
    )
    .pluck()
    .get({ first, last }) as number

/** What waits by account, as the bank shows it: the books are short of the bank by so much. */
export const waitingSums = (
  books: Books,
): { accountId: number; accountName: string; sideId: string; lines: number; sumCents: Cents }[] =>
  books.db
    .select({
      accountId: statementLines.accountId,
      accountName: accounts.name,
      sideId: accounts.sideId,
      lines: sql<number>`count(*)`,
      sumCents: sql<Cents>`sum(${statementLines.amountCents})`,
    })
    .from(statementLines)
    .innerJoin(accounts, eq(accounts.id, statementLines.accountId))
    .where(sql`${statementLines.state} IN ('unsorted', 'doubtful')`)
    .groupBy(statementLines.accountId)
    .orderBy(asc(statementLines.accountId))
    .all()
