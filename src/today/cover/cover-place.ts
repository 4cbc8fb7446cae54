// What follows from where the household lives: the county's benchmark premium year by year, beside the growth the plan assumes, and
// up to which income the state's programs cover whom.
import { benchmarkPremiums, limitsOfPlan, ratingPlaceOf } from '#plan/place/follows-from-place.ts'
import type { Plan } from '#plan/plan.ts'
import { limitNames, limitSource, limitWords } from '#rules/coverage/coverage-limits.ts'
import { marketplaceGrowth } from '#rules/data/growth-projections.ts'
import { inForce } from '#rules/in-force.ts'
import { ratingAreaOf } from '#rules/places/counties.ts'
import { countyPremiums, premiumSource } from '#rules/places/county-premiums.ts'
import { basicByCreditLine, basicLevelKnown } from '#rules/places/published.ts'
import { stateNames } from '#rules/places/state-names.ts'
import type { RunwayRules } from '#runway/runway-rules.ts'
import type { PlaceFigures } from './figures.ts'

/** The age at which published comparisons show a premium. */
const shownAge = 40

export const placeFiguresOf = (plan: Plan, rules: RunwayRules, year: number): PlaceFigures | null => {
  const { place } = plan.household
  if (place.state === undefined) return null
  const factor = rules.memberFactors(ratingPlaceOf(plan), [{ age: shownAge, isDependent: false }])[0]!
  const history = countyPremiums('benchmark', place).map((one) => ({
    year: one.year,
    monthly: one.at21 * factor,
  }))
  const [bronze] = countyPremiums('bronze', place)
  const limits = limitsOfPlan(plan, year)
  const { premiumGrowth, premiumGrowthUntil } = plan.assumptions
  return {
    name: [place.county, stateNames[place.state]].filter(Boolean).join(', '),
    ratingArea: ratingAreaOf(place),
    age: shownAge,
    history,
    bronze: bronze
      ? {
          year: bronze.year,
          monthly: bronze.at21 * factor,
          isDearer: history.some((one) => one.year === bronze.year && one.monthly < bronze.at21 * factor),
        }
      : null,
    premiumsTyped: benchmarkPremiums(plan)[0]?.year === null,
    historyGrowth: growthOver(history),
    growth: { rate: premiumGrowth, until: premiumGrowthUntil ?? null },
    growthSource: marketplaceGrowth.source,
    suggested: inForce(marketplaceGrowth, Number.POSITIVE_INFINITY).rate,
    year,
    limits: limitNames
      .filter((name) => limits[name] > 0)
      .map((name) => ({
        who: limitWords[name],
        percent: limits[name],
        typed: plan.health.limits[name] !== undefined,
      })),
    basicLevel:
      limits.basic > 0
        ? { ofYearBefore: basicByCreditLine(place.state), ...basicLevelKnown(place.state) }
        : null,
    sources: { premiums: premiumSource('benchmark'), limits: limitSource('adult') },
  }
}

const growthOver = (history: readonly { year: number; monthly: number }[]): number | null => {
  const [first, last] = [history[0], history.at(-1)]
  if (!first || !last || first === last) return null
  return (last.monthly / first.monthly) ** (1 / (last.year - first.year)) - 1
}
