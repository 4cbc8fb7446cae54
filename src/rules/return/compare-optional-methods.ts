// The farm and nonfarm optional methods beside the regular one: what each costs this year and what it earns at Social Security.

import { emptyHouseholdTax, type HouseholdYear } from '../household-year.ts'
import type { LawYear } from '../law-year.ts'
import { assessHousehold } from './assess-household.ts'

/** Dollars; quarters of coverage per person from self-employment, 0 to 4. */
export interface MethodOutcome {
  method: 'regular' | 'farm optional' | 'nonfarm optional' | 'both optional'
  selfEmploymentTax: number
  /** Tax less payments of the whole return: above 0 is owed. */
  balanceDue: number
  netEarnings: number[]
  quarters: number[]
}

/**
 * The whole return under each method, for everyone on it whose gross income is known. The optional methods can earn quarters
 * and credits in a poor year; the nonfarm one may be used five times in a life and needs earlier net earnings of 400 dollars
 * in two of three years, which is the household's to know.
 */
export const compareOptionalMethods = (law: LawYear, household: HouseholdYear): MethodOutcome[] => {
  const hasFarm = household.farmGross.some((gross) => gross > 0)
  const hasOther = household.nonfarmGross.some((gross) => gross > 0)
  const outcomes = [outcome(law, household, 'regular', 0, 0)]
  if (hasFarm) outcomes.push(outcome(law, household, 'farm optional', 1, 0))
  if (hasOther) outcomes.push(outcome(law, household, 'nonfarm optional', 0, 1))
  if (hasFarm && hasOther) outcomes.push(outcome(law, household, 'both optional', 1, 1))
  return outcomes
}

const outcome = (
  law: LawYear,
  household: HouseholdYear,
  method: MethodOutcome['method'],
  farm: number,
  other: number,
): MethodOutcome => {
  const tax = emptyHouseholdTax()
  assessHousehold(law, { ...household, farmOptional: [farm, farm], nonfarmOptional: [other, other] }, tax)
  const perQuarter = law.optionalMethodMax / 4
  return {
    method,
    selfEmploymentTax: tax.selfEmploymentTax,
    balanceDue: tax.balanceDue,
    netEarnings: tax.netSelfEmploymentEarnings,
    quarters: tax.netSelfEmploymentEarnings.map((net) => Math.min(4, Math.floor(net / perQuarter))),
  }
}
