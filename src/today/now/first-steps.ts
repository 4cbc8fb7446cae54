// What is still to be set up: shown on Now until each step is really done, or said not to be for this house.
import { type Day, firstDayOf, monthOfDay } from '#calendar/day.ts'
import { month, yearOf } from '#calendar/month.ts'
import { stepsSaid } from '#db/first-steps-store.ts'
import { listAccounts } from '#db/ledger/account-store.ts'
import { balancesOn } from '#db/ledger/balances.ts'
import { listCrossings } from '#db/ledger/crossing-store.ts'
import { accountsSinceOpening, openingDay } from '#db/ledger/opening-day.ts'
import type { Books } from '#db/open.ts'
import { listStatements } from '#db/statements/statement-store.ts'
import { listStanding } from '#db/transfers/standing-store.ts'
import { type Account, holdsCash, isLasting, isMoney } from '#ledger/account.ts'
import { ownerlessAccounts } from '#plan/doubts.ts'
import { lacksRecord } from '#plan/earnings-record.ts'
import type { Plan } from '#plan/plan.ts'
import { tiedTo } from '#plan/savings/money-earns.ts'
import { ownLines } from '#plan/whole-farm.ts'
import { hasTerms, planLoanOf } from '#today/loan-terms.ts'
import type { FirstStep } from './figures.ts'

/** The steps that a person can say are not for them, by their names. */
export const firstStepIds = [
  'statement',
  'crossing',
  'loans',
  'earns',
  'owned',
  'year',
  'hours',
  'record',
  'owners',
  'cover',
  'lines',
] as const
export type FirstStepId = (typeof firstStepIds)[number]

export const firstSteps = (books: Books, plan: Plan, today: Day): FirstStep[] => {
  const said = stepsSaid(books)
  return steps(books, plan, today).flatMap(({ isDone, ...step }) =>
    isDone() || said.has(stepKey(step)) ? [] : [step],
  )
}

/** As it is kept when it is not for this house: of one account, it says nothing of others. */
export const stepKey = ({ id, of }: Pick<FirstStep, 'id' | 'of'>): string =>
  of === undefined ? id : `${id}:${of}`

interface Step extends FirstStep {
  id: FirstStepId
  isDone: () => boolean
}

const steps = (books: Books, plan: Plan, today: Day): Step[] => [
  ...stepsOfMonths(books),
  ...stepsOfAccounts(books, plan),
  ...stepsOfFirstDay(books, today),
  ...stepsOfPlan(plan),
]

const stepsOfMonths = (books: Books): Step[] => [
  {
    id: 'statement',
    says: 'Read in the first bank statement',
    why: 'An OFX or CSV file from your bank; nothing is kept before you have looked at it.',
    href: '/books/statements',
    isDone: () => listStatements(books, 1).length > 0,
  },
  {
    id: 'crossing',
    says: 'Set up the monthly draw or contribution',
    why: 'Now will remind you each month.',
    href: '/crossings/standing/new',
    isDone: () => listStanding(books).length > 0 || listCrossings(books, { limit: 1 }).length > 0,
  },
]

const stepsOfAccounts = (books: Books, plan: Plan): Step[] => {
  const asked = laterAccounts(books)
  const loans = loansWithoutTerms(books, plan).filter(asked.isOpen('loans'))
  const laterLoan = loans.find(asked.isLater)
  const loan = laterLoan ?? loans[0]
  const later = mostCash(
    books,
    (account) =>
      asked.isLater(account) && asked.isOpen('earns')(account) && tiedTo(plan, account.number) === undefined,
  )
  const largest = later ?? mostCash(books)
  return [
    {
      id: 'loans',
      ...(laterLoan ? { of: laterLoan.number } : {}),
      says: laterLoan
        ? `Say the rate and the payment of “${laterLoan.name}”`
        : 'Say the rate and the payment of each loan',
      why: 'Until then its payments are in no cost of the plan, and none is split into interest and principal.',
      href: loan ? `/books/accounts/${loan.id}/loan` : '/start/owned',
      isDone: () => loan === undefined,
    },
    {
      id: 'earns',
      ...(later ? { of: later.number } : {}),
      says: later
        ? `Say what the money in “${later.name}” earns a year`
        : 'Say what the money in your savings earns a year',
      why: `Until then ${later ? 'it' : 'all cash of the house'} earns nothing in the plan.`,
      href: largest ? `/books/accounts/${largest.id}/earns` : '/start/accounts',
      isDone: () => largest === undefined || (later === undefined && cashEarns(plan)),
    },
  ]
}

