// The turning points of one course, read from its buffers without making anything: used for the expected course, storms and every drawn path.
import type { CompiledPlan } from '#runway/compile/compiled-plan.ts'
import type { CourseBuffers } from './course-buffers.ts'

const hair = 0.005

/** First month (from 0) in which spendable savings are below the floor; −1 when they never are. It is also the months left. */
export const floorMonthOf = (_plan: CompiledPlan, { months, endMonth }: CourseBuffers): number => {
  for (let m = 0; m < endMonth; m += 1) if (months.spendable[m]! < months.floor[m]! - hair) return m
  return -1
}

/**
 * Month with the lowest spendable savings, the first of equals; −1 for an empty course. Needs that nothing met are taken off
 * together from then on: once money is gone, the plan that is short of more is the lower one.
 */
export const lowestMonthOf = (_plan: CompiledPlan, { months, endMonth }: CourseBuffers): number => {
  let lowest = -1
  let least = Number.POSITIVE_INFINITY
  let unmet = 0
  for (let m = 0; m < endMonth; m += 1) {
    unmet += months.unmetNeed[m]!
    if (months.spendable[m]! - unmet >= least - hair) continue
    lowest = m
    least = months.spendable[m]! - unmet
  }
  return lowest
}

/** Spendable savings in that month less all needs unmet up to it; 0 for an empty course. */
export const lowestOf = (plan: CompiledPlan, buffers: CourseBuffers): number => {
  const lowest = lowestMonthOf(plan, buffers)
  if (lowest < 0) return 0
  let left = buffers.months.spendable[lowest]!
  for (let m = 0; m <= lowest; m += 1) left -= buffers.months.unmetNeed[m]!
  return left
}

export const firstDrawMonthOf = (_plan: CompiledPlan, { months, endMonth }: CourseBuffers): number => {
  for (let m = 0; m < endMonth; m += 1) if (months.draw[m]! > hair) return m
  return -1
}

/**
 * The month (not included) up to which the carry month is judged: the first slower year, where draws fall by the plan and the
 * cushion takes over, or the end of the course when there is none or it comes within a year.
 */
export const carryEndOf = (plan: CompiledPlan, { endMonth }: CourseBuffers): number =>
  plan.firstSlowerMonth >= 12 ? Math.min(endMonth, plan.firstSlowerMonth) : endMonth

/** What the farm gives the household in a month, net of what the household puts back. */
const netDraw = (months: CourseBuffers['months'], m: number): number =>
  months.draw[m]! - months.contribution[m]!

/** The first month from which net draws cover all household costs over any twelve months running up to `end`; −1 when there is none. */
export const carryMonthOf = (
  plan: CompiledPlan,
  buffers: CourseBuffers,
  end = carryEndOf(plan, buffers),
): number => {
  const { months } = buffers
  if (end < 12) return -1
  let gap = 0
  for (let m = end - 12; m < end; m += 1) gap += netDraw(months, m) - months.householdCosts[m]!
  if (gap < -hair) return -1
  let first = end - 12
  while (first > 0) {
    const before = first - 1
    gap += netDraw(months, before) - months.householdCosts[before]!
    gap -= netDraw(months, before + 12) - months.householdCosts[before + 12]!
    if (gap < -hair) break
    first = before
  }
  return first
}

/** Last month in which the household had to put money into the farm; −1 when it never had to. */
export const lastContributionMonthOf = (_plan: CompiledPlan, { months, endMonth }: CourseBuffers): number => {
  for (let m = endMonth - 1; m >= 0; m -= 1) if (months.contribution[m]! > hair) return m
  return -1
}

/** First month with a need nothing could meet; −1 when the money lasts. */
export const firstUnmetMonthOf = (_plan: CompiledPlan, { months, endMonth }: CourseBuffers): number => {
  for (let m = 0; m < endMonth; m += 1) if (months.unmetNeed[m]! > hair) return m
  return -1
}

export const unmetNeedOf = (_plan: CompiledPlan, { months, endMonth }: CourseBuffers): number => {
  let total = 0
  for (let m = 0; m < endMonth; m += 1) total += months.unmetNeed[m]!
  return total
}

/** All household savings, retirement accounts included, less tax owed, at the end of the month before `m`; the opening for 0. */
export const savingsBefore = (plan: CompiledPlan, { months }: CourseBuffers, m: number): number => {
  if (m === 0) return plan.savings.opening.reduce((a, b) => a + b, 0)
  const at = m - 1
  return (
    months.cash[at]! + months.taxable[at]! + months.traditional[at]! + months.roth[at]! - months.taxOwed[at]!
  )
}

/** Net draws ÷ household costs over the twelve months up to `m` (fewer at the start); null while there are no costs. */
export const coverRatioAt = ({ months }: CourseBuffers, m: number): number | null => {
  let draws = 0
  let costs = 0
  for (let k = Math.max(0, m - 11); k <= m; k += 1) {
    draws += netDraw(months, k)
    costs += months.householdCosts[k]!
  }
  return costs > hair ? draws / costs : null
}
