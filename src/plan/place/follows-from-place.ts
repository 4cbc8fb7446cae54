// What follows from where a plan's household lives, unless the plan types its own: age rating, poverty region, premiums, limits.
import { type CoverageLimits, coverageLimits, limitNames, noLimits } from '#rules/coverage/coverage-limits.ts'
import type { Region } from '#rules/filing-status.ts'
import { regionOf } from '#rules/places/counties.ts'
import { type CountyPlan, countyPremiums } from '#rules/places/county-premiums.ts'
import type { Plan } from '../plan.ts'

/** Two letters of the state whose age curve or family tiers rate the premiums; `federal` for the federal curve. */
export const ratingPlaceOf = ({ health, household }: Plan): string =>
  health.marketplace.ageRating === 'federal'
    ? (household.place.state ?? 'federal')
    : health.marketplace.ageRating

/** Which poverty guidelines hold: the state’s, or as the plan says while no state is chosen. */
export const regionOfPlan = ({ tax, household }: Plan): Region =>
  household.place.state === undefined ? tax.region : regionOf(household.place.state)

/** A premium at 21 by the year it was published for; one that was typed is of the plan's first prices, and `year` is null. */
export interface PremiumAt21 {
  year: number | null
  at21: number
}

/** Published ones from the oldest on; the typed one alone where there is one; none where neither is known. */
export const benchmarkPremiums = (plan: Plan): PremiumAt21[] =>
  typedOr(plan, plan.health.marketplace.benchmarkAt21, 'benchmark')

/** The same for the plan that the household is on. */
export const planPremiums = (plan: Plan): PremiumAt21[] =>
  typedOr(plan, plan.health.marketplace.planAt21, plan.health.marketplace.countyPlan)

const typedOr = (plan: Plan, typed: number, county: CountyPlan): PremiumAt21[] =>
  typed > 0 ? [{ year: null, at21: typed }] : countyPremiums(county, plan.household.place)

/** Children and adults alike, where a plan names no state but says that its own covers adults. */
const expansion: CoverageLimits = {
  ...noLimits,
  infant: 138,
  youngChild: 138,
  olderChild: 138,
  adult: 138,
  parent: 138,
  pregnant: 138,
}

/** Up to which income who is covered in a year, in percent of the federal poverty level. */
export const limitsOfPlan = (plan: Plan, year: number): CoverageLimits => {
  const { state } = plan.household.place
  const published =
    state !== undefined
      ? coverageLimits(state, `${year}-01`)
      : plan.health.medicaidExpansion
        ? expansion
        : noLimits
  const typed = plan.health.limits
  if (limitNames.every((name) => typed[name] === undefined)) return published
  return Object.fromEntries(
    limitNames.map((name) => [name, typed[name] ?? published[name]]),
  ) as CoverageLimits
}
