// The months in which an account pays evenly.
import type { CompiledPlan } from '#runway/compile/compiled-plan.ts'
import type { CourseBuffers } from '#runway/course-buffers.ts'

/** In these months nothing else leaves the account or comes into it. */
export const isPaidEvenly = (
  plan: CompiledPlan,
  { state }: CourseBuffers,
  account: number,
  m: number,
): boolean =>
  plan.savings.paysEvenly &&
  m >= plan.savings.evenFrom[account]! &&
  m < plan.savings.evenTo[account]! &&
  state.alive[plan.savings.owner[account]!] === 1
