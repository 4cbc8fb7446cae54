// What pay slips took for an employer's health plan, beside the plan's pay: that is asked for without it, and may have been entered with it.
import { type Month, monthOfYear, monthText, yearOf } from '#calendar/month.ts'
import type { Books } from '#db/open.ts'
import type { AccountYear, BookYear } from '#ledger/reports/book-year.ts'
import { isWages } from '#ledger/tax/pay-before-tax.ts'
import { formatDollars } from '#money/format.ts'
import type { Plan } from '#plan/plan.ts'
import { isIn } from '#runway/span.ts'
import { projectionOf } from '#today/projection/courses.ts'
import { booksYear } from '#today/tax/books-year.ts'
import type { OneSided } from './figures.ts'

type Pay = Plan['household']['pay'][number]
type PremiumLine = Plan['health']['premiums'][number]

/** Months of slips whose mean is held against the plan's pay: pay by weeks has more of it in one month than in another. */
const monthsOfSlips = 6

interface Beside {
  /** The last month that the books hold whole, and the first one of the plan ahead. */
  last: Month
  from: Month
  /** Dollars a month, of all slips. */
  taken: number
  /** Lines of the plan that are what the slips took. */
  lines: readonly PremiumLine[]
}

/** Entered with it, it comes off the pay; entered without it and as a line too, the line goes. Else the plan has it once. */
export const premiumsFromPayTold = (books: Books, plan: Plan, beside: Beside): OneSided[] => {
  const { from, taken, lines } = beside
  const slips = slipsOf(books, plan, beside)
  if (slips === null) return []
  const { pay, gross, premium } = slips
  const planned = pay.perMonth * levelIn(plan, from)
  const isGross = Math.abs(planned - gross) < Math.abs(planned - (gross - premium))
  const name = plan.household.people.find(({ id }) => id === pay.person)?.name ?? pay.name
  const told = `Pay slips took ${formatDollars(taken)} a month for an employer’s health plan lately`
  const payOf = `pay of ${name}, ${formatDollars(pay.perMonth)} a month,`
  const head = { id: 'premiums-from-pay', waits: true, more: whereItIs }
  if (isGross && lines.length === 0)
    return [
      {
        ...head,
        says: `${told}, and the plan’s ${payOf} is entered with it: months left are too many`,
        change: {
          button: 'Lower the pay by it',
          note: `Premiums of an employer’s plan taken off the pay of ${name}`,
          plan: onEmployersPlan(withLess(plan, pay, premium), pay, from),
        },
      },
    ]
  const twice = lines.find((line) => !line.deductible && Math.abs(line.perMonth - taken) <= taken / 5)
  if (isGross || twice === undefined) return []
  return [
    {
      ...head,
      says: `${told}. The plan’s ${payOf} is entered without it, and “${twice.name}” takes it once more: months left are too few`,
      change: {
        button: `Remove “${twice.name}”`,
        note: `“${twice.name}” removed: the pay of ${name} is without it`,
        plan: onEmployersPlan(withoutLine(plan, twice), pay, from),
      },
    },
  ]
}

const whereItIs = { text: 'See the pay under Household', href: '/runway/plan/household' }

/** The pay that an employer's plan is taken off, as the plan has it and as the slips of the last months did: dollars a month. */
const slipsOf = (
  books: Books,
  { household }: Plan,
  { last, from }: Beside,
): { pay: Pay; gross: number; premium: number } | null => {
  const row = rowsOfPay(booksYear(books, yearOf(last)).sides)
    .filter((one) => premiumIn(one, monthOfYear(last)) > 0)
    .toSorted((a, b) => premiumIn(b, monthOfYear(last)) - premiumIn(a, monthOfYear(last)))[0]
  const wages = household.pay.filter((line) => line.kind === 'wages' && isIn(line, from))
  const person = row?.account.personId ?? null
  const pay = wages
    .filter((line) => person === null || line.person === person)
    .toSorted((a, b) => b.perMonth - a.perMonth)[0]
  if (row === undefined || pay === undefined) return null
  const months = withPremium(books, row.account.id, last)
  const mean = (sum: (one: { row: AccountYear; at: number }) => number) =>
    Math.round(months.reduce((all, one) => all + sum(one), 0) / months.length) / 100
  return {
    pay,
    gross: mean(({ row, at }) => -row.monthsCents[at - 1]!),
    premium: mean(({ row, at }) => premiumIn(row, at)),
  }
}

const rowsOfPay = (sides: readonly BookYear[]): AccountYear[] =>
  sides
    .filter(({ kind }) => kind === 'household')
    .flatMap(({ accounts }) => accounts.filter(({ account }) => isWages(account)))

const premiumIn = (row: AccountYear, at: number): number => row.beforeTaxCents?.premium[at - 1] ?? 0

/** The last months, without a gap, in which the slips of an account took a premium. */
const withPremium = (books: Books, account: number, last: Month): { row: AccountYear; at: number }[] => {
  const found: { row: AccountYear; at: number }[] = []
  for (let m = last; found.length < monthsOfSlips; m = (m - 1) as Month) {
    const row = rowsOfPay(booksYear(books, yearOf(m)).sides).find((one) => one.account.id === account)
    const at = monthOfYear(m)
    if (row === undefined || premiumIn(row, at) <= 0) break
    found.push({ row, at })
  }
  return found
}

const levelIn = (plan: Plan, from: Month): number =>
  projectionOf(plan).months.find(({ month: at }) => at === monthText(from))?.level ?? 1

const withLess = (plan: Plan, pay: Pay, premium: number): Plan => ({
  ...plan,
  household: {
    ...plan.household,
    pay: plan.household.pay.map((line) =>
      line.id === pay.id
        ? { ...line, perMonth: Math.max(0, Math.round((line.perMonth - premium) * 100) / 100) }
        : line,
    ),
  },
})

const withoutLine = (plan: Plan, { id }: PremiumLine): Plan => ({
  ...plan,
  health: { ...plan.health, premiums: plan.health.premiums.filter((line) => line.id !== id) },
})

/** The one whose pay it comes off is on that plan, alone, as long as the pay goes on; whoever is on the marketplace is left there. */
const onEmployersPlan = (plan: Plan, { person, to }: Pay, from: Month): Plan => {
  const { employerPlans, marketplace } = plan.health
  const isTold = [...employerPlans, ...marketplace.members].some(
    (one) => one.person === person && isIn(one, from),
  )
  if (isTold) return plan
  const one = { person, from: monthText(from), ...(to !== undefined && { to }) }
  return { ...plan, health: { ...plan.health, employerPlans: [...employerPlans, one] } }
}
