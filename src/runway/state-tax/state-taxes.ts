// What a course pays its state, month by month, and what of the pay withheld counts for it.
import type { CompiledLaw, CompiledPlan } from '#runway/compile/compiled-plan.ts'
import type { CourseBuffers } from '#runway/course-buffers.ts'

/** January and the month of its return settle last year; payments ahead go by the state's own months. */
export const stateTaxesOfMonth = (
  { law }: CompiledPlan,
  { state }: CourseBuffers,
  season: number,
): number => {
  const { stateTax, year } = state
  let due = 0
  if (season === 0) {
    due += stateTax.dueJanuary
    stateTax.dueJanuary = 0
  } else {
    const ahead = stateTax.ahead * law.stateShares[season]!
    due += ahead
    year.statePaid += ahead
  }
  if (season === law.stateReturnSeason) {
    due += stateTax.dueWithReturn
    stateTax.dueWithReturn = 0
  }
  return due
}

/**
 * A plan tells what is withheld in one sum. The state's is the part said of it, and more than the state's tax comes back from the
 * state; where none is said, it counts for the federal tax first, and what is more than that for the state's.
 */
export const withheldForState = (
  { withheldForState: part }: CompiledLaw,
  withheld: number,
  federalTax: number,
  stateTax: number,
): number =>
  part === null ? Math.max(0, Math.min(withheld - Math.max(0, federalTax), stateTax)) : withheld * part
