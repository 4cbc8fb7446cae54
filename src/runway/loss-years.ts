// Losses between the years of a course: forward to the next return, a farming loss back to the two before where the plan says so.
import { copyCarryforwards } from '#rules/carryforwards.ts'
import { carriedBack, carryBack, copyHousehold } from '#rules/loss-carryback.ts'
import type { CompiledLaw, CompiledPlan } from '#runway/compile/compiled-plan.ts'
import type { CourseBuffers, CourseState } from './course-buffers.ts'

/** What the year just assessed leaves: `ratio` is the course's price level over the law's. */
export const carryLosses = (plan: CompiledPlan, buffers: CourseBuffers, y: number, ratio: number): void => {
  const { state, years } = buffers
  const { carried } = state.losses
  copyCarryforwards(state.householdTax.carried, carried)
  years.lossRefund[y] = 0
  if (plan.law.farmLossesGoBack) {
    carryLossBack(buffers, y)
    keepReturn(plan, state, y, ratio)
  }
  carried.farmLoss = 0
  carried.section179 = 0
  years.netOperatingLoss[y] = carried.netOperatingLoss
  years.qualifiedBusinessLoss[y] = carried.qualifiedBusiness
  years.shortTermLoss[y] = carried.shortTermLoss
  years.longTermLoss[y] = carried.longTermLoss
}

/** The returns before the plan, in the places of the years −2 and −1. */
export const beginReturns = (law: CompiledLaw, state: CourseState): void => {
  law.returnsBefore.forEach((before, place) => {
    state.losses.returns[place]!.law = before.law
    state.losses.returns[place]!.ratio = before.ratio
    copyHousehold(before.household, state.losses.returns[place]!.household)
  })
}

/** The year two back has the place that this year's own return will take. */
const carryLossBack = ({ state, years }: CourseBuffers, y: number): void => {
  const { carried, returns } = state.losses
  const refund = carryBack(returns, y, carried.farmLoss)
  carried.netOperatingLoss = Math.max(0, carried.netOperatingLoss - carriedBack.used)
  years.lossRefund[y] = refund
  state.losses.refundDue = refund
}

const keepReturn = ({ law }: CompiledPlan, state: CourseState, y: number, ratio: number): void => {
  const place = y % state.losses.returns.length
  state.losses.returns[place]!.law = law.years[y]!
  state.losses.returns[place]!.ratio = ratio
  copyHousehold(state.householdYear, state.losses.returns[place]!.household)
}
