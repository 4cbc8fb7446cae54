// A loan payment taken apart: interest by the loan's own terms for the months since the last one, escrow, the rest principal.
import { type Day, monthOfDay } from '#calendar/day.ts'
import { type Month, monthsBetween } from '#calendar/month.ts'
import { type Cents, cents, zeroCents } from '#money/cents.ts'
import { Decimal } from '#money/decimal.ts'

export interface LoanTerms {
  loanAccountId: number
  /** As a fraction: 0.065 is 6.5 % a year. */
  yearlyRate: number
  /** Where its interest is booked, on the loan's side. */
  interestAccountId: number
  /** Taxes and insurance that the lender collects with each payment, and where they are booked; 0 for none. */
  escrow: { perMonthCents: Cents; accountId: number } | null
  /** Of a loan of which nothing is paid before its end, like one for the season: the month it was taken. */
  interestSince?: Month
}

/** Terms by the account of the loan. */
export type LoanBook = ReadonlyMap<number, LoanTerms>

/** A loan before a payment: what is owed, and the day of the last payment the books know. */
export interface LoanState {
  owedCents: Cents
  lastPaid: Day | null
}

export interface LoanParts {
  interestCents: Cents
  escrowCents: Cents
  principalCents: Cents
}

/**
 * Simple interest by the month, a twelfth of the year's (common practice for level loans): one month's for the first payment the
 * books know, of a loan for the season all months since it was taken, none for a second one in a month, more where months were left out. Interest comes before escrow, which is paid once a month, and
 * both before principal; together never more than the payment.
 */
export const loanParts = (terms: LoanTerms, state: LoanState, paidOn: Day, size: Cents): LoanParts => {
  const since = state.lastPaid === null ? terms.interestSince : monthOfDay(state.lastPaid)
  const months = since === undefined ? 1 : Math.max(0, monthsBetween(since, monthOfDay(paidOn)))
  const due = new Decimal(Math.max(0, state.owedCents))
    .times(String(terms.yearlyRate))
    .times(months)
    .div(12)
    .toDecimalPlaces(0, Decimal.ROUND_HALF_UP)
    .toNumber()
  const interestCents = cents(Math.min(size, due))
  const escrowCents = cents(
    Math.min(size - interestCents, months > 0 ? (terms.escrow?.perMonthCents ?? 0) : 0),
  )
  return { interestCents, escrowCents, principalCents: cents(size - interestCents - escrowCents) }
}

/** The same as lines of an entry or parts of a statement line; what is nothing is left out. */
export const partsByAccount = (
  terms: LoanTerms,
  { interestCents, escrowCents, principalCents }: LoanParts,
): { accountId: number; size: Cents }[] =>
  [
    { accountId: terms.interestAccountId, size: interestCents },
    { accountId: terms.escrow?.accountId ?? terms.loanAccountId, size: escrowCents },
    { accountId: terms.loanAccountId, size: principalCents },
  ].filter(({ size }) => size !== zeroCents)
