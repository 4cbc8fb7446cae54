// Loans paid month by month: payment, interest and balance by month, in the dollars of the contract.
import type { Month } from '#calendar/month.ts'
import { type Loan, longestLoan } from './loan-document.ts'
import { monthFromText } from './seasonal.ts'
import { levelPayment } from './time-value.ts'

export interface LoanMonths {
  payments: Float64Array
  interest: Float64Array
  /** Cash that comes in when a loan is drawn inside the months. */
  drawn: Float64Array
  /** What is owed at each month's end. */
  balance: Float64Array
}

/** Adds the loans of one side together. The first payment falls in the month after the start. */
export const loanMonths = (loans: readonly Loan[], firstMonth: Month, monthCount: number): LoanMonths => {
  const out: LoanMonths = {
    payments: new Float64Array(monthCount),
    interest: new Float64Array(monthCount),
    drawn: new Float64Array(monthCount),
    balance: new Float64Array(monthCount),
  }
  for (const loan of loans) addLoan(out, loan, firstMonth, monthCount)
  return out
}

const addLoan = (out: LoanMonths, loan: Loan, firstMonth: Month, monthCount: number) => {
  const start = monthFromText(loan.start) - firstMonth
  if (start >= 0 && start < monthCount) {
    if (loan.drawn) out.drawn[start]! += loan.principal
    out.balance[start]! += loan.principal
  }
  for (const [k, { payment, interest, balance }] of loanRows(loan).entries()) {
    const m = start + 1 + k
    if (m < 0 || m >= monthCount) continue
    out.payments[m]! += payment
    out.interest[m]! += interest
    out.balance[m]! += balance
  }
}

export type LoanTerms = Pick<Loan, 'principal' | 'yearlyRate' | 'months' | 'paymentPerMonth'>

/**
 * The payments of a loan one after the other: level ones, or the payment given; the last pays all that is left. Interest is simple, by
 * the month (common practice): what a payment leaves of it waits for the next and bears none, as of a loan for the season, paid at harvest.
 */
export const loanRows = (loan: LoanTerms): LoanRow[] => {
  const rate = loan.yearlyRate / 12
  const last = loan.months ?? longestLoan
  const level = loan.paymentPerMonth ?? -levelPayment(rate, last, loan.principal)
  const rows: LoanRow[] = []
  let owed = loan.principal
  let unpaid = 0
  while (owed > 0 && rows.length < last) {
    const due = unpaid + owed * rate
    const isLast = rows.length + 1 === last || level >= owed + due
    const payment = isLast ? owed + due : level
    const interest = Math.min(payment, due)
    unpaid = due - interest
    owed = isLast ? 0 : owed + interest - payment
    rows.push({ payment, principal: payment - interest, interest, balance: owed })
  }
  return rows
}

export interface LoanRow {
  payment: number
  principal: number
  /** As it is paid. */
  interest: number
  /** Principal that is owed after it. */
  balance: number
}
