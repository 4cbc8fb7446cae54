// What the closed years of a course leave to others: losses on their way forward, the returns a farming loss may go back to.
import { type Carryforwards, noCarryforwards } from '#rules/carryforwards.ts'
import { emptyHouseholdYear } from '#rules/household-year.ts'
import type { ReturnBefore } from '#rules/loss-carryback.ts'
import { unwritten } from './figures/unwritten.ts'

export interface LossState {
  /** Into the next return, in the course's dollars. Section 179 is carried apart. */
  carried: Carryforwards
  /**
   * As many of the last returns as the law lets a farming loss go back to (`farmLossYearsBack`), by whether their year's place is
   * even or odd, at the law's prices.
   */
  returns: [ReturnBefore, ReturnBefore]
  /** Tax of earlier years that a farming loss brings back, until it is paid. */
  refundDue: number
}

export const noLosses = (): LossState => ({
  carried: noCarryforwards(),
  returns: [noReturn(), noReturn()],
  refundDue: unwritten,
})

const noReturn = (): ReturnBefore => ({ law: null, household: emptyHouseholdYear(), ratio: 1 })
