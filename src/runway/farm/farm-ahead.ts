// The farm's expected months ahead: what a draw may take, what a purchase must wait for, what the year is expected to bring.
import type { CompiledPlan } from '#runway/compile/compiled-plan.ts'
import type { CourseBuffers } from '#runway/course-buffers.ts'

/** Works the months from `from` on out anew, after a death and after a purchase; and the year before them, which stands for the one past the plan's end. */
export const lookAhead = (plan: CompiledPlan, buffers: CourseBuffers, from: number): void => {
  const { farm } = plan
  const { ahead } = buffers.state
  const kept = farmKept(plan, buffers)
  for (let m = Math.max(0, from - 12); m < plan.months; m += 1) {
    const sales = farm.expectedSales[m]! + ahead.addedCash[m]!
    const costs = farm.directCosts[m]! + farm.marketCosts[m]! + farm.overheads[m]! + farm.hiredCosts[m]!
    const stock = farm.culls[m]! + farm.leaseIncome[m]! + farm.phaseSales[m]!
    ahead.sales[m] = sales * kept
    ahead.profit[m] = (sales - costs - farm.stockBought[m]!) * kept
    ahead.net[m] = ahead.profit[m]! + stock * kept + ahead.worthBack[m]!
  }
}

/** The part of the farm one alone keeps up. */
export const farmKept = (plan: CompiledPlan, buffers: CourseBuffers): number =>
  plan.people.length === 2 && buffers.state.alive[0]! + buffers.state.alive[1]! === 1
    ? plan.farm.shareAfterDeath
    : 1

/** What the farm can spare in month `m`: the least, over it and the next eleven expected months, of its cash above the reserve. */
export const farmSpareAt = (plan: CompiledPlan, buffers: CourseBuffers, m: number): number => {
  const { farm } = plan
  const { state } = buffers
  let cash = state.farmCash
  let least = cash
  for (let k = m + 1; k < m + 12; k += 1) {
    cash += expectedFlow(plan, buffers, m, k)
    if (cash < least) least = cash
  }
  return Math.max(0, least - farm.reserve * state.level)
}

/** Whether farm cash, `price` once paid, stays at or above the reserve through the next twelve expected months, planned draws included. */
export const bearsPurchase = (
  plan: CompiledPlan,
  buffers: CourseBuffers,
  m: number,
  price: number,
): boolean => {
  const { farm } = plan
  const { state } = buffers
  const reserve = farm.reserve * state.level
  let cash = state.farmCash - price - farm.expectedDraws[m]!
  if (cash < reserve) return false
  for (let k = m + 1; k <= m + 12; k += 1) {
    cash += expectedFlow(plan, buffers, m, k) - farm.expectedDraws[k < plan.months ? k : k - 12]!
    if (cash < reserve) return false
  }
  return true
}

/**
 * Net cash expected in month `k` as month `m` sees it: at its own prices moved as the plan expects, dated purchases and
 * contracts paid. The farm goes on past the plan's end as in its last year.
 */
const expectedFlow = (plan: CompiledPlan, buffers: CourseBuffers, m: number, k: number): number => {
  const { farm } = plan
  const { state } = buffers
  const pricesNow = state.level / farm.expectedLevel[m]!
  if (k >= plan.months)
    return state.ahead.net[k - 12]! * pricesNow * farm.expectedLevel[k - 12]! - farm.loanPayments[k - 12]!
  return (
    (state.ahead.net[k]! - farm.datedPurchases[k]!) * pricesNow * farm.expectedLevel[k]! +
    farm.loanDrawn[k]! -
    farm.loanPayments[k]!
  )
}
