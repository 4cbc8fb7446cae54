// A plan that has begun, set right by the books: what savings really are at the start of this month replaces what was expected.
import { addMonths, type Month, monthText, parseMonth } from '#calendar/month.ts'
import { type Cents, centsToDollars } from '#money/cents.ts'
import type { Plan } from '#plan/plan.ts'
import { projectionOf } from './courses.ts'

export interface PlanFromBooks {
  plan: Plan
  /** Set once the plan has begun: savings at the end of last month as the plan expected them, and how far the books are from that. */
  correction: { month: Month; expectedDollars: number; differenceDollars: number } | null
}

/**
 * The difference enters as a one-off of this month, so that every later month starts from the books. Farm cash, herds and
 * tax of the year stay as planned: those the plan's own first figures and its revisions set.
 */
export function planFromBooks(
  plan: Plan,
  month: Month,
  spendableAtLastMonthEnd: Cents | null,
): PlanFromBooks {
  const start = parseMonth(plan.startMonth)!
  const before = projectionOf(plan).months[month - start - 1]
  if (month <= start || spendableAtLastMonthEnd === null || !before) return { plan, correction: null }
  const differenceDollars = centsToDollars(spendableAtLastMonthEnd) - before.spendable
  const correction = { month: addMonths(month, -1), expectedDollars: before.spendable, differenceDollars }
  return { plan: corrected(plan, month, differenceDollars), correction }
}

/** The same correction gives the same plan object, so that its course is worked out once. */
const kept = new WeakMap<Plan, { key: string; plan: Plan }>()

function corrected(plan: Plan, month: Month, differenceDollars: number): Plan {
  const key = `${month} ${differenceDollars.toFixed(2)}`
  const known = kept.get(plan)
  if (known?.key === key) return known.plan
  const oneOff = {
    id: 'savings-in-the-books',
    name: 'Savings as the books have them',
    month: monthText(month),
    cost: -differenceDollars,
    todaysPrices: false,
  }
  const made = {
    ...plan,
    household: { ...plan.household, oneOffs: [...plan.household.oneOffs, oneOff] },
  }
  kept.set(plan, { key, plan: made })
  return made
}
