// Whether the books, or those up to a day, may read otherwise than before: what rests on them alone need not be read again.
import { addDays, type Day } from '#calendar/day.ts'
import { keeper } from '#kept/keeper.ts'
import { rolloverDays } from '#ledger/tax/savings-taken.ts'
import { rollbacksOf } from './chain/rollbacks.ts'
import { latestChangeId, standingOf } from './change-log.ts'
import type { Books } from './open.ts'

/** How far the books had been written when something was read from them. */
export interface Mark {
  change: number
  rollbacks: number
  entryNo: number
  accountId: number
}

export const markOf = (books: Books): Mark => ({
  change: latestChangeId(books),
  rollbacks: rollbacksOf(books),
  ...(books.sqlite.prepare(markText).get() as Pick<Mark, 'entryNo' | 'accountId'>),
})

export const isWrittenSince = (books: Books, { change, rollbacks }: Mark): boolean =>
  change !== latestChangeId(books) || rollbacks !== rollbacksOf(books)

/**
 * A booking touches the days from its own on. A change of any other kind (a correction, an undo, an account, a setting, a plan)
 * may touch every day, and so may an account that a booking brought with it, and what says when the books begin: the first booking
 * of all, and opening balances. What is put back into retirement savings touches the days it was taken out on.
 */
export const mayReadOtherwise = (books: Books, end: Day, from: Mark, to: Mark): boolean =>
  from.change > to.change ||
  from.rollbacks !== to.rollbacks ||
  from.accountId !== to.accountId ||
  from.entryNo === 0 ||
  books.sqlite.prepare(touchedText).get({ ...from, end, backBy: addDays(end, rolloverDays), bookings }) !==
    undefined

const bookings = JSON.stringify([
  'entry.posted',
  'crossing.posted',
  'receipt.posted',
  'standing.posted',
  'lines.sorted',
])

const markText = `SELECT coalesce((SELECT max(no) FROM entries), 0) AS entryNo,
  coalesce((SELECT max(id) FROM accounts), 0) AS accountId`

/** Each plus keeps SQLite from walking another index instead of the few new rows. */
const touchedText = `
  SELECT 1 FROM change_log WHERE id > @change AND kind NOT IN (SELECT value FROM json_each(@bookings))
  UNION ALL
  SELECT 1 FROM entries WHERE no > @entryNo AND +day <= @end
  UNION ALL
  SELECT 1 FROM postings WHERE entry_no > @entryNo
    AND +account_id IN (SELECT id FROM accounts WHERE system_role = 'opening_balances')
  UNION ALL
  SELECT 1 FROM postings WHERE entry_no > @entryNo AND +day <= @backBy AND amount_cents > 0
    AND +account_id IN (SELECT id FROM accounts WHERE savings_kind IN ('traditional', 'roth'))
  LIMIT 1`

/** What belongs to the books as they stand: another thing once they have changed. */
export const ownerUntilChange = (books: Books): object => {
  const standing = standingOf(books)
  const known = owners.get(books)
  if (known?.standing === standing) return known
  const owner = { standing }
  owners.set(books, owner)
  return owner
}

const owners = new WeakMap<Books, { standing: string }>()

/** What it returns is shared. Within a transaction it reads each time: what that has written may not be logged yet. */
export const readOnce = <Value>(books: Books, key: string, read: () => Value): Value =>
  books.sqlite.inTransaction ? read() : keptReadings(ownerUntilChange(books), key, read)

const keptReadings = keeper(60)
