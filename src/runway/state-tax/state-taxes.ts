// What a course pays its state, month by month, and what of the pay withheld counts for it.
import type { CompiledPlan } from '#runway/compile/compiled-plan.ts'
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

/** A plan tells what is withheld in one sum: it counts for the federal tax first, and what is more than that for the state's. */
export const withheldForState = (withheld: number, federalTax: number, stateTax: number): number =>
  Math.max(0, Math.min(withheld - Math.max(0, federalTax), stateTax))
