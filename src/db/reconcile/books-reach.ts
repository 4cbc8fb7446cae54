// How far the books of the household, or of the farm, reach: as far as the bank's files and reconciliations cover its spendable money, not to whatever day an entry bears.
import { addDays, type Day, firstDayOf, lastDayOf, monthOfDay } from '#calendar/day.ts'
import { closedThrough } from '#db/ledger/ledger-writer.ts'
import type { Books } from '#db/open.ts'
import { type CashRole, householdSide, type SideId } from '#ledger/account.ts'

export interface BooksReach {
  day: Day
  /** No file was read and no statement reconciled for any of it: the days of entries are all that is known. */
  isByHand: boolean
  /** The last day of an entry beyond what the files cover; it makes the books reach no further. */
  laterByHand: Day | null
  /** The accounts that it is told of: all spendable ones that ever held something. */
  accounts: readonly string[]
}

/**
 * The last day up to `today` on which the side's spendable money moved, of what files, reconciliations and closed months
 * cover; of all entries where it is kept by hand alone; null before it ever moved. What the money did after that day is not known.
 * A closed month is a person's word that it is complete: nothing moved in what is left of it, and the books reach its end.
 * Opening balances of the first of a month are what its eve left: by themselves they say nothing of the month.
 */
export const reachOfBooks = (books: Books, today: Day, sideId: SideId = householdSide): BooksReach | null => {
  const accounts = books.sqlite.prepare(coverText).all({ sideId, role: roleOf(sideId) }) as {
    id: number
    name: string
    covered: Day | ''
    opened: Day | ''
  }[]
  const isByHand = accounts.every(({ covered }) => covered === '')
  const closed = closedThrough(books, sideId)
  const shut = closed === null ? '' : lastDayOf(closed)
  const moved = books.sqlite.prepare(lastText).pluck()
  const lastOf = (id: number, through: Day | ''): Day | '' =>
    through === '' ? '' : ((moved.get(id, through < today ? through : today) ?? '') as Day | '')
  const moves = accounts.map(({ id, name }) => ({ name, last: lastOf(id, today) }))
  const last = latest(moves.map((one) => one.last))
  const known = isByHand
    ? last
    : latest(accounts.map(({ id, covered, opened }) => lastOf(id, latest([covered, opened, shut]))))
  if (known === '') return null
  const through = shut < today ? shut : today
  return {
    day: latest([sinceOpening(books, known, sideId), through]) as Day,
    isByHand,
    laterByHand: last === '' || last <= latest([known, through]) ? null : last,
    accounts: moves.filter((one) => one.last !== '').map(({ name }) => name),
  }
}

export const booksReach = (books: Books, today: Day, sideId: SideId = householdSide): Day | null =>
  reachOfBooks(books, today, sideId)?.day ?? null

/** What can be spent of the household, and the money of a business. */
export const roleOf = (sideId: SideId): CashRole => (sideId === householdSide ? 'spendable' : 'cash')

const latest = (days: readonly (Day | '')[]): Day | '' => [...days].sort().at(-1) ?? ''

const sinceOpening = (books: Books, last: Day, sideId: SideId): Day => {
  if (last !== firstDayOf(monthOfDay(last))) return last
  return books.sqlite
    .prepare(movedText)
    .pluck()
    .get({ day: last, sideId, role: roleOf(sideId) }) === 1
    ? last
    : addDays(last, -1)
}

const coverText = `
  SELECT id, name, max(
    coalesce((SELECT max(max(coalesce(last_day, ''), coalesce(closing_day, ''))) FROM statements WHERE account_id = accounts.id), ''),
    coalesce((SELECT max(statement_day) FROM reconciliations WHERE account_id = accounts.id AND state = 'finished'), '')) AS covered,
    coalesce((SELECT max(held.day) FROM accounts AS own
      JOIN postings AS opening ON opening.account_id = own.id
      JOIN postings AS held ON held.entry_no = opening.entry_no AND held.account_id = accounts.id
      WHERE own.system_role = 'opening_balances'), '') AS opened
  FROM accounts WHERE side_id = @sideId AND cash_role = @role`

const lastText =
  'SELECT max(day) FROM postings INDEXED BY postings_register WHERE account_id = ? AND day <= ?'

/** Whether spendable money moved on a day otherwise than by opening balances. */
const movedText = `
  SELECT EXISTS (SELECT 1 FROM accounts
    JOIN postings AS moved INDEXED BY postings_register ON moved.account_id = accounts.id AND moved.day = @day
    WHERE side_id = @sideId AND cash_role = @role AND NOT EXISTS (
      SELECT 1 FROM postings AS opening JOIN accounts AS own ON own.id = opening.account_id
      WHERE opening.entry_no = moved.entry_no AND own.system_role = 'opening_balances'))`
