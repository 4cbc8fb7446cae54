// The farm's expected course with what the plan lets its prices and costs grow beyond all prices, as the projection counts it.
import type { FarmCourse } from '#farm/course.ts'
import type { Plan } from '#plan/plan.ts'
import { planSpan } from '#runway/compile/compile.ts'
import { growthRow, times } from '#runway/compile/compile-farm.ts'

const sold = ['offered', 'ceiling', 'sales', 'culls', 'marketSales', 'marketCapacity'] as const
const paid = [
  'directCosts',
  'stockBought',
  'marketCosts',
  'marketCostsEach',
  'overheads',
  'hiredCosts',
] as const

/** Still at the plan's first prices: only what grows beyond them is added. A course may begin before the plan or last longer. */
export const grownCourse = (plan: Plan, course: FarmCourse): FarmCourse => {
  const span = { ...planSpan(plan), firstMonth: course.firstMonth, months: course.monthCount }
  const prices = growthRow(span, plan.assumptions.farmPriceGrowth)
  const costs = growthRow(span, plan.assumptions.farmCostGrowth)
  const grown = { ...course }
  for (const name of sold) grown[name] = times(course[name], prices)
  for (const name of paid) grown[name] = times(course[name], costs)
  return grown
}
