// The levels of draws that a farm bears: one until a month, or one a year that only ever rises.
import { type Month, monthsToNextJanuary } from '#calendar/month.ts'
import { type BearingTask, bearingWidth } from '#chance/by-path/bearing.ts'
import { chanceModel } from '#chance/chance-model.ts'
import { withDraws } from '#chance/dials.ts'
import type { Plan } from '#plan/plan.ts'
import type { CompiledPlan } from '#runway/compile/compiled-plan.ts'
import { type Closeness, closely, coarsely, greatestBorne } from './greatest-borne.ts'
import type { Asking, AskOptions } from './question.ts'
import { amountFor } from './threshold-quantile.ts'

/** A level of draws from a month on, counted from the plan's first; dollars a month at first prices. */
export interface Level {
  fromMonth: number
  perMonth: number
}

/** Steps are rounded down to so many dollars. */
const roundTo = 10

interface Bearings {
  /** By start, by year, by year: one number a course. */
  starts: Float64Array[]
  years: Float64Array[]
  paid: Float64Array[]
  earned: Float64Array[]
}

async function bearingsOf(
  asking: Asking,
  compiled: CompiledPlan,
  levels: Float64Array,
  task: BearingTask,
  options: AskOptions,
  paths = asking.paths,
): Promise<Bearings> {
  const run = {
    plan: withDraws(compiled, levels),
    model: chanceModel(asking.plan, compiled.shape),
    seed: asking.seed,
    paths,
    from: 'chance',
    keepsMonths: false,
  } as const
  const rows = await asking.courses.bearings(run, task, options)
  const width = bearingWidth(task)
  const column = (place: number) =>
    Float64Array.from({ length: paths }, (_, path) => rows[path * width + place]!)
  const columns = (from: number, count: number) => Array.from({ length: count }, (_, k) => column(from + k))
  const [starts, years] = [task.starts.length, task.years.length]
  return {
    starts: columns(0, starts),
    years: columns(starts, years),
    paid: columns(starts + years, years),
    earned: columns(starts + 2 * years, years),
  }
}

const filled = (levels: Float64Array, from: number, to: number, level: number): Float64Array =>
  levels.slice().fill(Math.max(0, level), from, to)

/**
 * For each of the starts, each course's greatest level that it bears until `toMonth` after the draws of `before`: at once, where no
 * purchase waits for cash. Where one does, a first guess: the higher of what is borne with nothing drawn, where things are bought soonest
 * and leave little beside them, and with nothing bought that waits.
 */
export async function bearableFrom(
  asking: Asking,
  compiled: CompiledPlan,
  before: Float64Array,
  starts: readonly number[],
  toMonth: number,
  next: () => AskOptions,
): Promise<Float64Array[]> {
  const task = { starts, toMonth, years: [] }
  const undrawn = (await bearingsOf(asking, compiled, before, task, next())).starts
  if (!isWaiting(compiled)) return undrawn
  const bought = asking.compile(withoutWaiting(asking.plan))
  const unbought = (await bearingsOf(asking, bought, before, task, next())).starts
  const of = (borne: Float64Array) => amountFor(borne, asking.confidence, false).value
  return undrawn.map((each, place) => (of(unbought[place]!) > of(each) ? unbought[place]! : each))
}

const withoutWaiting = (plan: Plan): Plan => ({
  ...plan,
  farm: { ...plan.farm, purchases: plan.farm.purchases.filter(({ timing }) => timing === 'dated') },
})

/** Where something waits for cash, a level is looked for on so many courses first, and then found on all. */
const firstPaths = 150

/** The level of the slower years, told beside the answer, is read off so many, after fewer: each run of it goes to the plan's end. */
const afterPaths = 250
const afterFirstPaths = 60

export const onFew = (asking: Asking): Asking => ({ ...asking, paths: Math.min(asking.paths, firstPaths) })

