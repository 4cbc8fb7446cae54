// What a business paid before the day on which it began, by the books: of the year, and what the years before leave to it.
import { addDays, type Day, firstDayOfYear, lastDayOfYear, monthOfDay } from '#calendar/day.ts'
import { balancesOn, spanOfBooks } from '#db/ledger/balances.ts'
import type { Books } from '#db/open.ts'
import type { SideId } from '#ledger/account.ts'
import { type BeforeBeginning, nothingBefore, type StartUp } from '#ledger/tax/start-up.ts'
import { type Cents, cents, zeroCents } from '#money/cents.ts'
import { isSaidBefore } from './said-of-year.ts'

/** Nothing where no day is said. The year before, told by `startUpBefore`, is read only where there can be costs of it. */
export const beforeBeginning = (
  books: Books,
  sideId: SideId,
  year: number,
  beganOn: Day | null,
  startUpBefore: () => StartUp | null | undefined,
): BeforeBeginning => {
  if (beganOn === null) return nothingBefore
  const span = spanOfBooks(books)
  const mayCarry = (span !== null && monthOfDay(beganOn) >= span.first) || isSaidBefore(books, sideId, year)
  const before = mayCarry ? startUpBefore() : null
  return { costsCents: before?.costsCents ?? zeroCents, booked: bookedBefore(books, beganOn, year) }
}

/** By account, booked in the year before that day. */
const bookedBefore = (books: Books, beganOn: Day, year: number): Map<number, Cents> => {
  if (beganOn <= firstDayOfYear(year)) return new Map()
  const through = beganOn > lastDayOfYear(year) ? lastDayOfYear(year) : addDays(beganOn, -1)
  const atFirst = balancesOn(books, lastDayOfYear(year - 1))
  return new Map(
    [...balancesOn(books, through)].map(([id, sum]) => [id, cents(sum - (atFirst.get(id) ?? 0))]),
  )
}
