// The household of a year's return, from what the year brought.
import { copyCarryforwards } from '#rules/carryforwards.ts'
import type { CompiledPlan } from '#runway/compile/compiled-plan.ts'
import type { CourseBuffers } from './course-buffers.ts'
import { fillPeople } from './household-return.ts'
import { deductibleOwnPlans } from './savings/own-plans.ts'

/** `profit`: the farm's, after depreciation and section 179; `m` is December. */
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
  input.otherIncome = year.farmOtherGain
  input.earlyWithdrawalAmount = year.earlyWithdrawals
  input.traditionalIra = year.traditionalContributions
  input.rothIra = year.rothContributions
  input.sep = deductibleOwnPlans(plan, buffers, y)
  const months = year.coverMonths
  input.coverMonths = months
  input.premiumMonthly = months > 0 ? year.marketplacePremium / months : 0
  input.benchmarkMonthly = months > 0 ? year.benchmark / months : 0
  input.advanceMonthly = months > 0 ? year.advance / months : 0
  input.deductibleMonths = months
  input.otherHealthPremiums = year.premiumsDeductible
  input.careCosts = year.careCosts
}
