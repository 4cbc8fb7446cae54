// The terms of loans, from the plan, for the accounts that hold them in the books; and what they make of payments that wait.
import { type Day, monthOfDay } from '#calendar/day.ts'
import { addMonths, monthText, parseMonth } from '#calendar/month.ts'
import { listAccounts } from '#db/ledger/account-store.ts'
import { loanState } from '#db/ledger/loan-state.ts'
import type { Books } from '#db/open.ts'
import type { Loan } from '#farm/loan-document.ts'
import { loanRows } from '#farm/loans.ts'
import { type Account, farmSide, householdSide, isLoan } from '#ledger/account.ts'
import {
  type LoanBook,
  type LoanParts,
  type LoanState,
  type LoanTerms,
  loanParts,
} from '#ledger/loan-payment.ts'
import { type Cents, cents, centsToDollars, dollarsToCents } from '#money/cents.ts'
import type { Plan } from '#plan/plan.ts'
import { currentPlan } from './current-plan.ts'

/** Of the loans that the plan ties to an account, and whose interest has an account to go to. */
export const loanBook = (books: Books): LoanBook => {
  const current = currentPlan(books)
  if (current.status !== 'read') return new Map()
  const accounts = listAccounts(books)
  return new Map(
    accounts.filter(isLoan).flatMap((account) => {
      const loan = planLoanOf(current.plan, account)
      const terms = loan && termsOf(accounts, account, loan)
      return terms ? [[account.id, terms]] : []
    }),
  )
}

const termsOf = (accounts: readonly Account[], account: Account, loan: Loan): LoanTerms | null => {
  const interest = interestAccount(accounts, account.sideId, loan.onRealEstate)
  if (!interest) return null
  const perMonthCents = dollarsToCents(loan.escrowPerMonth ?? 0)
  const held = escrowAccount(accounts, account.sideId)
  return {
    loanAccountId: account.id,
    yearlyRate: loan.yearlyRate,
    interestAccountId: interest.id,
    escrow: held && perMonthCents > 0 ? { perMonthCents, accountId: held.id } : null,
    ...(loan.paymentPerMonth === 0 ? { interestSince: parseMonth(loan.start)! } : {}),
  }
}

/** Principal that falls due within twelve months of owing so much, by the plan's terms; null where it has none. */
export const dueWithinYear = (books: Books, account: Account, owedCents: Cents): Cents | null => {
  const current = currentPlan(books)
  const loan = current.status === 'read' ? planLoanOf(current.plan, account) : undefined
  if (!loan) return null
  const rows = loanRows({ ...loan, principal: centsToDollars(owedCents) })
  return dollarsToCents(rows.slice(0, 12).reduce((sum, row) => sum + row.principal, 0))
}

/** Loans of house and farm: those of ventures stand in no plan. */
export const hasTerms = (account: Account): boolean =>
  isLoan(account) && (account.sideId === farmSide || account.sideId === householdSide)

/** The plan's loan that this account holds. */
export const planLoanOf = (plan: Plan, account: Account): Loan | undefined =>
  loansOf(plan, account).find((loan) => loan.bookAccount === account.number)

/** The plan's loans of an account's side. */
export const loansOf = (plan: Plan, { sideId }: Pick<Account, 'sideId'>): Loan[] =>
  sideId === farmSide ? plan.farm.loans : sideId === householdSide ? plan.household.loans : []

export const withLoans = (plan: Plan, { sideId }: Pick<Account, 'sideId'>, loans: Loan[]): Plan =>
  sideId === farmSide
    ? { ...plan, farm: { ...plan.farm, loans } }
    : { ...plan, household: { ...plan.household, loans } }

/** As it stands today: its next payment falls in this month, or in the next when this month's is booked. */
export const loanAsBooked = (books: Books, account: Account, others: readonly Loan[], today: Day) => {
  const { owedCents, lastPaid } = loanState(books, account.id, today)
  const month = monthOfDay(today)
  const isPaid = lastPaid !== null && monthOfDay(lastPaid) === month
  const id = `loan-${account.number}`
  return {
    id: others.some((one) => one.id === id) ? `${id}-${others.length}` : id,
    name: account.name,
    principal: Math.max(0, centsToDollars(owedCents)),
    start: monthText(isPaid ? month : addMonths(month, -1)),
    drawn: false,
    onRealEstate: account.propertyLoan === 'loan',
  }
}

/** On the farm lines 21a and 21b of Schedule F; in the house the account for loans on it, or for other loans. */
const interestAccount = (
  accounts: readonly Account[],
  sideId: string,
  onRealEstate: boolean,
): Account | undefined => {
  const costs = accounts.filter((one) => one.sideId === sideId && one.kind === 'expense')
  if (sideId === farmSide) return costs.find((one) => one.scheduleLine === (onRealEstate ? '21a' : '21b'))
  const debt = costs.filter((one) => one.purpose === 'debt')
  return debt.find((one) => (one.propertyLoan === 'interest') === onRealEstate) ?? debt[0]
}

/** All accounts on which a side may book the interest of loans. */
export const interestAccounts = (accounts: readonly Account[], sideId: string): Account[] =>
  [true, false].flatMap((onRealEstate) => interestAccount(accounts, sideId, onRealEstate) ?? [])

/** Property tax and insurance: on the farm line 29 of Schedule F; in the house their account, or another of living costs. */
const escrowAccount = (accounts: readonly Account[], sideId: string): Account | undefined => {
  const costs = accounts.filter((one) => one.sideId === sideId && one.kind === 'expense')
  if (sideId === farmSide) return costs.find((one) => one.scheduleLine === '29')
  const living = costs.filter((one) => one.purpose === 'living')
  return living.find((one) => one.propertyLoan === 'escrow') ?? living[0]
}

export interface LoanPayment {
  /** Of the caller's own, to find the parts by. */
  id: number
  loanAccountId: number
  day: Day
  size: Cents
}

/** What the terms make of payments one after the other, the oldest first, on top of what the books hold. */
export const proposedParts = (
  books: Books,
  terms: LoanBook,
  payments: readonly LoanPayment[],
): Map<number, LoanParts> => {
  const paid = new Map<number, { principal: number; last: Day }>()
  const parts = new Map<number, LoanParts>()
  for (const payment of [...payments].sort((a, b) =>
    a.day < b.day ? -1 : a.day > b.day ? 1 : a.id - b.id,
  )) {
    const own: LoanTerms | undefined = terms.get(payment.loanAccountId)
    if (!own) continue
    const before = paid.get(payment.loanAccountId)
    const booked = loanState(books, payment.loanAccountId, payment.day)
    const state: LoanState = before
      ? {
          owedCents: cents(booked.owedCents - before.principal),
          lastPaid: booked.lastPaid !== null && booked.lastPaid > before.last ? booked.lastPaid : before.last,
        }
      : booked
    const made = loanParts(own, state, payment.day, payment.size)
    parts.set(payment.id, made)
    paid.set(payment.loanAccountId, {
      principal: (before?.principal ?? 0) + made.principalCents,
      last: payment.day,
    })
  }
  return parts
}
