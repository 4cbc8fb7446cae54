// Income of the return before Social Security benefits, and the adjustments that need no solving. Whole cents.
import type { HouseholdYear } from '../household-year.ts'
import type { LawYear } from '../law-year.ts'
import { wholeCents } from '../rounding.ts'
import type { BusinessLines } from './business-lines.ts'

/** Whole cents. */
export interface IncomeLines {
  /** Long-term and short-term gains less losses, with those carried here; and both together, not below the loss limit. */
  longTerm: number
  shortTerm: number
  gains: number
  /** Net long-term gain and qualified dividends, taxed at the lower rates. */
  preferred: number
  investmentIncome: number
  /** Losses of other years deducted; found with taxable income (`loss-lines.ts`). */
  netOperatingLoss: number
  /** All income but Social Security benefits, before losses of other years. */
  beforeBenefits: number
  benefits: number
  taxExemptInterest: number
  /** Half self-employment tax, retirement and health savings contributions. */
  adjustments: number
}

export const workIncome = (
  law: LawYear,
  household: HouseholdYear,
  business: BusinessLines,
  lines: IncomeLines,
): void => {
  const { carried } = household
  lines.longTerm =
    wholeCents(household.longTermGains) +
    Math.max(0, wholeCents(household.section1231)) -
    wholeCents(carried.longTermLoss)
  lines.shortTerm = wholeCents(household.shortTermGains) - wholeCents(carried.shortTermLoss)
  const net = lines.longTerm + lines.shortTerm
  lines.gains = Math.max(net, -law.capitalLossLimit[household.status]! * 100)
  lines.preferred = Math.max(0, Math.min(lines.longTerm, net)) + wholeCents(household.qualifiedDividends)
  lines.investmentIncome =
    wholeCents(household.interest) + wholeCents(household.ordinaryDividends) + lines.gains
  lines.netOperatingLoss = 0
  lines.beforeBenefits =
    business.wages +
    business.business +
    lines.investmentIncome +
    wholeCents(household.iraDistributions) +
    pensionsOf(household) +
    wholeCents(household.businessGains) +
    wholeCents(household.otherIncome) +
    wholeCents(household.healthSavingsTaxed)
  lines.benefits = wholeCents(household.socialSecurity)
  lines.taxExemptInterest = wholeCents(household.taxExemptInterest)
  lines.adjustments =
    business.half +
    wholeCents(household.traditionalIra) +
    wholeCents(household.sep) +
    wholeCents(household.hsa)
}

/** Of all who sign. */
export const pensionsOf = ({ pensions }: HouseholdYear): number =>
  wholeCents(pensions[0]!) + wholeCents(pensions[1]!)

export const noIncomeLines = (): IncomeLines => ({
  longTerm: 0,
  shortTerm: 0,
  gains: 0,
  preferred: 0,
  investmentIncome: 0,
  netOperatingLoss: 0,
  beforeBenefits: 0,
  benefits: 0,
  taxExemptInterest: 0,
  adjustments: 0,
})