export const isWaiting = (compiled: CompiledPlan): boolean => compiled.farm.purchases.waits.includes(1)

/** A level that its courses bear when it is drawn, dollars a month at first prices, and what each of them then bears. */
export interface LevelBorne {
  level: number
  thresholds: Float64Array
}

/** The level after the draws of `before`, told beside the answer: on few courses from nothing drawn, on more from what few say. */
export async function bearableAfter(
  asking: Asking,
  compiled: CompiledPlan,
  before: Float64Array,
  start: number,
  toMonth: number,
  next: () => AskOptions,
): Promise<LevelBorne> {
  const span = { before, start, toMonth, closeness: coarsely }
  const more = { ...asking, paths: Math.min(asking.paths, afterPaths) }
  const few = { ...asking, paths: Math.min(asking.paths, afterFirstPaths) }
  if (few.paths === more.paths || !isWaiting(compiled)) return settled(more, compiled, span, next)
  const { level } = await settled(few, compiled, span, next)
  return settled(more, compiled, { ...span, first: level }, next)
}

/** From which month to which a level is looked for, after which draws, from which first guess, and how closely: to ten dollars where nothing is said. */
export interface LevelSpan {
  before: Float64Array
  start: number
  toMonth: number
  first?: number
  closeness?: Closeness
}

/**
 * The level borne from one start. What waits for cash is bought later where more is drawn, and so a level is run before it is told, again
 * and again until one is borne as it is drawn.
 */
export async function settled(
  asking: Asking,
  compiled: CompiledPlan,
  { before, start, toMonth, first, closeness = closely }: LevelSpan,
  next: () => AskOptions,
): Promise<LevelBorne> {
  const guess = async () => (await bearableFrom(asking, compiled, before, [start], toMonth, next))[0]!
  if (!isWaiting(compiled)) return exactly(asking, await guess())
  const task = { starts: [start], toMonth, years: [] }
  const at = async (level: number) =>
    (await bearingsOf(asking, compiled, filled(before, start, toMonth, level), task, next())).starts[0]!
  const borneIn = (thresholds: Float64Array) => exactly(asking, thresholds).level
  const { level, run } = await greatestBorne(first ?? borneIn(await guess()), at, borneIn, closeness)
  return { level, thresholds: run }
}

/** What the thresholds say, where they hold at any level. */
export const exactly = ({ confidence }: Asking, thresholds: Float64Array): LevelBorne => ({
  level: Math.max(0, amountFor(thresholds, confidence, false).value),
  thresholds,
})

/** First months of the years from one month to another: that month and the Januaries after it. */
const yearsBetween = (compiled: CompiledPlan, from: number, to: number): number[] => {
  const toJanuary = monthsToNextJanuary((compiled.firstMonth + from) as Month)
  const years = [from]
  for (let month = from + toJanuary; month < to; month += 12) years.push(month)
  return years
}

const stepPaths = 300
const mostSteps = 6
const mostRounds = 6
/** Years that bear hardly more than the leanest share its step. */
const alike = (level: number): number => level * 1.03 + 25

export interface Steps {
  steps: Level[]
  /** Share of courses in which all draws of a year are paid, in the worst of the years. */
  paidInWorstYear: number
}

/**
 * In each span of months a level a year, never less than the year before: the highest that the leanest year from then on bears in the
 * asked share of courses, up to that year; then anew from the year after it. A later level is no more than the farm earns from its year on:
 * what lies in the farm is spread over all years of a span, and never drawn down in its last ones only because it ends.
 */
