// The other half of a transfer that was sorted from one account already: its line here is matched, not posted again.
import type { Statement } from 'better-sqlite3'
import { addDays } from '#calendar/day.ts'
import type { Books } from '#db/open.ts'
import type { EntryGround } from '#ledger/entry.ts'
import { daysBetweenHalves } from '#ledger/statements/matching.ts'
import type { SortingTarget } from '#ledger/statements/sorting.ts'
import { openPostings, type WaitingLine } from './sorting-desk.ts'

/** A function to the posting in the line's account that such a transfer made, or null. */
export const postedHalves = (books: Books, ground: EntryGround) => {
  let touchesOther: Statement | null = null
  return (line: WaitingLine, target: SortingTarget): number | null => {
    const otherId = target.kind === 'account' ? target.accountId : target.otherAccountId
    const other = ground.account(otherId)
    if (!other || (other.kind !== 'asset' && other.kind !== 'liability')) return null
    const from = addDays(line.day, -daysBetweenHalves)
    const to = addDays(line.day, daysBetweenHalves)
    touchesOther ??= books.sqlite
      .prepare(
        `SELECT 1 FROM postings AS own JOIN postings AS other ON other.entry_no = own.entry_no OR other.entry_no IN
           (SELECT half.entry_no FROM postings AS half WHERE half.crossing_id IN
             (SELECT crossing_id FROM postings WHERE entry_no = own.entry_no AND crossing_id IS NOT NULL))
         WHERE own.id = ? AND other.account_id = ? AND other.amount_cents = -own.amount_cents`,
      )
      .pluck()
    const found = openPostings(books, [line.accountId], from, to).find(
      (posting) => posting.amount === line.amount && touchesOther?.get(posting.postingId, otherId) === 1,
    )
    return found?.postingId ?? null
  }
}
