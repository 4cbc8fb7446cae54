// The premium credit over the whole range of household income, and what is kept of farm profit after tax and premiums.
import { type CoverageStep, stepLineCents, stepsOf } from '../coverage/coverage-steps.ts'
import { marriedSeparate, single } from '../filing-status.ts'
import { type HouseholdYear, householdSize } from '../household-year.ts'
import type { LawYear } from '../law-year.ts'
import { noLimit } from '../law-year.ts'
import { wholeCents } from '../rounding.ts'
import { silverValueAt } from './cost-sharing.ts'
import { type CentsByMonth, type Cover, creditAt, povertyLineCents } from './premium-credit.ts'
import { costOf, type ExtraIncome, standing } from './year-standing.ts'

/** Dollars a year at one household income. */
export interface CreditPoint {
  householdIncome: number
  percent: number
  credit: number
  netPremium: number
  silverValue: number
}

/** What a household brings to the curve: its poverty line, and its cover on the step of an income. */
export interface CurveTerms {
  household: HouseholdYear
  steps: readonly CoverageStep[]
}

/** One point for each whole percent of the poverty line up to `toPercent`, and one just beyond each income where something ends. */
export const creditCurve = (law: LawYear, terms: CurveTerms, toPercent: number): CreditPoint[] => {
  const line = povertyLineCents(law, terms.household.region, householdSize(terms.household))
  const incomes = Array.from({ length: toPercent + 1 }, (_, percent) => Math.round((line * percent) / 100))
  const ends = terms.steps.slice(0, -1).map((step) => stepLineCents(law, terms.household, step))
  const last = creditEndsAt(law, terms)
  if (last !== null) ends.push(Math.round(last * 100))
  const all = [...incomes, ...ends.flatMap((end) => [end, end + 1])].filter(
    (income) => income <= incomes.at(-1)!,
  )
  return [...new Set(all)].sort((a, b) => a - b).map((income) => pointAt(law, terms, line, income))
}

/** Farther than that no end is looked for. Cents. */
const farthest = 200_000_000

/**
 * The highest household income, in dollars, at which there is a credit: that of the line of the law, or the last one at which the
 * household's own share is less than the benchmark. Null where there is none at any income, or no end. Where it stands it is this one.
 */
export const creditEndsAt = (law: LawYear, terms: CurveTerms): number | null => {
  const { household, steps } = terms
  const line = povertyLineCents(law, household.region, householdSize(household))
  const paysAt = (income: number) => pointAt(law, terms, line, income).credit > 0
  const top = law.creditToPercent < noLimit ? Math.floor((line * law.creditToPercent) / 100) : farthest
  // Whom a program takes has no credit below its line, so the highest step with any has the end. On one step more income never brings more.
  for (let place = steps.length - 1; place >= 0; place -= 1) {
    const below = place === 0 ? -1 : stepLineCents(law, household, steps[place - 1]!)
    const lowest = Math.max(below + 1, Math.ceil((line * law.creditFromPercent) / 100))
    const highest = Math.min(top, stepLineCents(law, household, steps[place]!))
    if (lowest > highest || !paysAt(lowest)) continue
    return highest === farthest && paysAt(highest) ? null : lastOf(lowest, highest, paysAt) / 100
  }
  return null
}

/** Of whole numbers from `low`, of which it is so, on to `high`: the last one. */
const lastOf = (low: number, high: number, isSo: (one: number) => boolean): number => {
  if (isSo(high)) return high
  let [so, not] = [low, high]
  while (not - so > 1) {
    const middle = Math.floor((so + not) / 2)
    if (isSo(middle)) so = middle
    else not = middle
  }
  return so
}

const pointAt = (
  law: LawYear,
  { household, steps }: CurveTerms,
  povertyLine: number,
  income: number,
): CreditPoint => {
  const step = steps.find((one) => income <= stepLineCents(law, household, one))!
  const byMonth = centsOf(step)
  const cover: Cover = {
    povertyLine,
    medicaidLine: 0,
    months: step.coverMonths,
    premium: byMonth ? sumOf(byMonth.premiums) : wholeCents(step.premiumMonthly) * step.coverMonths,
    benchmark: byMonth ? sumOf(byMonth.benchmarks) : wholeCents(step.benchmarkMonthly) * step.coverMonths,
    advance: wholeCents(household.advanceMonthly) * step.coverMonths,
    creditAllowed: household.status === marriedSeparate ? 0 : 1,
    byMonth,
    repaymentSingle: household.status === single ? 1 : 0,
  }
  const credit = creditAt(law, cover, income)
  const allTaken = step.monthsAhead === 0 && steps.length > 1
  return {
    householdIncome: income / 100,
    percent: Math.floor((income * 100) / povertyLine),
    credit: credit / 100,
    netPremium: (cover.premium - credit) / 100,
    silverValue: allTaken ? 1 : silverValueAt(law, income, povertyLine),
  }
}

const centsOf = ({ byMonth }: CoverageStep): CentsByMonth | null =>
  byMonth && { premiums: byMonth.premium.map(wholeCents), benchmarks: byMonth.benchmark.map(wholeCents) }

const sumOf = (cents: Float64Array): number => cents.reduce((sum, one) => sum + one, 0)

/** What is left of `extra` dollars more (or fewer) of one kind of income after tax and premiums, against none. */
export interface KeptPoint {
  extra: number
  kept: number
  credit: number
  /** Place of the coverage step. */
  step: number
}

/** What the household keeps of each extra income from `from` to `to` dollars, in steps of `step` dollars. */
export const keptCurve = (
  law: LawYear,
  household: HouseholdYear,
  kind: ExtraIncome,
  span: { from: number; to: number; step: number },
  steps: readonly CoverageStep[] = stepsOf(law, household),
): KeptPoint[] => {
  const at = standing(law, household, kind, steps)
  const now = costOf(at(0))
  const points: KeptPoint[] = []
  for (let extra = span.from; extra <= span.to; extra += span.step) {
    const year = at(extra)
    points.push({
      extra,
      kept: Math.round((extra - (costOf(year) - now)) * 100) / 100,
      credit: year.credit,
      step: year.step,
    })
  }
  return points
}

export interface CostlySpan {
  from: number
  to: number
  /** How much less is kept at the end of the span than at its start. */
  loses: number
  /** First extra income from which as much is kept again as at the start; null when not within the curve. */
  madeUpAt: number | null
  /** What happens within the span, where it is one of the lines of cover. */
  because: 'a program ends' | 'the credit ends' | null
}

/** Spans of the curve in which more income leaves less: where the next dollar costs more than a dollar. */
export const costlySpans = (points: readonly KeptPoint[]): CostlySpan[] => {
  const spans: CostlySpan[] = []
  let start = 0
  for (let at = 1; at <= points.length; at += 1) {
    const falls = at < points.length && points[at]!.kept < points[at - 1]!.kept - 0.005
    if (falls) continue
    if (at - 1 > start) {
      const [from, to] = [points[start]!, points[at - 1]!]
      const madeUp = points.find((point) => point.extra > to.extra && point.kept >= from.kept)
      spans.push({
        from: from.extra,
        to: to.extra,
        loses: Math.round((from.kept - to.kept) * 100) / 100,
        madeUpAt: madeUp?.extra ?? null,
        because: reasonOf(from, to),
      })
    }
    start = at
  }
  return spans
}

const reasonOf = (from: KeptPoint, to: KeptPoint): CostlySpan['because'] =>
  from.step < to.step ? 'a program ends' : from.credit > 0 && to.credit <= 0 ? 'the credit ends' : null
