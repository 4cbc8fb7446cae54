// Premiums that the books have paid each month lately while the plan pays none from now on: it knows of none, or by expected income a program of the state covers all.
import { type Day, monthOfDay } from '#calendar/day.ts'
import { addMonths, type Month, month, monthName, monthText, yearOf } from '#calendar/month.ts'
import { listAccounts } from '#db/ledger/account-store.ts'
import { monthSumsOfSide } from '#db/ledger/balances.ts'
import type { Books } from '#db/open.ts'
import { householdSide } from '#ledger/account.ts'
import { formatDollars } from '#money/format.ts'
import type { Plan } from '#plan/plan.ts'
import { shortName } from '#plan/short-name.ts'
import { projectionOf } from '#today/projection/courses.ts'
import type { OneSided } from './figures.ts'
import { lastWhole } from './other-income.ts'

const monthsAsked = 2

/** Neither the plan nor a press can say whether to leave the marketplace: the agency is asked. Until then one goes on paying. */
export const premiumsPaid = (books: Books, plan: Plan, today: Day): OneSided[] => {
  const perMonth = paidLately(books, today)
  if (perMonth === null || paysAhead(plan, today)) return []
  const from = monthOfDay(today)
  const says = `The books paid ${formatDollars(perMonth)} a month for premiums lately, and the plan pays none from ${monthName(from)}`
  if (plan.health.marketplace.members.length === 0)
    return [
      {
        id: 'premiums-paid',
        waits: true,
        says: `${says}: unless other costs hold them, months left are too many`,
        change: {
          button: 'Take them into the plan',
          note: 'Premiums taken into the plan',
          plan: withPremium(plan, perMonth, from, null),
        },
        more: { text: 'Say who is covered by what', href: '/cover/marketplace' },
      },
    ]
  // Coverage is found anew each January.
  const last = month(yearOf(from), 12)
  return [
    {
      id: 'premiums-paid',
      waits: true,
      says: `${says}: by expected income a program of the state covers all who are listed. Until the agency has said so, months left are rather fewer`,
      change: {
        button: `Plan to pay them until ${monthName(last)}`,
        note: `Premiums as paid taken into the plan until ${monthName(last)}`,
        plan: withPremium(plan, perMonth, from, last),
        countsOnce: true,
      },
      more: { text: 'See who is covered by what', href: '/cover/years' },
    },
  ]
}

/** Dollars a month over the last months that the books hold whole; null where a month paid none. */
const paidLately = (books: Books, today: Day): number | null => {
  const last = lastWhole(books, today, monthsAsked)
  if (last === null) return null
  const accounts = listAccounts(books, { sideId: householdSide })
  const premiums = new Set(accounts.filter(({ purpose }) => purpose === 'premium').map(({ id }) => id))
  const paid = Array.from({ length: monthsAsked }, (_, k) => {
    const at = addMonths(last, k + 1 - monthsAsked)
    return monthSumsOfSide(books, householdSide, at, at)
      .filter(({ accountId }) => premiums.has(accountId))
      .reduce((sum, { sumCents }) => sum + sumCents, 0)
  })
  if (Math.min(...paid) < 100) return null
  return Math.round(paid.reduce((sum, one) => sum + one, 0) / monthsAsked) / 100
}

const paysAhead = (plan: Plan, today: Day): boolean => {
  const ahead = projectionOf(plan)
    .months.filter((one) => one.month >= monthText(monthOfDay(today)))
    .slice(0, monthsAsked)
  return ahead.length === 0 || ahead.some((one) => one.premiums > 0)
}

const withPremium = (plan: Plan, perMonth: number, from: Month, to: Month | null): Plan => {
  const { premiums } = plan.health
  const name = 'Premiums, as paid'
  const line = {
    id: shortName(name, new Set(premiums.map(({ id }) => id)), 'premium'),
    name,
    perMonth,
    from: monthText(from),
    ...(to !== null && { to: monthText(to) }),
    deductible: true,
  }
  return { ...plan, health: { ...plan.health, premiums: [...premiums, line] } }
}
