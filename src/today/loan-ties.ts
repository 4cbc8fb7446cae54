// The ties of a plan's loans and savings to their accounts in the books, when another document takes its place: those that still fit stay, and
// what is untied then is said.
import { listAccounts } from '#db/ledger/account-store.ts'
import type { Books } from '#db/open.ts'
import type { Loan } from '#farm/loan-document.ts'
import { type Account, farmSide, householdSide } from '#ledger/account.ts'
import type { Plan } from '#plan/plan.ts'
import { hasTerms, loansOf, planLoanOf, withLoans } from './loan-terms.ts'

export interface Ties {
  /** The document, with the ties that it left out and that still fit. */
  plan: Plan
  /** What is kept and what is untied by it, in sentences. */
  says: string[]
}

export function keptTies(books: Books, now: Plan, document: Plan): Ties {
  const accounts = listAccounts(books).filter(hasTerms)
  const sides = [householdSide, farmSide].map((sideId) => {
    const ofSide = accounts.filter((one) => one.sideId === sideId)
    return { sideId, accounts: ofSide, loans: tiedAgain(ofSide, now, loansOf(document, { sideId })) }
  })
  const tied = savingsTied(now, document)
  const plan = sides.reduce((so, { sideId, loans }) => withLoans(so, { sideId }, loans), tied)
  return {
    plan,
    says: [
      ...plan.savings.accounts
        .filter((one, place) => one.bookAccount !== document.savings.accounts[place]!.bookAccount)
        .map(
          ({ name, bookAccount }) =>
            `${name} stays tied to account ${bookAccount}, which the document does not name.`,
        ),
      ...sides.flatMap((side) => [
        ...side.loans
          .filter((loan, place) => loan !== loansOf(document, side)[place])
          .map(
            (loan) =>
              `${loan.name} stays tied to ${called(side.accounts, loan)}, which the document does not name.`,
          ),
        ...untied(side.accounts, now, plan),
        ...unknown(side.accounts, side.loans),
      ]),
    ],
  }
}

/** Savings that the document has by the same short name hold what the same account of the books does. */
const savingsTied = (now: Plan, document: Plan): Plan => {
  const { accounts } = document.savings
  const taken = new Set(accounts.map(({ bookAccount }) => bookAccount))
  const numberOf = ({ id, kind }: Plan['savings']['accounts'][number]) => {
    const number = now.savings.accounts.find((one) => one.id === id && one.kind === kind)?.bookAccount
    return taken.has(number) ? undefined : number
  }
  const tied = accounts.map((one) =>
    one.bookAccount === undefined && numberOf(one) !== undefined
      ? { ...one, bookAccount: numberOf(one) }
      : one,
  )
  return { ...document, savings: { ...document.savings, accounts: tied } }
}

/** A loan is the same one by its short name, or else by its name; an account holds one loan. */
function tiedAgain(accounts: readonly Account[], now: Plan, loans: readonly Loan[]): Loan[] {
  const taken = new Set(loans.map(({ bookAccount }) => bookAccount))
  const free = accounts.filter(({ number }) => !taken.has(number))
  const held = free.flatMap((account) => {
    const loan = planLoanOf(now, account)
    return loan ? [{ number: account.number, loan }] : []
  })
  const ids = new Set(loans.map(({ id }) => id))
  return loans.map((loan) => {
    const tie =
      held.find((one) => one.loan.id === loan.id) ??
      held.find((one) => !ids.has(one.loan.id) && one.loan.name === loan.name)
    return loan.bookAccount === undefined && tie ? { ...loan, bookAccount: tie.number } : loan
  })
}

const untied = (accounts: readonly Account[], now: Plan, plan: Plan): string[] =>
  accounts.flatMap((account) => {
    const before = planLoanOf(now, account)
    return before && !planLoanOf(plan, account)
      ? [
          `Account ${account.number}, ${account.name}, is tied to no loan then: now it holds ${before.name}, and its payments are no longer split by the plan’s terms.`,
        ]
      : []
  })

const unknown = (accounts: readonly Account[], loans: readonly Loan[]): string[] =>
  loans.flatMap(({ name, bookAccount }) =>
    bookAccount === undefined || accounts.some(({ number }) => number === bookAccount)
      ? []
      : [
          `${name} names account ${bookAccount}, and the books have no loan of that number: it is tied to none.`,
        ],
  )

const called = (accounts: readonly Account[], { bookAccount }: Loan): string =>
  `account ${bookAccount}, ${accounts.find(({ number }) => number === bookAccount)?.name ?? ''}`
