// The first day of the books: the day of their opening balances, or of their first entry.
import type { Day } from '#calendar/day.ts'
import type { Books } from '#db/open.ts'

/** Null for books that hold nothing. */
export const openingDay = (books: Books): Day | null =>
  (books.sqlite
    .prepare(
      `SELECT coalesce(
         (SELECT min(day) FROM postings WHERE account_id IN (SELECT id FROM accounts WHERE system_role = 'opening_balances')),
         (SELECT min(day) FROM entries))`,
    )
    .pluck()
    .get() ?? null) as Day | null
