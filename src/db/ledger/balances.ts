// Balances and monthly sums from the rollups: a few dozen rows per account however long the history.
import { type Day, firstDayOf, monthOfDay } from '#calendar/day.ts'
import { type Month, month, yearOf } from '#calendar/month.ts'
import type { Books } from '#db/open.ts'
import type { SideId } from '#ledger/account.ts'
import { type Cents, cents, sumCents, zeroCents } from '#money/cents.ts'

/** Balance of every account with postings at the end of a day, in the ledger's sign; the whole history when no day is given. */
export const balancesOn = (books: Books, day?: Day): Map<number, Cents> => {
  const rows = (
    day === undefined
      ? books.sqlite.prepare(allText).all()
      : books.sqlite.prepare(allOnText).all({
          day,
          first: firstDayOf(monthOfDay(day)),
          month: monthOfDay(day),
          january: month(yearOf(monthOfDay(day)), 1),
          year: yearOf(monthOfDay(day)),
        })
  ) as { accountId: number; sumCents: number }[]
  return new Map(rows.map((row) => [row.accountId, cents(row.sumCents)]))
}

/** What several accounts hold together, of balances read before. */
export const balanceOfAll = (
  balances: ReadonlyMap<number, Cents>,
  accounts: readonly { id: number }[],
): Cents => sumCents(accounts.map((account) => balances.get(account.id) ?? zeroCents))

/** Balance of one account at the end of a day, in the ledger's sign. */
export const balanceOn = (books: Books, accountId: number, day: Day): Cents =>
  balanceThrough(books, accountId, day, Number.MAX_SAFE_INTEGER)

/** Balance of one account through the posting `postingId` of `day`, in the order of the register (day, then posting). */
export const balanceThrough = (books: Books, accountId: number, day: Day, postingId: number): Cents => {
  const at = monthOfDay(day)
  return cents(
    books.sqlite
      .prepare(oneText)
      .pluck()
      .get({
        accountId,
        day,
        postingId,
        first: firstDayOf(at),
        month: at,
        january: month(yearOf(at), 1),
        year: yearOf(at),
      }) as number,
  )
}

export interface MonthSum {
  accountId: number
  month: Month
  sumCents: Cents
  count: number
}

/** What was posted to each account in each month of a span (both ends included), in the ledger's sign. Months without postings are left out. */
export const monthSums = (books: Books, from: Month, to: Month): MonthSum[] =>
  books.sqlite.prepare(monthsText).all({ from, to }) as MonthSum[]

/** The same of one side's accounts alone, read account by account: the other sides' months are not touched. */
export const monthSumsOfSide = (books: Books, sideId: SideId, from: Month, to: Month): MonthSum[] =>
  books.sqlite.prepare(monthsOfSideText).all({ sideId, from, to }) as MonthSum[]

/** First and last month with postings, or null for empty books. */
export const spanOfBooks = (books: Books): { first: Month; last: Month } | null => {
  const row = books.sqlite.prepare(spanText).get() as { first: Month | null; last: Month | null }
  return row.first === null || row.last === null ? null : { first: row.first, last: row.last }
}

const allText =
  'SELECT account_id AS accountId, sum(sum_cents) AS sumCents FROM account_years GROUP BY account_id'

const allOnText = `
  SELECT accountId, sum(part) AS sumCents FROM (
    SELECT account_id AS accountId, sum_cents AS part FROM account_years WHERE year < @year
    UNION ALL
    SELECT account_id, sum_cents FROM account_months WHERE month >= @january AND month < @month
    UNION ALL
    SELECT account_id, sum(amount_cents) FROM postings INDEXED BY postings_register
    WHERE account_id IN (SELECT account_id FROM account_months WHERE month = @month)
      AND day BETWEEN @first AND @day GROUP BY account_id)
  GROUP BY accountId`

const oneText = `
  SELECT coalesce((SELECT sum(sum_cents) FROM account_years WHERE account_id = @accountId AND year < @year), 0)
    + coalesce((SELECT sum(sum_cents) FROM account_months WHERE account_id = @accountId AND month >= @january AND month < @month), 0)
    + coalesce((SELECT sum(amount_cents) FROM postings INDEXED BY postings_register
        WHERE account_id = @accountId AND day >= @first AND (day, id) <= (@day, @postingId)), 0)`

const monthsText = `
  SELECT account_id AS accountId, month, sum_cents AS sumCents, count FROM account_months
  WHERE month BETWEEN @from AND @to ORDER BY month, account_id`

const monthsOfSideText = `
  SELECT account_id AS accountId, month, sum_cents AS sumCents, count FROM account_months
  WHERE account_id IN (SELECT id FROM accounts WHERE side_id = @sideId) AND month BETWEEN @from AND @to
  ORDER BY account_id, month`

/** Each end by itself: SQLite takes one end of an index, but for both at once it walks the whole of it. */
const spanText =
  'SELECT (SELECT min(month) FROM account_months) AS first, (SELECT max(month) FROM account_months) AS last'
