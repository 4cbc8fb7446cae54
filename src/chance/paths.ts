// Runs courses of a plan: draws a path's shocks, runs the months, and leaves a few figures of it behind. Pure but for the memory it is given.
import { type CourseBuffers, makeBuffers } from '#runway/course-buffers.ts'
import { runCourses } from '#runway/run-course.ts'
import { type CourseShocks, expectedShocks } from '#runway/shocks.ts'
import { type CourseMemory, type CourseRun, counter, figureCount } from './course-run.ts'
import { drawCourse } from './draw-course.ts'
import { writeFactors } from './path-factors.ts'
import { writeMilestones } from './path-milestones.ts'

const keptOfMonths = ['spendable', 'level'] as const

/** What a worker fills again for every few paths. */
export interface Workspace {
  /** Months are in their buffers where the run keeps them. */
  courses: PathCourse[]
  /** The first’s, for questions that run one course at a time. */
  shocks: CourseShocks
}

interface PathCourse {
  shocks: CourseShocks
  buffers: CourseBuffers<(typeof keptOfMonths)[number]>
}

export const makeWorkspace = (run: CourseRun): Workspace => {
  const courses = Array.from({ length: Math.max(1, Math.min(takenTogether, run.paths)) }, () => ({
    shocks: expectedShocks(run.model.shape),
    buffers: makeBuffers(run.plan, run.keepsMonths ? keptOfMonths : []),
  }))
  return { courses, shocks: courses[0]!.shocks }
}

/** Paths are taken a few at a time and run abreast: few, so that workers end together and a stop is heard at once. */
const takenTogether = 8

/** Takes paths that nobody has taken yet until there are none, or the run is stopped. */
export function takePaths(run: CourseRun, memory: CourseMemory, work: Workspace): void {
  const { counters } = memory
  const together = work.courses.length
  for (;;) {
    const first = Atomics.add(counters, counter.next, together)
    const last = Math.min(first + together, run.paths)
    if (first >= last || Atomics.load(counters, counter.stop) === 1) return
    runPaths(run, first, work.courses.slice(0, last - first), memory)
    Atomics.add(counters, counter.done, last - first)
  }
}

type PathMemory = Pick<CourseMemory, 'figures' | 'months' | 'atFirstPrices'>

/** Runs as many paths from `first` on as there are courses, and writes the figures of each (and months, when kept) into its own places. */
export const runPaths = (
  run: CourseRun,
  first: number,
  courses: readonly PathCourse[],
  memory: PathMemory,
): void => {
  for (let k = 0; k < courses.length; k += 1)
    drawCourse(run.model, run.seed, first + k, courses[k]!.shocks, run.from)
  runCourses(run.plan, courses)
  for (let k = 0; k < courses.length; k += 1) writePath(run, first + k, courses[k]!, memory)
}

const writePath = (
  run: CourseRun,
  path: number,
  { shocks, buffers }: PathCourse,
  memory: PathMemory,
): void => {
  const figures = memory.figures.subarray(path * figureCount, (path + 1) * figureCount)
  writeMilestones(run.plan, buffers, figures)
  writeFactors(run, shocks, figures)
  if (run.keepsMonths) {
    const width = run.plan.months
    const { endMonth, months } = buffers
    const [from, end, to] = [path * width, path * width + endMonth, (path + 1) * width]
    memory.months.set(months.spendable.subarray(0, endMonth), from)
    memory.months.fill(Number.NaN, end, to)
    for (let m = 0; m < endMonth; m += 1)
      memory.atFirstPrices[from + m] = months.spendable[m]! / months.level[m]!
    memory.atFirstPrices.fill(Number.NaN, end, to)
  }
}
