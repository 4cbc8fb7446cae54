// January: what must come out of inherited accounts this year, and taking it. Each is its own: nothing taken elsewhere counts for it.
import { emptyAfterHeir } from '#rules/inherited-distributions.ts'
import { accountCode } from '#runway/compile/codes.ts'
import type { CompiledPlan } from '#runway/compile/compiled-plan.ts'
import type { CourseBuffers } from '#runway/course-buffers.ts'
import { ownerNow } from './early.ts'
import { deposit, withdraw } from './savings-month.ts'

/** From the balances of December 31. After the heir's death it goes on for who is left, until ten years after. */
export const setInherited = (plan: CompiledPlan, buffers: CourseBuffers, y: number): void => {
  const { savings } = plan
  const { state } = buffers
  if (!savings.hasInherited) return
  for (let account = 0; account < savings.count; account += 1) {
    if (savings.isInherited[account] === 0) continue
    const part = isOverAfterHeir(plan, buffers, account, y)
      ? 1
      : savings.inheritedPart[account * plan.years + y]!
    const amount = state.balance[account]! * part
    state.required.inherited[account] = amount
    const owner = Math.max(0, ownerNow(plan, buffers, account))
    if (savings.kind[account] === accountCode.traditional)
      state.required.inheritedIncome[owner] = state.required.inheritedIncome[owner]! + amount
  }
}

const isOverAfterHeir = (
  plan: CompiledPlan,
  { state }: CourseBuffers,
  account: number,
  y: number,
): boolean => {
  const heir = plan.savings.owner[account]!
  if (heir < 0 || state.alive[heir] === 1) return false
  const died = Math.floor((plan.firstMonth + state.deathMonth[heir]! - 1) / 12)
  return plan.firstYear + y >= emptyAfterHeir(died)
}

export const takeInherited = (plan: CompiledPlan, buffers: CourseBuffers, m: number): void => {
  const { savings } = plan
  if (!savings.hasInherited) return
  for (let account = 0; account < savings.count; account += 1) {
    if (savings.isInherited[account] === 0) continue
    const taken = withdraw(plan, buffers, account, buffers.state.required.inherited[account]!, m)
    if (taken > 0) deposit(plan, buffers, savings.requiredAccount, taken)
  }
}
