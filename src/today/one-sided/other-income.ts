// Income that comes each month by the books and that no pay or pension of the plan stands for.
import { type Day, monthOfDay } from '#calendar/day.ts'
import { addMonths, type Month } from '#calendar/month.ts'
import { listAccounts } from '#db/ledger/account-store.ts'
import { monthSumsOfSide, spanOfBooks } from '#db/ledger/balances.ts'
import type { Books } from '#db/open.ts'
import { booksReach } from '#db/reconcile/books-reach.ts'
import { type Account, householdSide } from '#ledger/account.ts'
import { formatDollars } from '#money/format.ts'
import type { Plan, PlanInput } from '#plan/plan.ts'
import type { OneSided } from './figures.ts'

/** What came in each of so many whole months, the most at most a quarter above the least, comes each month. */
const monthsAsked = 3
const mostAboveLeast = 1 / 4

export const otherIncomeOfBooks = (books: Books, plan: Plan, today: Day): OneSided[] =>
  incomeEachMonth(books, today, (account) => isOther(account) && !isKnown(plan, account)).map(
    ({ account, perMonth }) => told(plan, account, perMonth),
  )

/** Accounts of the household that something comes in on each month, with the mean of the last ones, dollars. */
export const incomeEachMonth = (
  books: Books,
  today: Day,
  isAsked: (account: Account) => boolean,
): { account: Account; perMonth: number }[] => {
  const last = lastWhole(books, today)
  if (last === null) return []
  const from = addMonths(last, 1 - monthsAsked)
  const sums = monthSumsOfSide(books, householdSide, from, last)
  return listAccounts(books, { sideId: householdSide }).flatMap((account) => {
    if (!isAsked(account)) return []
    const came = sums.filter(({ accountId }) => accountId === account.id).map(({ sumCents }) => -sumCents)
    if (came.length < monthsAsked || Math.min(...came) < 100) return []
    if (Math.max(...came) > Math.min(...came) * (1 + mostAboveLeast)) return []
    const perMonth = Math.round(came.reduce((all, one) => all + one, 0) / monthsAsked) / 100
    return [{ account, perMonth }]
  })
}

/** The last month that is over and that the books hold whole, with the ones before it; null where they are too short. */
export const lastWhole = (books: Books, today: Day, asked = monthsAsked): Month | null => {
  const span = spanOfBooks(books)
  const reach = booksReach(books, today)
  if (!span || reach === null) return null
  const last = Math.min(monthOfDay(today) - 1, monthOfDay(reach)) as Month
  return last - span.first + 1 < asked ? null : last
}

const isOther = ({ kind, purpose, taxKind, systemRole, crossingRole }: Account): boolean =>
  kind === 'income' && purpose === null && taxKind === null && systemRole === null && crossingRole === null

/** Taken in before, or entered as a pension by hand: which one it is the plan does not say. */
const isKnown = ({ household: { pay } }: Plan, { number }: Account): boolean =>
  pay.some(({ id, kind }) => id === idOf(number) || kind !== 'wages')

const idOf = (number: number): string => `income-${number}`

export const where = { text: 'Enter it under Household', href: '/runway/plan/household' }

const told = (plan: Plan, account: Account, perMonth: number): OneSided => {
  const { people, pay } = plan.household
  const owner = people.find(({ id }) => id === account.personId) ?? people[0]
  const says = `${account.name} brings ${formatDollars(perMonth)} a month by the books, and the plan knows nothing of it`
  const head = { id: idOf(account.number), waits: true }
  if (!owner) return { ...head, says, change: null, more: where }
  const line = {
    id: idOf(account.number),
    name: account.name,
    person: owner.id,
    kind: 'fixedPension' as const,
    perMonth,
  }
  const changed: PlanInput = { ...plan, household: { ...plan.household, pay: [...pay, line] } }
  return {
    ...head,
    says: `${says}. Taken in as a pension of ${owner.name} that stays the same and is taxed; whose it is, and what else it may be, is changed under Household`,
    change: { button: 'Take it into the plan', note: `${account.name} taken into the plan`, plan: changed },
    more: where,
  }
}
