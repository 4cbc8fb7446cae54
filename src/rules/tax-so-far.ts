// Tax on what a year has brought so far: what should lie aside today, before credits that may come back in spring.

import { emptyHouseholdTax, type HouseholdYear } from './household-year.ts'
import type { LawYear } from './law-year.ts'
import { assessHousehold } from './return/assess-household.ts'

/** Dollars. */
export interface TaxSoFar {
  selfEmploymentTax: number
  /** Income tax after the saver's and child credits, with the other taxes of the return. */
  incomeTax: number
  total: number
  paid: number
  /** What should lie aside for the tax on what came in so far; never below 0. */
  setAside: number
  /** By the state's return, refundable credits taken off: below zero the state pays. Not in the figures above. */
  stateTax: number
  /** Refundable credits on the same figures: they come with the return, not before. */
  mayComeBack: number
}

/**
 * As if the year ended today with the household's income so far, by the same return as the year's worksheet; what is withheld and
 * estimated is what was paid. Premium credit that would come back is in no figure; what of it must be paid back is in the total.
 */
export const taxSoFar = (law: LawYear, household: HouseholdYear): TaxSoFar => {
  const out = emptyHouseholdTax()
  assessHousehold(law, household, out)
  const paid = household.withheld + household.estimated
  return {
    selfEmploymentTax: out.selfEmploymentTax,
    incomeTax: out.totalTax - out.selfEmploymentTax,
    total: out.totalTax,
    paid,
    setAside: Math.max(0, out.totalTax - paid),
    stateTax: out.stateIncomeTax,
    mayComeBack: out.earnedIncomeCredit + out.additionalChildTaxCredit,
  }
}
