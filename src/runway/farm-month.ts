// The farm's month: what it sells and pays, what it buys out of its own cash, and what it can let the household draw.
import { type CompiledPlan, deductionYears } from '#runway/compile/compiled-plan.ts'
import { type CourseBuffers, notBought } from './course-buffers.ts'
import type { CourseShocks } from './shocks.ts'

const steps = 0
const ramp = 1
const share = 2

/** Runs the farm for month `m` of plan year `y`; `season` is 0 in January. Household costs of the month must be known. */
export const runFarmMonth = (
  plan: CompiledPlan,
  shocks: CourseShocks,
  buffers: CourseBuffers,
  m: number,
  y: number,
  season: number,
): void => {
  const { months } = buffers
  if (!plan.farm.described) {
    drawAsPlanned(plan, buffers, m)
    return
  }
  const net = tradeOfMonth(plan, shocks, buffers, m, y, season)
  const gains = gainsOfPurchases(plan, buffers, m, y, season)
  const state = buffers.state
  state.netFarmSum += net + gains - state.netFarmRing[m % 12]!
  state.netFarmRing[m % 12] = net + gains
  state.farmCash += net + gains
  months.farmPurchases[m] = buyWhatIsDue(plan, buffers, m, y)
  months.contribution[m] = 0
  if (state.farmCash < 0) {
    months.contribution[m] = -state.farmCash
    state.farmCash = 0
  }
  const planned = plannedDraw(plan, buffers, m)
  const draw = Math.min(planned, Math.max(0, state.farmCash - plan.farm.reserve))
  state.farmCash -= draw
  months.plannedDraw[m] = planned
  months.draw[m] = draw
  months.unmetDraw[m] = planned - draw
  months.farmCash[m] = state.farmCash
}

/** A farm the plan does not describe gives what is planned; its profit is taken to be what it gives. */
const drawAsPlanned = (plan: CompiledPlan, buffers: CourseBuffers, m: number) => {
  const { months, state } = buffers
  const draw = plannedDraw(plan, buffers, m)
  months.farmSales[m] = draw
  months.farmCosts[m] = 0
  months.farmStock[m] = 0
  months.farmLoans[m] = 0
  months.farmPurchases[m] = 0
  months.farmPurchaseGains[m] = 0
  months.contribution[m] = 0
  months.plannedDraw[m] = draw
  months.draw[m] = draw
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
  season: number,
): number => {
  const { farm } = plan
  const { months, state } = buffers
  const kept = farmKept(plan, buffers)
  const prices = state.level * kept
  const common = shocks.season[y]! * farm.salesFactor[m]!
  let sold = 0
  for (let row = 0; row < farm.rows; row += 1) {
    const cell = row * plan.months + m
    const offered = farm.offered[cell]! * common * shocks.enterpriseSeason[row * plan.years + y]!
    const ceiling = farm.ceiling[cell]!
    sold += Math.min(offered, ceiling)
  }
  const sales = sold * prices
  const lost = hoursLost(plan, buffers, m)
  const costs =
    (farm.directCosts[m]! + farm.marketCosts[m]! + farm.overheads[m]! + farm.hiredCosts[m]!) * prices +
    lost * farm.hourCost * state.level
  const stock = (farm.culls[m]! + farm.leaseIncome[m]! + farm.phaseSales[m]! - farm.stockBought[m]!) * prices
  const loans = farm.loanDrawn[m]! - farm.loanPayments[m]!
  months.farmSales[m] = sales
  months.farmCosts[m] = costs
  months.farmStock[m] = stock
  months.farmLoans[m] = loans
  months.farmHours[m] = farm.hours[m]! * kept - hoursSaved(plan, buffers, m, season)
  state.year.farmSales += sales
  state.year.farmDeductions += costs + farm.loanInterest[m]! + farm.stockBought[m]! * prices
  state.year.farmOtherGain +=
    (farm.cullGainOrdinary[m]! + farm.leaseIncome[m]! + farm.phaseSales[m]! - farm.phaseSalesBasis[m]!) *
    prices
  state.year.farm1231Gain += farm.cullGain1231[m]! * prices
  return sales - costs + stock + loans
}

