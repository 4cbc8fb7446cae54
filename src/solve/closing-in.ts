// Thresholds from coarse to fine: those of a part of the courses whole, and of the rest only those that can move the answer.

import type { ThresholdTask } from '#chance/by-path/thresholds.ts'
import type { CourseRun } from '#chance/course-run.ts'
import type { Amount, Asking, AskOptions, CurvePoint } from './question.ts'
import { amountFor, curveOf } from './threshold-quantile.ts'

export interface Thresholds {
  /** One a course. Far from the answer only the side is right: enough for it and its margin of error. */
  all: Float64Array
  /** Of the first courses, each found whole: what a curve is drawn from. */
  whole: Float64Array
}

/** Courses whose thresholds are found whole. */
const firstCourses = 160

/** So many binomial standard deviations about the answer of the first courses lies that of all: one question of 15,000 does not, and is asked anew. */
const surely = 4

/** Only courses that count bear on where the answer lies; the others' thresholds may be anything. */
export async function closeIn(
  { courses, confidence }: Pick<Asking, 'courses' | 'confidence'>,
  run: CourseRun,
  task: ThresholdTask,
  options: AskOptions,
  counts: (path: number) => boolean = () => true,
): Promise<Thresholds> {
  const first = Math.min(firstCourses, run.paths)
  const part = (from: number, to: number): AskOptions => ({
    signal: options.signal,
    onProgress: (done, of) =>
      options.onProgress?.(Math.round(run.paths * (from + ((to - from) * done) / of)), run.paths),
  })
  const whole = (await courses.thresholds({ ...run, paths: first }, task, part(0, 0.5))).slice(0, first)
  if (first === run.paths) return { all: whole, whole }
  const counted = (thresholds: Float64Array) => thresholds.filter((_, path) => counts(path))
  const matters = bandOf(counted(whole), confidence, task)
  for (const asked of [
    { ...task, skip: first, matters },
    { ...task, skip: first },
  ]) {
    const all = await courses.thresholds(run, asked, part(0.5, 1))
    all.set(whole)
    if (!('matters' in asked) || isWithin(counted(all), confidence, task.moreIsBetter, matters))
      return { all, whole }
  }
  throw new Error('the last round asks for every course whole')
}

/** Doublings of how closely a setting is found: a thousand times that, and then no setting is told. */
const mostLifts = 12

/** Shares are told in whole percent: of a hundred courses or fewer not one may be missing, of a thousand four. */
const asTold = 0.005

/**
 * The setting that as many courses as asked are good at, in whole percent, run there before it is told. Read off thresholds alone it can miss: a course that a
 * little more savings take off a credit or off Medicaid is good below its threshold's far side and not at the answer. Then the next ones
 * above are tried, each twice as far.
 */
export async function provenAmount(
  { courses, confidence }: Pick<Asking, 'courses' | 'confidence'>,
  run: CourseRun,
  task: ThresholdTask,
  { all }: Thresholds,
  { signal }: AskOptions,
  counts: (path: number) => boolean = () => true,
): Promise<Amount> {
  const read = amountFor(
    all.filter((_, path) => counts(path)),
    confidence,
    true,
  )
  // Courses whose threshold is the near end were run there.
  if (read.value === task.from) return read
  for (let lift = 0; lift <= mostLifts && Number.isFinite(read.value); lift += 1) {
    const value = read.value + task.within * (2 ** lift - 1)
    const at = { ...task, from: value, to: value, start: value }
    const tried = await courses.thresholds(run, at, { signal })
    const counted = tried.filter((_, path) => counts(path))
    const good = counted.reduce((sum, each) => sum + (Number.isFinite(each) ? 1 : 0), 0)
    if (good / counted.length >= confidence - asTold)
      return { value, low: Math.min(read.low, value), high: Math.max(read.high, value) }
  }
  return { ...read, value: Number.POSITIVE_INFINITY, high: Number.POSITIVE_INFINITY }
}

type Band = NonNullable<ThresholdTask['matters']>

/** Settings between which the answer for all courses lies almost surely. */
function bandOf(thresholds: Float64Array, confidence: number, task: ThresholdTask): Band {
  const [low, high] = around(thresholds, confidence, task.moreIsBetter, surely)
  return {
    low: Math.max(task.from, low - task.within),
    high: Math.min(task.to, high + task.within),
  }
}

/** Whether the answer and its margin of error lie where thresholds were found whole. */
function isWithin(
  all: Float64Array,
  confidence: number,
  moreIsBetter: boolean,
  { low, high }: Band,
): boolean {
  const [least, most] = around(all, confidence, moreIsBetter, 1.96)
  return least >= low && most <= high
}

function around(
  thresholds: Float64Array,
  confidence: number,
  moreIsBetter: boolean,
  deviations: number,
): [number, number] {
  const sorted = thresholds.slice().sort()
  const place = (moreIsBetter ? confidence : 1 - confidence) * (sorted.length - 1)
  const strays = deviations * Math.sqrt(confidence * (1 - confidence) * sorted.length) + 1
  return [
    sorted[Math.max(0, Math.floor(place - strays))]!,
    sorted[Math.min(sorted.length - 1, Math.ceil(place + strays))]!,
  ]
}

/** The curve of the courses found whole. */
export const wholeCurve = (
  { whole }: Thresholds,
  settings: readonly number[],
  moreIsBetter: boolean,
): CurvePoint[] => curveOf(whole, settings, moreIsBetter)
