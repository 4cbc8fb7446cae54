// What the plan expects of the months ahead: price levels, dated purchases, planned draws, and the year before a share policy begins.
import { type Month, parseMonth } from '#calendar/month.ts'
import { farmCourse } from '#farm/course.ts'
import type { Farm } from '#farm/farm-document.ts'
import { spreadOverYear } from '#farm/seasonal.ts'
import type { Plan } from '#plan/plan.ts'
import { type Span, seasonOf, stepsTaken, sumOfMonths } from '#runway/span.ts'
import { drawCode } from './codes.ts'
import type { CompiledDraw } from './compiled-draw.ts'
import type { CompiledFarm, CompiledHousehold, CompiledPlan } from './compiled-plan.ts'
import { sumRows } from './expected-course.ts'

export interface Around {
  draw: CompiledDraw
  household: CompiledHousehold
  /** By year, as the law's tables are indexed. */
  expectedLevel: Float64Array
}

export const compileAhead = (
  plan: Plan,
  span: Span,
  around: Around,
): Pick<CompiledFarm, 'netBefore' | 'datedPurchases' | 'expectedDraws' | 'expectedLevel'> => ({
  netBefore: netBefore(plan, span.firstMonth, around.expectedLevel[0]!),
  datedPurchases: datedPurchases(plan.farm, span),
  expectedDraws: expectedDraws(plan, span, around),
  expectedLevel: levelByMonth(plan, span, around.expectedLevel),
})

/** The level of a year's January, and where prices step monthly its months up from there. */
const levelByMonth = (plan: Plan, span: Span, ofYear: Float64Array): Float64Array => {
  const { inflation, priceSteps } = plan.assumptions
  const monthly = priceSteps === 'monthly' ? (1 + inflation) ** (1 / 12) : 1
  return Float64Array.from({ length: span.months }, (_, m) => {
    const sinceStep = Math.min(m, seasonOf(span, m))
    return ofYear[stepsTaken(span, m)]! * monthly ** sinceStep
  })
}

const datedPurchases = (farm: Farm, span: Span): Float64Array => {
  const out = new Float64Array(span.months)
  for (const one of farm.purchases) {
    const m = parseMonth(one.month)! - span.firstMonth
    if (one.timing === 'dated' && m >= 0 && m < span.months) out[m]! += one.cost
  }
  return out
}

/** Given in the plan, or what its farm would have taken in and paid in those months, at the prices that the course begins with. */
export const netBefore = (plan: Plan, firstMonth: Month, level: number): Float64Array => {
  const out = new Float64Array(12)
  if (plan.draw.policy !== 'share') return out
  const { netBefore: given } = plan.draw
  if (given !== undefined) return out.map((_, k) => spreadOverYear(given)[(firstMonth + k) % 12]!)
  const course = farmCourse(plan.farm, (firstMonth - 12) as Month, 12)
  for (let k = 0; k < 12; k += 1) {
    const cell = (table: Float64Array) => sumRows(table, 12)[k]!
    const trade =
      cell(course.sales) +
      cell(course.culls) +
      course.leaseIncome[k]! +
      course.phaseSales[k]! -
      cell(course.spent) -
      course.marketCosts[k]! -
      course.overheads[k]! -
      course.hiredCosts[k]! -
      cell(course.stockBought)
    out[k] = trade * level + course.loanDrawn[k]! - course.loanPayments[k]!
  }
  return out
}

/** Draws by steps in dollars of the expected month: of a plan as it is compiled, and whenever a question turns its draws. */
export const expectSteps = (
  span: Pick<CompiledPlan, 'firstMonth' | 'firstYear'>,
  draw: Pick<CompiledDraw, 'planned' | 'withPrices'>,
  levelOfYear: Float64Array,
  into: Float64Array,
): void => {
  for (let m = 0; m < into.length; m += 1)
    into[m] = draw.planned[m]! * (draw.withPrices ? levelOfYear[stepsTaken(span, m)]! : 1)
}

const expectedDraws = (plan: Plan, span: Span, { draw, household, expectedLevel }: Around): Float64Array => {
  const out = new Float64Array(span.months)
  if (draw.policy === drawCode.steps) expectSteps(span, draw, expectedLevel, out)
  if (draw.policy !== drawCode.ramp) return out
  const premiums = sumOfMonths(
    Float64Array.from(plan.health.premiums, (line) => line.perMonth),
    0,
    plan.health.premiums.length,
  )
  for (let m = Math.max(0, draw.fromMonth); m < span.months; m += 1) {
    const along =
      draw.toMonth > draw.fromMonth ? Math.min(1, (m - draw.fromMonth) / (draw.toMonth - draw.fromMonth)) : 1
    const costs =
      (household.smooth.inflation[m]! + household.smooth.care[m]! + premiums) *
        expectedLevel[stepsTaken(span, m)]! +
      household.smooth.fixed[m]! +
      household.smoothLoans[m]!
    out[m] = costs * (draw.fromShare + (draw.toShare - draw.fromShare) * along)
  }
  return out
}
