// Farm loans paid in equal monthly payments: payment, interest and balance by month, in the dollars of the contract.
import type { Month } from '#calendar/month.ts'
import type { FarmLoan } from './farm-document.ts'
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

/** Adds the farm's loans together. The first payment falls in the month after the start. */
export const loanMonths = (loans: readonly FarmLoan[], firstMonth: Month, monthCount: number): LoanMonths => {
  const out: LoanMonths = {
    payments: new Float64Array(monthCount),
    interest: new Float64Array(monthCount),
    drawn: new Float64Array(monthCount),
    balance: new Float64Array(monthCount),
  }
  for (const loan of loans) addLoan(out, loan, firstMonth, monthCount)
  return out
}

const addLoan = (out: LoanMonths, loan: FarmLoan, firstMonth: Month, monthCount: number) => {
  const start = monthFromText(loan.start) - firstMonth
  const rate = loan.yearlyRate / 12
  const payment = -levelPayment(rate, loan.months, loan.principal)
  let owed = loan.principal
  if (start >= 0 && start < monthCount) {
    if (loan.drawn) out.drawn[start]! += loan.principal
    out.balance[start]! += owed
  }
  for (let k = 1; k <= loan.months; k += 1) {
    const interest = owed * rate
    owed = k === loan.months ? 0 : owed + interest - payment
    const m = start + k
    if (m < 0 || m >= monthCount) continue
    out.payments[m]! += payment
    out.interest[m]! += interest
    out.balance[m]! += owed
  }
}

export interface LoanRow {
  payment: number
  principal: number
  interest: number
  balance: number
}

/** A loan that is paid in equal parts of principal, so that payments fall; rate by payment period. */
export const equalPrincipalLoan = (principal: number, rate: number, payments: number): LoanRow[] => {
  const part = principal / payments
  return Array.from({ length: payments }, (_, k) => {
    const owed = principal - part * k
    const interest = owed * rate
    return { payment: part + interest, principal: part, interest, balance: owed - part }
  })
}
