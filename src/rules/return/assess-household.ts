// The figures of a return in dollars, written where the caller keeps them: what projections call millions of times.
import type { Carryforwards } from '../carryforwards.ts'
import type { HouseholdTax, HouseholdYear } from '../household-year.ts'
import type { LawYear } from '../law-year.ts'
import { localTaxApart, stateTaxOf } from '../states/state-law.ts'
import { emptyReturnLines, type ReturnLines, workReturn } from './return-lines.ts'

/** Reads `household`, writes every field of `out`, keeps nothing, allocates nothing. The law comes from `lawFor` of `../law.ts`. */
export const assessHousehold = (law: LawYear, household: HouseholdYear, out: HouseholdTax): void => {
  workReturn(law, household, scratch, false)
  writeFigures(scratch, out)
  out.stateIncomeTax = stateTaxOf(law, household, scratch)
  out.localIncomeTax = household.state === null ? 0 : localTaxApart(household.state)
}

// A thread works one return at a time.
const scratch = emptyReturnLines()

/** The figures of worked lines, in dollars; the state's tax is none of them. */
export const writeFigures = (
  { business, income, cover, taxable, taxes, left }: ReturnLines,
  out: HouseholdTax,
): void => {
  out.adjustedGrossIncome = taxable.adjustedGrossIncome / 100
  out.householdIncome = cover.householdIncome / 100
  out.povertyPercent = cover.povertyPercent
  out.deduction = taxable.deduction / 100
  out.qbiDeduction = taxable.qbiDeduction / 100
  out.netOperatingLossDeduction = income.netOperatingLoss / 100
  out.taxableIncome = taxable.taxableIncome / 100
  out.preferredIncome = Math.max(0, Math.min(taxable.taxableIncome, income.preferred)) / 100
  out.averagedFarmIncome = taxes.averaged.elected / 100
  out.incomeTax = (taxes.regularTax + taxes.minimumTax) / 100
  out.selfEmploymentTax = business.tax / 100
  out.additionalMedicareTax = taxes.additionalMedicare / 100
  out.netInvestmentIncomeTax = taxes.investmentTax / 100
  out.selfEmployedHealthDeduction = cover.healthDeduction / 100
  out.premiumTaxCredit = cover.credit / 100
  out.excessAdvance = cover.excessAdvance / 100
  out.childTaxCredit = taxes.childCredit / 100
  out.additionalChildTaxCredit = taxes.additionalChildCredit / 100
  out.earnedIncomeCredit = taxes.earnedIncomeCredit / 100
  out.saversCredit = taxes.saversCredit / 100
  out.dependentCareCredit = taxes.dependentCare / 100
  out.taxableSocialSecurity = taxable.taxableBenefits / 100
  out.earlyWithdrawalTax = taxes.earlyWithdrawal / 100
  out.healthSavingsTax = taxes.healthSavings / 100
  out.totalTax = taxes.totalTax / 100
  out.totalPayments = taxes.totalPayments / 100
  out.balanceDue = (taxes.totalTax - taxes.totalPayments) / 100
  out.method = cover.method
  out.alternativeMinimumTax = taxes.minimumTax / 100
  out.netSelfEmploymentEarnings[0] = business.people[0].netEarnings / 100
  out.netSelfEmploymentEarnings[1] = business.people[1].netEarnings / 100
  out.medicareIncome = (taxable.adjustedGrossIncome + income.taxExemptInterest) / 100
  out.netPremium = (cover.cover.premium - cover.credit) / 100
  writeCarryforwards(left, out.carried)
}

const writeCarryforwards = (left: Carryforwards, out: Carryforwards): void => {
  out.netOperatingLoss = left.netOperatingLoss / 100
  out.farmLoss = left.farmLoss / 100
  out.qualifiedBusiness = left.qualifiedBusiness / 100
  out.shortTermLoss = left.shortTermLoss / 100
  out.longTermLoss = left.longTermLoss / 100
  out.section179 = left.section179 / 100
}
