// The premium credit over the whole range of household income, and what is kept of farm profit after tax and premiums.
import type { HouseholdYear } from '../household-year.ts'
import type { LawYear } from '../law-year.ts'
import { noLimit } from '../law-year.ts'
import { silverValueAt } from './cost-sharing.ts'
import { costOf, type ExtraIncome, standAt } from './income-room.ts'
import { type Cover, creditAt } from './premium-credit.ts'

/** Dollars a year at one household income. */
export interface CreditPoint {
  householdIncome: number
  percent: number
  credit: number
  netPremium: number
  silverValue: number
}

/** One point for each whole percent of the poverty line up to `toPercent`, and one just beyond the line where the credit ends. */
export const creditCurve = (law: LawYear, cover: Cover, toPercent: number): CreditPoint[] => {
  const at = (income: number, percent: number): CreditPoint => {
    const onMedicaid = cover.medicaidLine > 0 && income <= cover.medicaidLine
    const credit = creditAt(law, cover, income)
    return {
      householdIncome: income / 100,
      percent,
      credit: credit / 100,
      netPremium: onMedicaid ? 0 : (cover.premium - credit) / 100,
      silverValue: onMedicaid ? 1 : silverValueAt(law, income, cover.povertyLine),
    }
  }
  const points: CreditPoint[] = []
  for (let percent = 0; percent <= toPercent; percent += 1) {
    points.push(at(Math.round((cover.povertyLine * percent) / 100), percent))
    if (percent === law.creditToPercent && law.creditToPercent < noLimit) {
      points.push(at(Math.round((cover.povertyLine * percent) / 100) + 1, percent))
    }
  }
  return points
}

/** What is left of `extra` dollars more (or fewer) of one kind of income after tax and premiums, against none. */
export interface KeptPoint {
  extra: number
  kept: number
  credit: number
  onMedicaid: boolean
}

export const keptCurve = (
  law: LawYear,
  household: HouseholdYear,
  kind: ExtraIncome,
  span: { from: number; to: number; step: number },
): KeptPoint[] => {
  const now = costOf(standAt(law, household, kind, 0))
  const points: KeptPoint[] = []
  for (let extra = span.from; extra <= span.to; extra += span.step) {
    const year = standAt(law, household, kind, extra)
    points.push({
      extra,
      kept: Math.round((extra - (costOf(year) - now)) * 100) / 100,
      credit: year.credit,
      onMedicaid: year.onMedicaid,
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
  because: 'Medicaid ends' | 'the credit ends' | null
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
  from.onMedicaid && !to.onMedicaid
    ? 'Medicaid ends'
    : from.credit > 0 && to.credit <= 0
      ? 'the credit ends'
      : null
