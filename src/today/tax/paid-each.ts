// The payments of a year's returns one by one, with the day of each: what was paid after the year stands among them.
import type { Day } from '#calendar/day.ts'
import type { Books } from '#db/open.ts'
import type { ReadMove, TaxReading } from '#ledger/tax/tax-payment.ts'
import { centsToDollars } from '#money/cents.ts'
import type { Plan } from '#plan/plan.ts'
import type { StateCode } from '#rules/places/state-names.ts'
import { countsUntil, movesOfTax, otherStateOf, type PaidUntil } from './paid-for.ts'
import { likelierReadings } from './payment-readings.ts'
import type { ReturnKind } from './return-kinds.ts'

/** Dollars; below zero it came back. */
export interface PaidOnce {
  day: Day
  payee: string
  office: ReturnKind
  /** Another state than the household's, to which it was paid; null of all else. */
  otherState: StateCode | null
  use: TaxReading['use']
  dollars: number
  /** Another reading fits too, and nobody said which. */
  undecided: boolean
}

/** `until`: only those that count then. */
export const paidEach = (books: Books, plan: Plan | null, year: number, until?: PaidUntil): PaidOnce[] =>
  onceEach(
    books,
    plan,
    year,
    movesOfTax(books).filter(({ move }) => countsUntil(move, until)),
  )

/** What was paid for the year, or came back of it, after that: a pack closed then did not know of it. */
export const paidSince = (books: Books, plan: Plan | null, year: number, until: PaidUntil): PaidOnce[] =>
  onceEach(
    books,
    plan,
    year,
    movesOfTax(books).filter(({ move }) => !countsUntil(move, until)),
  )

/** What was paid before that and booked after it: a pack closed then should have known of it, and did not. */
export const bookedSince = (
  books: Books,
  plan: Plan | null,
  year: number,
  until: Required<PaidUntil>,
): PaidOnce[] =>
  onceEach(
    books,
    plan,
    year,
    movesOfTax(books).filter(({ move }) => countsUntil(move, until) && move.postedAt > until.bookedBy),
  )

const onceEach = (books: Books, plan: Plan | null, year: number, moves: readonly ReadMove[]): PaidOnce[] =>
  moves.flatMap((read) => {
    // A payment that fits the year in no reading needs no look at what the year before owes.
    if (read.readings.every(({ taxYear }) => taxYear !== year)) return []
    const { move } = read
    const [{ office, state, use, taxYear }, ...others] = likelierReadings(books, plan, read)
    // Social security kept from pay, and sales tax, are on no such return.
    return taxYear !== year || use === 'withheld' || office === 'payroll' || office === 'sales'
      ? []
      : [
          {
            day: move.day,
            payee: move.payee,
            office,
            otherState: otherStateOf({ office, state }, plan),
            use,
            dollars: centsToDollars(move.amountCents),
            undecided: others.length > 0,
          },
        ]
  })
