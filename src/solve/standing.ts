// How a plan stands on the drawn courses: what is compared wherever two courses of action are, always on the same draws.
import { chanceModel } from '#chance/chance-model.ts'
import { figureOf, type PathFigure } from '#chance/course-run.ts'
import { percentiles, type Share, shareOf } from '#chance/percentiles.ts'
import { formatPercent } from '#money/format.ts'
import type { Plan } from '#plan/plan.ts'
import type { CompiledPlan } from '#runway/compile/compiled-plan.ts'
import {
  type Amount,
  type Asking,
  type AskOptions,
  endOfCourses,
  lowestOfCourses,
  shownAt,
} from './question.ts'
import { amountFor } from './threshold-quantile.ts'

/** Months count from the plan's first; Infinity: never. Dollars as the answer is told. */
export interface Standing {
  /** Courses in which nothing the household needs goes unpaid, and in which savings are never below the floor. */
  held: Share
  aboveFloor: Share
  /** In which savings first fall below the floor: sooner only in one course of ten, and in the middle one. */
  monthsLeft: { p10: number; median: number }
  /** By which the farm carries the household in the asked share of courses, and in half of them. */
  carryMonth: Amount
  medianCarryMonth: number
  carries: Share
  /** Savings that are not undercut in the asked share of courses. */
  lowestSavings: Amount
  /** All savings at the end, and what is left in the farm. */
  atEnd: { p10: number; median: number }
  farmAtEnd: { p10: number; median: number }
}

/** In how many simulations a plan holds, as every answer says it. */
export const sayHolding = ({ held, aboveFloor }: Pick<Standing, 'held' | 'aboveFloor'>): string =>
  `nothing goes unpaid in ${formatPercent(held.share, 1)} of simulations, and savings stay above the floor in ${formatPercent(aboveFloor.share, 1)}`

/** The same with a change, beside the plan's own: each share once where both are alike, as it is told. */
export function sayHoldingBeside(
  one: Pick<Standing, 'held' | 'aboveFloor'>,
  plan: Pick<Standing, 'held' | 'aboveFloor'>,
): string {
  if (sayHolding(one) === sayHolding(plan)) return `Then, as often as planned, ${sayHolding(one)}`
  const told = (name: 'held' | 'aboveFloor', of = ''): string => {
    const [then, planned] = [one, plan].map((each) => formatPercent(each[name].share, 1))
    return then === planned ? `${then}${of} as planned` : `${then}${of} instead of ${planned}`
  }
  return `Then nothing goes unpaid in ${told('held', ' of simulations')}, and savings stay above the floor in ${told('aboveFloor')}`
}

export interface Ran {
  standing: Standing
  /** 1 for each course that holds, and for each that stays above the floor. */
  heldBy: Float64Array
  aboveBy: Float64Array
  /** Month in which each first falls below it, Infinity for never. */
  leftBy: Float64Array
  /** Month in which money first runs short in each, Infinity for never, and what nothing could pay, in the dollars told. */
  shortBy: Float64Array
  unpaidBy: Float64Array
  /** What each course leaves at its end, in the dollars told, and what of it has not been taxed. */
  atEndBy: Float64Array
  untaxedBy: Float64Array
}

/** Runs the plan on the question's draws. */
export async function runOf(
  asking: Asking,
  plan: Plan,
  options: AskOptions,
  compiled: CompiledPlan = asking.compile(plan),
): Promise<Ran> {
  const { seed, paths, confidence } = asking
  const model = chanceModel(plan, compiled.shape)
  const run = { plan: compiled, model, seed, paths, from: 'chance', keepsMonths: false } as const
  const figures = await asking.courses.figures(run, options)
  const of = (figure: PathFigure) => figureOf(figures, figure)
  const carry = of('carryMonth')
  const heldBy = of('held')
  const left = of('monthsLeft')
  const aboveBy = left.map((month) => (Number.isFinite(month) ? 0 : 1))
  const shown = shownAt(asking, 0)
  const prices = of('pricesAtEnd')
  const atFirst = (figure: PathFigure) =>
    of(figure).map((each, path) => each * (asking.dollars.of === 'year' ? prices[path]! : shown))
  const atEndBy = endOfCourses(asking, figures)
  const standing = {
    held: shareWith(heldBy),
    aboveFloor: shareWith(aboveBy),
    monthsLeft: wholeMonths(tenthAndMedian(left)),
    carryMonth: amountFor(carry, confidence, true),
    medianCarryMonth: amountFor(carry, 0.5, true).value,
    carries: shareOf(carry.filter(Number.isFinite).length, carry.length),
    lowestSavings: amountFor(lowestOfCourses(asking, figures), confidence, false),
    atEnd: tenthAndMedian(atEndBy),
    farmAtEnd: tenthAndMedian(atFirst('farmAtEnd')),
  }
  return {
    standing,
    heldBy,
    aboveBy,
    leftBy: left,
    shortBy: of('firstShortMonth'),
    unpaidBy: atFirst('unmetAtFirstPrices'),
    atEndBy,
    untaxedBy: atFirst('untaxedAtEnd'),
  }
}

