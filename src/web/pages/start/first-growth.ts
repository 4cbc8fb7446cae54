// The growth of premiums and care with which a first plan begins: published projections and the county's own years, each to be changed
// under Growth and returns, and under Chance.
import { hasOwnYears, premiumHistory } from '#plan/place/premium-years.ts'
import type { Plan, PlanInput } from '#plan/plan.ts'
import { careGrowth, marketplaceGrowth, medicareGrowth } from '#rules/data/growth-projections.ts'
import { inForce } from '#rules/in-force.ts'

export const firstGrowth = (): NonNullable<PlanInput['assumptions']> => {
  const newest = Number.POSITIVE_INFINITY
  const [premiums, medicare, care] = [
    inForce(marketplaceGrowth, newest),
    inForce(medicareGrowth, newest),
    inForce(careGrowth, newest),
  ]
  return {
    premiumGrowth: premiums.rate,
    premiumGrowthUntil: premiums.until,
    medicareGrowth: medicare.rate,
    medicareGrowthUntil: medicare.until,
    careGrowth: care.rate,
    careGrowthUntil: care.until,
  }
}

/** Premiums stray as the county's did, where they are published. */
export const firstChance = (place: Plan['household']['place']): NonNullable<PlanInput['chance']> =>
  hasOwnYears(premiumHistory(place)) ? { premiums: 'county' } : {}
