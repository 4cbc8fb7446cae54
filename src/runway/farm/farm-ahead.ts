// The farm's expected months ahead: what a draw may take, what a purchase must wait for, what the year is expected to bring.
import { shareWork } from '#farm/work-done.ts'
import type { CompiledPlan } from '#runway/compile/compiled-plan.ts'
import type { CourseBuffers } from '#runway/course-buffers.ts'

/** Someone dies, or stops or takes up work, or a purchase is made: from this month on other things are to be expected. */
export const lookAnew = (buffers: CourseBuffers, from: number): void => {
  const { ahead } = buffers.state
  ahead.known = Math.min(ahead.known, from)
}

/** Works out the year that begins with month `m`, as far as it is not known: whole calendar years, as hours are shared over them. */
export const lookAhead = (plan: CompiledPlan, buffers: CourseBuffers, m: number): void => {
  const { ahead } = buffers.state
  const { known } = ahead
  if (m + 12 < known || known === plan.months) return
  const december = m + 12 + 11 - ((plan.firstMonth + m) % 12)
  const to = Math.min(plan.months, december + 1)
  ahead.hands.kept = buffers.state.lasting.farmKept
  countCrew(plan, buffers, known, to)
  shareWork(plan.farm.work, ahead.hands, known, to, ahead.work)
  for (let k = known; k < to; k += 1) ahead.flow[k] = expectMonth(plan, buffers, k)
  ahead.known = to
  if (to < plan.months) return
  // Past its end the farm goes on as in the plan's last year, with those who are there now and without that year's purchases.
  for (let k = Math.max(0, to - 12); k < to; k += 1)
    ahead.flow[k + 12] =
      expectMonth(plan, buffers, k) + plan.farm.datedPurchases[k]! * plan.farm.expectedLevel[k]!
}

/** Sales and profit of a month as now expected; its net cash at expected prices. */
const expectMonth = (plan: CompiledPlan, buffers: CourseBuffers, m: number): number => {
  const { farm } = plan
  const { ahead } = buffers.state
  const { kept } = ahead.hands
  const share = ahead.work.share[m]!
  const hired = ahead.work.paid[m]! * farm.hourCost[m]!
  const stock = farm.stockSold[m]!
  const sales = salesAt(plan, share, m) + ahead.addedCash[m]!
  ahead.sales[m] = sales * kept
  const spread = farm.stockSpread.boughtInAll[m]!
  ahead.profit[m] = (sales - costsAt(plan, share, m) - farm.stockBought[m]! + spread) * kept - hired
  const net = ahead.profit[m]! + (stock - spread) * kept + ahead.worthBack[m]!
  return (net - farm.datedPurchases[m]!) * farm.expectedLevel[m]!
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
const countCrew = (plan: CompiledPlan, buffers: CourseBuffers, from: number, to: number) => {
  const { crewHours, hoursLost } = plan.farm
  const { ahead, working } = buffers.state
  for (let m = from; m < to; m += 1) {
    let hours = crewHours[2 * plan.months + m]!
    for (let p = 0; p < plan.people.length; p += 1)
      if (working[p] === 1) hours += crewHours[p * plan.months + m]!
    ahead.hands.crew[m] = Math.max(0, hours - hoursLost[m]!)
  }
}

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
