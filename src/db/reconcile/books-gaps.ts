// Months in the middle of a side's books that they hold nothing of, though they go on after them: what was spent then is in no figure.
import { type Day, firstDayOf, lastDayOf, monthOfDay } from '#calendar/day.ts'
import { addMonths, type Month } from '#calendar/month.ts'
import { closedThrough } from '#db/ledger/ledger-writer.ts'
import type { Books } from '#db/open.ts'
import { gapsBetween } from '#db/statements/months-read.ts'
import { householdSide, type SideId } from '#ledger/account.ts'
import { type BooksReach, roleOf } from './books-reach.ts'
import { reconciledThrough } from './reconcile-reader.ts'

export interface BooksGap {
  month: Month
  /** Accounts between whose bank files it lies; empty where no spendable money moved in it at all. */
  accounts: readonly string[]
}

/**
 * Months before the one that the books reach in which nothing moved: of all spendable money, or of an account whose files leave them
 * out. Not those that are closed, nor what a finished reconciliation or the bank's own balances vouch for. Oldest first.
 */
export const gapsInBooks = (
  books: Books,
  reach: BooksReach | null,
  sideId: SideId = householdSide,
): BooksGap[] => {
  if (reach === null) return []
  const last = addMonths(monthOfDay(reach.day), -1)
  const accounts = spendableAccounts(books, sideId)
  const unread = gapsBetween(books, last)
  const gaps: BooksGap[] = []
  for (let month = firstOpen(books, sideId); month <= last; month = addMonths(month, 1)) {
    const end = lastDayOf(month)
    const still = accounts.filter(({ moved }) => !moved.has(month))
    const unvouched = still.filter(({ isVouchedFor }) => !isVouchedFor(end))
    const left = unvouched.filter(({ id }) => unread.get(id)?.includes(month))
    if (still.length < accounts.length && left.length > 0)
      gaps.push({ month, accounts: left.map(({ name }) => name) })
    if (unvouched.length === accounts.length && !accounts.some(({ id }) => speaksOf(books, id, month)))
      gaps.push({ month, accounts: [] })
  }
  return gaps
}

interface Spendable {
  id: number
  name: string
  /** Months in which it moved, otherwise than by opening balances. */
  moved: ReadonlySet<Month>
  /** By a reconciliation, through a day. */
  isVouchedFor: (end: Day) => boolean
}

const spendableAccounts = (books: Books, sideId: SideId): Spendable[] => {
  const asked = { sideId, role: roleOf(sideId) }
  const rows = books.sqlite.prepare(movedText).all(asked) as {
    id: number
    name: string
    month: Month
    count: number
  }[]
  const openings = books.sqlite.prepare(openingsText).all(asked) as { id: number; day: Day }[]
  const found = new Map<number, Spendable & { moved: Set<Month> }>()
  for (const { id, name, month, count } of rows) {
    const account = found.get(id) ?? {
      id,
      name,
      moved: new Set(),
      isVouchedFor: reconciledThrough(books, id),
    }
    found.set(id, account)
    if (count > openings.filter((one) => one.id === id && monthOfDay(one.day) === month).length)
      account.moved.add(month)
  }
  return [...found.values()]
}

/** The first month that the books should hold whole: after those closed, and from the one with whose first day they begin. */
const firstOpen = (books: Books, sideId: SideId): Month => {
  const begins = books.sqlite
    .prepare(beginsText)
    .pluck()
    .get({ sideId, role: roleOf(sideId) }) as Day
  const whole = addMonths(monthOfDay(begins), begins === firstDayOf(monthOfDay(begins)) ? 0 : 1)
  const closed = closedThrough(books, sideId)
  return closed === null ? whole : (Math.max(whole, closed + 1) as Month)
}

/** Whether a file of the account goes over the whole month: nothing moved in it then. */
const speaksOf = (books: Books, accountId: number, month: Month): boolean =>
  books.sqlite
    .prepare(speaksText)
    .pluck()
    .get({ accountId, first: firstDayOf(month), last: lastDayOf(month) }) === 1

const speaksText = `
  SELECT EXISTS (SELECT 1 FROM statements WHERE account_id = @accountId
    AND first_day <= @first AND max(coalesce(last_day, ''), coalesce(closing_day, '')) >= @last)`

const movedText = `
  SELECT id, name, month, count FROM accounts JOIN account_months ON account_months.account_id = accounts.id
  WHERE side_id = @sideId AND cash_role = @role`

const openingsText = `
  SELECT held.account_id AS id, held.day FROM accounts AS own
    JOIN postings AS opening ON opening.account_id = own.id
    JOIN postings AS held ON held.entry_no = opening.entry_no
    JOIN accounts AS spendable ON spendable.id = held.account_id AND spendable.cash_role = @role
  WHERE own.system_role = 'opening_balances' AND own.side_id = @sideId`

const beginsText = `
  SELECT min(day) FROM accounts JOIN postings ON postings.account_id = accounts.id
  WHERE side_id = @sideId AND cash_role = @role`