const stepsOfFirstDay = (books: Books, today: Day): Step[] => [
  {
    id: 'owned',
    says: 'Say what you own besides money: land, machinery, a home',
    why: 'Until then the balance sheet has debts without what they paid for.',
    href: '/start/owned',
    isDone: () => ownsThings(books),
  },
  {
    id: 'year',
    says: 'Say what this year brought before the first day of the books',
    why: 'Until then tax, premium credit and what may still be earned miss those months.',
    href: '/start/year',
    isDone: () => !beganWithinYear(books, today),
  },
]

const stepsOfPlan = (plan: Plan): Step[] => [
  {
    id: 'hours',
    says: 'Enter how many hours a week each of you gives the farm',
    why: 'Until then nobody is named for its work, and no plan can say what an hour earns or what is too much.',
    href: '/farm/basics',
    isDone: () => plan.farm.crew.length > 0,
  },
  {
    id: 'record',
    says: 'Enter the earnings record of each of you, from your Social Security statement',
    why: 'Until then Social Security is counted only on what you earn from now on.',
    href: recordHref(plan),
    isDone: () => withoutRecord(plan) === undefined,
  },
  {
    id: 'owners',
    says: 'Say whose each retirement account is',
    why: 'The owner’s age decides what taking money out costs, and when the law takes it out. Until then it counts as the first person’s.',
    href: '/runway/plan/savings',
    isDone: () => ownerlessAccounts(plan).length === 0,
  },
  {
    id: 'cover',
    says: 'Say who is covered, and the two premiums of your marketplace',
    why: 'The premium credit then follows from your income.',
    href: '/cover/marketplace',
    isDone: () => plan.health.marketplace.members.length > 0,
  },
  {
    id: 'lines',
    says: 'Split the farm into its enterprises, with hours',
    why: 'Then Farm shows which of them earns its hours, and what the farm can afford next.',
    href: '/farm',
    isDone: () => ownLines(plan).length > 0,
  },
]

const withoutRecord = ({ household }: Plan) => household.people.find(lacksRecord)

const recordHref = (plan: Plan): string =>
  `/runway/plan/earnings/${withoutRecord(plan)?.id ?? plan.household.people[0]?.id ?? ''}`

/** Loans of house and farm that are owed in the books and stand in no plan. */
export const loansWithoutTerms = (books: Books, plan: Plan): Account[] => {
  const balances = balancesOn(books)
  return listAccounts(books).filter(
    (account) =>
      hasTerms(account) && (balances.get(account.id) ?? 0) < 0 && planLoanOf(plan, account) === undefined,
  )
}

/** The account with most of the household's cash in it, of those asked for; none where it has none. */
const mostCash = (books: Books, asked: (account: Account) => boolean = () => true) => {
  const balances = balancesOn(books)
  const held = (account: Account) => balances.get(account.id) ?? 0
  return listAccounts(books)
    .filter((account) => holdsCash(account) && held(account) > 0 && asked(account))
    .sort((one, other) => held(other) - held(one))[0]
}

/** Accounts made after the opening balances, with which all others were asked about: each is asked about for itself. */
const laterAccounts = (books: Books) => {
  const later = accountsSinceOpening(books)
  const said = stepsSaid(books)
  return {
    isLater: ({ id }: Account) => later.has(id),
    isOpen:
      (id: FirstStepId) =>
      ({ number }: Account) =>
        !said.has(stepKey({ id, of: number })),
  }
}

const cashEarns = ({ savings }: Plan): boolean =>
  savings.accounts.some(({ kind, mix }) => kind === 'cash' && mix.stocks + mix.bonds + mix.bills > 0)

const ownsThings = (books: Books): boolean => {
  const balances = balancesOn(books)
  return listAccounts(books).some(
    (account) => isLasting(account) && !isMoney(account) && (balances.get(account.id) ?? 0) !== 0,
  )
}

/** The books begin after the first of January of the year of `today`. */
export const beganWithinYear = (books: Books, today: Day): boolean => {
  const first = openingDay(books)
  return first !== null && first > firstDayOf(month(yearOf(monthOfDay(today)), 1)) && first <= today
}
