// Runs courses of a plan: draws a path's shocks, runs the months, and leaves a few figures of it behind. Pure but for the memory it is given.
import { type CourseBuffers, makeBuffers } from '#runway/course-buffers.ts'
import { runCourse } from '#runway/run-course.ts'
import { type CourseShocks, expectedShocks } from '#runway/shocks.ts'
import { type CourseMemory, type CourseRun, counter, figureCount } from './course-run.ts'
import { drawCourse } from './draw-course.ts'
import { writeFactors } from './path-factors.ts'
import { writeMilestones } from './path-milestones.ts'

const keptOfMonths = ['spendable', 'level'] as const

/** What a worker fills again for every path. */
export interface Workspace {
  shocks: CourseShocks
  /** Months are in them where the run keeps them. */
  buffers: CourseBuffers<(typeof keptOfMonths)[number]>
}

export const makeWorkspace = (run: CourseRun): Workspace => ({
  shocks: expectedShocks(run.model.shape),
  buffers: makeBuffers(run.plan, run.keepsMonths ? keptOfMonths : []),
})

/** Paths are taken a few at a time, so that workers end together and a stop is heard at once. */
const takenTogether = 4

/** Takes paths that nobody has taken yet until there are none, or the run is stopped. */
export function takePaths(run: CourseRun, memory: CourseMemory, work: Workspace): void {
  const { counters } = memory
  for (;;) {
    const first = Atomics.add(counters, counter.next, takenTogether)
    const last = Math.min(first + takenTogether, run.paths)
    if (first >= last) return
    for (let path = first; path < last; path += 1) {
      if (Atomics.load(counters, counter.stop) === 1) return
      runPath(run, path, memory, work)
      Atomics.add(counters, counter.done, 1)
    }
  }
}

/** Runs one path and writes its figures (and months, when kept) into its own places. */
export function runPath(
  run: CourseRun,
  path: number,
  memory: Pick<CourseMemory, 'figures' | 'months' | 'atFirstPrices'>,
  work: Workspace,
): void {
  drawCourse(run.model, run.seed, path, work.shocks, run.from)
  runCourse(run.plan, work.shocks, work.buffers)
  const figures = memory.figures.subarray(path * figureCount, (path + 1) * figureCount)
  writeMilestones(run.plan, work.buffers, figures)
  writeFactors(run, work.shocks, figures)
  if (run.keepsMonths) {
    const width = run.plan.months
    const { endMonth, months } = work.buffers
    const [from, end, to] = [path * width, path * width + endMonth, (path + 1) * width]
    memory.months.set(months.spendable.subarray(0, endMonth), from)
    memory.months.fill(Number.NaN, end, to)
    for (let m = 0; m < endMonth; m += 1)
      memory.atFirstPrices[from + m] = months.spendable[m]! / months.level[m]!
    memory.atFirstPrices.fill(Number.NaN, end, to)
  }
}
