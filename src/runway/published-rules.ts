// The published law, carried on past its last year with the plan's own growth of prices, wages and premiums.
import { dayInMonth } from '#calendar/day.ts'
import { yearOf } from '#calendar/month.ts'
import { Lately } from '#kept/lately.ts'
import type { Plan } from '#plan/plan.ts'
import { contributionLimits } from '#rules/contribution-limits.ts'
import { steadyIndexing } from '#rules/dated.ts'
import { deductionShares } from '#rules/depreciation/rates.ts'
import { firstRecoveryYear } from '#rules/depreciation/recovery.ts'
import { bonusShareWithin, section179ShareWithin } from '#rules/depreciation/vehicle-limits.ts'
import { bonusShare, firstBonusYear } from '#rules/depreciation/write-offs.ts'
import { firstLawYear, firstRateYear, lastPublishedLawYear, lawFor, rateLawFor } from '#rules/law.ts'
import { memberFactors } from '#rules/marketplace/premium-by-age.ts'
import { medicareYear } from '#rules/medicare/medicare-year.ts'
import { benefitLaw } from '#rules/social-security/benefit-law.ts'
import { type Growth, grownOver, growthsOf } from './compile/growth.ts'
import type { BoughtAsset, RunwayRules } from './runway-rules.ts'

/** Bought and used first on the first of the month; none where the plan elects out of it. */
const bonusOf = ({ bonus, month }: BoughtAsset): number =>
  bonus && yearOf(month) >= firstBonusYear ? bonusShare(dayInMonth(month, 1), yearOf(month)) : 0

/** The law under a plan's growth rates. The last few are kept with what they looked up: they depend on nothing else. */
export const publishedRules = (plan: Plan): RunwayRules => {
  const { inflation, wageGrowth } = plan.assumptions
  const { medicare } = growthsOf(plan)
  const key = `${inflation} ${wageGrowth} ${medicare.rate} ${medicare.until}`
  const rules = lastRules.get(key) ?? carriedOn(inflation, wageGrowth, medicare)
  lastRules.set(key, rules)
  return rules
}

const lastRules = new Lately<string, RunwayRules>(16)

const carriedOn = (inflation: number, wageGrowth: number, medicare: Growth): RunwayRules => {
  const indexing = steadyIndexing(inflation, wageGrowth)
  const premiums = (year: number) => grownOver(medicare, inflation, lastPublishedLawYear, year)
  const limits = kept((key: number) => contributionLimits(Math.floor(key / 1000), key % 1000, indexing))
  return {
    firstYear: firstLawYear,
    lastPublishedYear: lastPublishedLawYear,
    lawFor: kept((year: number) => lawFor(year, indexing)),
    rateLawFor: kept((year: number) => (year < firstRateYear ? null : rateLawFor(year, indexing))),
    benefitLaw: kept((lastYear: number) => benefitLaw(lastYear, indexing)),
    medicareFor: kept((year: number) => medicareYear(year, indexing, premiums)),
    limits: (year, age) => limits(year * 1000 + age),
    contributionLimit: (year, age) => limits(year * 1000 + age).ira,
    deferralLimit: (year, age) => {
      const { deferral, deferralCatchUp } = limits(year * 1000 + age)
      return deferral + deferralCatchUp
    },
    memberFactors: (place, members) => memberFactors(place, members, lastPublishedLawYear),
    deductionShares: (purchase, section179Share) => {
      const { assetClass, cost } = purchase
      const year = yearOf(purchase.month)
      if (assetClass === 'land') return Float64Array.of(0)
      if (assetClass === 'supplies' || year < firstRecoveryYear) return Float64Array.of(1)
      const first = deductionShares(assetClass, year, 0, 0)[0]!
      const bonus = bonusShareWithin(assetClass, year, cost, section179Share, bonusOf(purchase), first)
      return deductionShares(assetClass, year, section179Share, bonus)
    },
    section179Share: ({ assetClass, month, cost }, wanted) => {
      const year = yearOf(month)
      if (assetClass === 'land' || assetClass === 'supplies' || wanted === 0 || year < firstRecoveryYear)
        return wanted
      return section179ShareWithin(
        assetClass,
        year,
        cost,
        wanted,
        deductionShares(assetClass, year, 0, 0)[0]!,
      )
    },
  }
}

const kept = <Value>(find: (key: number) => Value): ((key: number) => Value) => {
  const found = new Map<number, Value>()
  return (key) => {
    const known = found.get(key)
    if (known !== undefined) return known
    const value = find(key)
    found.set(key, value)
    return value
  }
}
