// Plans of the own business: what the year's profit lets in, as January expects it and as December knows it.
import { halfOfUsualTax, ownPlanKinds, ownPlanLimit } from '#rules/own-plan-limits.ts'
import type { CompiledPlan } from '#runway/compile/compiled-plan.ts'
import type { CourseBuffers } from '#runway/course-buffers.ts'
import { isPaidEvenly } from './even-months.ts'

/** January: the room of each account by what the return is filled with so far, and what the plan’s contributions will use of it. Dollars of the course. */
export const expectOwnPlans = (
  plan: CompiledPlan,
  buffers: CourseBuffers,
  m: number,
  y: number,
  count: number,
): number => {
  const { savings } = plan
  const { state } = buffers
  if (!savings.hasOwnPlans) return 0
  let expected = 0
  for (let account = 0; account < savings.count; account += 1) {
    if (savings.ownPlan[account]! < 0) continue
    const person = savings.owner[account]!
    const room = isPaidEvenly(plan, buffers, account, m) ? 0 : limitOf(plan, buffers, account, y)
    state.ownPlanRoom[account] = room
    let wanted = state.year.intoOwnPlan[person]!
    for (let k = m; k < m + count; k += 1) wanted += savings.contributions[account * plan.months + k]!
    expected += Math.min(wanted, room)
  }
  return expected
}

/** December: of what went in, the part that the year's profit lets be deducted; the rest is taken to be put right with the return. */
export const deductibleOwnPlans = (plan: CompiledPlan, buffers: CourseBuffers, y: number): number => {
  const { savings } = plan
  const { intoOwnPlan } = buffers.state.year
  if (!savings.hasOwnPlans) return 0
  let deductible = 0
  for (let person = 0; person < plan.people.length; person += 1) {
    let most = 0
    for (let account = 0; account < savings.count; account += 1)
      if (savings.ownPlan[account]! >= 0 && savings.owner[account] === person)
        most = Math.max(most, limitOf(plan, buffers, account, y))
    deductible += Math.min(intoOwnPlan[person]!, most)
  }
  return deductible
}

/** By the profit and wages of the owner that the return is filled with. */
const limitOf = (plan: CompiledPlan, buffers: CourseBuffers, account: number, y: number): number => {
  const { savings, law } = plan
  const { state } = buffers
  const person = savings.owner[account]!
  const slot = state.slotPerson[0] === person ? 0 : state.slotPerson[1] === person ? 1 : -1
  if (slot < 0) return 0
  const ratio = state.lasting.priceRatio
  const year = law.years[y]!
  const input = state.householdYear
  const profit = (input.farmProfit[slot]! + input.otherSelfEmployment[slot]!) / ratio
  const netEarnings = Math.max(0, profit) * year.selfEmploymentFactor
  const half = halfOfUsualTax(year, netEarnings, input.wages[slot]! / ratio)
  const limits = savings.limits[person * plan.years + y]!
  return ratio * ownPlanLimit(ownPlanKinds[savings.ownPlan[account]!]!, limits, profit, netEarnings, half)
}
