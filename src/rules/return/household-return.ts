// The federal return of one household and year, rounded to the cent line by line, with where each figure comes from.
import type { HouseholdTax, HouseholdYear } from '../fast/household-year.ts'
import type { LawYear } from '../law-year.ts'
import { inDollars } from '../rounding.ts'
import { cautionsFor } from './cautions.ts'
import type { ReturnLines, ReturnOptions } from './return-lines.ts'
import { workTaxesAndCredits } from './taxes-and-credits.ts'
import type { Trace } from './trace.ts'
import { traceReturn } from './trace-return.ts'
import { workBusiness, workCover, workIncome, workTaxableIncome } from './worksheet.ts'

export interface HouseholdReturn {
  /** The figures in dollars, as the fast form gives them. */
  figures: HouseholdTax
  lines: ReturnLines
  trace: Trace
  /** What this return leaves out or assumes, where it may matter for this household. */
  cautions: string[]
}

/** Works the whole return. Pure; amounts of `household` are rounded to the cent at entry. */
export const fileReturn = (
  law: LawYear,
  household: HouseholdYear,
  options: ReturnOptions = { taxTable: false },
): HouseholdReturn => {
  const lines = workReturn(law, household, options)
  return {
    figures: figuresOf(lines),
    lines,
    trace: traceReturn(law, household, lines, options),
    cautions: cautionsFor(law, household, lines),
  }
}

/** The lines alone, for callers that try many incomes. */
export const workReturn = (law: LawYear, household: HouseholdYear, options: ReturnOptions): ReturnLines => {
  const business = workBusiness(law, household)
  const income = workIncome(law, household, business)
  const cover = workCover(law, household, business, income)
  const taxable = workTaxableIncome(law, household, business, income, cover)
  const taxes = workTaxesAndCredits(law, household, business, income, cover, taxable, options.taxTable)
  return { business, income, cover, taxable, taxes }
}

const figuresOf = ({ business, income, cover, taxable, taxes }: ReturnLines): HouseholdTax => ({
  adjustedGrossIncome: inDollars(taxable.adjustedGrossIncome),
  householdIncome: inDollars(cover.householdIncome),
  povertyPercent: cover.povertyPercent,
  deduction: inDollars(taxable.deduction),
  qbiDeduction: inDollars(taxable.qbiDeduction),
  taxableIncome: inDollars(taxable.taxableIncome),
  incomeTax: inDollars(taxes.regularTax + taxes.minimumTax),
  selfEmploymentTax: inDollars(business.tax),
  additionalMedicareTax: inDollars(taxes.additionalMedicare),
  netInvestmentIncomeTax: inDollars(taxes.investmentTax),
  selfEmployedHealthDeduction: inDollars(cover.deduction + cover.otherDeduction),
  premiumTaxCredit: inDollars(cover.credit),
  excessAdvance: inDollars(cover.excessAdvance),
  childTaxCredit: inDollars(taxes.childCredit),
  additionalChildTaxCredit: inDollars(taxes.additionalChildCredit),
  earnedIncomeCredit: inDollars(taxes.earnedIncomeCredit),
  saversCredit: inDollars(taxes.saversCredit),
  dependentCareCredit: inDollars(taxes.dependentCare),
  taxableSocialSecurity: inDollars(taxable.taxableBenefits),
  earlyWithdrawalTax: inDollars(taxes.earlyWithdrawal),
  totalTax: inDollars(taxes.totalTax),
  totalPayments: inDollars(taxes.totalPayments),
  balanceDue: inDollars(taxes.totalTax - taxes.totalPayments),
  method: cover.method,
  alternativeMinimumTax: inDollars(taxes.minimumTax),
  netSelfEmploymentEarnings: [0, 1].map((place) => inDollars(business.people[place]?.netEarnings ?? 0)),
  medicareIncome: inDollars(taxable.adjustedGrossIncome + income.taxExemptInterest),
  netPremium: inDollars(cover.cover.premium - cover.credit),
})
