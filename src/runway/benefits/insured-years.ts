// From which year each of the people has the quarters of coverage that a retirement benefit needs, by the plan's own course.
import type { Plan } from '#plan/plan.ts'
import { coverageStanding } from '#rules/social-security/coverage.ts'
import { compilePlan } from '#runway/compile/compile.ts'
import { makeBuffers } from '#runway/course-buffers.ts'
import { runCourse } from '#runway/run-course.ts'
import type { RunwayRules } from '#runway/runway-rules.ts'
import { expectedShocks } from '#runway/shocks.ts'

export interface InsuredYear {
  /** At the start of the year of the claim. */
  quarters: number
  needed: number
  /** The first year that begins with enough of them (42 USC 414(a)); null where none of the plan does. */
  from: number | null
}

/** By the people of the plan; null where a statement's estimate takes the place of a record, or where no benefits are worked out. */
export const insuredYears = (plan: Plan, rules: RunwayRules): (InsuredYear | null)[] => {
  const compiled = compilePlan(plan, rules)
  const law = compiled.law.benefits
  if (law === null) return compiled.people.map(() => null)
  const buffers = makeBuffers(compiled, [])
  runCourse(compiled, expectedShocks(compiled.shape), buffers)
  const last = Math.floor((compiled.firstMonth + buffers.endMonth - 1) / 12)
  return compiled.people.map(({ statementPrimary, claimMonth }, p) => {
    if (statementPrimary > 0) return null
    const { record } = buffers.state.benefits.people[p]!
    const claims = Math.floor(claimMonth / 12)
    const standsIn = (year: number) => coverageStanding(law, record, year)
    const { quarters, needed } = standsIn(claims)
    let from: number | null = Math.min(claims, compiled.firstYear)
    while (from !== null && standsIn(from).yearsLeft > 0) from = from < last ? from + 1 : null
    return { quarters, needed, from }
  })
}
