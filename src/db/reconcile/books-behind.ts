// Accounts whose bank files end while the books go on by those of others: what moved on them since then is in no figure.
import { type Day, firstDayOf, lastDayOf, monthOfDay } from '#calendar/day.ts'
import type { Month } from '#calendar/month.ts'
import { listAccounts } from '#db/ledger/account-store.ts'
import { closedThrough } from '#db/ledger/ledger-writer.ts'
import type { Books } from '#db/open.ts'
import { readThrough, unreadIn } from '#db/statements/months-read.ts'
import { householdSide, type SideId } from '#ledger/account.ts'
import { type BooksReach, roleOf } from './books-reach.ts'
import { reconciledThrough } from './reconcile-reader.ts'

export interface BehindAccount {
  id: number
  name: string
  /** The last day that one of its files speaks of. */
  through: Day
}

/**
 * Of the last month that is over and that the books reach no file of theirs speaks, nor does a later one. Not where that month is
 * closed, which is a person's word that it is complete, nor what a reconciliation vouches for.
 */
export const behindOthers = (
  books: Books,
  reach: BooksReach | null,
  today: Day,
  sideId: SideId = householdSide,
): BehindAccount[] => {
  if (reach === null) return []
  const month = Math.min(monthOfDay(today) - 1, monthOfDay(reach.day)) as Month
  if (month <= (closedThrough(books, sideId) ?? 0)) return []
  const unread = unreadIn(books, month)
  const through = readThrough(books)
  return listAccounts(books, { sideId }).flatMap(({ id, name, cashRole }) => {
    const last = through.get(id)
    if (cashRole !== roleOf(sideId) || !unread.has(id) || last === undefined) return []
    if (last > firstDayOf(month) || reconciledThrough(books, id)(lastDayOf(month))) return []
    return [{ id, name, through: last }]
  })
}
