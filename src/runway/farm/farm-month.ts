// The farm's month: what it sells and pays, what it buys out of its own cash, and what it can let the household draw.

import { drawCode } from '#runway/compile/codes.ts'
import { stockYears } from '#runway/compile/compile-stock.ts'
import { type CompiledPlan, deductionYears } from '#runway/compile/compiled-plan.ts'
import { type CourseBuffers, notBought } from '#runway/course-buffers.ts'
import type { CourseShocks } from '#runway/shocks.ts'
import { bearsPurchase, farmSpareAt, lookAhead, lookAnew } from './farm-ahead.ts'
import { putToWork } from './purchase-work.ts'

/** Runs the farm for month `m` of plan year `y`. Household costs of the month must be known. */
export const runFarmMonth = (
  plan: CompiledPlan,
  shocks: CourseShocks,
  buffers: CourseBuffers,
  m: number,
  y: number,
): void => {
  const { month } = buffers
  if (!plan.farm.described) {
    drawAsPlanned(plan, buffers, m)
    return
  }
  const { state } = buffers
  const net = tradeOfMonth(plan, shocks, buffers, m, y) + gainsOfPurchases(buffers, m)
  state.netFarmSum += net - state.netFarmRing[m % 12]!
  state.netFarmRing[m % 12] = net
  state.farmCash += net
  month.farmPurchases = buyWhatIsDue(plan, buffers, m, y)
  month.contribution = 0
  if (state.farmCash < 0) {
    month.contribution = -state.farmCash
    state.farmCash = 0
  }
  const spare = farmSpareAt(plan, buffers, m)
  state.farmSpare = spare
  month.farmSpare = spare
  const planned = plannedDraw(plan, buffers, m)
  month.plannedDraw = planned
  month.draw = 0
  month.drawToHoldFloor = 0
  takeDraw(buffers, planned)
  month.unmetDraw = planned - month.draw
}

/** Pays up to `wanted` dollars out of what the farm can spare this month; returns what was paid. */
const takeDraw = (buffers: CourseBuffers, wanted: number): number => {
  const { month, state } = buffers
  const paid = Math.max(0, Math.min(wanted, state.farmSpare))
  state.farmSpare -= paid
  state.farmCash -= paid
  month.draw += paid
  month.farmCash = state.farmCash
  return paid
}

/** Calls on the farm for up to `wanted` dollars beyond the planned draw, so that savings stay at the floor; returns what was paid. */
export const callOnFarm = (plan: CompiledPlan, buffers: CourseBuffers, wanted: number): number => {
  if (!plan.draw.holdsFloor || wanted <= 0) return 0
  const paid = takeDraw(buffers, wanted)
  buffers.month.drawToHoldFloor += paid
  return paid
}

/** A farm the plan does not describe gives what is planned; its profit is taken to be what it gives. */
const drawAsPlanned = (plan: CompiledPlan, buffers: CourseBuffers, m: number) => {
  const { month, state } = buffers
  const draw = plannedDraw(plan, buffers, m)
  month.farmSales = draw
  month.farmCosts = 0
  month.farmMarketCosts = 0
  month.farmOverheads = 0
  month.farmHired = 0
  month.hiredHours = 0
  month.undoneHours = 0
  month.farmStock = 0
  month.farmLoans = 0
  month.farmPurchases = 0
  month.farmPurchaseGains = 0
  month.contribution = 0
  state.farmSpare = 0
  month.farmSpare = 0
  month.plannedDraw = draw
  month.draw = draw
  month.drawToHoldFloor = 0
  month.unmetDraw = 0
  month.farmCash = 0
  month.farmHours = 0
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
  const { month, state } = buffers
  const { work } = state.ahead
  const { parts } = buffers
  const prices = state.level * state.lasting.farmKept
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
  month.farmMarketCosts = farm.marketCosts[m]! * prices
  month.farmOverheads = farm.overheads[m]! * prices
  month.farmHired = work.paid[m]! * farm.hourCost[m]! * state.level
  const costs = direct + month.farmMarketCosts + month.farmOverheads + month.farmHired
  const stock = (farm.stockSold[m]! - farm.stockBought[m]!) * prices
  const loans = farm.contracts[m]!
  month.farmSales = sales
  month.farmCosts = costs
  month.farmStock = stock
  month.farmLoans = loans
  month.farmHours = work.worked[m]!
  month.hiredHours = work.hired[m]!
  month.undoneHours = work.undone[m]!
  state.year.farmSales += sales
  // Breeding stock bought is written off in its year, as bonus depreciation allows even in a loss (26 USC 168(k)), unless the plan elects otherwise.
  state.year.farmDeductions += costs + farm.loanInterest[m]! + farm.stockAtOnce[m]! * prices
  if (farm.stockSpread.count > 0 && farm.stockSpread.boughtInAll[m]! > 0)
    spreadStock(plan, buffers, m, prices)
  state.year.farmOtherGain += farm.stockGain[m]! * prices
  state.year.farm1231Gain += farm.cullGain1231[m]! * prices
  return sales - costs + stock + loans
}

