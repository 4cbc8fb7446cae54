// Fills the household of one tax year: who files how, and amounts moved between the course's prices and the law's.
import { copyCarryforwards } from '#rules/carryforwards.ts'
import { marriedJoint } from '#rules/filing-status.ts'
import { filingStatusOf } from '#rules/filing-status-of.ts'
import type { CoverByMonth, HouseholdTax, HouseholdYear } from '#rules/household-year.ts'
import { assessHousehold } from '#rules/return/assess-household.ts'
import type { CompiledPlan } from '#runway/compile/compiled-plan.ts'
import type { CourseBuffers } from './course-buffers.ts'
import { monthsBehind, unlikeMonths } from './coverage/cover-by-month.ts'
import { averagingFor } from './farm-averaging-years.ts'
import { hasParted } from './parting.ts'
import { deductibleOwnPlans } from './savings/own-plans.ts'

/**
 * Who signs, how old, with how many children. A year in which one of a couple died is still filed jointly, one in which they parted
 * no more (26 USC 7703(a)); the one left with a child has a surviving spouse's rates for the law's years, then a head of household's.
 */
export const fillPeople = (plan: CompiledPlan, buffers: CourseBuffers, m: number, y: number): void => {
  const { state } = buffers
  const { household, law, people } = plan
  const input = state.householdYear
  const year = plan.firstYear + y
  const january = Math.max(0, m - ((plan.firstMonth + m) % 12))
  const december = m - ((plan.firstMonth + m) % 12) + 11
  const first = signs(plan, buffers, 0, january, december)
  const second = signs(plan, buffers, 1, january, december)
  const couple = first && second
  state.slotPerson[0] = people.length === 0 ? -1 : first ? 0 : people.length > 1 ? 1 : 0
  state.slotPerson[1] = couple ? 1 : -1
  input.people = couple ? 2 : 1
  const children = household.childrenUnder17[y]!
  const others = household.otherDependents[y]!
  input.childrenUnder17 = children
  input.otherDependents = others
  input.earnedCreditChildren = household.earnedCreditChildren[y]!
  input.state = law.state[y]!
  input.dependentAges = household.dependentAges[y]!
  input.careChildren = household.careChildren[y]!
  const gone = first ? 1 : 0
  const sinceDeath =
    couple || people.length < 2 || hasParted(plan, buffers, gone, december)
      ? Number.POSITIVE_INFINITY
      : year - yearOfDeath(plan, buffers, gone)
  input.status = filingStatusOf(
    law.chosenFiling,
    people.length,
    couple ? 2 : 1,
    children + others > 0,
    sinceDeath,
    law.survivingSpouseYears,
    children + others > household.relatives[y]!,
  )
  state.jointReturn[y] = input.status === marriedJoint ? 1 : 0
  if (input.status === marriedJoint && !couple) input.people = 2
  for (let slot = 0; slot < 2; slot += 1) {
    const p = state.slotPerson[slot]!
    input.age[slot] = p >= 0 ? year - people[p]!.bornYear : slot === 0 || input.people === 2 ? 40 : 0
    input.farmOptional[slot] = law.optionalMethod ? 1 : 0
  }
  input.region = law.region
  input.averaging = averagingFor(plan, state.averaging, buffers.state.lasting.priceRatio)
  input.itemized = law.itemized * state.januaryLevel
  input.propertyTax = law.propertyTax * state.januaryLevel
  input.rent = law.rent * state.januaryLevel
}

/** Alive as the year begins, and not parted by its end. */
const signs = (plan: CompiledPlan, buffers: CourseBuffers, p: number, january: number, december: number) =>
  plan.people.length > p && !hasParted(plan, buffers, p, december) && buffers.state.deathMonth[p]! > january

/** The household of a year's return, from what the year brought. `profit`: the farm's, after depreciation and section 179; `m` is December. */
export const fillReturn = (
  plan: CompiledPlan,
  buffers: CourseBuffers,
  m: number,
  y: number,
  profit: number,
) => {
  const { state } = buffers
  const { year } = state
  const input = state.householdYear
  fillPeople(plan, buffers, m, y)
  const alone = input.people === 1 || state.slotPerson[1] === -1
  for (let slot = 0; slot < 2; slot += 1) {
    const p = state.slotPerson[slot]!
    const part = alone ? (slot === 0 ? 1 : 0) : plan.people[p]!.farmShare
    input.farmProfit[slot] = profit * part
    input.farmGross[slot] = year.farmSales * part
    const person = p >= 0 ? p : slot === 0 ? 0 : -1
    input.pensions[slot] = p < 0 ? 0 : year.pensions[p]!
    input.inheritedIra[slot] = p < 0 ? 0 : year.inheritedIncome[p]!
    input.wages[slot] = person < 0 ? 0 : year.wages[person]! - year.untaxedDeferrals[person]!
    const own = p >= 0 ? year.side[p]! : slot === 0 ? year.side[0]! : 0
    input.otherSelfEmployment[slot] = own + (slot === 0 ? year.side[2]! : 0)
  }
  input.interest = year.interest
  input.ordinaryDividends = year.dividends
  input.qualifiedDividends = year.dividends
  copyCarryforwards(state.losses.carried, input.carried)
  input.longTermGains = year.gains
  input.section1231 = year.farm1231Gain
  input.iraDistributions = year.retirementIncome
  input.socialSecurity = year.benefits
  input.secondIraDistributions = state.slotPerson[1] === 1 ? year.secondRetirementIncome : 0
  input.secondSocialSecurity = state.slotPerson[1] === 1 ? year.secondBenefits : 0
  input.businessGains = year.farmOtherGain
  input.otherIncome = 0
  input.earlyWithdrawalAmount = year.earlyWithdrawals
  input.healthSavingsTaxed = year.healthSpent
  input.healthSavingsEarly = year.healthSpentEarly
  input.hsa = year.healthSavings
  input.traditionalIra = year.traditionalContributions
  input.rothIra = year.rothContributions
  input.sep = deductibleOwnPlans(plan, buffers, y)
  const months = year.coverMonths
  input.coverMonths = months
  input.coverByMonth = months > 0 ? unlikeMonths(monthsBehind(state, 12)) : null
  input.premiumMonthly = months > 0 ? year.marketplacePremium / months : 0
  input.benchmarkMonthly = months > 0 ? year.benchmark / months : 0
  input.advanceMonthly = months > 0 ? year.advance / months : 0
  input.deductibleMonths = months
  input.otherHealthPremiums = year.premiumsDeductible
  input.careCosts = year.careCosts
}

