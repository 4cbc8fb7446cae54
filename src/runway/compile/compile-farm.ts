// The farm's expected course to the arrays of the run: growth beyond prices folded in, purchases as rows, and what the year ahead will need.
import { parseMonth } from '#calendar/month.ts'
import { type FarmCourse, farmCourse, withoutMarket } from '#farm/course.ts'
import type { Farm } from '#farm/farm-document.ts'
import { spreadOverYear } from '#farm/seasonal.ts'
import type { Plan } from '#plan/plan.ts'
import type { RunwayRules } from '#runway/runway-rules.ts'
import { grownBeyond, type Span, stepsTaken, sumOfMonths } from '#runway/span.ts'
import type { Weather } from '#runway/weather.ts'
import {
  type CompiledDraw,
  type CompiledFarm,
  type CompiledHousehold,
  type CompiledPurchases,
  deductionYears,
} from './compiled-plan.ts'

interface Around {
  draw: CompiledDraw
  household: CompiledHousehold
  expectedLevel: Float64Array
}

export const compileFarm = (
  plan: Plan,
  rules: RunwayRules,
  span: Span,
  weather: Weather,
  around: Around,
): CompiledFarm => {
  const { farm } = plan
  const course = courseUnder(plan, span, weather)
  const described = farm.enterprises.length + farm.herds.length + farm.overheads.length > 0
  const prices = growthRow(span, plan.assumptions.farmPriceGrowth)
  const costs = growthRow(span, plan.assumptions.farmCostGrowth)
  const out: CompiledFarm = {
    described,
    rows: course.rows.length,
    offered: times(course.offered, prices),
    ceiling: times(course.ceiling, prices),
    directCosts: times(sumRows(course.directCosts, span.months), costs),
    marketCosts: times(course.marketCosts, costs),
    overheads: times(course.overheads, costs),
    hiredCosts: times(course.hiredCosts, costs),
    stockBought: times(sumRows(course.stockBought, span.months), costs),
    culls: times(sumRows(course.culls, span.months), prices),
    cullGain1231: times(sumRows(course.cullGain1231, span.months), prices),
    cullGainOrdinary: times(sumRows(course.cullGainOrdinary, span.months), prices),
    leaseIncome: course.leaseIncome,
    phaseSales: course.phaseSales,
    phaseSalesBasis: course.phaseSalesBasis,
    loanPayments: course.loanPayments,
    loanInterest: course.loanInterest,
    loanDrawn: course.loanDrawn,
    loanBalance: course.loanBalance,
    hours: course.hoursNeeded,
    personHours: personHours(plan, course, span),
    hourCost: farm.hired.hourlyCost,
    salesFactor: weather.salesFactor,
    extraHiredHours: weather.extraHiredHours,
    shareAfterDeath: plan.household.farmShareAfterDeath,
    openingCash: farm.cash,
    reserve: farm.reserve,
    purchases: compilePurchases(farm, rules, span),
    needAhead: new Float64Array(span.months),
    expectedProfit: new Float64Array(span.years),
    expectedGross: new Float64Array(span.years),
  }
  lookAhead(plan, out, course, span, around)
  return out
}

/** A farm that names no crew is worked by the plan's people, not by hired hands. */
const withCrew = ({ farm, household }: Plan): Farm =>
  farm.crew.length > 0 || household.people.length === 0
    ? farm
    : { ...farm, crew: household.people.map((person) => ({ who: person.id, weeklyHours: 50 })) }

/** Growth beyond prices by month, taken in yearly steps. */
const growthRow = (span: Span, rate: number): Float64Array =>
  Float64Array.from({ length: span.months }, (_, m) => grownBeyond(span, m, rate))

/** Each row of a row-major table times the factors; a single row too. An endless ceiling stays endless. */
const times = (table: Float64Array, factors: Float64Array): Float64Array =>
  table.map((value, cell) => (Number.isFinite(value) ? value * factors[cell % factors.length]! : value))

const sumRows = (table: Float64Array, months: number): Float64Array => {
  const out = new Float64Array(months)
  for (let cell = 0; cell < table.length; cell += 1) out[cell % months]! += table[cell]!
  return out
}

/** Courses by farm and span: a plan's storms and levers mostly leave the farm as it is. Nothing writes into a kept course. */
const courses = new WeakMap<Farm, Map<string, FarmCourse>>()

const keptCourse = (plan: Plan, span: Span): FarmCourse => {
  const people = plan.household.people.map((person) => person.id).join(' ')
  const key = `${span.firstMonth} ${span.months} ${people}`
  const known = courses.get(plan.farm) ?? new Map<string, FarmCourse>()
  courses.set(plan.farm, known)
  const course = known.get(key) ?? farmCourse(withCrew(plan), span.firstMonth, span.months)
  known.set(key, course)
  return course
}

const spliced = [
  'offered',
  'ceiling',
  'sales',
  'marketCosts',
  'hoursNeeded',
  'hoursByWorker',
  'hiredCosts',
] as const

