// The month in which a bad year hurts most: looked for over the next two years, each start a run of its own.
import { addMonths, type Month, monthText } from '#calendar/month.ts'
import type { Storm } from '#plan/assumption-plan.ts'
import { firstMonthOf } from '#plan/first-month.ts'
import { compileFarmAnew, compilePlan, planSpan } from '#runway/compile/compile.ts'
import type { CompiledPlan } from '#runway/compile/compiled-plan.ts'
import type { PlanOfDay } from '#runway/compile/plan-of-day.ts'
import { type CourseBuffers, makeBuffers } from '#runway/course-buffers.ts'
import { runCourse } from '#runway/run-course.ts'
import type { RunwayRules } from '#runway/runway-rules.ts'
import { expectedShocks } from '#runway/shocks.ts'
import { strike } from './storm.ts'
import { calmWeather, fillWeather } from './weather.ts'

const monthsTried = 24

/** How a course ended: the less time above the floor the worse, then the less savings and the more that nothing met. */
export interface Ending {
  monthsLeft: number | null
  lowestSpendable: number
  unmetNeed: number
}

/** Below zero when the first is the worse. */
export const compareEndings = (a: Ending, b: Ending): number => {
  const left = (one: Ending) => one.monthsLeft ?? Number.MAX_SAFE_INTEGER
  return left(a) - left(b) || a.lowestSpendable - a.unmetNeed - (b.lowestSpendable - b.unmetNeed)
}

/** A month that has begun is no longer the first of a bad year: what is left of it would hide most of that month. */
export const badYearsFrom = (plan: PlanOfDay): Month =>
  Math.max(firstMonthOf(plan), plan.seenFrom?.badYearsFrom ?? 0) as Month

/**
 * Of storms alike but for whom they strike, the one that hurts most, in the first of the worst months to begin in. One that changes
 * nothing begins at once, and none begins once savings are below the floor without it: of months left nothing is left that it could
 * take. `passed`: of `floorPassed`.
 */
export const worstOf = (
  plan: PlanOfDay,
  rules: RunwayRules,
  storms: readonly [Storm, ...Storm[]],
  passed: number = floorPassed(plan, rules),
): Storm => {
  const run = runnerOf(plan, rules)
  const { firstMonth, months } = planSpan(plan)
  const first = Math.min(months - 1, badYearsFrom(plan) - firstMonth)
  const end = passed < 0 ? first + monthsTried : Math.min(first + monthsTried, Math.max(first + 1, passed))
  let worst = { storm: storms[0], from: first }
  let ending: Ending | null = null
  for (const storm of storms)
    for (let from = first; from < Math.min(months, end); from += 1) {
      const found = run(storm, from, ending?.monthsLeft ?? null)
      if (ending !== null && compareEndings(found, ending) >= 0) continue
      worst = { storm, from }
      ending = found
    }
  return { ...worst.storm, from: monthText(addMonths(firstMonth, worst.from)) }
}

/** The month, counted from the projection's first, in which savings fall below the floor without any storm; −1 when not while one can begin. */
export const floorPassed = (plan: PlanOfDay, rules: RunwayRules): number => {
  const compiled = compilePlan(plan, rules)
  const buffers = makeBuffers(compiled, [])
  const { marks } = buffers
  const last = badYearsFrom(plan) - compiled.firstMonth + monthsTried
  runCourse(compiled, expectedShocks(compiled.shape), buffers, (m) => marks.floorMonth >= 0 || m >= last)
  return marks.floorMonth
}

/**
 * Runs a storm from a month on: in the weather of one compiled plan, which only a closed market needs compiled anew. A course that
 * is still above the floor after `least` months is not the worst, and is left there.
 */
const runnerOf = (plan: PlanOfDay, rules: RunwayRules) => {
  const weather = calmWeather(planSpan(plan).months)
  let compiled: CompiledPlan | null = null
  let buffers: CourseBuffers | null = null
  return (storm: Storm, from: number, least: number | null): Ending => {
    fillWeather(weather, plan, storm, from)
    if (compiled === null) compiled = compilePlan(plan, rules, { weather })
    else if (weather.lostMarket !== null) compileFarmAnew(compiled, plan, rules, weather)
    buffers ??= makeBuffers(compiled, [])
    const shocks = expectedShocks(compiled.shape)
    strike(plan, storm, compiled, from, shocks)
    const { marks } = buffers
    runCourse(compiled, shocks, buffers, (m) => m === least && marks.floorMonth < 0)
    const { floorMonth, lowest, unmetNeed } = marks
    return { monthsLeft: floorMonth < 0 ? null : floorMonth, lowestSpendable: lowest, unmetNeed }
  }
}
