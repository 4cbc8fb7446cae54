// The farm's expected months ahead: what a draw may take, what a purchase must wait for, what the year is expected to bring.
import { shareWork } from '#farm/work-done.ts'
import type { CompiledPlan } from '#runway/compile/compiled-plan.ts'
import type { CourseBuffers } from '#runway/course-buffers.ts'

/** Works the months from `from` on out anew, when someone dies or stops or takes up work, and after a purchase; and the year before them, which stands for the one past the plan's end. */
export const lookAhead = (plan: CompiledPlan, buffers: CourseBuffers, from: number): void => {
  const { farm } = plan
  const { ahead } = buffers.state
  const kept = farmKept(plan, buffers)
  ahead.hands.kept = kept
  countCrew(plan, buffers, from)
  shareWork(farm.work, ahead.hands, from, ahead.work)
  for (let m = Math.max(0, from - 12); m < plan.months; m += 1) {
    const share = ahead.work.share[m]!
    let sales = ahead.addedCash[m]!
    let costs = farm.marketCosts[m]! + farm.overheads[m]!
    for (let row = 0; row < farm.rows; row += 1) {
      const cell = row * plan.months + m
      sales += Math.min(farm.offered[cell]! * share, farm.ceiling[cell]!)
      costs += farm.directCosts[cell]! * share
    }
    const hired = ahead.work.hired[m]! * farm.hourCost[m]!
    const stock = farm.culls[m]! + farm.leaseIncome[m]! + farm.phaseSales[m]!
    ahead.sales[m] = sales * kept
    ahead.profit[m] = (sales - costs - farm.stockBought[m]!) * kept - hired
    ahead.net[m] = ahead.profit[m]! + stock * kept + ahead.worthBack[m]!
  }
}

/** Hours of those who live and work, less what a storm takes. */
const countCrew = (plan: CompiledPlan, buffers: CourseBuffers, from: number) => {
  const { crewHours, hoursLost } = plan.farm
  const { ahead, working } = buffers.state
  for (let m = from; m < plan.months; m += 1) {
    let hours = crewHours[2 * plan.months + m]!
    for (let p = 0; p < plan.people.length; p += 1)
      if (working[p] === 1) hours += crewHours[p * plan.months + m]!
    ahead.hands.crew[m] = Math.max(0, hours - hoursLost[m]!)
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
