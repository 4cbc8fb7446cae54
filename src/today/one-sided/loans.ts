// Loans that only the books or only the plan know.
import { addDays, type Day, firstDayOf, monthOfDay } from '#calendar/day.ts'
import { type Month, parseMonth } from '#calendar/month.ts'
import { listAccounts } from '#db/ledger/account-store.ts'
import { balancesOn, type MonthSum, monthSumsOfSide } from '#db/ledger/balances.ts'
import { loanState } from '#db/ledger/loan-state.ts'
import type { Books } from '#db/open.ts'
import type { Loan } from '#farm/loan-document.ts'
import { loanRows } from '#farm/loans.ts'
import { type Account, farmSide, householdSide } from '#ledger/account.ts'
import { centsToDollars, sumCents, zeroCents } from '#money/cents.ts'
import { formatDollars, formatPercent } from '#money/format.ts'
import type { Plan } from '#plan/plan.ts'
import {
  hasTerms,
  interestAccounts,
  loanAsBooked,
  loansOf,
  planLoanOf,
  withLoans,
} from '#today/loan-terms.ts'
import type { OneSided } from './figures.ts'

export const oneSidedLoans = (books: Books, plan: Plan, today: Day): OneSided[] => [
  ...listAccounts(books)
    .filter((account) => hasTerms(account) && !planLoanOf(plan, account))
    .flatMap((account) => loanOfBooks(books, plan, account, today)),
  ...[householdSide, farmSide].flatMap((sideId) => loansOfPlan(books, plan, sideId, today)),
]

function loanOfBooks(books: Books, plan: Plan, account: Account, today: Day): OneSided[] {
  const owed = centsToDollars(loanState(books, account.id, today).owedCents)
  if (owed < 1) return []
  const terms = termsAsPaid(books, account, today)
  const others = loansOf(plan, account)
  const says = `${account.name}: ${formatDollars(owed)} is owed in the books, and no loan of the plan pays it`
  const change = terms && {
    button: 'Take it into the plan',
    note: `${account.name} taken into the plan`,
    plan: withLoans(plan, account, [
      ...others,
      {
        ...loanAsBooked(books, account, others, today),
        ...terms,
        bookAccount: account.number,
      },
    ]),
  }
  return [
    {
      id: `loan-${account.sideId}-${account.number}`,
      waits: true,
      says: terms
        ? `${says}. As it was paid so far: ${formatDollars(terms.paymentPerMonth)} a month at ${formatPercent(terms.yearlyRate)}`
        : says,
      change,
      more: { text: 'Enter its rate and payment', href: `/books/accounts/${account.id}/loan` },
    },
  ]
}

/** By the whole months of the last year in which it was paid; null where there is none, or where interest may be another loan's. */
function termsAsPaid(
  books: Books,
  account: Account,
  today: Day,
): { yearlyRate: number; paymentPerMonth: number; onRealEstate: boolean } | null {
  const last = (monthOfDay(today) - 1) as Month
  const sums = monthSumsOfSide(books, account.sideId, (last - 11) as Month, last)
  const accounts = listAccounts(books, { sideId: account.sideId })
  const loans = new Set(accounts.filter(hasTerms).map(({ id }) => id))
  const [onRealEstate, other] = interestAccounts(accounts, account.sideId)
  const paid = sums.filter((sum) => loans.has(sum.accountId) && sum.sumCents > 0)
  const months = paid.filter((sum) => sum.accountId === account.id).map(({ month }) => month)
  if (months.length === 0 || paid.some((sum) => sum.accountId !== account.id)) return null
  const interestOn = (cost: Account | undefined) =>
    dollarsOf(sums.filter((sum) => sum.accountId === cost?.id && months.includes(sum.month)))
  const secured = interestOn(onRealEstate)
  const cost = secured + (other?.id === onRealEstate?.id ? 0 : interestOn(other))
  const owed = months.reduce((sum, month) => sum + owedBefore(books, account, month), 0)
  const principal = dollarsOf(paid)
  const paymentPerMonth = Math.round(((principal + cost) / months.length) * 100) / 100
  const yearlyRate = Math.round(((12 * cost) / owed) * 10_000) / 10_000
  return owed > 0 && yearlyRate >= 0 && yearlyRate <= 0.5
    ? { yearlyRate, paymentPerMonth, onRealEstate: secured > cost / 2 }
    : null
}

const dollarsOf = (rows: readonly MonthSum[]): number =>
  centsToDollars(sumCents(rows.map((row) => row.sumCents)))

const owedBefore = (books: Books, account: Account, month: Month): number =>
  -centsToDollars(balancesOn(books, addDays(firstDayOf(month), -1)).get(account.id) ?? zeroCents)

/** One that runs and is tied to no account, or to one that the books do not have. */
const loansOfPlan = (books: Books, plan: Plan, sideId: string, today: Day): OneSided[] => {
  const known = new Set(
    listAccounts(books, { sideId, withArchived: true })
      .filter(hasTerms)
      .map(({ number }) => number),
  )
  const loans = loansOf(plan, { sideId })
  return loans
    .filter(
      (loan) => isRunning(loan, today) && !(loan.bookAccount !== undefined && known.has(loan.bookAccount)),
    )
    .map((loan) => ({
      id: `planned-loan-${sideId}-${loan.id}`,
      waits: true,
      says: `“${loan.name}”: the plan pays it, and no account of the books has it; it goes on by its terms`,
      change: {
        button: 'Remove it from the plan',
        note: `“${loan.name}” removed from the plan`,
        plan: withLoans(
          plan,
          { sideId },
          loans.filter((one) => one !== loan),
        ),
      },
      more: { text: 'Say which account it is', href: '/runway/plan' },
    }))
}

const isRunning = (loan: Loan, today: Day): boolean => {
  const start = parseMonth(loan.start)!
  const month = monthOfDay(today)
  return !loan.drawn && start < month && start + loanRows(loan).length >= month
}
