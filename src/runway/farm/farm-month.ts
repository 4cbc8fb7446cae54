// The farm's month: what it sells and pays, what it buys out of its own cash, and what it can let the household draw.
import { type CompiledPlan, deductionYears } from '#runway/compile/compiled-plan.ts'
import { type CourseBuffers, notBought } from '#runway/course-buffers.ts'
import type { CourseShocks } from '#runway/shocks.ts'
import { bearsPurchase, farmKept, farmSpareAt, lookAhead } from './farm-ahead.ts'
import { putToWork } from './purchase-work.ts'

const steps = 0
const ramp = 1
const share = 2

/** Runs the farm for month `m` of plan year `y`. Household costs of the month must be known. */
export const runFarmMonth = (
  plan: CompiledPlan,
  shocks: CourseShocks,
  buffers: CourseBuffers,
  m: number,
  y: number,
): void => {
  const { months } = buffers
  if (!plan.farm.described) {
    drawAsPlanned(plan, buffers, m)
    return
  }
  const { state } = buffers
  const net = tradeOfMonth(plan, shocks, buffers, m, y) + gainsOfPurchases(plan, buffers, m)
  state.netFarmSum += net - state.netFarmRing[m % 12]!
  state.netFarmRing[m % 12] = net
  state.farmCash += net
  months.farmPurchases[m] = buyWhatIsDue(plan, buffers, m, y)
  months.contribution[m] = 0
  if (state.farmCash < 0) {
    months.contribution[m] = -state.farmCash
    state.farmCash = 0
  }
  const spare = farmSpareAt(plan, buffers, m)
  state.farmSpare = spare
  months.farmSpare[m] = spare
  const planned = plannedDraw(plan, buffers, m)
  months.plannedDraw[m] = planned
  months.draw[m] = 0
  months.drawToHoldFloor[m] = 0
  takeDraw(buffers, m, planned)
  months.unmetDraw[m] = planned - months.draw[m]!
}

/** Pays up to `wanted` dollars out of what the farm can spare this month; returns what was paid. */
const takeDraw = (buffers: CourseBuffers, m: number, wanted: number): number => {
  const { months, state } = buffers
  const paid = Math.max(0, Math.min(wanted, state.farmSpare))
  state.farmSpare -= paid
  state.farmCash -= paid
  months.draw[m] = months.draw[m]! + paid
  months.farmCash[m] = state.farmCash
  return paid
}

/** Calls on the farm for up to `wanted` dollars beyond the planned draw, so that savings stay at the floor; returns what was paid. */
export const callOnFarm = (plan: CompiledPlan, buffers: CourseBuffers, m: number, wanted: number): number => {
  if (!plan.draw.holdsFloor || wanted <= 0) return 0
  const paid = takeDraw(buffers, m, wanted)
  buffers.months.drawToHoldFloor[m] = buffers.months.drawToHoldFloor[m]! + paid
  return paid
}

/** A farm the plan does not describe gives what is planned; its profit is taken to be what it gives. */
const drawAsPlanned = (plan: CompiledPlan, buffers: CourseBuffers, m: number) => {
  const { months, state } = buffers
  const draw = plannedDraw(plan, buffers, m)
  months.farmSales[m] = draw
  months.farmCosts[m] = 0
  months.farmMarketCosts[m] = 0
  months.farmOverheads[m] = 0
  months.farmHired[m] = 0
  months.hiredHours[m] = 0
  months.undoneHours[m] = 0
  months.farmStock[m] = 0
  months.farmLoans[m] = 0
  months.farmPurchases[m] = 0
  months.farmPurchaseGains[m] = 0
  months.contribution[m] = 0
  state.farmSpare = 0
  months.farmSpare[m] = 0
  months.plannedDraw[m] = draw
  months.draw[m] = draw
  months.drawToHoldFloor[m] = 0
  months.unmetDraw[m] = 0
  months.farmCash[m] = 0
  months.farmHours[m] = 0
  state.year.farmSales += draw
}

