// Money that is kept back, of four kinds: the floor, the emergency fund over it, the farm's reserve, and the cushion for the first slower year.
import { keptWith } from '#kept/keeper.ts'
import type { Plan } from '#plan/plan.ts'
import { type Dollars, pricesIn } from '#runway/dollars/dollars.ts'
import { publishedRules } from '#runway/published-rules.ts'
import { expectedCushion } from '#solve/slower-years.ts'
import { projectionIn, projectionOf } from '#today/projection/courses.ts'
import type { KeptMoney } from './figures.ts'

/** All by the projection, at the end of its first month; dollars as asked. */
export function keptMoney(plan: Plan, dollars: Dollars): KeptMoney {
  const { months } = projectionIn(plan, dollars)
  const first = months[0]!
  const year = months.slice(0, 12)
  const costsAMonth = year.reduce((sum, one) => sum + one.householdCosts, 0) / year.length
  const cushion = keptWith(plan, `cushion in ${JSON.stringify(dollars)}`, () =>
    expectedCushion(plan, publishedRules(plan), dollars),
  )
  return {
    month: first.month,
    savings: first.spendable,
    floor: first.floor,
    emergencyMonths: plan.savings.reserveMonths,
    emergency: costsAMonth * plan.savings.reserveMonths,
    farmCash: first.farmCash,
    reserve: plan.farm.reserve * pricesIn(projectionOf(plan), dollars).ofFirst(first.month),
    cushion: cushion && { month: cushion.month, needed: cushion.needed, savings: cushion.savings },
  }
}
