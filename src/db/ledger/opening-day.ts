// The first day of the books: the day of their opening balances, or of their first entry.
import type { Day } from '#calendar/day.ts'
import type { Books } from '#db/open.ts'
import type { SideId } from '#ledger/account.ts'

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

/** The day of a side's first opening balances; null where it has none. */
export const openingDayOfSide = (books: Books, sideId: SideId): Day | null =>
  (books.sqlite
    .prepare(
      `SELECT min(postings.day) FROM accounts JOIN postings ON postings.account_id = accounts.id
       WHERE accounts.side_id = ? AND accounts.system_role = 'opening_balances'`,
    )
    .pluck()
    .get(sideId) ?? null) as Day | null

/** Whether opening balances of money stand in the books, not taken back. */
export const moneyIsOpened = (books: Books): boolean =>
  books.sqlite
    .prepare(
      `SELECT EXISTS (SELECT 1 FROM accounts AS opening
         JOIN postings AS own ON own.account_id = opening.id
         JOIN entries AS entry ON entry.no = own.entry_no AND entry.source = 'opening'
         JOIN postings AS held ON held.entry_no = entry.no
         JOIN accounts AS money ON money.id = held.account_id AND money.cash_role <> 'none'
       WHERE opening.system_role = 'opening_balances'
         AND NOT EXISTS (SELECT 1 FROM entries AS back WHERE back.reverses_no = entry.no))`,
    )
    .pluck()
    .get() === 1

/** Accounts made after the first opening balances were booked: with these they were not asked about. None where there are none. */
export const accountsSinceOpening = (books: Books): ReadonlySet<number> =>
  new Set(
    books.sqlite
      .prepare(
        `SELECT id FROM accounts
         WHERE created_at > (SELECT min(posted_at) FROM entries WHERE source = 'opening')`,
      )
      .pluck()
      .all() as number[],
  )

/** Whether nothing but opening balances was ever booked. */
export const holdsOnlyOpenings = (books: Books): boolean =>
  books.sqlite
    .prepare("SELECT NOT EXISTS (SELECT 1 FROM entries WHERE source NOT IN ('opening', 'reversal'))")
    .pluck()
    .get() === 1
