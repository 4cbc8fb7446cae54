// What was paid for a year's return, each payment read once: kept from pay, ahead of time, with the return, or given back.
import { group } from 'd3-array'
import type { Day } from '#calendar/day.ts'
import { yearIn } from '#calendar/month.ts'
import type { Books } from '#db/open.ts'
import { taxMoves } from '#db/tax/tax-moves.ts'
import type { EarlierIncome } from '#ledger/reports/income-of-year.ts'
import { type ReadMove, readingsOf, type TaxMove, type TaxReading } from '#ledger/tax/tax-payment.ts'
import { type Cents, centsToDollars } from '#money/cents.ts'
import type { Plan } from '#plan/plan.ts'
import type { StateCode } from '#rules/places/state-names.ts'
import { isLocalWithState } from '#rules/states/state-law.ts'
import { keptUntilChange } from '#today/kept.ts'
import { refundApplied } from './refund-applied.ts'
import type { ReturnKind } from './return-kinds.ts'

/** Those whose payments ahead are worked out; of a local office no days are known. */
export type AheadKind = Exclude<ReturnKind, 'local'>

/** Dollars. */
export interface PaidFor {
  /** Line 25a of the federal return. */
  withheld: number
  /** Line 26, less what is applied. */
  estimates: number
  /** Line 26 too: what of the refund of the year before was left there for this one. */
  applied: number
  /** After the year, for what the return asked beyond both. */
  withReturn: number
  /** What came back of the year's tax. */
  refunded: number
  /** Line 36: what of the year's refund was left for the next year. */
  appliedToNext: number
}

export const nothingPaid: PaidFor = {
  withheld: 0,
  estimates: 0,
  applied: 0,
  withReturn: 0,
  refunded: 0,
  appliedToNext: 0,
}

/** All of line 26: paid ahead by the year's own days, a refund that was left there by the first of them (26 USC 6402(b), 6513(d)). */
export const onLine26 = ({ estimates, applied }: PaidFor): number => estimates + applied

/** What the year's return takes off: all but what was paid because of it. */
export const paidAhead = (paid: PaidFor): number => paid.withheld + onLine26(paid)

/** With what was said to have been paid before books that begin within the year. */
export const withPaidEarlier = <Paid extends PaidFor>(
  paid: Paid,
  earlier: EarlierIncome | undefined,
  to: ReturnKind,
): Paid => {
  if (!earlier) return paid
  if (to !== 'federal') {
    const { statePaid, localPaid } = earlier
    return { ...paid, estimates: paid.estimates + (to === 'local' ? localPaid : statePaid - localPaid) }
  }
  const withheld = Math.min(earlier.withheld, earlier.paid)
  return {
    ...paid,
    withheld: paid.withheld + withheld,
    estimates: paid.estimates + earlier.paid - withheld,
  }
}

/** Every payment of tax, oldest first, each read once. */
export const movesOfTax = (books: Books): readonly ReadMove[] => readMoves(books).all

interface ReadMoves {
  all: readonly ReadMove[]
  /** Those that fit one reading, by its year. */
  sure: ReadonlyMap<number, readonly ReadMove[]>
  /** The others, by the year they were paid in. */
  undecided: ReadonlyMap<number, readonly ReadMove[]>
}

const readMoves = (books: Books): ReadMoves =>
  keptUntilChange(books, 'payments of tax', () => {
    const all = taxMoves(books).map((move): ReadMove => ({ move, readings: readingsOf(move) }))
    const isSure = ({ readings }: ReadMove) => readings.length === 1
    return {
      all,
      sure: group(all.filter(isSure), ({ readings: [{ taxYear }] }) => taxYear),
      undecided: group(
        all.filter((read) => !isSure(read)),
        ({ move }) => yearIn(move.day),
      ),
    }
  })

interface Asked {
  plan: Plan | null
  year: number
  to: ReturnKind
  /** All when missing. */
  until?: PaidUntil | undefined
}

/** Which payments count: those that moved earlier than the day, and later ones that were booked by then. */
export interface PaidUntil {
  day: Day
  bookedBy?: string
}

/** Whether a payment counts. */
export const countsUntil = ({ day, postedAt }: TaxMove, until: PaidUntil | undefined): boolean =>
  until === undefined || day < until.day || (until.bookedBy !== undefined && postedAt <= until.bookedBy)

/** Payments of which one reading fits, or was said, dollars. */
export const surelyPaidFor = (books: Books, asked: Asked): PaidFor => {
  const sums: PaidFor = {
    ...nothingPaid,
    applied: centsToDollars(refundApplied(books, asked.year - 1).applied[asked.to]),
    appliedToNext: centsToDollars(refundApplied(books, asked.year).applied[asked.to]),
  }
  for (const read of readMoves(books).sure.get(asked.year) ?? []) {
    if (!belongs(read, asked)) continue
    count(sums, read.readings[0].use, read.move.amountCents)
  }
  return sums
}

const count = (sums: PaidFor, use: TaxReading['use'], amountCents: Cents): void => {
  const dollars = centsToDollars(amountCents)
  if (use === 'refund') sums.refunded -= dollars
  else sums[sumOfUse[use]] += dollars
}

/** Paid in a year, in the month in which the return before it and its own first installment are due, and nobody said for which. */
export const undecidedIn = (books: Books, asked: Asked): number =>
  (readMoves(books).undecided.get(asked.year) ?? []).reduce(
    (sum, read) => (belongs(read, asked) ? sum + centsToDollars(read.move.amountCents) : sum),
    0,
  )

const sumOfUse = { withheld: 'withheld', estimate: 'estimates', balance: 'withReturn' } as const

/** Tax of another state than the household's is on a return of its own; payroll tax on none of these. */
const belongs = ({ move, readings }: ReadMove, { plan, to, until }: Asked): boolean => {
  if (!countsUntil(move, until)) return false
  const [reading] = readings
  if (to === 'federal') return reading.office === 'federal'
  const home = plan?.household.place.state ?? null
  const goesTo = reading.office === 'local' && isLocalWithState(home) ? 'state' : reading.office
  return goesTo === to && otherStateOf(reading, plan) === null
}

/** The state that takes it, where that is not the household's own; null where no place is known. */
export const otherStateOf = (
  { office, state }: Pick<TaxReading, 'office' | 'state'>,
  plan: Plan | null,
): StateCode | null => {
  const home = plan?.household.place.state ?? null
  return office === 'federal' || state === null || home === null || state === home
    ? null
    : (state as StateCode)
}

export interface OtherStatePaid {
  state: StateCode
  paid: PaidFor
}

/** What each other state was paid for a year, by letters; of payments that fit two readings, as the first of them. Its return is worked out nowhere here. */
export const paidToOtherStates = (
  books: Books,
  plan: Plan | null,
  year: number,
  until?: PaidUntil,
): OtherStatePaid[] => {
  const found = new Map<StateCode, PaidFor>()
  for (const { move, readings } of readMoves(books).all) {
    const [reading] = readings
    const state = otherStateOf(reading, plan)
    if (state === null || reading.taxYear !== year || !countsUntil(move, until)) continue
    const sums = { ...(found.get(state) ?? nothingPaid) }
    count(sums, reading.use, move.amountCents)
    found.set(state, sums)
  }
  return [...found].map(([state, paid]) => ({ state, paid })).sort((a, b) => (a.state < b.state ? -1 : 1))
}
