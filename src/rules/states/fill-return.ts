// What the federal return of a household gives its state: figures in dollars under the names of the states' rules.
import { marriedJoint, survivingSpouse } from '../filing-status.ts'
import type { HouseholdYear } from '../household-year.ts'
import type { LawYear } from '../law-year.ts'
import { taxedWages } from '../return/business-lines.ts'
import type { ReturnLines } from '../return/return-lines.ts'
import { person, type ReturnForm, setEach, setFigure, whole } from './return-form.ts'

/** Overwrites all of `form` that does not depend on the state. Amounts that a couple's return has in one sum are halved. */
export const fillStateReturn = (
  law: LawYear,
  household: HouseholdYear,
  lines: ReturnLines,
  form: ReturnForm,
): void => {
  fillPeople(household, form)
  fillEarned(law, lines, form)
  fillUnearned(household, lines, form)
  fillFederal(household, lines, form)
  fillFromLaw(law, household, form)
}

/** A surviving spouse with a child has the joint tables. */
const fillPeople = (household: HouseholdYear, form: ReturnForm): void => {
  form.status = household.status === survivingSpouse ? marriedJoint : household.status
  form.filers = household.people
  for (let filer = 0; filer < 2; filer += 1) {
    form.age[filer] = household.age[filer]!
    form.blind[filer] = household.blind[filer]!
  }
  const { childrenUnder17, otherDependents, dependentAges } = household
  form.dependents = childrenUnder17 + otherDependents
  for (let k = 0; k < form.dependents; k += 1)
    form.dependentAge[k] = dependentAges[k] ?? (k < childrenUnder17 ? ageUntold : ageUntoldFrom17)
  form.children = household.earnedCreditChildren
}

/** Of dependents whose ages are not told: neither small nor nearly grown, and grown. */
const ageUntold = 10
const ageUntoldFrom17 = 19

const dollars = (cents: number): number => cents / 100

const fillEarned = (law: LawYear, { business }: ReturnLines, form: ReturnForm): void => {
  const first = business.people[0]
  const second = business.people[1]
  const profit = dollars(first.farmProfit + first.otherProfit)
  const profitOfSecond = dollars(second.farmProfit + second.otherProfit)
  setEach(form, person.wages, dollars(taxedWages(first)), dollars(taxedWages(second)))
  setEach(form, person.selfEmployment, profit, profitOfSecond)
  setEach(form, person.halfSeTax, dollars(first.half), dollars(second.half))
  setEach(form, person.seTax, dollars(first.tax), dollars(second.tax))
  setEach(form, person.ficaTax, withheld(law, first.wages), withheld(law, second.wages))
}

const fillUnearned = (
  household: HouseholdYear,
  { business, income, taxable }: ReturnLines,
  form: ReturnForm,
): void => {
  setEach(form, person.pension, household.pensions[0]!, household.pensions[1]!)
  setSplit(form, person.ira, household.iraDistributions, household.secondIraDistributions)
  setEach(form, person.iraInherited, household.inheritedIra[0]!, household.inheritedIra[1]!)
  setSplit(form, person.socialSecurity, household.socialSecurity, household.secondSocialSecurity)
  const taxed = taxable.taxableBenefits === 0 ? 0 : taxable.taxableBenefits / income.benefits
  setSplit(
    form,
    person.socialSecurityTaxable,
    household.socialSecurity * taxed,
    household.secondSocialSecurity * taxed,
  )
  setHalves(form, person.interest, household.interest)
  setHalves(form, person.dividends, household.ordinaryDividends)
  setHalves(form, person.qualifiedDividends, household.qualifiedDividends)
  setHalves(form, person.longTermGains, dollars(income.longTerm))
  setHalves(form, person.shortTermGains, dollars(income.shortTerm))
  setHalves(form, person.farmGains, Math.max(0, household.section1231))
  setHalves(form, person.exemptInterest, household.taxExemptInterest)
  setHalves(form, person.usInterest, 0)
  setHalves(form, person.rental, 0)
  // A loss on business property is ordinary; so is what a loss limit gives back.
  const others = dollars(business.business - business.farmProfit - business.otherProfit)
  setSplit(
    form,
    person.other,
    household.businessGains + household.otherIncome + household.healthSavingsTaxed + others,
    0,
  )
}

const setSplit = (form: ReturnForm, place: number, all: number, ofSecond: number): void =>
  form.filers === 2 ? setEach(form, place, all - ofSecond, ofSecond) : setEach(form, place, all, 0)

const setHalves = (form: ReturnForm, place: number, all: number): void =>
  setSplit(form, place, all, form.filers === 2 ? all / 2 : 0)

/** Social Security and Medicare tax withheld from wages: half of the self-employed rates. */
const withheld = (law: LawYear, wages: number): number =>
  dollars(
    (Math.min(wages, law.wageBase * 100) * law.selfEmploymentSocialSecurityRate +
      wages * law.selfEmploymentMedicareRate) /
      2,
  )

const fillFederal = (
  household: HouseholdYear,
  { income, cover, taxable, taxes }: ReturnLines,
  form: ReturnForm,
): void => {
  const credits = taxes.dependentCare + taxes.saversCredit + taxes.childCredit
  setFigure(form, whole.federalAgi, dollars(taxable.adjustedGrossIncome))
  setFigure(form, whole.federalTaxable, dollars(taxable.taxableIncome))
  setFigure(form, whole.federalTax, Math.max(0, dollars(taxes.regularTax + taxes.minimumTax - credits)))
  setFigure(form, whole.eitc, dollars(taxes.earnedIncomeCredit))
  setFigure(form, whole.childCredit, dollars(taxes.childCredit + taxes.additionalChildCredit))
  setFigure(form, whole.childCreditRefundable, dollars(taxes.additionalChildCredit))
  setFigure(form, whole.qbi, dollars(taxable.qbiDeduction))
  setFigure(form, whole.adjustments, dollars(income.adjustments + cover.healthDeduction))
  setFigure(form, whole.seniorDeduction, dollars(taxable.senior))
  setFigure(form, whole.propertyTax, household.propertyTax)
  setFigure(form, whole.rent, household.rent)
  setFigure(form, whole.priorYearTax, 0)
  setFigure(form, whole.qualifiedProduction, 0)
  setFigure(form, whole.healthSavings, household.hsa)
  setFigure(form, whole.coupleAgedCount, taxable.aged)
  setFigure(
    form,
    whole.coupleAgiLessSocialSecurity,
    dollars(taxable.adjustedGrossIncome - taxable.taxableBenefits),
  )
}

const fillFromLaw = (law: LawYear, household: HouseholdYear, form: ReturnForm): void => {
  setFigure(form, whole.federalBasicDeduction, law.standardDeduction[household.status]!)
  setFigure(form, whole.federalAgedAddition, law.agedOrBlindAddition[household.status]!)
  setFigure(form, whole.povertyFirst, law.medicaidPovertyFirst[household.region]!)
  setFigure(form, whole.povertyEach, law.medicaidPovertyAdditional[household.region]!)
  setFigure(form, whole.capitalLossLimit, law.capitalLossLimit[household.status]!)
}
