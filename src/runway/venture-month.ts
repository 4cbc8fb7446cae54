// The cash of side ventures: what they keep for their work, what they hand over, and the bad month that is paid from it.
import type { CompiledPlan } from '#runway/compile/compiled-plan.ts'
import type { CourseBuffers } from './course-buffers.ts'
import { hasParted } from './parting.ts'

const nobodys = 2

/**
 * What side ventures keep of the month's earnings, dollars; below zero where they hand over what they held. One keeps what it
 * needs, hands over the rest, and takes what a bad month costs from what it holds before the household pays. When it is over, or
 * its owner has died, all of it is the household's; whoever leaves by a separation takes it along.
 */
export const keepInVentures = (plan: CompiledPlan, buffers: CourseBuffers, m: number): number => {
  const { ventures } = plan.household
  const { month, parts, state } = buffers
  let kept = 0
  month.ventureCash = 0
  for (let v = 0; v < ventures.count; v += 1) {
    const owner = ventures.owner[v]!
    const isAlone = owner !== nobodys
    if (isAlone && hasParted(plan, buffers, owner, m)) state.ventureCash[v] = 0
    const before = state.ventureCash[v]!
    const isWorked = !isAlone || state.working[owner] === 1
    const earned = isWorked ? ventures.netReal[v * plan.months + m]! * state.level : 0
    const isOver = m >= ventures.overFrom[v]! || (isAlone && state.alive[owner] === 0)
    const needed = isOver ? 0 : ventures.keepsReal[v]! * state.level
    const held = Math.min(Math.max(0, before + earned), needed)
    state.ventureCash[v] = held
    kept += held - before
    month.ventureCash += held
    if (parts !== null) parts.ventureCash[v * plan.months + m] = held
  }
  month.sideKept = kept
  return kept
}
