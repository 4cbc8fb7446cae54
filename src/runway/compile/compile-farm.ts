// The farm's expected course to the arrays of the run: growth beyond prices folded in, purchases as rows, and what the year ahead will need.

import { parseMonth } from '#calendar/month.ts'
import type { FarmCourse } from '#farm/course.ts'
import type { Farm, Purchase } from '#farm/farm-document.ts'
import { costOfHour } from '#farm/hired-help.ts'
import { worksFrom, worksUntil } from '#farm/purchase-document.ts'
import { spreadOverYear } from '#farm/seasonal.ts'
import { hiresHelp } from '#farm/work-months.ts'
import type { Plan } from '#plan/plan.ts'
import type { BoughtAsset, RunwayRules } from '#runway/runway-rules.ts'
import { growthRow, type Span } from '#runway/span.ts'
import type { Weather } from '#runway/storms/weather.ts'
import { type Around, compileAhead } from './compile-ahead.ts'
import { type CompiledStock, compileStock } from './compile-stock.ts'
import { type CompiledFarm, type CompiledPurchases, deductionYears } from './compiled-plan.ts'
import { courseUnder, sumRows } from './expected-course.ts'
import type { PlanOfDay } from './plan-of-day.ts'

export const compileFarm = (
  plan: PlanOfDay,
  rules: RunwayRules,
  span: Span,
  weather: Weather,
  around: Around,
): CompiledFarm => {
  const { farm } = plan
  const course = courseUnder(plan, span, weather)
  const prices = growthRow(span, plan.assumptions.farmPriceGrowth)
  const costs = growthRow(span, plan.assumptions.farmCostGrowth)
  const offered = times(course.offered, prices)
  const ceiling = times(course.ceiling, prices)
  const directCosts = times(course.directCosts, costs)
  const stockSpread = compileStock(plan, rules, span, course, costs)
  return {
    bySeats: [],
    described: isDescribed(farm),
    rows: course.rows.length,
    offered,
    ceiling,
    directCosts,
    fullSales: sumRows(
      offered.map((dollars, cell) => Math.min(dollars, ceiling[cell]!)),
      span.months,
    ),
    fullDirectCosts: sumRows(directCosts, span.months),
    contracts: contractsOf(course, span),
    marketCosts: times(course.marketCosts, costs),
    overheads: times(course.overheads, costs),
    ...stockOf(course, span, prices, costs, stockSpread),
    stockSpread,
    cullGain1231: times(sumRows(course.cullGain1231, span.months), prices),
    loanInterest: course.loanInterest,
    loanBalance: course.loanBalance,
    work: {
      firstMonth: span.firstMonth,
      hours: course.hoursNeeded,
      hiredByPlan: course.hiredByPlan,
      promised: course.hiredPromised,
      hires: hiresHelp(farm),
    },
    crewHours: crewHours(plan, course, span),
    hoursLost: weather.hoursLost,
    hourCost: costs.map((factor) => factor * costOfHour(farm.hired)),
    salesFactor: weather.salesFactor,
    shareAfterDeath: plan.household.farmShareAfterDeath,
    openingCash: farm.cash,
    reserve: farm.reserve,
    purchases: compilePurchases(farm, rules, span),
    ...compileAhead(plan, span, around),
  }
}

/** Stock bought, what is sold with leases, and what of the sales is income of no trade. */
const stockOf = (
  course: FarmCourse,
  { months }: Span,
  prices: Float64Array,
  costs: Float64Array,
  { boughtInAll }: CompiledStock,
): Pick<CompiledFarm, 'stockBought' | 'stockAtOnce' | 'stockSold' | 'stockGain'> => {
  const { leaseIncome, phaseSales, phaseSalesBasis } = course
  const stockBought = times(sumRows(course.stockBought, months), costs)
  const culls = times(sumRows(course.culls, months), prices)
  const gain = times(sumRows(course.cullGainOrdinary, months), prices)
  return {
    stockBought,
    stockAtOnce: stockBought.map((bought, m) => bought - boughtInAll[m]!),
    stockSold: culls.map((sold, m) => sold + leaseIncome[m]! + phaseSales[m]!),
    stockGain: gain.map((one, m) => one + leaseIncome[m]! + phaseSales[m]! - phaseSalesBasis[m]!),
  }
}

