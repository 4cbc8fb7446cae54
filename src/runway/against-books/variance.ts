// The plan held against what really happened, line by line; the lines add up to how savings changed.
import { monthsBetween, parseMonth } from '#calendar/month.ts'
import {
  type ActualMonth,
  hasCareInLiving,
  type LineAbout,
  type LineKind,
  lineKinds,
  type PlannedMonth,
} from './variance-lines.ts'

export interface VarianceLine {
  name: string
  about: LineAbout
  planned: number
  actual: number
  /** Actual less planned. */
  difference: number
  /** True when the difference leaves less in savings than planned. */
  isWorse: boolean
  /** Costs lower savings, the rest raise them. */
  isCost: boolean
}

export interface Variance {
  /** Months compared: the same months of plan and books, or the plan's first year against the books' last. */
  planned: { from: string; to: string }
  actual: { from: string; to: string }
  sameMonths: boolean
  /** Planned dollars are in the prices of the books' months: by this factor, 1 for the same months. */
  prices: number
  /** Of what living costs came to, dollars paid for care: of a plan that expects none of its own. */
  careInLiving: number
  /** Lines without a dollar on either side are left out, but for those every household has. */
  lines: VarianceLine[]
  /** What the lines come to: cash and taxable accounts at the end, less at the beginning. */
  change: VarianceLine
}

/**
 * Null when there is not a month of books to compare. Months of books must be whole and in order, those of the plan without a gap.
 * A plan that begins after the books end is held against them in the prices of the books: `inflation` says how prices rise a year.
 */
export const varianceOf = (
  expected: readonly PlannedMonth[],
  books: readonly ActualMonth[],
  inflation: number,
): Variance | null => {
  const places = new Map(expected.map((month, place) => [month.month, place]))
  const shared = books.filter((month) => places.has(month.month)).slice(-12)
  const sameMonths = shared.length > 0
  const months = sameMonths ? shared : books.slice(-12)
  const first = sameMonths ? places.get(shared[0]!.month)! : 0
  const planned = expected.slice(first, first + months.length)
  const isCareInLiving = hasCareInLiving(planned)
  const actual = isCareInLiving ? months.map(careAmongLiving) : months
  if (actual.length === 0 || planned.length === 0) return null
  const later = monthsBetween(parseMonth(actual[0]!.month)!, parseMonth(planned[0]!.month)!)
  const prices = (1 + inflation) ** (-later / 12)
  const inPlan = (pick: (month: PlannedMonth) => number) => total(planned, pick) * prices
  const lines = lineKinds.map((kind) => lineOf(kind, inPlan(kind.ofPlan), total(actual, kind.ofBooks)))
  return {
    planned: { from: planned[0]!.month, to: planned.at(-1)!.month },
    actual: { from: actual[0]!.month, to: actual.at(-1)!.month },
    sameMonths,
    prices,
    careInLiving: isCareInLiving ? total(months, (one) => one.care) : 0,
    lines: lines.filter((line, at) => lineKinds[at]!.always || !isNothing(line)),
    change: lineOf(
      { name: 'Change in savings', about: 'moved', isCost: false },
      inPlan((one) => one.change),
      total(actual, (one) => one.change),
    ),
  }
}

const careAmongLiving = (one: ActualMonth): ActualMonth => ({
  ...one,
  living: one.living + one.care,
  care: 0,
})

const total = <One>(list: readonly One[], pick: (one: One) => number) =>
  list.reduce((sum, one) => sum + pick(one), 0)

const lineOf = (
  { name, about, isCost }: Pick<LineKind, 'name' | 'about' | 'isCost'>,
  planned: number,
  actual: number,
): VarianceLine => {
  const difference = actual - planned
  const isWorse = isCost ? difference > 0 : difference < 0
  return { name, about, planned, actual, difference, isCost, isWorse }
}

const isNothing = ({ planned, actual }: VarianceLine): boolean =>
  Math.abs(planned) < 0.005 && Math.abs(actual) < 0.005
