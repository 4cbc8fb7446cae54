// Income of the return before Social Security benefits, and the adjustments that need no solving. Whole cents.
import type { HouseholdYear } from '../household-year.ts'
import type { LawYear } from '../law-year.ts'
import { wholeCents } from '../rounding.ts'
import type { BusinessLines } from './business-lines.ts'

/** Whole cents. */
export interface IncomeLines {
  /** Gains less losses, not below the loss limit. */
  gains: number
  /** Net long-term gain and qualified dividends, taxed at the lower rates. */
  preferred: number
  investmentIncome: number
  /** All income but Social Security benefits. */
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
  const longTerm = wholeCents(household.longTermGains)
  const net = longTerm + wholeCents(household.shortTermGains)
  lines.gains = Math.max(net, -law.capitalLossLimit[household.status]! * 100)
  lines.preferred = Math.max(0, Math.min(longTerm, net)) + wholeCents(household.qualifiedDividends)
  lines.investmentIncome =
    wholeCents(household.interest) + wholeCents(household.ordinaryDividends) + lines.gains
  lines.beforeBenefits =
    business.wages +
    business.business +
    lines.investmentIncome +
    wholeCents(household.iraDistributions) +
    wholeCents(household.otherIncome)
  lines.benefits = wholeCents(household.socialSecurity)
  lines.taxExemptInterest = wholeCents(household.taxExemptInterest)
  lines.adjustments =
    business.half +
    wholeCents(household.traditionalIra) +
    wholeCents(household.sep) +
    wholeCents(household.hsa)
}

export const noIncomeLines = (): IncomeLines => ({
  gains: 0,
  preferred: 0,
  investmentIncome: 0,
  beforeBenefits: 0,
  benefits: 0,
  taxExemptInterest: 0,
  adjustments: 0,
})
