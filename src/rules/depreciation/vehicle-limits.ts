// What the law leaves of a vehicle's deductions: the yearly limits of passenger cars and the section 179 cap of heavy sport utility vehicles.
import { type FarmAssetClass, passengerCarLimits, section179SuvCap } from '../data/depreciation.ts'
import { lookUp, steadyIndexing, yearsOf } from '../dated.ts'
import { assetClasses } from './recovery.ts'

/** Most that may be deducted, by year of service: the first, the second, the third, each later one. Dollars. */
export type CarLimits = readonly [first: number, second: number, third: number, later: number]

/** Null for what is no passenger car, and for one in service before the limits kept here. `businessShare` lowers them (26 USC 280F(a)(2)). */
export const carLimits = (
  assetClass: FarmAssetClass,
  inServiceYear: number,
  takesBonus: boolean,
  businessShare = 1,
): CarLimits | null => {
  if (!assetClasses[assetClass].yearlyLimit || inServiceYear < yearsOf(passengerCarLimits).first) return null
  const { withBonus, first, second, third, later } = lookUp(passengerCarLimits, inServiceYear, standing).value
  return [takesBonus ? withBonus : first, second, third, later].map(
    (limit) => Math.round(limit * businessShare * 100) / 100,
  ) as unknown as CarLimits
}

/** Most of the cost that may be elected under section 179, dollars; `Infinity` where only the year's limit counts. */
export const section179CapOf = (assetClass: FarmAssetClass, inServiceYear: number): number =>
  assetClasses[assetClass].section179Cap
    ? lookUp(section179SuvCap, Math.max(inServiceYear, yearsOf(section179SuvCap).first), standing).value
    : Number.POSITIVE_INFINITY

/**
 * The share of the cost that section 179 may take in the year of service, of the share wanted: of a car no more than fits under
 * its limit beside the table's own first year (`firstShare`) of the rest.
 */
export const section179ShareWithin = (
  assetClass: FarmAssetClass,
  inServiceYear: number,
  cost: number,
  wanted: number,
  firstShare: number,
): number => {
  if (cost <= 0) return wanted
  const car = carLimits(assetClass, inServiceYear, false)
  const fits = car ? Math.max(0, (car[0] - firstShare * cost) / ((1 - firstShare) * cost)) : 1
  return Math.min(wanted, section179CapOf(assetClass, inServiceYear) / cost, fits)
}

/** The bonus on what section 179 leaves, cut for a car to what its first limit leaves beside both and the table's first year. */
export const bonusShareWithin = (
  assetClass: FarmAssetClass,
  inServiceYear: number,
  cost: number,
  section179Share: number,
  bonus: number,
  firstShare: number,
): number => {
  const car = carLimits(assetClass, inServiceYear, bonus > 0)
  if (!car || cost <= 0 || section179Share >= 1) return bonus
  const room = (car[0] / cost - section179Share) / (1 - section179Share)
  return Math.min(bonus, Math.max(0, (room - firstShare) / (1 - firstShare)))
}

// Past the last published year the limits stand still: they follow vehicle prices, which nothing here tells.
const standing = steadyIndexing(0)
