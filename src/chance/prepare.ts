// Makes a plan ready for drawn courses: compiled far enough for the longest lives, with what drawing needs to know of it.
import { farmsBySeats } from '#farm/selling/seats.ts'
import type { Plan } from '#plan/plan.ts'
import { compilePlan } from '#runway/compile/compile.ts'
import type { CompiledFarm, CompiledPlan } from '#runway/compile/compiled-plan.ts'
import type { RunwayRules } from '#runway/runway-rules.ts'
import { chanceModel } from './chance-model.ts'
import type { CourseRun } from './course-run.ts'
import type { DrawnFrom } from './draw-course.ts'

/** Age to which drawn lives are followed: by the life table one man of 1,260 and one woman of 380 now aged 45 reach it. */
const followedToAge = 105

/** With drawn lives the plan runs to `followedToAge`; otherwise to the ages it plans for. */
export function compileForChance(plan: Plan, rules: RunwayRules): CompiledPlan {
  const oldest = Math.max(followedToAge, ...plan.household.people.map((person) => person.planToAge))
  const compile = (of: Plan) => compilePlan(of, rules, plan.chance.lives ? { untilAge: oldest } : {})
  const compiled = compile(plan)
  const bySeats = farmsBySeats(plan.farm).map((farm) => seatedPart(compile({ ...plan, farm }).farm))
  return bySeats.length === 0 ? compiled : { ...compiled, farm: { ...compiled.farm, bySeats } }
}

/** What of a farm changes with a market that is had or not. */
const seatedPart = (farm: CompiledFarm): Partial<CompiledFarm> => ({
  offered: farm.offered,
  ceiling: farm.ceiling,
  directCosts: farm.directCosts,
  fullSales: farm.fullSales,
  fullDirectCosts: farm.fullDirectCosts,
  marketCosts: farm.marketCosts,
  work: farm.work,
  crewHours: farm.crewHours,
})

export interface ChanceOptions {
  seed: number
  /** Paths to run; a replay of history runs one for every starting year that leaves enough years. */
  paths: number
  from?: DrawnFrom
  keepsMonths?: boolean
}

export function prepareChance(plan: Plan, rules: RunwayRules, options: ChanceOptions): CourseRun {
  const from = options.from ?? 'chance'
  const compiled = from === 'history' ? compilePlan(plan, rules) : compileForChance(plan, rules)
  const model = chanceModel(plan, compiled.shape)
  return {
    plan: compiled,
    model,
    seed: options.seed,
    paths: from === 'history' ? startingYears(model, compiled.years) : options.paths,
    from,
    keepsMonths: options.keepsMonths ?? true,
  }
}

function startingYears(model: CourseRun['model'], years: number): number {
  if (model.markets.kind === 'stated')
    throw new Error('a replay of history needs a history, not stated moments')
  return Math.max(0, model.markets.years - years + 1)
}
