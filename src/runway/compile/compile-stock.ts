// Bought breeding stock that is not written off at once: what of it is section 179, and how the rest spreads over the years.
import { type Month, yearOf } from '#calendar/month.ts'
import { type FarmCourse, herdLimits } from '#farm/course.ts'
import { type Herd, isBird } from '#farm/herd/herd-document.ts'
import { herdMonths } from '#farm/herd/herd-months.ts'
import { stockClasses } from '#farm/herd/herd-tax.ts'
import { monthFromText } from '#farm/seasonal.ts'
import type { Plan } from '#plan/plan.ts'
import { firstRecoveryYear } from '#rules/depreciation/recovery.ts'
import type { RunwayRules } from '#runway/runway-rules.ts'
import { byYear, type Span } from '#runway/span.ts'
import { sumRows } from './expected-course.ts'
import type { PlanOfDay } from './plan-of-day.ts'

/** Herds whose bought stock is spread, in rows. */
export interface CompiledStock {
  count: number
  /** Dollars bought, row × month, and their sum by month. */
  bought: Float64Array
  boughtInAll: Float64Array
  /** 1 where section 179 is elected. */
  section179: Uint8Array
  /** Share of the cost deducted, row × year bought × year after; none where section 179 is elected. */
  deduction: Float64Array
  /** By year: what is left to deduct of stock bought before the plan, or by the books of all that was, and what was elected of it in the plan's first year. */
  openingDeductions: Float64Array
  openingSection179: number
  /** The books have told these: what purchases made before the plan would deduct is among them. */
  isByBooks: boolean
}

/** Years over which breeding stock is written off, the first and the last in part. */
export const stockYears = 8

/** `costs`: growth beyond prices of what a farm buys, by month. */
export const compileStock = (
  plan: PlanOfDay,
  rules: RunwayRules,
  span: Span,
  course: FarmCourse,
  costs: Float64Array,
): CompiledStock => {
  const herds = plan.farm.herds.filter((herd) => isSpread(herd))
  const booked = plan.writtenOff?.farm
  const bought = new Float64Array(herds.length * span.months)
  herds.forEach((herd, k) => {
    const row = course.rows.findIndex((one) => one.kind === 'herd' && one.id === herd.id)
    for (let m = 0; m < span.months; m += 1)
      bought[k * span.months + m] = course.stockBought[row * span.months + m]! * costs[m]!
  })
  const out: CompiledStock = {
    count: herds.length,
    bought,
    boughtInAll: sumRows(bought, span.months),
    section179: Uint8Array.from(herds, (herd) => (herd.stockWriteOff === 'section179' ? 1 : 0)),
    deduction: new Float64Array(herds.length * span.years * stockYears),
    openingDeductions: byYear(booked?.byYear ?? [], span),
    openingSection179: booked?.section179 ?? 0,
    isByBooks: booked != null,
  }
  herds.forEach((herd, k) => {
    if (!booked) addBoughtBefore(plan, rules, span, herd, out)
    for (let y = 0; y < span.years; y += 1)
      out.deduction.set(sharesOf(rules, herd, span.firstYear + y), (k * span.years + y) * stockYears)
  })
  return out
}

const isSpread = (herd: Herd): boolean => !isBird(herd.kind) && herd.stockWriteOff !== 'bonus'

/** Bonus is elected out of: the class follows its table. */
const sharesOf = (rules: RunwayRules, { kind, stockWriteOff }: Herd, year: number): Float64Array => {
  if (isBird(kind) || stockWriteOff === 'section179') return new Float64Array(stockYears)
  const month = (Math.max(year, firstRecoveryYear) * 12) as Month
  const bought = { assetClass: stockClasses[kind], month, cost: 0, bonus: false }
  return rules.deductionShares(bought, 0).slice(0, stockYears)
}

/** At the plan's first prices. */
const addBoughtBefore = (plan: Plan, rules: RunwayRules, span: Span, herd: Herd, out: CompiledStock) => {
  const start = monthFromText(herd.start)
  if (start >= span.firstMonth) return
  const before = herdMonths(herd, start, span.firstMonth - start, herdLimits(plan.farm, herd.id))
  before.stockBought.forEach((dollars, m) => {
    const year = yearOf((start + m) as Month)
    if (dollars === 0) return
    if (herd.stockWriteOff === 'section179') {
      if (year === span.firstYear) out.openingSection179 += dollars
      return
    }
    sharesOf(rules, herd, year).forEach((share, k) => {
      const y = year + k - span.firstYear
      if (y >= 0 && y < span.years) out.openingDeductions[y]! += dollars * share
    })
  })
}
