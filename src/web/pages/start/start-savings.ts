// The first run's savings: the plan's accounts as the books hold them on the first day, and what each of them earns.
import { type Day, monthOfDay } from '#calendar/day.ts'
import { monthText } from '#calendar/month.ts'
import { listAccounts } from '#db/ledger/account-store.ts'
import { balanceOfAll, balancesOn } from '#db/ledger/balances.ts'
import type { Act } from '#db/once.ts'
import type { Books } from '#db/open.ts'
import { type Account, farmSide, holdsCash, householdSide } from '#ledger/account.ts'
import type { FieldProblem } from '#ledger/problem.ts'
import { cents, centsToDollars } from '#money/cents.ts'
import type { PlanInput } from '#plan/plan.ts'
import { withEarning } from '#plan/savings/money-earns.ts'
import { readPlan } from '#plan/upgrade.ts'
import { changePlan } from './start-plan.ts'

/**
 * The plan's savings and farm cash are those of the books on the first day, unless the plan has accounts of its own. The plan
 * begins with that day's month, or with this month where the books begin in an earlier year: its costs are typed at today's prices.
 * `earns`: yearly rates by id of account of the books; all others stay together, and earn nothing unless the plan says so.
 */
export function saveSavings(
  books: Books,
  act: Act,
  { first, today, earns }: { first: Day; today: Day; earns: ReadonlyMap<number, number> },
): FieldProblem[] {
  const start = monthOfDay(first.slice(0, 4) === today.slice(0, 4) ? first : today)
  const { accounts, farmCash, owedBeyondCash } = moneyInBooks(books)
  const done = changePlan(
    books,
    act,
    { startMonth: monthText(start), note: 'Savings', asked: { first, earns: [...earns] } },
    (plan) =>
      hasOwnSavings(plan)
        ? plan
        : withRates(books, earns, {
            ...plan,
            startMonth: monthText(start),
            savings: {
              ...plan.savings,
              accounts: accounts.map((one) => ({
                ...one,
                ...plan.savings?.accounts?.find(({ id }) => id === one.id),
                balance: one.balance,
              })),
            },
            household: { ...plan.household, oneOffs: withCards(plan, monthText(start), owedBeyondCash) },
            farm: { ...plan.farm, cash: farmCash },
          }),
  )
  return done.ok ? [] : done.problems
}

/** Each account that earns stands by itself, with what the books hold there. */
function withRates(books: Books, earns: ReadonlyMap<number, number>, plan: PlanInput): PlanInput {
  const read = readPlan(plan)
  if (!read.ok || earns.size === 0) return plan
  const balances = balancesOn(books)
  return listAccounts(books)
    .filter(holdsCash)
    .reduce((so, { id, number, name }) => {
      const rate = earns.get(id) ?? 0
      const balance = centsToDollars(balances.get(id) ?? cents(0))
      return rate > 0 ? withEarning(so, { number, name, balance }, rate) : so
    }, read.plan)
}

/** What cards owe beyond all cash is paid in the first month: no account of a plan begins below zero. */
const withCards = ({ household }: PlanInput, month: string, owed: number) => [
  ...(household?.oneOffs ?? []).filter(({ id }) => id !== cardsOwed),
  ...(owed > 0
    ? [{ id: cardsOwed, name: 'Owed on cards beyond cash', month, cost: owed, todaysPrices: false }]
    : []),
]

const cardsOwed = 'cards-owed'

/** Accounts that the first run did not make: it knows neither their balances nor what they are. */
export const hasOwnSavings = ({ savings }: PlanInput): boolean =>
  (savings?.accounts ?? []).some(
    ({ id, balance, bookAccount }) =>
      bookAccount === undefined && !firstAccounts.has(id) && !(id === 'savings' && balance === 0),
  )

const firstAccounts: ReadonlySet<string> = new Set(['cash', 'taxable', 'traditional', 'roth', 'health'])

const moneyInBooks = (books: Books) => {
  const balances = balancesOn(books)
  const accounts = listAccounts(books)
  const sum = (wanted: (account: Account) => boolean) =>
    centsToDollars(balanceOfAll(balances, accounts.filter(wanted)))
  const home = (account: Account) => account.sideId === householdSide
  const retirement = (kind: 'traditional' | 'roth' | 'health') =>
    sum((one) => home(one) && one.savingsKind === kind)
  const taxable = sum((one) => home(one) && one.savingsKind === 'taxable' && one.cashRole === 'spendable')
  const cash = sum((one) => home(one) && one.cashRole === 'spendable') - taxable
  const mix = { stocks: 0.6, bonds: 0.4, bills: 0 }
  return {
    farmCash: sum((one) => one.sideId === farmSide && one.cashRole === 'cash'),
    owedBeyondCash: Math.max(0, -cash),
    accounts: [
      { id: 'cash', name: 'Cash and savings', kind: 'cash' as const, balance: Math.max(0, cash) },
      ...[
        { id: 'taxable', name: 'Taxable investments', kind: 'taxable' as const, balance: taxable, mix },
        {
          id: 'traditional',
          name: 'Retirement, traditional',
          kind: 'traditional' as const,
          balance: retirement('traditional'),
          mix,
        },
        { id: 'roth', name: 'Retirement, Roth', kind: 'roth' as const, balance: retirement('roth'), mix },
        { id: 'health', name: 'Health savings', kind: 'health' as const, balance: retirement('health'), mix },
      ].filter(({ balance }) => balance > 0),
    ],
  }
}
