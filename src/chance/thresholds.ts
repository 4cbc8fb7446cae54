// For each path, the setting of a dial at which its course turns good: found by halving, path by path, on the path's own draws.
// The share of courses that are good at any setting, and so the setting for any confidence, is then read off at once.
import { runCourse } from '#runway/run-course.ts'
import { type CourseMemory, type CourseRun, counter } from './course-run.ts'
import { type Criterion, type Dial, dial, isGood } from './dials.ts'
import { drawCourse } from './draw-course.ts'
import type { Workspace } from './paths.ts'

export interface ThresholdTask {
  dial: Dial
  criterion: Criterion
  /** Settings between which each path's threshold is looked for, and how closely. */
  from: number
  to: number
  within: number
  /** True when higher settings are better (savings), false when lower ones are (draws). */
  moreIsBetter: boolean
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
  work: Workspace,
): void {
  const { counters } = memory
  const dialled = dial(run.plan, task.dial)
  const isGoodAt = (value: number) => {
    dialled.turn(value)
    runCourse(dialled.plan, work.shocks, work.buffers)
    return isGood(work.buffers, task.criterion)
  }
  for (;;) {
    const path = Atomics.add(counters, counter.next, 1)
    if (path >= run.paths || Atomics.load(counters, counter.stop) === 1) return
    drawCourse(run.model, run.seed, path, work.shocks, run.from)
    thresholds[path] = task.moreIsBetter ? leastGood(task, isGoodAt) : greatestGood(task, isGoodAt)
    Atomics.add(counters, counter.done, 1)
  }
}

function leastGood(task: ThresholdTask, isGoodAt: (value: number) => boolean): number {
  if (!isGoodAt(task.to)) return Number.POSITIVE_INFINITY
  if (isGoodAt(task.from)) return task.from
  let bad = task.from
  let good = task.to
  while (good - bad > task.within) {
    const middle = (good + bad) / 2
    if (isGoodAt(middle)) good = middle
    else bad = middle
  }
  return good
}

function greatestGood(task: ThresholdTask, isGoodAt: (value: number) => boolean): number {
  if (!isGoodAt(task.from)) return Number.NEGATIVE_INFINITY
  if (isGoodAt(task.to)) return task.to
  let good = task.from
  let bad = task.to
  while (bad - good > task.within) {
    const middle = (good + bad) / 2
    if (isGoodAt(middle)) good = middle
    else bad = middle
  }
  return good
}
