// What a run carries along about health savings.
import { unwritten } from '#runway/figures/unwritten.ts'

export interface HealthSavingsState {
  /** Care since the course began that none of them has paid. */
  careUnpaid: number
  /** Used again: care of an expected year that they may still pay, and by account what they are expected to pay of it. */
  careExpected: number
  countedForCare: Float64Array
}

export const noHealthSavings = (accounts: number): HealthSavingsState => ({
  careUnpaid: unwritten,
  careExpected: unwritten,
  countedForCare: new Float64Array(accounts),
})
