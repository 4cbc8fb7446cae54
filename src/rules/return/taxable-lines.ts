// From income to taxable income: taxed benefits, adjusted gross income, deductions, the qualified business deduction. Whole cents.
import type { HouseholdYear } from '../household-year.ts'
import type { LawYear } from '../law-year.ts'
import { wholeCents } from '../rounding.ts'
import type { BusinessLines } from './business-lines.ts'
import type { CoverLines } from './cover-lines.ts'
import { seniorDeduction, standardDeduction } from './deductions.ts'
import type { IncomeLines } from './income-lines.ts'
import { type QualifiedBusiness, qualifiedBusinessDeduction } from './qualified-business.ts'
import { taxableBenefits } from './taxable-benefits.ts'

/** Whole cents. */
export interface TaxableLines {
  taxableBenefits: number
  adjustedGrossIncome: number
  /** How many on the return are 65 or older at year end. */
  aged: number
  standard: number
  itemized: number
  senior: number
  deduction: number
  business: QualifiedBusiness
  /** Business income below zero with what was carried here: it lowers that of the next year (26 USC 199A(c)(2)). */
  qualifiedLoss: number
  qbiDeduction: number
  taxableIncome: number
}

export const workTaxableIncome = (
  law: LawYear,
  household: HouseholdYear,
  business: BusinessLines,
  income: IncomeLines,
  cover: CoverLines,
  lines: TaxableLines,
): void => {
  const { status } = household
  const withoutBenefits =
    income.beforeBenefits - income.netOperatingLoss - income.adjustments - cover.healthDeduction
  const otherIncome = withoutBenefits + income.taxExemptInterest
  lines.taxableBenefits = taxableBenefits(law, status, income.benefits, otherIncome)
  lines.adjustedGrossIncome = withoutBenefits + lines.taxableBenefits
  takeDeductions(law, household, lines)
  const taxableBefore = Math.max(0, lines.adjustedGrossIncome - lines.deduction)
  const qualified =
    business.farmProfit +
    business.otherProfit +
    business.section1231Loss +
    wholeCents(household.businessGains) -
    business.half -
    cover.healthDeduction -
    wholeCents(household.sep) -
    wholeCents(household.carried.qualifiedBusiness)
  lines.qualifiedLoss = Math.max(0, -qualified)
  lines.business.income = Math.max(0, qualified)
  lines.business.activeIncome = lines.business.income
  lines.business.wagesPaid = wholeCents(household.businessWages)
  lines.business.property = wholeCents(household.businessProperty)
  lines.business.taxableBefore = taxableBefore
  lines.business.gains = income.preferred
  lines.qbiDeduction = qualifiedBusinessDeduction(law, status, lines.business)
  lines.taxableIncome = taxableBefore - lines.qbiDeduction
}

const takeDeductions = (law: LawYear, household: HouseholdYear, lines: TaxableLines): void => {
  let blind = 0
  lines.aged = 0
  for (let place = 0; place < household.people; place += 1) {
    if (household.age[place]! >= 65) lines.aged += 1
    if (household.blind[place] === 1) blind += 1
  }
  lines.standard = standardDeduction(law, household.status, lines.aged, blind)
  lines.itemized = wholeCents(household.itemized)
  lines.senior = seniorDeduction(law, household.status, lines.aged, lines.adjustedGrossIncome)
  lines.deduction = Math.max(lines.standard, lines.itemized) + lines.senior
}

export const noTaxableLines = (): TaxableLines => ({
  taxableBenefits: 0,
  adjustedGrossIncome: 0,
  aged: 0,
  standard: 0,
  itemized: 0,
  senior: 0,
  deduction: 0,
  business: { income: 0, activeIncome: 0, wagesPaid: 0, property: 0, taxableBefore: 0, gains: 0 },
  qualifiedLoss: 0,
  qbiDeduction: 0,
  taxableIncome: 0,
})
