// Pensions of former employers in the course.
import type { CompiledPlan } from '#runway/compile/compiled-plan.ts'
import type { CourseBuffers } from '#runway/course-buffers.ts'

/** Paid out after what is withheld; it goes on whether or not its owner works. */
export const takePension = (
  plan: CompiledPlan,
  { state }: CourseBuffers,
  p: number,
  cell: number,
): number => {
  const gross = pensionAt(plan, state.level, cell)
  const withheld = pensionWithheldAt(plan, state.level, cell)
  state.year.pensions[p] = state.year.pensions[p]! + gross
  state.year.withheld += withheld
  return gross - withheld
}

/** `cell`: person × month. */
export const pensionAt = ({ household }: CompiledPlan, level: number, cell: number): number =>
  household.pensionReal[cell]! * level + household.pensionFixed[cell]!

export const pensionWithheldAt = ({ household }: CompiledPlan, level: number, cell: number): number =>
  household.pensionWithheldReal[cell]! * level + household.pensionWithheldFixed[cell]!