/** The part of the farm one alone keeps up. */
const farmKept = (plan: CompiledPlan, buffers: CourseBuffers): number =>
  plan.people.length === 2 && buffers.state.alive[0]! + buffers.state.alive[1]! === 1
    ? plan.farm.shareAfterDeath
    : 1

/** Hours of work lost this month that hired labour makes up. */
const hoursLost = (plan: CompiledPlan, buffers: CourseBuffers, m: number): number => {
  let hours = plan.farm.extraHiredHours[m]!
  for (let p = 0; p < plan.people.length; p += 1)
    if (buffers.state.alive[p] === 1 && buffers.state.working[p] === 0)
      hours += plan.farm.personHours[p * plan.months + m]!
  return hours
}

const hoursSaved = (plan: CompiledPlan, buffers: CourseBuffers, m: number, season: number): number => {
  const { purchases } = plan.farm
  let saved = 0
  for (let p = 0; p < purchases.count; p += 1)
    if (isAtWork(plan, buffers, p, m)) saved += purchases.savesHours[p * 12 + season]!
  return Math.min(saved, plan.farm.hours[m]!)
}

const isAtWork = (plan: CompiledPlan, buffers: CourseBuffers, p: number, m: number): boolean => {
  const bought = buffers.boughtMonth[p]!
  if (bought === notBought) return false
  const age = m - bought
  const { purchases } = plan.farm
  return age >= purchases.worksAfter[p]! && age < purchases.worksAfter[p]! + purchases.worksMonths[p]!
}

/** Cash that earlier purchases bring in, and what is left of them at the end of their use. */
const gainsOfPurchases = (
  plan: CompiledPlan,
  buffers: CourseBuffers,
  m: number,
  y: number,
  season: number,
): number => {
  const { purchases } = plan.farm
  const { state } = buffers
  const prices = state.level * farmKept(plan, buffers)
  let gains = 0
  for (let p = 0; p < purchases.count; p += 1) {
    const bought = buffers.boughtMonth[p]!
    if (bought === notBought) continue
    if (isAtWork(plan, buffers, p, m)) {
      const cash = purchases.addsCash[p * 12 + season]! * prices
      gains += cash
      state.year.farmSales += cash
    }
    if (m - bought === purchases.worksAfter[p]! + purchases.worksMonths[p]!) {
      const worth = purchases.valueAtEnd[p]! * state.level
      gains += worth
      state.year.farmOtherGain += worth
    }
  }
  buffers.months.farmPurchaseGains[m] = gains
  return y < plan.years ? gains : 0
}

/**
 * Dated purchases are made in their month. One that waits is made in the first month from its earliest on in which farm
 * cash, after it, covers the reserve and all that the next twelve expected months (draws included) will use up.
 */
const buyWhatIsDue = (plan: CompiledPlan, buffers: CourseBuffers, m: number, y: number): number => {
  const { purchases } = plan.farm
  const { state } = buffers
  let spent = 0
  for (let p = 0; p < purchases.count; p += 1) {
    if (buffers.boughtMonth[p] !== notBought || m < purchases.month[p]!) continue
    const price = purchases.cost[p]! * state.level
    if (purchases.waits[p] === 1) {
      const kept = plan.farm.reserve + plan.farm.needAhead[m]!
      if (state.farmCash - price < kept) continue
    } else if (m > purchases.month[p]!) continue
    buffers.boughtMonth[p] = m
    state.farmCash -= price
    spent += price
    state.section179[y] = state.section179[y]! + price * purchases.section179[p]!
    for (let k = 0; k < deductionYears && y + k < plan.years; k += 1)
      state.deductions[y + k] =
        state.deductions[y + k]! + price * purchases.deduction[p * deductionYears + k]!
  }
  return spent
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
  return Math.min(costs, Math.max(0, state.farmCash - plan.farm.reserve))
}
