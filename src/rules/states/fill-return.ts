// What the federal return of a household gives its state: figures in dollars under the names of the states' rules.
import { marriedJoint, survivingSpouse } from '../filing-status.ts'
import type { HouseholdYear } from '../household-year.ts'
import type { LawYear } from '../law-year.ts'
import type { ReturnLines } from '../return/return-lines.ts'
import { places, type ReturnForm, setEach, setFigure } from './return-form.ts'

/** Overwrites all of `form` that does not depend on the state. Amounts that a couple's return has in one sum are halved. */
export const fillStateReturn = (
  law: LawYear,
  household: HouseholdYear,
  lines: ReturnLines,
  form: ReturnForm,
): void => {
  fillPeople(household, form)
  fillIncome(law, household, lines, form)
  fillFederal(law, household, lines, form)
}

/** A surviving spouse with a child has the joint tables. */
const fillPeople = (household: HouseholdYear, form: ReturnForm): void => {
  form.status = household.status === survivingSpouse ? marriedJoint : household.status
  form.filers = household.people
  for (let filer = 0; filer < 2; filer += 1) {
    form.age[filer] = household.age[filer]!
    form.blind[filer] = household.blind[filer]!
  }
  const { childrenUnder17, otherDependants, dependantAges } = household
  form.dependants = childrenUnder17 + otherDependants
  for (let k = 0; k < form.dependants; k += 1)
    form.dependantAge[k] = dependantAges[k] ?? (k < childrenUnder17 ? ageUntold : ageUntoldFrom17)
  form.children = household.earnedCreditChildren
}

/** Of dependants whose ages are not told: neither small nor nearly grown, and grown. */
const ageUntold = 10
const ageUntoldFrom17 = 19

const dollars = (cents: number): number => cents / 100

const fillIncome = (law: LawYear, household: HouseholdYear, lines: ReturnLines, form: ReturnForm): void => {
  const { business, income, taxable } = lines
  const [first, second] = business.people
  const profit = dollars(first.farmProfit + first.otherProfit)
  const profitOfSecond = dollars(second.farmProfit + second.otherProfit)
  setEach(form, places.wages, dollars(first.wages), dollars(second.wages))
  setEach(form, places.selfEmployment, profit, profitOfSecond)
  setEach(form, places.halfSeTax, dollars(first.half), dollars(second.half))
  setEach(form, places.seTax, dollars(first.tax), dollars(second.tax))
  setEach(form, places.ficaTax, withheld(law, first.wages), withheld(law, second.wages))
  setEach(form, places.pension, 0, 0)
  setSplit(form, places.ira, household.iraDistributions, household.secondIraDistributions)
  setSplit(form, places.socialSecurity, household.socialSecurity, household.secondSocialSecurity)
  const taxed = taxable.taxableBenefits === 0 ? 0 : taxable.taxableBenefits / income.benefits
  setSplit(
    form,
    places.socialSecurityTaxable,
    household.socialSecurity * taxed,
    household.secondSocialSecurity * taxed,
  )
  setHalves(form, places.interest, household.interest)
  setHalves(form, places.dividends, household.ordinaryDividends)
  setHalves(form, places.qualifiedDividends, household.qualifiedDividends)
  setHalves(form, places.longTermGains, dollars(income.longTerm))
  setHalves(form, places.shortTermGains, dollars(income.shortTerm))
  setHalves(form, places.farmGains, Math.max(0, household.section1231))
  setHalves(form, places.exemptInterest, household.taxExemptInterest)
  setHalves(form, places.usInterest, 0)
  setHalves(form, places.rental, 0)
  // A loss on business property is ordinary; so is what a loss limit gives back.
  const others = dollars(business.business - business.farmProfit - business.otherProfit)
  setSplit(form, places.other, household.otherIncome + others, 0)
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

const fillFederal = (law: LawYear, household: HouseholdYear, lines: ReturnLines, form: ReturnForm): void => {
  const { income, cover, taxable, taxes } = lines
  const set = (place: number, amount: number) => setFigure(form, place, amount)
  const credits = taxes.dependentCare + taxes.saversCredit + taxes.childCredit
  set(places.federalAgi, dollars(taxable.adjustedGrossIncome))
  set(places.federalTaxable, dollars(taxable.taxableIncome))
  set(places.federalTax, Math.max(0, dollars(taxes.regularTax + taxes.minimumTax - credits)))
  set(places.eitc, dollars(taxes.earnedIncomeCredit))
  set(places.childCredit, dollars(taxes.childCredit + taxes.additionalChildCredit))
  set(places.childCreditRefundable, dollars(taxes.additionalChildCredit))
  set(places.qbi, dollars(taxable.qbiDeduction))
  set(places.adjustments, dollars(income.adjustments + cover.healthDeduction))
  set(places.seniorDeduction, dollars(taxable.senior))
  set(places.propertyTax, 0)
  set(places.rent, 0)
  set(places.priorYearTax, 0)
  set(places.qualifiedProduction, 0)
  set(places.federalBasicDeduction, law.standardDeduction[household.status]!)
  set(places.federalAgedAddition, law.agedOrBlindAddition[household.status]!)
  set(places.povertyFirst, law.medicaidPovertyFirst[household.region]!)
  set(places.povertyEach, law.medicaidPovertyAdditional[household.region]!)
  set(places.capitalLossLimit, law.capitalLossLimit[household.status]!)
  set(places.coupleAgedCount, taxable.aged)
  set(places.coupleAgiLessSocialSecurity, dollars(taxable.adjustedGrossIncome - taxable.taxableBenefits))
}
