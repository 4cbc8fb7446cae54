// What a purchase does once it is made: the months in which it brings in cash and saves hours, and its worth at the end of use.
import type { CompiledPlan } from '#runway/compile/compiled-plan.ts'
import type { CourseBuffers } from '#runway/course-buffers.ts'

export const putToWork = (plan: CompiledPlan, buffers: CourseBuffers, p: number): void => {
  const { purchases } = plan.farm
  const { ahead } = buffers.state
  const begins = buffers.boughtMonth[p]! + purchases.worksFrom[p]!
  const ends = buffers.boughtMonth[p]! + purchases.worksUntil[p]!
  for (let m = Math.max(0, begins); m < Math.min(plan.months, ends); m += 1) {
    const season = (plan.firstMonth + m) % 12
    ahead.addedCash[m] = ahead.addedCash[m]! + purchases.addsCash[p * 12 + season]!
    ahead.hands.saved[m] = ahead.hands.saved[m]! + purchases.savesHours[p * 12 + season]!
  }
  if (ends >= 0 && ends < plan.months)
    ahead.worthBack[ends] = ahead.worthBack[ends]! + purchases.valueAtEnd[p]!
}
