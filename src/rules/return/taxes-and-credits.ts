// The last part of the return in whole cents: taxes, credits in the order the forms allow them, payments and what is owed.
import type { HouseholdYear } from '../fast/household-year.ts'
import type { LawYear } from '../law-year.ts'
import { atRate, wholeCents } from '../rounding.ts'
import { careCredit } from './care-credit.ts'
import { childCredit } from './child-credit.ts'
import { earnedIncomeCredit } from './earned-income-credit.ts'
import { incomeTax } from './income-tax.ts'
import {
  additionalMedicareTax,
  earlyWithdrawalTax,
  minimumTax,
  netInvestmentIncomeTax,
} from './other-taxes.ts'
import { saversCredit } from './savers-credit.ts'
import type { BusinessLines, CoverLines, IncomeLines, TaxableLines } from './worksheet.ts'

/** Whole cents. */
export interface TaxLines {
  regularTax: number
  minimumTax: number
  additionalMedicare: number
  investmentTax: number
  earlyWithdrawal: number
  dependentCare: number
  saversCredit: number
  earnedIncome: number
  earnedIncomeCredit: number
  childCredit: number
  additionalChildCredit: number
  totalTax: number
  totalPayments: number
}

export const workTaxesAndCredits = (
  law: LawYear,
  household: HouseholdYear,
  business: BusinessLines,
  income: IncomeLines,
  cover: CoverLines,
  taxable: TaxableLines,
  table: boolean,
): TaxLines => {
  const { status } = household
  const { adjustedGrossIncome } = taxable
  const taxes = workTaxes(law, household, business, income, taxable, table)
  // Schedule 2 puts an advance credit paid back among the taxes that nonrefundable credits may use up.
  const beforeCredits = taxes.regularTax + taxes.minimumTax + cover.excessAdvance
  const care = careCredit(law, status, {
    costs: wholeCents(household.careCosts),
    children: household.careChildren,
    leastEarned: Math.min(
      ...business.people.map(
        (person, place) => wholeCents(household.wages[place]!) + person.earned - person.half,
      ),
    ),
    adjustedGrossIncome,
    taxLeft: beforeCredits,
  })
  const savers = saversCredit(law, status, {
    people: household.people,
    contributions: wholeCents(household.traditionalIra) + wholeCents(household.rothIra),
    distributions: wholeCents(household.iraDistributions),
    adjustedGrossIncome,
    taxLeft: beforeCredits - care,
  })
  const earnedIncome = income.wages + business.earned - business.half
  const earned = earnedIncomeCredit(
    law,
    status,
    {
      children: household.earnedCreditChildren,
      ageAllows: household.age.slice(0, household.people).some((age) => age >= 25 && age < 65),
      earnedIncome,
      adjustedGrossIncome,
      investmentIncome: income.investmentIncome - Math.min(0, income.gains) + income.taxExemptInterest,
    },
    table,
  )
  const child = childCredit(law, status, {
    childrenUnder17: household.childrenUnder17,
    otherDependants: household.otherDependants,
    adjustedGrossIncome,
    taxLeft: beforeCredits - care - savers,
    earnedIncome,
    socialTaxes: business.half + withheldFromWages(law, household),
    earnedIncomeCredit: earned,
  })
  const others = business.tax + taxes.additionalMedicare + taxes.investmentTax + taxes.earlyWithdrawal
  const netCredit = Math.max(0, cover.credit - cover.cover.advance)
  return {
    ...taxes,
    dependentCare: care,
    saversCredit: savers,
    earnedIncome,
    earnedIncomeCredit: earned,
    childCredit: child.credit,
    additionalChildCredit: child.additional,
    totalTax: beforeCredits - care - savers - child.credit + others,
    totalPayments:
      wholeCents(household.withheld) +
      wholeCents(household.estimated) +
      earned +
      child.additional +
      netCredit,
  }
}

const workTaxes = (
  law: LawYear,
  household: HouseholdYear,
  business: BusinessLines,
  income: IncomeLines,
  taxable: TaxableLines,
  table: boolean,
) => {
  const { status } = household
  const { adjustedGrossIncome, taxableIncome, itemized, standard, qbiDeduction } = taxable
  const regularTax = incomeTax(law, status, taxableIncome, income.preferred, table)
  const minimumIncome = adjustedGrossIncome - (itemized > standard ? itemized : 0) - qbiDeduction
  return {
    regularTax,
    minimumTax: minimumTax(law, status, minimumIncome, taxableIncome, income.preferred, regularTax),
    additionalMedicare: additionalMedicareTax(law, status, income.wages, business.netEarnings),
    investmentTax: netInvestmentIncomeTax(law, status, income.investmentIncome, adjustedGrossIncome),
    earlyWithdrawal: earlyWithdrawalTax(law, wholeCents(household.earlyWithdrawalAmount)),
  }
}

/** Social Security and Medicare tax the employers withheld: the employee's half of the self-employment rates. */
const withheldFromWages = (law: LawYear, household: HouseholdYear): number => {
  let withheld = 0
  for (let place = 0; place < household.people; place += 1) {
    const wages = wholeCents(household.wages[place]!)
    withheld +=
      atRate(Math.min(wages, law.wageBase * 100), law.selfEmploymentSocialSecurityRate / 2) +
      atRate(wages, law.selfEmploymentMedicareRate / 2)
  }
  return withheld
}
