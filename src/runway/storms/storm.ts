// A storm run: a named bad year turned into what it changes, and the plan run through it.
import { parseMonth } from '#calendar/month.ts'
import type { Storm } from '#plan/assumption-plan.ts'
import { drawsLater } from '#plan/draw-plan.ts'
import { firstMonthOf } from '#plan/first-month.ts'
import type { Plan } from '#plan/plan.ts'
import { compilePlan, planSpan } from '#runway/compile/compile.ts'
import type { CompiledPlan } from '#runway/compile/compiled-plan.ts'
import { makeBuffers, wholeCourse } from '#runway/course-buffers.ts'
import { type Milestones, type Projection, readCourse, readMilestones } from '#runway/project.ts'
import { runCourse } from '#runway/run-course.ts'
import type { RunwayRules } from '#runway/runway-rules.ts'
import { type CourseShocks, expectedShocks } from '#runway/shocks.ts'
import { type FlowSums, flowNames, sumFlows } from './storm-parts.ts'
import { calmWeather, fillWeather } from './weather.ts'

/** Runs the plan through one storm: the same months, with the storm's changes. */
export const projectStorm = (plan: Plan, rules: RunwayRules, storm: Storm): Projection => {
  const { compiled, shocks } = compileStorm(plan, rules, storm)
  const buffers = wholeCourse(compiled)
  runCourse(compiled, shocks, buffers)
  return readCourse(compiled, buffers)
}

/** What pages keep of a storm: a dozen of them month by month would be most of a server's memory. */
export interface StormCourse {
  milestones: Milestones
  /** Spendable savings at the end of each month that was run, and what nothing could meet in it. */
  spendable: Float64Array
  unmetNeed: Float64Array
  /** Farm cash was drawn beyond the planned draws, so that savings hold the floor. */
  isCalledOn: boolean
  /** What came in and went out in the years after it begins. */
  flows: FlowSums
}

/** Runs the plan with one bad year in it, on the expected course otherwise. Dollars of each month. */
export const stormCourse = (plan: Plan, rules: RunwayRules, storm: Storm): StormCourse => {
  const { compiled, shocks } = compileStorm(plan, rules, storm)
  const buffers = makeBuffers(compiled, ['spendable', 'unmetNeed', 'drawToHoldFloor', 'level', ...flowNames])
  runCourse(compiled, shocks, buffers)
  const { months, endMonth } = buffers
  return {
    milestones: readMilestones(compiled, buffers),
    spendable: months.spendable.slice(0, endMonth),
    unmetNeed: months.unmetNeed.slice(0, endMonth),
    isCalledOn: months.drawToHoldFloor.subarray(0, endMonth).some((dollars) => dollars > 0.5),
    flows: sumFlows(
      (name, m) => months[name][m]!,
      (m) => months.level[m]!,
      parseMonth(storm.from)! - compiled.firstMonth,
      endMonth,
    ),
  }
}

/** A compiled plan under a storm, with its expected shocks: chance can draw others on top. */
const compileStorm = (
  plan: Plan,
  rules: RunwayRules,
  storm: Storm,
): { compiled: CompiledPlan; shocks: CourseShocks } => {
  const changed = planUnder(plan, storm)
  const span = planSpan(changed)
  const from = parseMonth(storm.from)! - span.firstMonth
  const weather = calmWeather(span.months)
  fillWeather(weather, changed, storm, from)
  const compiled = compilePlan(changed, rules, { weather })
  const shocks = expectedShocks(compiled.shape)
  strike(plan, storm, compiled, from, shocks)
  return { compiled, shocks }
}

const planUnder = (plan: Plan, storm: Storm): Plan => {
  const draw = drawsLater(plan.draw, storm.drawsLateMonths, firstMonthOf(plan))
  const oneOffs =
    storm.oneOffCost > 0
      ? [
          ...plan.household.oneOffs,
          {
            id: 'storm-cost',
            name: storm.name,
            month: storm.from,
            cost: storm.oneOffCost,
            todaysPrices: true,
          },
        ]
      : plan.household.oneOffs
  return { ...plan, draw, household: { ...plan.household, oneOffs } }
}

/** Lost work and a death, by person. A storm of the time before the plan has only its rest. */
export const strike = (
  plan: Plan,
  storm: Storm,
  compiled: CompiledPlan,
  from: number,
  shocks: CourseShocks,
) => {
  const { people } = plan.household
  const dying = people.findIndex((one) => one.id === storm.dies)
  if (dying >= 0) shocks.deathMonth[dying] = Math.min(shocks.deathMonth[dying]!, Math.max(0, from))
  const person = people.findIndex((one) => one.id === storm.person)
  const begins = Math.max(0, from)
  const lasts = from + storm.months - begins
  if (person < 0 || lasts <= 0 || begins >= compiled.months) return
  shocks.lossOfWorkMonth[person * compiled.years + Math.floor(begins / 12)] = begins
  shocks.lossOfWorkMonths[person] = lasts
}
