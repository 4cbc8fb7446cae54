// For each path, the setting of a dial at which its course turns good: found by halving, path by path, on the path's own draws.
// The share of courses that are good at any setting, and so the setting for any confidence, is then read off at once.
import { makeBuffers } from '#runway/course-buffers.ts'
import { runCourse } from '#runway/run-course.ts'
import type { CourseShocks } from '#runway/shocks.ts'
import { type CourseMemory, type CourseRun, counter } from '../course-run.ts'
import { type Criterion, type Dial, dial, judge } from '../dials.ts'
import { drawCourse } from '../draw-course.ts'
import type { Workspace } from '../paths.ts'

export interface ThresholdTask {
  dial: Dial
  criterion: Criterion
  /** Settings between which each path's threshold is looked for; where to look first and how far to step from there. */
  from: number
  to: number
  start: number
  step: number
  /** How closely it is found. */
  within: number
  /** True when higher settings are better (savings), false when lower ones are (draws). */
  moreIsBetter: boolean
  /** What befalls a person in a month of every course; one in which that person is dead by then has no threshold, NaN. */
  strike?: { person: number; month: number; event: 'dies' | 'hurt' }
  /** Courses left out at first: they are known already. */
  skip?: number
  /** Settings between which the answer lies: of a course that turns elsewhere only the side is told, as the near end and a step beyond. */
  matters?: { low: number; high: number }
}

/**
 * Writes one number per path: the least good setting where more is better (`Infinity`: not even `to` is enough), the
 * greatest where less is (`-Infinity`: not even `from` is borne). A setting that is good at the near end is that end.
 * Assumes that a course once good stays good as its dial goes on; where a tax cliff breaks that, one edge is found.
 */
export function takeThresholds(
  run: CourseRun,
  task: ThresholdTask,
  memory: Pick<CourseMemory, 'counters'>,
  thresholds: Float64Array,
  { shocks }: Pick<Workspace, 'shocks'>,
): void {
  const { counters } = memory
  const dialled = dial(run.plan, task.dial)
  const buffers = makeBuffers(dialled.plan, [])
  const course = judge(buffers, task.criterion)
  const isGoodAt = (value: number) => {
    dialled.turn(value)
    course.begin()
    runCourse(dialled.plan, shocks, buffers, course.isDecided)
    return course.isGood()
  }
  for (;;) {
    const path = (task.skip ?? 0) + Atomics.add(counters, counter.next, 1)
    if (path >= run.paths || Atomics.load(counters, counter.stop) === 1) return
    drawCourse(run.model, run.seed, path, shocks, run.from)
    if (task.strike && !isStruck(task.strike, run.plan.years, shocks)) {
      thresholds[path] = Number.NaN
      Atomics.add(counters, counter.done, 1)
      continue
    }
    thresholds[path] = task.moreIsBetter ? leastGood(task, isGoodAt) : greatestGood(task, isGoodAt)
    Atomics.add(counters, counter.done, 1)
  }
}

/** Dies, or never works again from the month on. False where the person is dead by then. */
function isStruck(
  { person, month, event }: NonNullable<ThresholdTask['strike']>,
  years: number,
  shocks: CourseShocks,
): boolean {
  if (shocks.deathMonth[person]! <= month) return false
  if (event === 'dies') {
    shocks.deathMonth[person] = month
    return true
  }
  const row = person * years
  const year = Math.floor(month / 12)
  for (let y = year; y < years; y += 1) shocks.lossOfWorkMonth[row + y] = Number.POSITIVE_INFINITY
  shocks.lossOfWorkMonth[row + year] = month
  shocks.lossOfWorkMonths[person] = Number.POSITIVE_INFINITY
  return true
}

/** Steps away from the start, each step twice the one before, until the course turns good or bad; then halves between. */
function leastGood(task: ThresholdTask, isGoodAt: (value: number) => boolean): number {
  const { from, to, start, matters } = task
  // Asked of one setting alone, a course is run once.
  if (from === to) return isGoodAt(from) ? from : Number.POSITIVE_INFINITY
  if (matters) {
    if (matters.low > from && isGoodAt(matters.low)) return matters.low - task.within
    if (matters.high < to && !isGoodAt(matters.high)) return matters.high + task.within
    if (matters.low > from && matters.high < to)
      return halve(matters.low, matters.high, task.within, isGoodAt)
  }
  let step = task.step
  let [bad, good] = [start, start]
  if (isGoodAt(start)) {
    for (bad = Math.max(from, start - step); isGoodAt(bad); bad = Math.max(from, bad - step)) {
      good = bad
      if (bad === from) return from
      step *= 2
    }
  } else {
    for (good = Math.min(to, start + step); !isGoodAt(good); good = Math.min(to, good + step)) {
      bad = good
      if (good === to) return Number.POSITIVE_INFINITY
      step *= 2
    }
  }
  return halve(bad, good, task.within, isGoodAt)
}

function greatestGood(task: ThresholdTask, isGoodAt: (value: number) => boolean): number {
  const mirrored = { ...task, from: -task.to, to: -task.from, start: -task.start }
  if (task.matters) mirrored.matters = { low: -task.matters.high, high: -task.matters.low }
  return -leastGood(mirrored, (value) => isGoodAt(-value))
}

function halve(bad: number, good: number, within: number, isGoodAt: (value: number) => boolean): number {
  let [low, high] = [bad, good]
  while (high - low > within) {
    const middle = (high + low) / 2
    if (isGoodAt(middle)) high = middle
    else low = middle
  }
  return high
}
