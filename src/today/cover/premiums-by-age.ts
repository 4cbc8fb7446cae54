// What one person of each age pays on the marketplace in a year, by the plan's premiums.
import { benchmarkPremiums, planPremiums, ratingPlaceOf } from '#plan/place/follows-from-place.ts'
import type { Plan } from '#plan/plan.ts'
import { premiumLevel } from '#runway/compile/compile.ts'
import { premiumAtFirst } from '#runway/compile/compile-coverage.ts'
import type { RunwayRules } from '#runway/runway-rules.ts'

export const premiumsByAge = (plan: Plan, rules: RunwayRules, year: number) => {
  const level = premiumLevel(plan)
  const own = premiumAtFirst(planPremiums(plan), year, level) * level(year)
  const benchmark = premiumAtFirst(benchmarkPremiums(plan), year, level) * level(year)
  const factorAt = (age: number) =>
    rules.memberFactors(ratingPlaceOf(plan), [{ age, isDependent: age < 21 }])[0]!
  if (own <= 0 && benchmark <= 0) return []
  return Array.from({ length: 65 }, (_, age) => ({
    age,
    plan: own * factorAt(age),
    benchmark: benchmark * factorAt(age),
  }))
}
