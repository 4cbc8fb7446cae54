// A question asked of a plan in a test: the published rules, and courses run in this thread.
import { bearingWidth, takeBearings } from '#chance/by-path/bearing.ts'
import { type ThresholdTask, takeThresholds } from '#chance/by-path/thresholds.ts'
import { takeYearEnds, yearEndWidth } from '#chance/by-path/year-ends.ts'
import { type CourseRun, courseMemory } from '#chance/course-run.ts'
import { makeWorkspace, takePaths } from '#chance/paths.ts'
import { compileForChance } from '#chance/prepare.ts'
import type { Plan } from '#plan/plan.ts'
import { type Dollars, pricesIn } from '#runway/dollars/dollars.ts'
import { project } from '#runway/project.ts'
import { publishedRules } from '#runway/published-rules.ts'
import type { Asking, Courses } from '#solve/question.ts'

/** The courses of a question run in this thread. */
export const courses: Courses = {
  async figures(run: CourseRun) {
    const memory = courseMemory(run)
    takePaths(run, memory, makeWorkspace(run))
    return memory.figures
  },
  async thresholds(run: CourseRun, task: ThresholdTask) {
    const counters = new Int32Array(new SharedArrayBuffer(12))
    const thresholds = new Float64Array(run.paths)
    takeThresholds(run, task, { counters }, thresholds, makeWorkspace(run))
    return thresholds
  },
  async bearings(run, task) {
    const counters = new Int32Array(new SharedArrayBuffer(12))
    const bearings = new Float64Array(run.paths * bearingWidth(task))
    takeBearings(run, task, { counters }, bearings, makeWorkspace(run))
    return bearings
  },
  async yearEnds(run, task) {
    const counters = new Int32Array(new SharedArrayBuffer(12))
    const yearEnds = new Float64Array(run.paths * yearEndWidth(task))
    takeYearEnds(run, task, { counters }, yearEnds, makeWorkspace(run))
    return yearEnds
  },
}

export const toldIn = (plan: Plan, dollars: Dollars) => ({
  dollars,
  prices: pricesIn(project(plan), dollars),
})

export const asking = (plan: Plan, paths: number, rest: Partial<Asking> = {}): Asking => {
  const rules = publishedRules(plan)
  const { dollars, prices } = rest
  return {
    plan,
    compile: (variant) => compileForChance(variant, rules),
    courses,
    project: (variant) => project(variant, rules),
    ...(dollars && prices ? { dollars, prices } : toldIn(plan, { of: 'today', month: plan.startMonth })),
    seed: 3,
    paths,
    confidence: 0.9,
    ...rest,
  }
}
