// The expected course of a plan and the spread its storms give, worked out once per revision and kept with it.
import { type Month, parseMonth } from '#calendar/month.ts'
import type { Plan } from '#plan/plan.ts'
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
  rules: RunwayRules
  projection?: Projection
  spread?: StormSpread
  withoutDraws?: Projection
}

/** A revision's plan is parsed once and never changes, so the plan object itself is the key. */
const known = new WeakMap<Plan, Known>()

export const rulesOf = (plan: Plan): RunwayRules => knownOf(plan).rules

export const projectionOf = (plan: Plan): Projection => {
  const entry = knownOf(plan)
  entry.projection ??= project(plan, entry.rules)
  return entry.projection
}

/** The same plan when the household draws nothing: what savings alone would carry. */
export const withoutDrawsOf = (plan: Plan): Projection => {
  const entry = knownOf(plan)
  const draw = { policy: 'steps' as const, steps: [], growth: 0, withPrices: false }
  entry.withoutDraws ??= project({ ...plan, draw }, entry.rules)
  return entry.withoutDraws
}

/** Whether the storms of this plan were run already: the first page after a start does not wait for them. */
export const knowsStormSpread = (plan: Plan): boolean => knownOf(plan).spread !== undefined

/** Spendable savings month by month between the expected course and the worst storm. */
export const stormSpreadOf = (plan: Plan): StormSpread => {
  const entry = knownOf(plan)
  entry.spread ??= findSpread(plan, entry.rules, projectionOf(plan))
  return entry.spread
}

function findSpread(plan: Plan, rules: RunwayRules, expected: Projection): StormSpread {
  const storms = stormsOf(plan).map((storm) => ({ storm, projection: projectStorm(plan, rules, storm) }))
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

function knownOf(plan: Plan): Known {
  const entry = known.get(plan)
  if (entry) return entry
  const made: Known = { rules: publishedRules(plan) }
  known.set(plan, made)
  return made
}
