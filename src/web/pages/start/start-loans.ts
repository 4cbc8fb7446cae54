// The first run's loans: which are owed on the first day, and their terms into the plan, each tied to its account.
import { z } from 'zod'
import { type Day, monthOfDay } from '#calendar/day.ts'
import { addMonths, monthText } from '#calendar/month.ts'
import { listAccounts } from '#db/ledger/account-store.ts'
import { balancesOn } from '#db/ledger/balances.ts'
import { openingDay } from '#db/ledger/opening-day.ts'
import type { Act } from '#db/once.ts'
import type { Books } from '#db/open.ts'
import type { Loan } from '#farm/loan-document.ts'
import { type Account, farmSide } from '#ledger/account.ts'
import type { FieldProblem } from '#ledger/problem.ts'
import { type Cents, cents, centsToDollars, negateCents } from '#money/cents.ts'
import { formatDollarsAndCents } from '#money/format.ts'
import type { Plan } from '#plan/plan.ts'
import { currentPlan } from '#today/current-plan.ts'
import { hasTerms, planLoanOf } from '#today/loan-terms.ts'
import { checkbox, moneyOrNull, moneyZeroOrMore, percentOrNull, rowId } from '#web/forms/fields.ts'
import { changePlan } from './start-plan.ts'

export const loanRow = z
  .object({
    account: rowId('Open this step again'),
    rate: percentOrNull(),
    payment: moneyOrNull(),
    escrow: moneyZeroOrMore(),
    realEstate: checkbox(),
  })
  .refine((row) => row.payment === null || row.rate !== null, {
    error: 'Enter the rate too, 0 if it has no interest',
    path: ['rate'],
  })
  .refine((row) => row.rate === null || row.payment !== null, {
    error: 'Enter the payment too',
    path: ['payment'],
  })

type LoanRow = z.output<typeof loanRow>

/** Loans owed on the first day: those asked about here, and those whose own page asks more. */
export const owedLoans = (books: Books): { here: Owed[]; elsewhere: Owed[] } => {
  const current = currentPlan(books)
  const owed = owedOnFirstDay(books)
  const isHere = ({ account }: Owed) => current.status !== 'read' || isAskedHere(current.plan, account)
  return { here: owed.filter(isHere), elsewhere: owed.filter((one) => !isHere(one)) }
}

interface Owed {
  account: Account
  owed: Cents
}

const owedOnFirstDay = (books: Books): Owed[] => {
  const first = openingDay(books)
  if (first === null) return []
  const balances = balancesOn(books, first)
  return listAccounts(books).flatMap((account) => {
    const owed = negateCents(balances.get(account.id) ?? cents(0))
    return hasTerms(account) && owed > 0 ? [{ account, owed }] : []
  })
}

/** Where living costs are told already, they may hold a loan's payments: its own page then asks. */
const isAskedHere = (plan: Plan, account: Account): boolean =>
  account.sideId === farmSide || plan.household.living.length === 0 || planLoanOf(plan, account) !== undefined

/** Terms typed for a loan stand in the plan under the loan's account, in place of what stood there. */
export function saveLoans(books: Books, act: Act, rows: readonly LoanRow[], first: Day): FieldProblem[] {
  const owed = owedLoans(books).here
  const said = rows.flatMap((row, index) => {
    const found = owed.find(({ account }) => account.id === row.account)
    return found && row.rate !== null && row.payment !== null
      ? [{ index, account: found.account, loan: loanOf(found.account, found.owed, row, first) }]
      : []
  })
  if (said.length === 0) return []
  const start = { startMonth: monthText(monthOfDay(first)), note: 'Loans', asked: rows }
  const withLoans = (known: readonly Loan[], isHere: (account: Account) => boolean): Loan[] => {
    const here = said.filter(({ account }) => isHere(account)).map(({ loan }) => loan)
    const numbers = new Set(here.map((loan) => loan.bookAccount))
    return [...known.filter((loan) => !numbers.has(loan.bookAccount)), ...here]
  }
  const onFarm = (account: Account) => account.sideId === farmSide
  const faults = said.flatMap(({ index, loan }) => {
    const interest = (loan.principal * loan.yearlyRate) / 12
    return loan.principal > 0 && loan.paymentPerMonth! <= interest
      ? [
          {
            path: `loans.${index}.payment`,
            message: `Interest alone is ${formatDollarsAndCents(interest)} a month. Enter a larger payment, or leave rate and payment empty and enter the loan in the plan`,
          },
        ]
      : []
  })
  if (faults.length > 0) return faults
  const saved = changePlan(books, act, start, (plan) => ({
    ...plan,
    household: {
      ...plan.household,
      loans: withLoans((plan.household?.loans ?? []) as Loan[], (account) => !onFarm(account)),
    },
    farm: { ...plan.farm, loans: withLoans((plan.farm?.loans ?? []) as Loan[], onFarm) },
  }))
  return saved.ok ? [] : saved.problems
}

/** The first payment falls in the first month of the books. */
const loanOf = (account: Account, owed: Cents, row: LoanRow, first: Day): Loan => ({
  id: `loan-${account.number}`,
  name: account.name,
  principal: centsToDollars(owed),
  yearlyRate: row.rate ?? 0,
  paymentPerMonth: centsToDollars(row.payment ?? cents(0)),
  ...(row.escrow > 0 ? { escrowPerMonth: centsToDollars(row.escrow) } : {}),
  start: monthText(addMonths(monthOfDay(first), -1)),
  drawn: false,
  onRealEstate: row.realEstate,
  bookAccount: account.number,
})
