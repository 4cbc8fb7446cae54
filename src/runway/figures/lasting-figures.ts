// What a course works out once and keeps for a year, or until someone dies.
import { unwritten } from './unwritten.ts'

export interface LastingFigures {
  /**
   * January's price level over the one the law of the year was indexed by: 1 in published years and on the expected course. Income is
   * divided by it before the law and the law's answer is multiplied by it.
   */
  priceRatio: number
  /** This year's premiums of one person on Medicare, parts B and D, dollars a month at the prices of the law. */
  medicareMonthly: number
  /** Parts of the living costs and of the farm that go on with those who are left: 1 while a couple lives. */
  livingKept: number
  farmKept: number
}

export const noLastingFigures = (): LastingFigures => ({
  priceRatio: unwritten,
  medicareMonthly: unwritten,
  livingKept: unwritten,
  farmKept: unwritten,
})