/** The course, with the months in which a storm closes a market taken from the course without it. */
const courseUnder = (plan: Plan, span: Span, weather: Weather): FarmCourse => {
  const course = keptCourse(plan, span)
  const lost = weather.lostMarket
  if (lost === null) return course
  const without = farmCourse(withoutMarket(withCrew(plan), lost.id, '0000-01'), span.firstMonth, span.months)
  const end = Math.min(span.months, lost.from + lost.months)
  const changed = { ...course }
  for (const name of spliced)
    changed[name] = course[name].map((value, cell) => {
      const m = cell % span.months
      return m >= lost.from && m < end ? without[name][cell]! : value
    })
  return changed
}

/** Farm hours a month by person. */
const personHours = (plan: Plan, course: FarmCourse, span: Span): Float64Array => {
  const out = new Float64Array(2 * span.months)
  plan.household.people.forEach((person, p) => {
    const place = course.workers.indexOf(person.id)
    if (place < 0) return
    out.set(course.hoursByWorker.subarray(place * span.months, (place + 1) * span.months), p * span.months)
  })
  return out
}

const compilePurchases = (farm: Farm, rules: RunwayRules, span: Span): CompiledPurchases => {
  const list = farm.purchases
  const out: CompiledPurchases = {
    count: list.length,
    cost: Float64Array.from(list, (one) => one.cost),
    waits: Uint8Array.from(list, (one) => (one.timing === 'when cash allows' ? 1 : 0)),
    month: Int32Array.from(list, (one) => parseMonth(one.month)! - span.firstMonth),
    addsCash: new Float64Array(list.length * 12),
    savesHours: new Float64Array(list.length * 12),
    worksAfter: Int32Array.from(list, (one) => one.worksAfterMonths),
    worksMonths: Int32Array.from(list, (one) => Math.round(one.usefulYears * 12)),
    valueAtEnd: Float64Array.from(list, (one) => one.valueAtEnd),
    deduction: new Float64Array(list.length * deductionYears),
    section179: Float64Array.from(list, (one) => one.section179Share),
  }
  list.forEach((one, p) => {
    out.addsCash.set(spreadOverYear(one.addsCash), p * 12)
    out.savesHours.set(spreadOverYear(one.savesHours), p * 12)
    const shares = rules.deductionShares(one.assetClass, Number(one.month.slice(0, 4)), one.section179Share)
    out.deduction.set(shares.subarray(0, deductionYears), p * deductionYears)
  })
  return out
}

/**
 * Expected profit of each year, and for each month the most farm cash the next twelve months (this month's draw included)
 * use up. Draws count as planned for steps and ramps; shares and sweeps only take what is there.
 */
const lookAhead = (plan: Plan, out: CompiledFarm, course: FarmCourse, span: Span, around: Around) => {
  const prices = growthRow(span, plan.assumptions.farmPriceGrowth)
  const sales = times(sumRows(course.sales, span.months), prices)
  const net = new Float64Array(span.months)
  const draws = expectedDraws(plan, span, around)
  for (let m = 0; m < span.months; m += 1) {
    const y = stepsTaken(span, m)
    const level = around.expectedLevel[y]!
    const costs = out.directCosts[m]! + out.marketCosts[m]! + out.overheads[m]! + out.hiredCosts[m]!
    const stock = out.culls[m]! + out.leaseIncome[m]! + out.phaseSales[m]! - out.stockBought[m]!
    out.expectedGross[y]! += sales[m]! * level
    out.expectedProfit[y]! += (sales[m]! - costs - out.stockBought[m]!) * level
    net[m] = (sales[m]! - costs + stock) * level + out.loanDrawn[m]! - out.loanPayments[m]!
  }
  for (let m = 0; m < span.months; m += 1) {
    let running = -draws[m]!
    let lowest = running
    for (let k = m + 1; k <= m + 12 && k < span.months; k += 1) {
      running += net[k]! - draws[k]!
      lowest = Math.min(lowest, running)
    }
    out.needAhead[m] = Math.max(0, -lowest)
  }
}

const expectedDraws = (plan: Plan, span: Span, { draw, household, expectedLevel }: Around): Float64Array => {
  if (draw.policy === 0)
    return draw.planned.map(
      (amount, m) => amount * (draw.withPrices ? expectedLevel[stepsTaken(span, m)]! : 1),
    )
  const out = new Float64Array(span.months)
  if (draw.policy !== 1) return out
  const premiums = sumOfMonths(
    Float64Array.from(plan.health.premiums, (line) => line.perMonth),
    0,
    plan.health.premiums.length,
  )
  for (let m = Math.max(0, draw.fromMonth); m < span.months; m += 1) {
    const along =
      draw.toMonth > draw.fromMonth ? Math.min(1, (m - draw.fromMonth) / (draw.toMonth - draw.fromMonth)) : 1
    const costs =
      (household.smoothReal[m]! + household.smoothCare[m]! + premiums) * expectedLevel[stepsTaken(span, m)]! +
      household.smoothFixed[m]! +
      household.smoothLoans[m]!
    out[m] = costs * (draw.fromShare + (draw.toShare - draw.fromShare) * along)
  }
  return out
}
