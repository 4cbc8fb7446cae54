// The first day of the books: the day of their opening balances, or of their first entry.
import type { Day } from '#calendar/day.ts'
import type { Books } from '#db/open.ts'

/** Null for books that hold nothing. */
export const openingDay = (books: Books): Day | null =>
  (books.sqlite
    .prepare(
      // Account by account and side by side: the first row of an index each, however many entries there are.
      `SELECT coalesce(
         (SELECT min((SELECT min(day) FROM postings WHERE account_id = accounts.id))
            FROM accounts WHERE system_role = 'opening_balances'),
         (SELECT min((SELECT min(day) FROM entries WHERE side_id = sides.id)) FROM sides))`,
    )
    .pluck()
    .get() ?? null) as Day | null
