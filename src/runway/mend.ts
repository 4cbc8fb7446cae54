// How much more a month would keep savings above the floor: bisection over whole courses, each a run of the projection itself.
import { type Month, monthText } from '#calendar/month.ts'
import type { CompiledPlan } from '#runway/compile/compiled-plan.ts'
import { makeBuffers } from './course-buffers.ts'
import { runCourse } from './run-course.ts'
import type { CourseShocks } from './shocks.ts'
import type { Mend } from './why.ts'

const most = 20_000

/**
 * The smallest extra income a month, from the month after today’s (in a plan by itself, its first) on, with which the plan's floor is held for the
 * `span` months after the crossing (or to the end). Null when nothing needs mending or $20,000 a month would not do it.
 */
export const mendingAmount = (plan: CompiledPlan, shocks: CourseShocks, span = 120): Mend | null => {
  const buffers = makeBuffers(plan, [])
  runCourse(plan, shocks, buffers)
  const crossing = buffers.marks.floorMonth
  const begins = Math.max(0, plan.leftFrom) + 1
  if (crossing <= begins) return null
  const until = Math.min(buffers.endMonth, crossing + span)
  const extra: CompiledPlan = {
    ...plan,
    household: { ...plan.household, oneOffFixed: new Float64Array(plan.months) },
  }
  const holds = (perMonth: number): boolean => {
    for (let m = 0; m < plan.months; m += 1)
      extra.household.oneOffFixed[m] = plan.household.oneOffFixed[m]! - (m >= begins ? perMonth : 0)
    runCourse(extra, shocks, buffers)
    const { floorMonth } = buffers.marks
    return floorMonth < 0 || floorMonth >= until
  }
  if (!holds(most)) return null
  let low = 0
  let high = most
  while (high - low > 0.5) {
    const middle = (low + high) / 2
    if (holds(middle)) high = middle
    else low = middle
  }
  return {
    perMonth: high,
    from: monthText((plan.firstMonth + begins) as Month),
    until: until < buffers.endMonth ? monthText((plan.firstMonth + until - 1) as Month) : null,
  }
}