export async function stepsBorne(
  asking: Asking,
  compiled: CompiledPlan,
  spans: readonly (readonly [number, number])[],
  next: () => AskOptions,
): Promise<Steps> {
  let levels: Float64Array = new Float64Array(compiled.months)
  for (const [from, to] of spans) levels = await stepsWithin(asking, compiled, levels, [from, to], next)
  const [from, to] = [spans[0]![0], spans.at(-1)![1]]
  const task = { starts: [], toMonth: to, years: yearsBetween(compiled, from, to) }
  const errorOf = (paths: number) => Math.sqrt((asking.confidence * (1 - asking.confidence)) / paths)
  const least = asking.confidence - errorOf(asking.paths)
  const paidOf = async (paths: number): Promise<number> => {
    const { paid } = await bearingsOf(asking, compiled, levels, task, next(), paths)
    return Math.min(1, ...paid.map(shareOfReached))
  }
  // Lowered on few as often as few say, and then on all: few spare rounds, and all have the last word. The few are those that the steps were
  // fitted to, and pay them more often than others do.
  for (const paths of new Set([Math.min(asking.paths, stepPaths), asking.paths]))
    for (let round = 0; ; round += 1) {
      const worst = await paidOf(paths)
      const asked = paths < asking.paths ? asking.confidence + errorOf(paths) / 2 : least
      const isLast = worst >= asked || round === mostRounds
      if (isLast && paths === asking.paths) return { steps: stepsOf(levels, to), paidInWorstYear: worst }
      if (isLast) break
      levels = levels.map((level) => Math.floor((level * 0.96) / roundTo) * roundTo)
    }
  throw new Error('the last round is asked of all courses')
}

async function stepsWithin(
  asking: Asking,
  compiled: CompiledPlan,
  before: Float64Array,
  [from, to]: readonly [number, number],
  next: () => AskOptions,
): Promise<Float64Array> {
  let levels = before
  let years = yearsBetween(compiled, from, to)
  const paths = Math.min(asking.paths, stepPaths)
  for (let step = 1; years.length > 0; step += 1) {
    const task = { starts: [], toMonth: to, years }
    const { years: borne, earned } = await bearingsOf(asking, compiled, levels, task, next(), paths)
    const byYear = borne.map((each) => levelIn(each, asking.confidence))
    const bears = Math.min(...byYear)
    const earns = earned.map((each) => earnedIn(each, asking.confidence))
    const most = step === 1 ? bears : Math.max(levels[years[0]! - 1]!, earns[0]!)
    const level = Math.max(0, Math.floor(Math.min(bears, most) / roundTo) * roundTo)
    const holds =
      bears <= most ? byYear.findLastIndex((each) => each <= alike(level)) : untilMore(earns, level)
    const last = step === mostSteps ? years.length - 1 : holds
    levels = filled(levels, years[0]!, years[last + 1] ?? to, level)
    years = years.slice(last + 1)
  }
  return levels
}

/** Of the courses that come to the year. */
const levelIn = (borne: Float64Array, confidence: number): number => {
  const reached = borne.filter((each) => each !== Number.POSITIVE_INFINITY)
  return reached.length === 0 ? Number.POSITIVE_INFINITY : amountFor(reached, confidence, false).value
}

/** Of the courses that go on long enough to tell; where none does, nothing. */
const earnedIn = (earned: Float64Array, confidence: number): number => {
  const told = earned.filter((each) => !Number.isNaN(each))
  return told.length === 0 ? 0 : amountFor(told, confidence, false).value
}

/** The last place before one, not the first, from which more is earned. */
const untilMore = (earns: readonly number[], level: number): number => {
  const more = earns.findIndex((each, place) => place > 0 && each > alike(level))
  return more < 0 ? earns.length - 1 : more - 1
}

const shareOfReached = (paid: Float64Array): number => {
  const reached = paid.filter((each) => !Number.isNaN(each))
  return reached.length === 0 ? 1 : reached.reduce((sum, each) => sum + each, 0) / reached.length
}

const stepsOf = (levels: Float64Array, to: number): Level[] => {
  const steps: Level[] = []
  for (let month = 0; month < to; month += 1)
    if ((steps.at(-1)?.perMonth ?? 0) !== levels[month]!)
      steps.push({ fromMonth: month, perMonth: levels[month]! })
  return steps
}
