// Whose an account is as things stand, and whether what comes out of it bears the addition for early withdrawals.
import { accountCode } from '#runway/compile/codes.ts'
import type { CompiledPlan } from '#runway/compile/compiled-plan.ts'
import type { CourseBuffers } from '#runway/course-buffers.ts'
import { isPaidEvenly } from './even-months.ts'

/** Who owns an account now: its owner while alive, else whoever is left; −1 when it is nobody's in particular. */
export const ownerNow = (plan: CompiledPlan, buffers: CourseBuffers, account: number): number => {
  const owner = plan.savings.owner[account]!
  if (owner < 0 || buffers.state.alive[owner] === 1) return owner
  const other = 1 - owner
  return other < plan.people.length && buffers.state.alive[other] === 1 ? other : owner
}

/** An owner under 59½, or under 65 of health savings, pays the addition on early withdrawals (26 USC 72(t), 223(f)(4)), but for a plan left at 55 or later, even payments, and what was inherited. */
export const isEarly = (plan: CompiledPlan, buffers: CourseBuffers, account: number, m: number): boolean => {
  const owner = ownerNow(plan, buffers, account)
  if (owner < 0 || plan.savings.isInherited[account] === 1 || isPaidEvenly(plan, buffers, account, m))
    return false
  if (owner === plan.savings.owner[account]) return m < plan.savings.freeFrom[account]!
  const { monthHealthFree, month59Half } = plan.people[owner]!
  return m < (plan.savings.kind[account] === accountCode.health ? monthHealthFree : month59Half)
}