const spreadStock = (plan: CompiledPlan, { state }: CourseBuffers, m: number, prices: number) => {
  const { count, bought, section179, deduction } = plan.farm.stockSpread
  const y = Math.floor((plan.firstMonth + m) / 12) - plan.firstYear
  for (let row = 0; row < count; row += 1) {
    const cost = bought[row * plan.months + m]! * prices
    if (section179[row] === 1) state.section179[y] = state.section179[y]! + cost
    for (let k = 0; k < stockYears && y + k < plan.years; k += 1)
      state.deductions[y + k] =
        state.deductions[y + k]! + cost * deduction[(row * plan.years + y) * stockYears + k]!
  }
}

/** Cash that earlier purchases bring in, and what is left of them at the end of their use. */
const gainsOfPurchases = (buffers: CourseBuffers, m: number): number => {
  const { state } = buffers
  const cash = state.ahead.addedCash[m]! * state.level * state.lasting.farmKept
  const worth = state.ahead.worthBack[m]! * state.level
  state.year.farmSales += cash
  state.year.farmOtherGain += worth
  buffers.month.farmPurchaseGains = cash + worth
  return cash + worth
}

/** Dated purchases are made in their month; then those that wait, in the first month from their earliest on in which the farm bears them. */
const buyWhatIsDue = (plan: CompiledPlan, buffers: CourseBuffers, m: number, y: number): number => {
  const { state } = buffers
  if (state.purchasesLeft === 0) return 0
  const { purchases } = plan.farm
  const cash = state.farmCash
  for (let p = 0; p < purchases.count; p += 1)
    if (purchases.waits[p] === 0 && m === purchases.month[p]) buy(plan, buffers, p, m, y)
  for (let p = 0; p < purchases.count; p += 1)
    if (
      purchases.waits[p] === 1 &&
      m >= purchases.month[p]! &&
      buffers.boughtMonth[p] === notBought &&
      bearsPurchase(plan, buffers, m, purchases.cost[p]! * state.level)
    )
      buy(plan, buffers, p, m, y)
  return cash - state.farmCash
}

const buy = (plan: CompiledPlan, buffers: CourseBuffers, p: number, m: number, y: number) => {
  const { purchases } = plan.farm
  const { state } = buffers
  const price = purchases.cost[p]! * state.level
  buffers.boughtMonth[p] = m
  state.purchasesLeft -= 1
  state.farmCash -= price
  state.section179[y] = state.section179[y]! + price * purchases.section179[p]!
  for (let k = 0; k < deductionYears && y + k < plan.years; k += 1)
    state.deductions[y + k] = state.deductions[y + k]! + price * purchases.deduction[p * deductionYears + k]!
  putToWork(plan, buffers, p)
  lookAnew(buffers, m + 1)
  lookAhead(plan, buffers, m)
}

const plannedDraw = (plan: CompiledPlan, buffers: CourseBuffers, m: number): number => {
  const { draw } = plan
  const { month, state } = buffers
  if (draw.policy === drawCode.steps) return draw.planned[m]! * (draw.withPrices ? state.level : 1)
  if (m < draw.fromMonth) return 0
  const costs = Math.max(0, month.householdCosts)
  if (draw.policy === drawCode.ramp) {
    const along = draw.toMonth > draw.fromMonth ? (m - draw.fromMonth) / (draw.toMonth - draw.fromMonth) : 1
    return costs * (draw.fromShare + (draw.toShare - draw.fromShare) * Math.min(1, along))
  }
  if (draw.policy === drawCode.share) return (Math.max(0, state.netFarmSum) / 12) * draw.toShare
  return Math.min(costs, state.farmSpare)
}
