// Premiums that the books have paid each month lately while the plan pays none from now on: by expected income a program of the state covers all.
import { type Day, monthOfDay } from '#calendar/day.ts'
import { addMonths, monthName, monthText } from '#calendar/month.ts'
import { listAccounts } from '#db/ledger/account-store.ts'
import { monthSumsOfSide } from '#db/ledger/balances.ts'
import type { Books } from '#db/open.ts'
import { householdSide } from '#ledger/account.ts'
import { formatDollars } from '#money/format.ts'
import type { Plan } from '#plan/plan.ts'
import { projectionOf } from '#today/projection/courses.ts'
import type { OneSided } from './figures.ts'
import { lastWhole } from './other-income.ts'

const monthsAsked = 2

/** No button takes it in: whether to leave the marketplace is asked of the agency, not of a plan. */
export const premiumsPaid = (books: Books, plan: Plan, today: Day): OneSided[] => {
  const last = lastWhole(books, today, monthsAsked)
  if (last === null || plan.health.marketplace.members.length === 0) return []
  const accounts = listAccounts(books, { sideId: householdSide })
  const premiums = new Set(accounts.filter(({ purpose }) => purpose === 'premium').map(({ id }) => id))
  const paid = Array.from({ length: monthsAsked }, (_, k) => {
    const month = addMonths(last, k + 1 - monthsAsked)
    return monthSumsOfSide(books, householdSide, month, month)
      .filter(({ accountId }) => premiums.has(accountId))
      .reduce((sum, { sumCents }) => sum + sumCents, 0)
  })
  if (Math.min(...paid) < 100) return []
  const from = monthOfDay(today)
  const ahead = projectionOf(plan)
    .months.filter(({ month }) => month >= monthText(from))
    .slice(0, monthsAsked)
  if (ahead.length === 0 || ahead.some((one) => one.premiums > 0)) return []
  const perMonth = paid.reduce((sum, one) => sum + one, 0) / monthsAsked / 100
  return [
    {
      id: 'premiums-paid',
      waits: true,
      says: `The books paid ${formatDollars(perMonth)} a month for premiums lately, and the plan pays none from ${monthName(from)}: by expected income a program of the state covers all who are listed. Until the agency has said so, months left are rather fewer`,
      change: null,
      more: { text: 'See who is covered by what', href: '/cover/years' },
    },
  ]
}
