// What each path's savings are at the end of some months, so that two plans can be held against each other year by year on the same draws.
import { makeBuffers } from '#runway/course-buffers.ts'
import { runCourse } from '#runway/run-course.ts'
import { type CourseMemory, type CourseRun, counter } from '../course-run.ts'
import { drawCourse } from '../draw-course.ts'
import type { Workspace } from '../paths.ts'

/** Months count from the plan's first and rise. */
export interface YearEndTask {
  months: readonly number[]
}

/**
 * Numbers for each path, three a month: all savings, retirement accounts included and less tax owed, and what of them has not been
 * taxed, both at the plan's first prices; and the price level then. NaN for a month that the course does not come to.
 */
export const yearEndWidth = ({ months }: YearEndTask): number => 3 * months.length

const series = ['cash', 'taxable', 'traditional', 'roth', 'health', 'taxOwed', 'level'] as const

export function takeYearEnds(
  run: CourseRun,
  task: YearEndTask,
  memory: Pick<CourseMemory, 'counters'>,
  into: Float64Array,
  { shocks }: Pick<Workspace, 'shocks'>,
): void {
  const { counters } = memory
  const buffers = makeBuffers(run.plan, series)
  const { cash, taxable, traditional, roth, health, taxOwed, level } = buffers.months
  const width = yearEndWidth(task)
  for (;;) {
    const path = Atomics.add(counters, counter.next, 1)
    if (path >= run.paths || Atomics.load(counters, counter.stop) === 1) return
    drawCourse(run.model, run.seed, path, shocks, run.from)
    runCourse(run.plan, shocks, buffers)
    for (const [place, m] of task.months.entries()) {
      const isReached = m < buffers.endMonth
      const savings = cash[m]! + taxable[m]! + traditional[m]! + roth[m]! + health[m]! - taxOwed[m]!
      const told = isReached
        ? [savings / level[m]!, traditional[m]! / level[m]!, level[m]!]
        : [Number.NaN, Number.NaN, Number.NaN]
      into.set(told, path * width + 3 * place)
    }
    Atomics.add(counters, counter.done, 1)
  }
}
