// Tax on what a year has brought so far: what should lie aside today, before credits that may come back in spring.
import { assessHousehold } from './fast/assess-household.ts'
import { emptyHouseholdTax, type HouseholdYear } from './fast/household-year.ts'
import type { LawYear } from './law-year.ts'

/** Dollars from the books since 1 January. `farmProfit` is line 34 of Schedule F, after depreciation where it is known. */
export interface YearSoFar {
  farmProfit: number
  farmGross: number
  otherSelfEmployment: number
  wages: number
  interest: number
  otherIncome: number
  /** Income tax withheld or paid ahead for this year. */
  paid: number
}

/** Dollars. */
export interface TaxSoFar {
  selfEmploymentTax: number
  /** Income tax after the saver's and child credits, with the other taxes of the return. */
  incomeTax: number
  total: number
  paid: number
  /** What should lie aside for the tax on what came in so far; never below 0. */
  setAside: number
  /** Refundable credits on the same figures: they come with the return, not before. */
  mayComeBack: number
}

/**
 * As if the year ended today. The household says who files and how the farm's profit is shared; its amounts of income are
 * replaced. Marketplace premiums are left out: what they lower is small and known only with the whole year's income.
 */
export const taxSoFar = (
  law: LawYear,
  household: HouseholdYear,
  soFar: YearSoFar,
  farmShareOfFirst: number,
): TaxSoFar => {
  const out = emptyHouseholdTax()
  const shares = household.people === 2 ? [farmShareOfFirst, 1 - farmShareOfFirst] : [1, 0]
  assessHousehold(
    law,
    {
      ...household,
      farmProfit: shares.map((share) => soFar.farmProfit * share),
      farmGross: shares.map((share) => soFar.farmGross * share),
      otherSelfEmployment: [soFar.otherSelfEmployment, 0],
      wages: [soFar.wages, 0],
      interest: soFar.interest,
      otherIncome: soFar.otherIncome,
      withheld: 0,
      estimated: 0,
      coverMonths: 0,
    },
    out,
  )
  const incomeTax = out.totalTax - out.selfEmploymentTax
  return {
    selfEmploymentTax: out.selfEmploymentTax,
    incomeTax,
    total: out.totalTax,
    paid: soFar.paid,
    setAside: Math.max(0, out.totalTax - soFar.paid),
    mayComeBack: out.earnedIncomeCredit + out.additionalChildTaxCredit,
  }
}