/** Sales, costs, stock and loans of the month; net cash before purchases and draws. */
const tradeOfMonth = (
  plan: CompiledPlan,
  shocks: CourseShocks,
  buffers: CourseBuffers,
  m: number,
  y: number,
): number => {
  const { farm } = plan
  const { months, state } = buffers
  const { work } = state.ahead
  const { parts } = buffers
  const prices = state.level * farmKept(plan, buffers)
  const share = work.share[m]!
  const season = share * shocks.season[y]! * farm.salesFactor[m]!
  let sales = 0
  let direct = 0
  for (let row = 0; row < farm.rows; row += 1) {
    const cell = row * plan.months + m
    const offered = farm.offered[cell]! * season * shocks.enterpriseSeason[row * plan.years + y]!
    const sold = Math.min(offered, farm.ceiling[cell]!) * prices
    const spent = farm.directCosts[cell]! * share * prices
    sales += sold
    direct += spent
    if (parts === null) continue
    parts.farmSales[cell] = sold
    parts.farmDirectCosts[cell] = spent
  }
  months.farmMarketCosts[m] = farm.marketCosts[m]! * prices
  months.farmOverheads[m] = farm.overheads[m]! * prices
  months.farmHired[m] = work.hired[m]! * farm.hourCost[m]! * state.level
  const costs = direct + months.farmMarketCosts[m]! + months.farmOverheads[m]! + months.farmHired[m]!
  const stock = (farm.culls[m]! + farm.leaseIncome[m]! + farm.phaseSales[m]! - farm.stockBought[m]!) * prices
  const loans = farm.loanDrawn[m]! - farm.loanPayments[m]!
  months.farmSales[m] = sales
  months.farmCosts[m] = costs
  months.farmStock[m] = stock
  months.farmLoans[m] = loans
  months.farmHours[m] = work.worked[m]!
  months.hiredHours[m] = work.hired[m]!
  months.undoneHours[m] = work.undone[m]!
  state.year.farmSales += sales
  // Breeding stock bought is written off whole in its year, as bonus depreciation allows even in a loss (26 USC 168(k)).
  state.year.farmDeductions += costs + farm.loanInterest[m]! + farm.stockBought[m]! * prices
  state.year.farmOtherGain +=
    (farm.cullGainOrdinary[m]! + farm.leaseIncome[m]! + farm.phaseSales[m]! - farm.phaseSalesBasis[m]!) *
    prices
  state.year.farm1231Gain += farm.cullGain1231[m]! * prices
  return sales - costs + stock + loans
}

/** Cash that earlier purchases bring in, and what is left of them at the end of their use. */
const gainsOfPurchases = (plan: CompiledPlan, buffers: CourseBuffers, m: number): number => {
  const { state } = buffers
  const cash = state.ahead.addedCash[m]! * state.level * farmKept(plan, buffers)
  const worth = state.ahead.worthBack[m]! * state.level
  state.year.farmSales += cash
  state.year.farmOtherGain += worth
  buffers.months.farmPurchaseGains[m] = cash + worth
  return cash + worth
}

/** Dated purchases are made in their month; then those that wait, in the first month from their earliest on in which the farm bears them. */
const buyWhatIsDue = (plan: CompiledPlan, buffers: CourseBuffers, m: number, y: number): number => {
  const { purchases } = plan.farm
  const cash = buffers.state.farmCash
  for (let p = 0; p < purchases.count; p += 1)
    if (purchases.waits[p] === 0 && m === purchases.month[p]) buy(plan, buffers, p, m, y)
  for (let p = 0; p < purchases.count; p += 1)
    if (
      purchases.waits[p] === 1 &&
      m >= purchases.month[p]! &&
      buffers.boughtMonth[p] === notBought &&
      bearsPurchase(plan, buffers, m, purchases.cost[p]! * buffers.state.level)
    )
      buy(plan, buffers, p, m, y)
  return cash - buffers.state.farmCash
}

const buy = (plan: CompiledPlan, buffers: CourseBuffers, p: number, m: number, y: number) => {
  const { purchases } = plan.farm
  const { state } = buffers
  const price = purchases.cost[p]! * state.level
  buffers.boughtMonth[p] = m
  state.farmCash -= price
  state.section179[y] = state.section179[y]! + price * purchases.section179[p]!
  for (let k = 0; k < deductionYears && y + k < plan.years; k += 1)
    state.deductions[y + k] = state.deductions[y + k]! + price * purchases.deduction[p * deductionYears + k]!
  putToWork(plan, buffers, p)
  lookAhead(plan, buffers, m + 1)
}

const plannedDraw = (plan: CompiledPlan, buffers: CourseBuffers, m: number): number => {
  const { draw } = plan
  const { months, state } = buffers
  if (draw.policy === steps) return draw.planned[m]! * (draw.withPrices ? state.level : 1)
  if (m < draw.fromMonth) return 0
  const costs = Math.max(0, months.householdCosts[m]!)
  if (draw.policy === ramp) {
    const along = draw.toMonth > draw.fromMonth ? (m - draw.fromMonth) / (draw.toMonth - draw.fromMonth) : 1
    return costs * (draw.fromShare + (draw.toShare - draw.fromShare) * Math.min(1, along))
  }
  if (draw.policy === share) return (Math.max(0, state.netFarmSum) / 12) * draw.toShare
  return Math.min(costs, state.farmSpare)
}
