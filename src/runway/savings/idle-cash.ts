// Where a plan lets what comes in beyond its costs lie for years in an account that earns nothing: said, since prices go on rising.
import { nameOfMonth } from '#calendar/month.ts'
import { formatDollars } from '#money/format.ts'
import type { Plan } from '#plan/plan.ts'
import type { SeenCourse } from '#runway/dollars/dollars.ts'

/** More than these months of costs lie there, over so many months of the plan. */
const monthsOfCosts = 24
const monthsIdle = 120

/**
 * What is left over goes to the plan's first taxable account, and where it has none to its first of cash. Nothing where that account
 * earns, or never holds much for long; and nothing for a course whose accounts nobody noted.
 */
export const idleCashSentence = ({ savings, assumptions }: Plan, course: SeenCourse): string[] => {
  const { accounts } = savings
  const firstOf = (kind: 'taxable' | 'cash') => accounts.findIndex((one) => one.kind === kind)
  const place = firstOf('taxable') >= 0 ? firstOf('taxable') : firstOf('cash')
  const account = accounts[place]
  if (!account) return []
  const { stocks, bonds, bills } = account.mix
  if (stocks * assumptions.stocks + bonds * assumptions.bonds + bills * assumptions.bills > account.fee)
    return []
  const { months, parts } = course
  if (parts === null) return []
  const much = (months.reduce((sum, one) => sum + one.householdCosts, 0) / months.length) * monthsOfCosts
  const held = parts.accounts.subarray(place * parts.months, place * parts.months + months.length)
  if (held.reduce((count, dollars) => (dollars > much ? count + 1 : count), 0) < monthsIdle) return []
  const most = held.reduce((best, dollars, m) => (dollars > held[best]! ? m : best), 0)
  return [
    `What comes in beyond costs lies in “${account.name}”, which earns nothing by the plan: ${formatDollars(held[most]!)} in ${nameOfMonth(months[most]!.month)}. The plan’s savings section is where to give that account a rate, or to add a taxable one for what is left over.`,
  ]
}
