// Pensions of former employers in the course: one's own, and what goes on to a widow or widower.
import type { CompiledPlan } from '#runway/compile/compiled-plan.ts'
import type { CourseBuffers, CourseState } from '#runway/course-buffers.ts'

/** Paid out after what is withheld; it goes on whether or not its owner works. */
export const takePension = (
  plan: CompiledPlan,
  { state }: CourseBuffers,
  p: number,
  cell: number,
): number => {
  const gross = pensionAt(plan, state, p, cell)
  const withheld = pensionWithheldAt(plan, state, p, cell)
  state.year.pensions[p] = state.year.pensions[p]! + gross
  state.year.withheld += withheld
  return gross - withheld
}

/** `cell`: person × month. At the prices of now, and as the two live now. */
export const pensionAt = (plan: CompiledPlan, state: CourseState, p: number, cell: number): number => {
  const { pensionReal, pensionFixed, survivorPension } = plan.household
  const own = pensionReal[cell]! * state.level + pensionFixed[cell]!
  if (!isWidowed(plan, state, p)) return own
  return own + survivorPension.real[cell]! * state.level + survivorPension.fixed[cell]!
}

export const pensionWithheldAt = (
  plan: CompiledPlan,
  state: CourseState,
  p: number,
  cell: number,
): number => {
  const { pensionWithheldReal, pensionWithheldFixed, survivorPension } = plan.household
  const own = pensionWithheldReal[cell]! * state.level + pensionWithheldFixed[cell]!
  if (!isWidowed(plan, state, p)) return own
  return own + survivorPension.withheldReal[cell]! * state.level + survivorPension.withheldFixed[cell]!
}

/** Who parted from the other is no widow or widower. */
const isWidowed = ({ people }: CompiledPlan, { alive }: CourseState, p: number): boolean =>
  people.length === 2 && alive[1 - p] === 0 && people[1 - p]!.partsMonth === Number.POSITIVE_INFINITY
