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
    const hired = ahead.work.hired[m]! * farm.hourCost[m]!
    const stock = farm.culls[m]! + farm.leaseIncome[m]! + farm.phaseSales[m]!
    const sales = salesAt(plan, ahead.work.share[m]!, m) + ahead.addedCash[m]!
    ahead.sales[m] = sales * kept
    ahead.profit[m] = (sales - costsAt(plan, ahead.work.share[m]!, m) - farm.stockBought[m]!) * kept - hired
    const net = ahead.profit[m]! + stock * kept + ahead.worthBack[m]!
    ahead.flow[m] = (net - farm.datedPurchases[m]!) * farm.expectedLevel[m]!
    // Past its end the farm goes on as in the plan's last year.
    if (m >= plan.months - 12) ahead.flow[m + 12] = net * farm.expectedLevel[m]!
  }
}

/** Expected sales at first prices with this share of the work done: all of it, but where hours are missing. */
const salesAt = ({ farm, months }: CompiledPlan, share: number, m: number): number => {
  if (share === 1) return farm.fullSales[m]!
  let sales = 0
  for (let row = 0; row < farm.rows; row += 1) {
    const cell = row * months + m
    sales += Math.min(farm.offered[cell]! * share, farm.ceiling[cell]!)
  }
  return sales
}

const costsAt = ({ farm }: CompiledPlan, share: number, m: number): number =>
  farm.fullDirectCosts[m]! * share + farm.marketCosts[m]! + farm.overheads[m]!

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
  const { flow } = state.ahead
  const prices = pricesNow(plan, buffers, m)
  let cash = state.farmCash
  let least = cash
  for (let k = m + 1; k < m + 12; k += 1) {
    cash += flow[k]! * prices + farm.contracts[k]!
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
  const { flow } = state.ahead
  const prices = pricesNow(plan, buffers, m)
  const reserve = farm.reserve * state.level
  let cash = state.farmCash - price - farm.expectedDraws[m]!
  if (cash < reserve) return false
  for (let k = m + 1; k <= m + 12; k += 1) {
    cash += flow[k]! * prices + farm.contracts[k]! - farm.expectedDraws[k < plan.months ? k : k - 12]!
    if (cash < reserve) return false
  }
  return true
}

/** The course's prices in month `m` over those expected of it: what is expected later moves with them. */
const pricesNow = ({ farm }: CompiledPlan, { state }: CourseBuffers, m: number): number =>
  state.level / farm.expectedLevel[m]!
