// How far the books of a month are: its files, transfers, statements and closing. What waits to be sorted is told beside it.
import { type Day, lastDayOf, monthOfDay } from '#calendar/day.ts'
import { addMonths, type Month } from '#calendar/month.ts'
import { listAccounts, listSides, type Side } from '#db/ledger/account-store.ts'
import { balancesOn, monthSumsOfSide } from '#db/ledger/balances.ts'
import { openingDay } from '#db/ledger/opening-day.ts'
import type { Books } from '#db/open.ts'
import { booksReach } from '#db/reconcile/books-reach.ts'
import { begunOn, checklistOf, holdsWork, shutWith, standingClosing } from '#db/reconcile/closing-store.ts'
import { isReconciledThrough, linesToReconcile, openReconciliation } from '#db/reconcile/reconcile-reader.ts'
import { gapsBetween, readThrough, unreadIn } from '#db/statements/months-read.ts'
import { dueTransfers } from '#db/transfers/standing-store.ts'
import { type Account, balanceAsRead, isReconcilable } from '#ledger/account.ts'
import { cents, zeroCents } from '#money/cents.ts'
import { explained } from '#today/reconcile/explained.ts'
import { fileSays } from '#today/reconcile/file-says.ts'
import { changeInValueOf } from './change-in-value.ts'
import type { AccountName, CloseStep, FileStep, MonthPath, ReconcileStep } from './figures.ts'

/** A line of a statement that waits to be sorted. */
type Waiting = Readonly<{ accountId: number; day: Day }>

/** `asked`: a month up to this one; else the earliest that something waits in, the last one, or this one once that is closed. `waiting` are all lines that wait. */
export function monthPath(
  books: Books,
  today: Day,
  { asked, waiting }: { asked: Month | null; waiting: readonly Waiting[] },
): MonthPath {
  const now = monthOfDay(today)
  const sides = listSides(books)
  const month = asked !== null && asked <= now ? asked : monthToDo(books, sides, now, waiting)
  const end = lastDayOf(month)
  const before = sides.flatMap((side) =>
    holdsWork(books, side.id, month) ? shutWith(books, side.id, month) : [],
  )
  const accounts = accountsOf(books, sides)
  const used = new Set([
    ...sides.flatMap((side) => monthSumsOfSide(books, side.id, month, month).map((sum) => sum.accountId)),
    ...waiting.filter((line) => line.day <= end).map((line) => line.accountId),
  ])
  return {
    month,
    isOver: end < today,
    lastOverMonth: addMonths(now, -1),
    openBefore: [...new Set(before)].toSorted((a, b) => a - b),
    reach: booksReach(books, today),
    files: filesOf(books, accounts, month),
    transfers: dueTransfers(books, today).map(({ transfer, month: of, day, wasTakenBack, alikeOn }) => ({
      id: transfer.id,
      name: transfer.name,
      amountCents: transfer.amountCents,
      month: of,
      day,
      wasTakenBack,
      alikeOn,
    })),
    reconcile: accounts
      .filter(({ account }) => used.has(account.id) || isValuedIn(books, account, month))
      .map((one) => reconcileStep(books, one, end, waiting)),
    close: sides.flatMap((side) => closeStep(books, side, month, today)),
  }
}

/**
 * The earliest month that something waits in, of new books the one they begin with; then the last month that is over, until every
 * side that has entries is closed through it.
 */
const monthToDo = (books: Books, sides: readonly Side[], now: Month, waiting: readonly Waiting[]): Month => {
  const last = addMonths(now, -1)
  const waits = waiting.flatMap(({ day }) => (monthOfDay(day) <= last ? [monthOfDay(day)] : []))
  if (waits.length > 0) return Math.min(...waits) as Month
  const opens = openingDay(books)
  if (opens !== null && monthOfDay(opens) <= last && isBare(books, sides, last)) return monthOfDay(opens)
  const isShut = sides.every(
    ({ id }) => !holdsWork(books, id, last) && (standingClosing(books, id)?.month ?? last) >= last,
  )
  return isShut ? now : last
}

/** Nothing but opening balances: no file was read, and nothing booked. */
const isBare = (books: Books, sides: readonly Side[], last: Month): boolean =>
  readThrough(books).size === 0 &&
  sides.every(({ id }) => !holdsWork(books, id, last) && standingClosing(books, id) === undefined)

interface NamedAccount {
  account: Account
  name: AccountName
}

const accountsOf = (books: Books, sides: readonly Side[]): NamedAccount[] => {
  const kinds = new Map(sides.map((side) => [side.id, side.kind]))
  return listAccounts(books)
    .filter(isReconcilable)
    .map((account) => ({
      account,
      name: { id: account.id, name: account.name, side: kinds.get(account.sideId)! },
    }))
}

const filesOf = (books: Books, accounts: readonly NamedAccount[], month: Month): FileStep[] => {
  const through = readThrough(books)
  const unread = unreadIn(books, month)
  const gaps = gapsBetween(books, addMonths(month, -1))
  return accounts.flatMap(({ account: { id }, name }) =>
    through.has(id)
      ? [{ ...name, through: through.get(id)!, unreadBefore: gaps.get(id) ?? [], isMissing: unread.has(id) }]
      : [],
  )
}

/** What is invested changes though nothing moves: a file that states its balance in the month is enough. */
const isValuedIn = (books: Books, account: Account, month: Month): boolean => {
  if (changeInValueOf(books, account) === null) return false
  const says = fileSays(books, account)
  return says !== null && monthOfDay(says.day) === month
}

const reconcileStep = (
  books: Books,
  { account, name }: NamedAccount,
  end: Day,
  waiting: readonly Waiting[],
): ReconcileStep => {
  const says = fileSays(books, account)
  const openId = openReconciliation(books, account.id)?.id ?? null
  const step = { ...name, says, apartCents: zeroCents, explanations: [], openId, valueAccountId: null }
  if (isReconciledThrough(books, account.id, end)) return { ...step, state: 'done' }
  if (!says) return { ...step, state: 'untold' }
  if (waiting.some((line) => line.accountId === account.id && line.day <= says.day))
    return { ...step, state: 'waits' }
  const held = balanceAsRead(account.kind, balancesOn(books, says.day).get(account.id) ?? zeroCents)
  const apartCents = cents(held - says.balanceCents)
  if (apartCents === 0) return { ...step, state: 'agrees' }
  const explanations = explained(books, account, {
    apart: balanceAsRead(account.kind, apartCents),
    through: says.day,
    lines: linesToReconcile(books, account.id, says.day),
  })
  const valueAccountId = openId === null ? (changeInValueOf(books, account)?.id ?? null) : null
  return { ...step, apartCents, explanations, valueAccountId, state: 'apart' }
}

const closeStep = (books: Books, side: Side, month: Month, today: Day): CloseStep[] => {
  const named = { side: { id: side.id, kind: side.kind, name: side.name } }
  const through = standingClosing(books, side.id)?.month
  if (through !== undefined && through >= month)
    return [{ ...named, isClosed: true, begun: [], stops: [], looks: [] }]
  if (!holdsWork(books, side.id, month)) return []
  const list = checklistOf(books, side.id, month, today)
  const of = (state: 'stops' | 'look') => list.filter((item) => item.state === state)
  return [
    { ...named, isClosed: false, begun: begunOn(books, side.id), stops: of('stops'), looks: of('look') },
  ]
}
