// What compile-retirement.ts makes of plans at work and even payments: flat arrays, as the rest of a compiled plan.

import type { ContributionLimits } from '#rules/contribution-limits.ts'
import type { CompiledConversions } from './compiled-conversions.ts'

/** Only the contributions of a Roth account, what is left of it once these have been offered, and health savings as far as care is unpaid. */
export const accountParts = { contributions: 1, rest: 2, care: 3 } as const

export interface CompiledRetirement {
  /** Most that each person may defer to plans at work, person × year, and whether such a plan covers them. */
  deferralLimit: Float64Array
  covered: Uint8Array
  /** By account: 1 for a plan at work, and the first month in which its owner pays no addition for taking money out. */
  isWorkPlan: Uint8Array
  /** By account: a place in `ownPlanKinds`, below 0 for none; whether there is any; and then, or with health savings, each person's limits, person × year. */
  ownPlan: Int8Array
  hasOwnPlans: boolean
  limits: ContributionLimits[]
  hasHealthSavings: boolean
  freeFrom: Float64Array
  /** Years of the plan: how long a conversion waits, and how long a person's first Roth money; and by person the year of it, infinite before there is any. */
  conversionWait: number
  rothWait: number
  rothSince: Float64Array
  /** By account: 1 for one that was inherited; whether there is any; and account × year the part that must come out while its heir lives. */
  isInherited: Uint8Array
  hasInherited: boolean
  inheritedPart: Float64Array
  /** Whether any account ever pays evenly. */
  paysEvenly: boolean
  /** By account: months of even payments, from the first to before the last, −1 for none; its method as a place in `evenPaymentMethods`, the rate or annuity factor; a year's payment given, 0 for none. */
  evenFrom: Int32Array
  evenTo: Int32Array
  evenMethod: Uint8Array
  evenRate: Float64Array
  evenFactor: Float64Array
  evenAmount: Float64Array
  conversions: CompiledConversions
  /** By place in the order of spending: 0 for the whole account, else one of `accountParts`. */
  spendPart: Uint8Array
}
