// Premiums that the books have paid each month lately while the plan pays none from now on: it knows of none, or by expected income a program of the state covers all.
import { type Day, monthOfDay } from '#calendar/day.ts'
import { addMonths, type Month, month, monthName, monthOfYear, monthText, yearOf } from '#calendar/month.ts'
import type { Books } from '#db/open.ts'
import type { BookYear } from '#ledger/reports/book-year.ts'
import { ownPremiumsOf, premiumsFromPay } from '#ledger/tax/pay-before-tax.ts'
import { type Cents, zeroCents } from '#money/cents.ts'
import { formatDollars } from '#money/format.ts'
import { firstMonthOf } from '#plan/first-month.ts'
import type { Plan } from '#plan/plan.ts'
import { shortName } from '#plan/short-name.ts'
import { premiumLevel } from '#runway/compile/compile.ts'
import { isIn } from '#runway/span.ts'
import { projectionThrough } from '#today/projection/courses.ts'
import { booksYear } from '#today/tax/books-year.ts'
import { isTakenFromPay } from '#today/tax/cover-as-paid.ts'
import type { OneSided } from './figures.ts'
import { lastWhole } from './other-income.ts'
import { premiumsFromPayTold } from './premiums-from-pay.ts'

const monthsAsked = 2

/** Neither the plan nor a press can say whether to leave the marketplace: the agency is asked. Until then one goes on paying. */
export const premiumsPaid = (books: Books, plan: Plan, today: Day): OneSided[] => {
  const from = monthOfDay(today)
  const last = lastWhole(books, today, monthsAsked)
  const perMonth = paidLately(books, today, ownPremiumsOf)
  const taken = paidLately(books, today, premiumsFromPay)
  const lines = plan.health.premiums.filter(
    (line) => isIn(line, from) && isTakenFromPay(line, premiumLevel(plan)(yearOf(from)), taken ?? 0),
  )
  return [
    ...(perMonth === null || paysAhead(plan, today, lines) ? [] : toldOfOwn(plan, perMonth, from)),
    ...(taken === null || last === null
      ? []
      : premiumsFromPayTold(books, plan, { last, from, taken, lines })),
  ]
}

const toldOfOwn = (plan: Plan, perMonth: number, from: Month): OneSided[] => {
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
          plan: withPremium(plan, { name: asPaid, perMonth, deductible: true }, from, null),
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
        plan: withPremium(plan, { name: asPaid, perMonth, deductible: true }, from, last),
        countsOnce: true,
      },
      more: { text: 'See who is covered by what', href: '/cover/years' },
    },
  ]
}

const asPaid = 'Premiums, as paid'

/** Dollars a month over the last months that the books hold whole; null where a month paid none. */
const paidLately = (books: Books, today: Day, of: (home: BookYear) => Cents[]): number | null => {
  const last = lastWhole(books, today, monthsAsked)
  if (last === null) return null
  const paid = Array.from({ length: monthsAsked }, (_, k) => {
    const at = addMonths(last, k + 1 - monthsAsked)
    const home = booksYear(books, yearOf(at)).sides.find(({ kind }) => kind === 'household')
    return home ? of(home)[monthOfYear(at) - 1]! : zeroCents
  })
  if (Math.min(...paid) < 100) return null
  return Math.round(paid.reduce<number>((sum, one) => sum + one, 0) / monthsAsked) / 100
}

/** Other premiums than these lines of the plan. */
const paysAhead = (plan: Plan, today: Day, beside: Plan['health']['premiums']): boolean => {
  const others = 1.2 * beside.reduce((sum, { perMonth }) => sum + perMonth, 0)
  const from = monthOfDay(today)
  const last = addMonths(Math.max(from, firstMonthOf(plan)) as Month, monthsAsked)
  const ahead = projectionThrough(plan, yearOf(last))
    .months.filter((one) => one.month >= monthText(from))
    .slice(0, monthsAsked)
  return ahead.length === 0 || ahead.some((one) => one.premiums > others)
}

const withPremium = (
  plan: Plan,
  {
    name,
    perMonth,
    deductible,
  }: Pick<Plan['health']['premiums'][number], 'name' | 'perMonth' | 'deductible'>,
  from: Month,
  to: Month | null,
): Plan => {
  const { premiums } = plan.health
  const line = {
    id: shortName(name, new Set(premiums.map(({ id }) => id)), 'premium'),
    name,
    perMonth,
    from: monthText(from),
    ...(to !== null && { to: monthText(to) }),
    deductible,
  }
  return { ...plan, health: { ...plan.health, premiums: [...premiums, line] } }
}