const yearOfDeath = (plan: CompiledPlan, { state }: CourseBuffers, p: number): number =>
  Math.floor((plan.firstMonth + state.deathMonth[p]! - 1) / 12)

/** Assesses a filled household at the law's own prices and gives the answer back at the course's. */
export const assessAtPrices = (
  plan: CompiledPlan,
  y: number,
  ratio: number,
  input: HouseholdYear,
  out: HouseholdTax,
): HouseholdTax => {
  if (ratio !== 1) scaleHousehold(input, 1 / ratio)
  assessHousehold(plan.law.years[y]!, input, out)
  if (ratio !== 1) scaleTax(out, ratio)
  return out
}

/** Assesses the household of the year, and leaves it at the course's own prices so that it can be assessed again. */
export const assessAgain = (plan: CompiledPlan, { state }: CourseBuffers, y: number): HouseholdTax => {
  const { householdYear, householdTax } = state
  const ratio = state.lasting.priceRatio
  assessAtPrices(plan, y, ratio, householdYear, householdTax)
  if (ratio !== 1) scaleHousehold(householdYear, ratio)
  return householdTax
}

const scaleMonths = ({ premium, benchmark }: CoverByMonth, factor: number): void => {
  for (let k = 0; k < 12; k += 1) {
    premium[k] = premium[k]! * factor
    benchmark[k] = benchmark[k]! * factor
  }
}

/** Multiplies every dollar of a household by `factor`. */
const scaleHousehold = (input: HouseholdYear, factor: number): void => {
  for (let slot = 0; slot < 2; slot += 1) {
    input.wages[slot] = input.wages[slot]! * factor
    input.farmProfit[slot] = input.farmProfit[slot]! * factor
    input.otherSelfEmployment[slot] = input.otherSelfEmployment[slot]! * factor
    input.farmGross[slot] = input.farmGross[slot]! * factor
    input.pensions[slot] = input.pensions[slot]! * factor
    input.inheritedIra[slot] = input.inheritedIra[slot]! * factor
  }
  input.interest *= factor
  input.ordinaryDividends *= factor
  input.qualifiedDividends *= factor
  input.longTermGains *= factor
  input.section1231 *= factor
  input.iraDistributions *= factor
  input.socialSecurity *= factor
  input.secondIraDistributions *= factor
  input.secondSocialSecurity *= factor
  input.businessGains *= factor
  input.otherIncome *= factor
  input.itemized *= factor
  input.propertyTax *= factor
  input.rent *= factor
  input.traditionalIra *= factor
  input.rothIra *= factor
  input.sep *= factor
  input.hsa *= factor
  input.earlyWithdrawalAmount *= factor
  input.healthSavingsTaxed *= factor
  input.healthSavingsEarly *= factor
  if (input.coverByMonth !== null) scaleMonths(input.coverByMonth, factor)
  input.premiumMonthly *= factor
  input.benchmarkMonthly *= factor
  input.advanceMonthly *= factor
  input.otherHealthPremiums *= factor
  input.careCosts *= factor
  copyCarryforwards(input.carried, input.carried, factor)
}

/** Multiplies what the projection reads of an assessment by `factor`; percentages stay. */
export const scaleTax = (out: HouseholdTax, factor: number): void => {
  out.adjustedGrossIncome *= factor
  out.householdIncome *= factor
  out.deduction *= factor
  out.qbiDeduction *= factor
  out.taxableIncome *= factor
  out.preferredIncome *= factor
  out.averagedFarmIncome *= factor
  out.incomeTax *= factor
  out.selfEmploymentTax *= factor
  out.premiumTaxCredit *= factor
  out.excessAdvance *= factor
  out.selfEmployedHealthDeduction *= factor
  out.taxableSocialSecurity *= factor
  out.earlyWithdrawalTax *= factor
  out.healthSavingsTax *= factor
  out.totalTax *= factor
  out.totalPayments *= factor
  out.balanceDue *= factor
  out.medicareIncome *= factor
  out.stateIncomeTax *= factor
  out.localIncomeTax *= factor
  copyCarryforwards(out.carried, out.carried, factor)
  out.netSelfEmploymentEarnings[0] = out.netSelfEmploymentEarnings[0]! * factor
  out.netSelfEmploymentEarnings[1] = out.netSelfEmploymentEarnings[1]! * factor
}
