// The law a plan is run under, as functions of the year: asked once when a plan is compiled, never in the loop.
import type { Month } from '#calendar/month.ts'
import type { AssetClass } from '#farm/purchase-document.ts'
import type { ContributionLimits } from '#rules/contribution-limits.ts'
import type { LawYear, RateLaw } from '#rules/law-year.ts'
import type { Rated } from '#rules/marketplace/premium-by-age.ts'
import type { MedicareYear } from '#rules/medicare/premiums.ts'
import type { BenefitLaw } from '#rules/social-security/benefit-law.ts'

/** What the law asks of a purchase to write it off: `month` is when it is bought and used first, `bonus` whether that is taken. */
export interface BoughtAsset {
  assetClass: AssetClass
  month: Month
  cost: number
  bonus: boolean
}

export interface RunwayRules {
  /** First and last year of published law; later years are projected with the plan's own growth rates. */
  firstYear: number
  lastPublishedYear: number
  lawFor(year: number): LawYear
  /** Rates of a year that farm income averaging goes back to; null where they are not held. */
  rateLawFor(year: number): RateLaw | null
  /** Social Security law up to a year. */
  benefitLaw(lastYear: number): BenefitLaw
  medicareFor(year: number): MedicareYear
  /** Most that a person of this age may put into IRAs in the year, dollars. */
  contributionLimit(year: number, age: number): number
  /** Most that a person of this age may defer to plans at work in the year, dollars. */
  deferralLimit(year: number, age: number): number
  /** All limits of a person of this age in the year. */
  limits(year: number, age: number): ContributionLimits
  /** Factor of each covered person on the premium of one of 21, by how the place rates ages and families. */
  memberFactors(place: string, members: readonly Rated[]): number[]
  /** Share of a purchase's cost deducted in its year and each year after, without what section 179 takes at once. */
  deductionShares(purchase: BoughtAsset, section179Share: number): Float64Array
  /** The share of the cost that section 179 takes at once, of the share wanted: less for cars and heavy sport utility vehicles. */
  section179Share(purchase: BoughtAsset, wanted: number): number
}
