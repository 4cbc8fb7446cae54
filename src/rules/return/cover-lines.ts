// Marketplace cover on the return: the health deduction and the premium credit solved together, and the advance settled.
import { marriedSeparate, single } from '../filing-status.ts'
import { type HouseholdYear, householdSize } from '../household-year.ts'
import type { LawYear } from '../law-year.ts'
import {
  type DeductionAndCredit,
  type DeductionCase,
  solveDeductionAndCredit,
} from '../marketplace/deduction-and-credit.ts'
import {
  type Cover,
  medicaidLineCents,
  povertyLineCents,
  repayment,
  wholePercent,
} from '../marketplace/premium-credit.ts'
import { wholeCents } from '../rounding.ts'
import type { BusinessLines } from './business-lines.ts'
import type { IncomeLines } from './income-lines.ts'

/** Whole cents. */
export interface CoverLines extends DeductionAndCredit {
  cover: Cover
  from: DeductionCase
  size: number
  /** Deduction for other health premiums (Medicare, dental), taken before the marketplace premiums. */
  otherDeduction: number
  /** Both deductions for health premiums. */
  healthDeduction: number
  householdIncome: number
  povertyPercent: number
  excessAdvance: number
}

export const workCover = (
  law: LawYear,
  household: HouseholdYear,
  business: BusinessLines,
  income: IncomeLines,
  lines: CoverLines,
): void => {
  lines.size = householdSize(household)
  lines.otherDeduction = Math.min(wholeCents(household.otherHealthPremiums), business.earnedLimit)
  fillCover(law, household, lines.size, lines.cover)
  fillCase(household, business, income, lines.otherDeduction, lines.from)
  solveDeductionAndCredit(law, lines.cover, lines.from, lines)
  lines.healthDeduction = lines.deduction + lines.otherDeduction
  lines.householdIncome = lines.from.incomeBefore - lines.deduction
  lines.povertyPercent = wholePercent(lines.householdIncome, lines.cover.povertyLine)
  lines.excessAdvance = repayment(law, lines.cover, lines.householdIncome, lines.cover.advance - lines.credit)
}

const fillCover = (law: LawYear, household: HouseholdYear, size: number, cover: Cover): void => {
  const months = household.coverMonths
  cover.povertyLine = povertyLineCents(law, household.region, size)
  cover.medicaidLine = household.medicaidExpansion === 1 ? medicaidLineCents(law, household.region, size) : 0
  cover.months = months
  cover.premium = wholeCents(household.premiumMonthly) * months
  cover.benchmark = wholeCents(household.benchmarkMonthly) * months
  cover.advance = wholeCents(household.advanceMonthly) * months
  cover.creditAllowed = household.status === marriedSeparate ? 0 : 1
  cover.repaymentSingle = household.status === single ? 1 : 0
}

const fillCase = (
  household: HouseholdYear,
  business: BusinessLines,
  income: IncomeLines,
  otherDeduction: number,
  from: DeductionCase,
): void => {
  from.deductibleMonths = Math.min(household.coverMonths, household.deductibleMonths)
  from.deductiblePremium = wholeCents(household.premiumMonthly) * from.deductibleMonths
  from.earnedLimit = business.earnedLimit - otherDeduction
  from.incomeBefore =
    income.beforeBenefits -
    income.netOperatingLoss -
    income.adjustments -
    otherDeduction +
    income.benefits +
    income.taxExemptInterest +
    wholeCents(household.dependantsIncome)
}

export const noCoverLines = (): CoverLines => ({
  deduction: 0,
  credit: 0,
  method: 0,
  cover: {
    povertyLine: 0,
    medicaidLine: 0,
    months: 0,
    premium: 0,
    benchmark: 0,
    advance: 0,
    creditAllowed: 0,
    repaymentSingle: 0,
  },
  from: { incomeBefore: 0, earnedLimit: 0, deductiblePremium: 0, deductibleMonths: 0 },
  size: 0,
  otherDeduction: 0,
  healthDeduction: 0,
  householdIncome: 0,
  povertyPercent: 0,
  excessAdvance: 0,
})
