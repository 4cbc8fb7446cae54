// What draws each path's farm bears with its reserve intact, read off one run: a draw lowers farm cash from its month on and nothing
// else, so that what the farm can spare month by month says what level it could have paid since any month. Exact where no
// purchase waits for cash; where one does, the run must have the draws in it, and then it is exact at those.
import { makeBuffers } from '#runway/course-buffers.ts'
import { hair } from '#runway/figures/hair.ts'
import { runCourse } from '#runway/run-course.ts'
import { type CourseMemory, type CourseRun, counter } from '../course-run.ts'
import { drawCourse } from '../draw-course.ts'
import type { Workspace } from '../paths.ts'

/** Months count from the plan's first; `toMonth` is not included. */
export interface BearingTask {
  /** Months from which a level might be drawn until `toMonth`. */
  starts: readonly number[]
  toMonth: number
  /** First months of the years told apart, the first the one from which their level is drawn. */
  years: readonly number[]
}

/**
 * Numbers for each path: the level borne from each start on, that which each year bears, 1 for each year all of whose draws were paid, NaN
 * for one that the course does not come to, and the level that what the farm earns from each year on pays, NaN where that is too short to tell.
 */
export const bearingWidth = ({ starts, years }: BearingTask): number => starts.length + 3 * years.length

/** Our own choice: what fewer years than these earn says nothing of a level that lasts. */
const earningMonths = 60

const series = ['farmSpare', 'draw', 'unmetDraw', 'contribution', 'level'] as const
type Kept = Record<(typeof series)[number], Float64Array>

/** Levels are dollars a month at first prices. A farm that needs money put in bears none, `-Infinity`; a year that no course comes to, any. */
export function takeBearings(
  run: CourseRun,
  task: BearingTask,
  memory: Pick<CourseMemory, 'counters'>,
  into: Float64Array,
  { shocks }: Pick<Workspace, 'shocks'>,
): void {
  const { counters } = memory
  const buffers = makeBuffers(run.plan, series)
  const width = bearingWidth(task)
  for (;;) {
    const path = Atomics.add(counters, counter.next, 1)
    if (path >= run.paths || Atomics.load(counters, counter.stop) === 1) return
    drawCourse(run.model, run.seed, path, shocks, run.from)
    runCourse(run.plan, shocks, buffers, (m) => m + 1 >= task.toMonth)
    const end = Math.min(buffers.endMonth, task.toMonth)
    const row = into.subarray(path * width, (path + 1) * width)
    for (const [place, start] of task.starts.entries())
      row[place] = leastOf(buffers.months, start, start, end)
    for (const [place, from] of task.years.entries()) {
      const to = Math.min(end, task.years[place + 1] ?? task.toMonth)
      row[task.starts.length + place] = leastOf(buffers.months, task.years[0]!, from, to)
      row[task.starts.length + task.years.length + place] = paidIn(buffers.months, from, to)
      row[task.starts.length + 2 * task.years.length + place] = earnedIn(buffers.months, from, end)
    }
    Atomics.add(counters, counter.done, 1)
  }
}

/** The level, drawn from `start` on, that the months from `from` to `to` bear. */
function leastOf(kept: Kept, start: number, from: number, to: number): number {
  let prices = 0
  let paid = 0
  let least = Number.POSITIVE_INFINITY
  for (let m = start; m < to; m += 1) {
    prices += kept.level[m]!
    if (m >= from) {
      if (kept.contribution[m]! > hair) return Number.NEGATIVE_INFINITY
      least = Math.min(least, (kept.farmSpare[m]! + paid) / prices)
    }
    paid += kept.draw[m]!
  }
  return least
}

/** The level with which the farm has as much above its reserve after the last whole year as before `from`. */
function earnedIn(kept: Kept, from: number, end: number): number {
  const to = from + 12 * Math.floor((end - from) / 12)
  if (from === 0 || to - from < earningMonths) return Number.NaN
  let prices = 0
  // What can be spared is told before the month's own draw.
  let earned = kept.farmSpare[to - 1]! - kept.farmSpare[from - 1]! + kept.draw[from - 1]!
  for (let m = from; m < to; m += 1) {
    prices += kept.level[m]!
    earned -= kept.contribution[m]!
    if (m < to - 1) earned += kept.draw[m]!
  }
  return earned / prices
}

/** 1 or 0; NaN for months that the course does not come to. */
function paidIn(kept: Kept, from: number, to: number): number {
  if (from >= to) return Number.NaN
  for (let m = from; m < to; m += 1) if (kept.unmetDraw[m]! + kept.contribution[m]! > hair) return 0
  return 1
}
