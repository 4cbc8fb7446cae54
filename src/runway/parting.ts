// A separation in the course: who has left by it, and what leaves along.
import type { CompiledPlan } from '#runway/compile/compiled-plan.ts'
import type { CourseBuffers } from './course-buffers.ts'
import { scaleConverted } from './savings/roth-layers.ts'

/** Whether a person has left by month `m` without having died before. */
export const hasParted = (plan: CompiledPlan, { state }: CourseBuffers, p: number, m: number): boolean => {
  const { partsMonth } = plan.people[p] ?? { partsMonth: Number.POSITIVE_INFINITY }
  return partsMonth <= m && state.deathMonth[p] === partsMonth
}

/** In the first month apart the accounts of whoever leaves go along. */
export const takeOwnAccounts = (plan: CompiledPlan, buffers: CourseBuffers, p: number, m: number): void => {
  if (plan.people[p]!.partsMonth !== m || !hasParted(plan, buffers, p, m)) return
  for (let account = 0; account < plan.savings.count; account += 1) {
    if (plan.savings.owner[account] !== p) continue
    buffers.state.balance[account] = 0
    buffers.state.basis[account] = 0
    scaleConverted(plan, buffers.state, account, 0)
  }
}
