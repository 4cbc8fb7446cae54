// What every question is given and what every answer says: the plan, the courses to ask, how sure to be, and how sure it is.
import { addMonths, monthText } from '#calendar/month.ts'
import type { BearingTask } from '#chance/by-path/bearing.ts'
import type { ThresholdTask } from '#chance/by-path/thresholds.ts'
import type { YearEndTask } from '#chance/by-path/year-ends.ts'
import { type CourseRun, figureOf } from '#chance/course-run.ts'
import type { Share } from '#chance/percentiles.ts'
import { firstMonthOf } from '#plan/first-month.ts'
import type { Plan } from '#plan/plan.ts'
import type { CompiledPlan } from '#runway/compile/compiled-plan.ts'
import type { Dollars, Prices } from '#runway/dollars/dollars.ts'
import type { Projection } from '#runway/project.ts'

export interface AskOptions {
  signal?: AbortSignal | undefined
  onProgress?: ((done: number, of: number) => void) | undefined
}

/** Who runs the courses: the pool of workers, or the same code in this thread. */
export interface Courses {
  figures(run: CourseRun, options?: AskOptions): Promise<Float64Array>
  thresholds(run: CourseRun, task: ThresholdTask, options?: AskOptions): Promise<Float64Array>
  bearings(run: CourseRun, task: BearingTask, options?: AskOptions): Promise<Float64Array>
  yearEnds(run: CourseRun, task: YearEndTask, options?: AskOptions): Promise<Float64Array>
}

export interface Asking extends AskOptions {
  plan: Plan
  /** Makes a plan ready to run; the law and today's date are already in it. */
  compile: (plan: Plan) => CompiledPlan
  courses: Courses
  /** The plan as expected. */
  project: (plan: Plan) => Projection
  /** In which dollars the answer is told, and what a dollar of the plan is in them. */
  dollars: Dollars
  prices: Prices
  seed: number
  paths: number
  /** Share of courses in which the answer must hold, 0.5 to 0.99. */
  confidence: number
  /** Fraction of what is left untaxed at the end that counts as tax; left out, the usual one. */
  laterRate?: number | undefined
  /** Hours a week on the farm of each of the crew, once slower; left out, those of the plan's slower phases. */
  weeklyHours?: number | undefined
}

/** What a dollar at the plan's first prices is shown as in a month counted from the plan's first. */
export const shownAt = ({ plan, prices }: Asking, month: number): number =>
  prices.ofFirst(monthText(addMonths(firstMonthOf(plan), month)))

/** Each course's lowest savings: today's dollars are each course's own. */
export const lowestOfCourses = (asking: Asking, figures: Float64Array): Float64Array => {
  if (asking.dollars.of === 'year') return figureOf(figures, 'lowestSavings')
  const factor = shownAt(asking, 0)
  return figureOf(figures, 'lowestAtFirstPrices').map((each) => each * factor)
}

/** Each course's savings at its end. */
export const endOfCourses = (asking: Asking, figures: Float64Array): Float64Array => {
  const factor = shownAt(asking, 0)
  const levels = figureOf(figures, 'pricesAtEnd')
  return figureOf(figures, 'atEnd').map(
    (each, path) => each * (asking.dollars.of === 'year' ? levels[path]! : factor),
  )
}

/** How sure an answer is: how it was found, and the range in which another seed would put it 19 times of 20. */
export interface Certainty {
  confidence: number
  paths: number
  seed: number
}

/** An answer in words: in one sentence, or with what must be known before it, and what else is to be said of it, a thing at a time. */
export interface Said {
  sentence: string
  more: string[]
}

export const saidIn = (sentence: string, ...more: string[]): Said => ({
  sentence: sentence.trim(),
  more: more.map((each) => each.trim()).filter((each) => each !== ''),
})

/** An amount read off the thresholds of many courses. */
export interface Amount {
  value: number
  /** 95 % interval from the order statistics of the thresholds. */
  low: number
  high: number
}

/** How many of the courses hold at a setting. */
export interface CurvePoint {
  at: number
  held: Share
}

export interface NotReached {
  kind: 'cannot be reached'
  /** The whole sentence: 'This cannot be reached, because …'. */
  because: string
}

/** Why what a farm can pay is not told of a plan without one. */
export const notDescribed =
  'This cannot be reached, because the plan does not describe the farm yet: add its enterprises and costs on the Farm page.'

/** Options for a part of the whole work, as shares of it. */
export const partOf = (asking: AskOptions, from: number, to: number): AskOptions => ({
  signal: asking.signal,
  onProgress: (done, of) =>
    asking.onProgress?.(Math.round(1_000 * (from + ((to - from) * done) / of)), 1_000),
})

/** Options for one round after another where their number is not known before: the last expected one counts on. */
export const roundsOf = (asking: Asking, expected: number): (() => AskOptions) => {
  let round = 0
  return () => {
    round += 1
    return roundOf(asking, Math.min(round, expected) - 1, expected)
  }
}

/** Options for one of several rounds of courses: its progress counts as that part of the whole. */
export const roundOf = (asking: Asking, round: number, rounds: number): AskOptions => ({
  signal: asking.signal,
  onProgress: (done, of) => asking.onProgress?.(round * of + done, rounds * of),
})
