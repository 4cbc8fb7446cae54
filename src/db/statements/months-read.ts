// Which months the files that were read in speak of, account by account.
import { type Day, firstDayOf, lastDayOf } from '#calendar/day.ts'
import type { Month } from '#calendar/month.ts'
import type { Books } from '#db/open.ts'

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
