// Which months the files that were read in speak of, account by account.
import { type Day, firstDayOf, lastDayOf, monthOfDay } from '#calendar/day.ts'
import { addMonths, type Month } from '#calendar/month.ts'
import type { Books } from '#db/open.ts'
import type { Cents } from '#money/cents.ts'

/**
 * Accounts with a file of before the month and none for it. A file speaks of the days from its first line to its last one; one
 * without lines only of its balance's day, for many banks give the day of the download as that.
 */
export const unreadIn = (books: Books, month: Month): Set<number> =>
  new Set(
    books.sqlite
      .prepare(
        `SELECT account_id FROM statements GROUP BY account_id
         HAVING min(coalesce(first_day, closing_day)) < @first
           AND NOT max(coalesce(coalesce(first_day, closing_day) <= @last AND coalesce(last_day, closing_day) >= @first, 0))`,
      )
      .pluck()
      .all(daysOf(month)) as number[],
  )

/**
 * Months up to `last` that lie between the files of an account and that none of them speaks of, by account, oldest first: until one
 * is read, whatever was answered as the later file came. Where the balances before and after meet, nothing is missing.
 */
export const gapsBetween = (books: Books, last: Month): ReadonlyMap<number, readonly Month[]> => {
  const gaps = new Map<number, Month[]>()
  let before: FileSpan | undefined
  for (const file of books.sqlite.prepare(spansText).all() as FileSpan[]) {
    const own = before?.id === file.id ? before : undefined
    if (own && (file.opens === null || file.opens !== own.closes))
      for (let at = addMonths(monthOfDay(own.last), 1); at < monthOfDay(file.first); at = addMonths(at, 1))
        if (at <= last) gaps.set(file.id, [...(gaps.get(file.id) ?? []), at])
    if (!own || file.last >= own.last) before = file
  }
  return gaps
}

interface FileSpan {
  id: number
  first: Day
  last: Day
  /** What it begins with by its lines and its balance; null where other files had some of its lines. */
  opens: Cents | null
  closes: Cents | null
}

const spansText = `
  SELECT account_id AS id, coalesce(first_day, closing_day) AS first, coalesce(last_day, closing_day) AS last,
    CASE WHEN new_line_count = line_count THEN closing_balance_cents - coalesce(
      (SELECT sum(amount_cents) FROM statement_lines WHERE statement_id = statements.id), 0) END AS opens,
    closing_balance_cents AS closes
  FROM statements WHERE coalesce(first_day, closing_day) IS NOT NULL ORDER BY account_id, first, last`

/** How many lines of a side's accounts are dated in the month. */
export const linesReadIn = (books: Books, sideId: string, month: Month): number =>
  books.sqlite
    .prepare(
      `SELECT count(*) FROM accounts JOIN statement_lines AS line ON line.account_id = accounts.id
       WHERE accounts.side_id = @sideId AND line.day BETWEEN @first AND @last`,
    )
    .pluck()
    .get({ sideId, ...daysOf(month) }) as number

/** Accounts of which files were read, each with the last day that one of them speaks of. */
export const readThrough = (books: Books): ReadonlyMap<number, Day> =>
  new Map(
    (
      books.sqlite
        .prepare(
          `SELECT account_id AS id, max(coalesce(last_day, closing_day)) AS day FROM statements
           WHERE coalesce(last_day, closing_day) IS NOT NULL GROUP BY account_id`,
        )
        .all() as { id: number; day: Day }[]
    ).map(({ id, day }) => [id, day]),
  )

const daysOf = (month: Month): { first: Day; last: Day } => ({
  first: firstDayOf(month),
  last: lastDayOf(month),
})
