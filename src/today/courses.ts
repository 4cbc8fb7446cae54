// The expected course of a plan and the spread its storms give, worked out once per revision and kept with it.
import { type Month, parseMonth } from '#calendar/month.ts'
import type { Plan } from '#plan/plan.ts'
import type { Restart } from '#runway/compile/compiled-plan.ts'
import { type Projection, project } from '#runway/project.ts'
import { publishedRules } from '#runway/published-rules.ts'
import type { RunwayRules } from '#runway/runway-rules.ts'
import { projectStorm, stormsOf } from '#runway/storms.ts'

export interface StormSpread {
  /** The storm that leaves the least time above the floor. */
  worstName: string | null
  band: readonly { month: Month; low: number; high: number }[]
}

interface Known {
  projection?: Projection
  spread?: StormSpread
  withoutDraws?: Projection
}

/** A revision's plan is parsed once and never changes, so the plan object itself is the key; then where the books restart it. */
const known = new WeakMap<Plan, { rules: RunwayRules; courses: Map<string, Known> }>()
const mostRestarts = 4

export const rulesOf = (plan: Plan): RunwayRules => ofPlan(plan).rules

/** The expected course, from the plan's start or, with `restart`, from the books' balances on. */
export const projectionOf = (plan: Plan, restart: Restart | null = null): Projection => {
  const entry = knownOf(plan, restart)
  entry.projection ??= project(plan, rulesOf(plan), undefined, { restart })
  return entry.projection
}

/** The same when the household draws nothing: what savings alone would carry. */
export const withoutDrawsOf = (plan: Plan, restart: Restart | null = null): Projection => {
  const entry = knownOf(plan, restart)
  const draw = { policy: 'steps' as const, steps: [], growth: 0, withPrices: false }
  const savings = { ...plan.savings, drawsToHoldFloor: false }
  entry.withoutDraws ??= project({ ...plan, draw, savings }, rulesOf(plan), undefined, { restart })
  return entry.withoutDraws
}

/** Whether the storms of this plan were run already: the first page after a start does not wait for them. */
export const knowsStormSpread = (plan: Plan, restart: Restart | null = null): boolean =>
  knownOf(plan, restart).spread !== undefined

/** Spendable savings month by month between the expected course and the worst storm. */
export const stormSpreadOf = (plan: Plan, restart: Restart | null = null): StormSpread => {
  const entry = knownOf(plan, restart)
  entry.spread ??= findSpread(plan, restart)
  return entry.spread
}

function findSpread(plan: Plan, restart: Restart | null): StormSpread {
  const expected = projectionOf(plan, restart)
  const storms = stormsOf(plan).map((storm) => ({
    storm,
    projection: projectStorm(plan, rulesOf(plan), storm, restart),
  }))
  const left = (projection: Projection) => projection.milestones.monthsLeft ?? Number.POSITIVE_INFINITY
  const worst = storms.reduce<(typeof storms)[number] | null>(
    (low, one) => (low === null || left(one.projection) < left(low.projection) ? one : low),
    null,
  )
  return {
    worstName: worst?.storm.name ?? null,
    band: expected.months.map((month, index) => {
      const courses = [month, ...storms.flatMap((one) => one.projection.months[index] ?? [])]
      const spendable = courses.map((course) => course.spendable)
      return { month: parseMonth(month.month)!, low: Math.min(...spendable), high: Math.max(...spendable) }
    }),
  }
}

function knownOf(plan: Plan, restart: Restart | null): Known {
  const { courses } = ofPlan(plan)
  const key = restart === null ? '' : `${restart.month} ${restart.spendable} ${restart.farmCash}`
  const entry = courses.get(key) ?? {}
  courses.set(key, entry)
  const oldest = [...courses.keys()].find((one) => one !== '')
  if (courses.size > mostRestarts && oldest !== undefined) courses.delete(oldest)
  return entry
}

function ofPlan(plan: Plan) {
  const entry = known.get(plan) ?? { rules: publishedRules(plan), courses: new Map<string, Known>() }
  known.set(plan, entry)
  return entry
}
