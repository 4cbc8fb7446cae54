// What a course owes its state, and when: it goes by dates of its own.
import { unwritten } from '#runway/figures/unwritten.ts'

export interface StateTaxState {
  /** Of the year, as expected in January; and all that is to be paid ahead for it. */
  estimate: number
  ahead: number
  /** Of the year before: its last payment ahead, and what its return asks for; below zero a refund. */
  dueJanuary: number
  dueWithReturn: number
  /** On the last return. */
  lastTax: number
}

export const noStateTax = (): StateTaxState => ({
  estimate: unwritten,
  ahead: unwritten,
  dueJanuary: unwritten,
  dueWithReturn: unwritten,
  lastTax: unwritten,
})
