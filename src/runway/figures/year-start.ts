// The first of January, or of the plan: the year's totals are emptied.
import type { CompiledPlan } from '#runway/compile/compiled-plan.ts'
import type { CourseBuffers } from '#runway/course-buffers.ts'
import { noteMonthsBehind } from '#runway/coverage/cover-by-month.ts'
import { countPutIn } from '#runway/savings/contribution-rooms.ts'
import { empty } from './emptied.ts'

/** Empties the year's totals; the plan's first year starts with what the plan says happened before its first month. */
export const startYearTotals = (plan: CompiledPlan, buffers: CourseBuffers, m: number, y: number): void => {
  const { state } = buffers
  const { year } = state
  const before = plan.law.soFar
  const first = m === 0
  year.farmSales = first ? before.farmGross : 0
  year.farmDeductions = first ? before.farmGross - before.farmProfit : 0
  year.farmOtherGain = first ? before.ordinaryGain : 0
  year.farm1231Gain = first ? before.propertyGain : 0
  const { writtenOff } = plan.household.ventures
  for (let owner = 0; owner < 3; owner += 1) year.side[owner] = -writtenOff[owner * plan.years + y]!
  empty(year.wages)
  empty(year.pensions)
  if (first) {
    year.side[0]! += before.otherSelfEmployment
    year.wages[0] = before.wages
  }
  year.interest = first ? before.otherIncome : 0
  year.dividends = 0
  year.gains = 0
  year.retirementIncome = 0
  year.secondRetirementIncome = 0
  empty(year.inheritedIncome)
  year.secondBenefits = 0
  year.earlyWithdrawals = first ? before.earlyWithdrawals : 0
  year.benefits = 0
  year.premiumsDeductible = first ? before.healthPremiums : 0
  year.careCosts = 0
  year.marketplacePremium = first ? before.marketplacePremiums : 0
  year.benchmark = first ? before.marketplaceBenchmark : 0
  year.advance = first ? before.advanceCredit : 0
  year.coverMonths = first ? before.marketplaceMonths : 0
  empty(year.premiumByMonth)
  empty(year.benchmarkByMonth)
  if (first) noteMonthsBehind(year, plan.firstMonth % 12)
  empty(year.deferred)
  empty(year.untaxedDeferrals)
  year.need = 0
  year.traditionalContributions = 0
  empty(year.intoOwnPlan)
  year.rothContributions = 0
  year.withheld = 0
  year.estimatedPaid = first ? before.paid : 0
  year.statePaid = first ? before.statePaid : 0
  empty(state.contributed)
  year.healthSavings = 0
  empty(year.intoHealth)
  year.healthSpent = 0
  year.healthSpentEarly = 0
  year.medicareUnpaid = 0
  if (first) countPutIn(plan, buffers)
}