const shareWith = (flags: Float64Array): Share =>
  shareOf(
    flags.reduce((sum, each) => sum + each, 0),
    flags.length,
  )

const wholeMonths = ({ p10, median }: { p10: number; median: number }) => ({
  p10: Math.floor(p10),
  median: Math.floor(median),
})

function tenthAndMedian(values: Float64Array): { p10: number; median: number } {
  const [p10, median] = percentiles(values.slice(), [0.1, 0.5])
  return { p10: p10!, median: median! }
}

/** What two runs are compared by, of the first simulations alone. */
export const firstOf = (ran: Ran, paths: number): Ran => ({
  ...ran,
  heldBy: ran.heldBy.slice(0, paths),
  aboveBy: ran.aboveBy.slice(0, paths),
  leftBy: ran.leftBy.slice(0, paths),
  shortBy: ran.shortBy.slice(0, paths),
  unpaidBy: ran.unpaidBy.slice(0, paths),
})

/** A difference of shares with its 95 % interval. */
export interface Surer {
  share: number
  low: number
  high: number
}

/** Difference of two shares on the same courses: only courses that turned count towards its error (McNemar, from memory). */
export function surerBy(first: Float64Array, second: Float64Array): Surer {
  let gained = 0
  let lost = 0
  for (let path = 0; path < first.length; path += 1) {
    if (first[path]! > second[path]!) gained += 1
    if (first[path]! < second[path]!) lost += 1
  }
  const share = (gained - lost) / first.length
  const error = Math.sqrt(Math.max(0, gained + lost - (gained - lost) ** 2 / first.length)) / first.length
  return { share, low: share - 1.96 * error, high: share + 1.96 * error }
}

const runsShortMostly = ({ heldBy }: Ran): boolean => shareWith(heldBy).share < 0.5

/**
 * Whether, by more than chance, it holds less often than the plan; where neither holds more often and most courses run short, whether
 * money runs short sooner more often than later; where that is alike too, whether it is below the floor more often, or below it sooner
 * more often than later. Months above the floor never outweigh bills unpaid.
 */
export const isWorse = (one: Ran, plan: Ran): boolean => worseBy(one, plan) !== null

/** In what a course of action is worse than the plan: bills paid, the month from which they are not, the floor kept, or the month in which savings first fall below it. */
export type WorseIn = 'held' | 'short' | 'floor' | 'sooner'

/** In what it is: `sooner` below the floor, and not more often. */
export const worseBy = (one: Ran, plan: Ran): WorseIn | null => {
  const holds = surerBy(one.heldBy, plan.heldBy)
  if (holds.low > 0 || holds.high < 0) return holds.high < 0 ? 'held' : null
  const lasts = runsShortMostly(plan) ? surerBy(one.shortBy, plan.shortBy) : null
  if (lasts !== null && (lasts.low > 0 || lasts.high < 0)) return lasts.high < 0 ? 'short' : null
  if (surerBy(one.aboveBy, plan.aboveBy).high < 0) return 'floor'
  return surerBy(one.leftBy, plan.leftBy).high < 0 ? 'sooner' : null
}

/** In the same order: above the floor more often counts where it holds no less often. */
export const isSurer = (one: Ran, plan: Ran): boolean => {
  const holds = surerBy(one.heldBy, plan.heldBy)
  return holds.low > 0 || (holds.high >= 0 && surerBy(one.aboveBy, plan.aboveBy).low > 0)
}