const contractsOf = ({ loanDrawn, loanPayments }: FarmCourse, { months }: Span): Float64Array =>
  Float64Array.from({ length: months + 12 }, (_, m) =>
    m < months ? loanDrawn[m]! - loanPayments[m]! : -loanPayments[m - 12]!,
  )

/** A plan that says anything of the farm has one; without a word its draws are taken to be what it earns. */
export const isDescribed = (farm: Farm): boolean =>
  farm.cash !== 0 ||
  [farm.enterprises, farm.herds, farm.overheads, farm.loans, farm.purchases, farm.phases].some(
    (list) => list.length > 0,
  )

/** Each row of a row-major table times the factors; a single row too. An endless ceiling stays endless. */
export const times = (table: Float64Array, factors: Float64Array): Float64Array => {
  const out = new Float64Array(table.length)
  for (let first = 0; first < table.length; first += factors.length)
    for (let m = 0; m < factors.length; m += 1) {
      const value = table[first + m]!
      out[first + m] = Number.isFinite(value) ? value * factors[m]! : value
    }
  return out
}

/**
 * Hours a month that each person can give, and others of the crew together. Where the plan names no crew nothing is known of
 * its hours: its people, or whoever works it, then do what there is in equal parts.
 */
const crewHours = (plan: Plan, course: FarmCourse, span: Span): Float64Array => {
  const { people } = plan.household
  const out = new Float64Array(3 * span.months)
  const rowOf = (who: string | undefined) => {
    const person = people.findIndex((one) => one.id === who)
    return person < 0 ? 2 : person
  }
  const crew = plan.farm.crew.map((one) => one.who)
  const workers = crew.length > 0 ? crew : people.length > 0 ? people.map((one) => one.id) : [undefined]
  workers.forEach((who, place) => {
    for (let m = 0; m < span.months; m += 1)
      out[rowOf(who) * span.months + m]! +=
        crew.length > 0
          ? course.hoursAvailable[place * span.months + m]!
          : (course.hoursNeeded[m]! - course.hiredByPlan[m]!) / workers.length
  })
  return out
}

const compilePurchases = (farm: Farm, rules: RunwayRules, span: Span): CompiledPurchases => {
  const list = farm.purchases
  const asset = (one: Purchase): BoughtAsset => ({ ...one, month: parseMonth(one.month)! })
  const out: CompiledPurchases = {
    count: list.length,
    cost: Float64Array.from(list, (one) => one.cost),
    waits: Uint8Array.from(list, (one) => (one.timing === 'when cash allows' ? 1 : 0)),
    month: Int32Array.from(list, (one) => parseMonth(one.month)! - span.firstMonth),
    addsCash: new Float64Array(list.length * 12),
    savesHours: new Float64Array(list.length * 12),
    worksFrom: Int32Array.from(list, worksFrom),
    worksUntil: Int32Array.from(list, worksUntil),
    valueAtEnd: Float64Array.from(list, (one) => one.valueAtEnd),
    deduction: new Float64Array(list.length * deductionYears),
    section179: Float64Array.from(list, (one) => rules.section179Share(asset(one), one.section179Share)),
  }
  list.forEach((one, p) => {
    out.addsCash.set(spreadOverYear(one.addsCash), p * 12)
    out.savesHours.set(spreadOverYear(one.savesHours), p * 12)
    const shares = rules.deductionShares(asset(one), out.section179[p]!)
    out.deduction.set(shares.subarray(0, deductionYears), p * deductionYears)
  })
  return out
}
