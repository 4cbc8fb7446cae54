// How the law of a year meets the prices of a course: past the published years the law moves with the prices the course really had.
import { marriedJoint } from '#rules/filing-status.ts'
import type { MedicareColumn } from '#rules/medicare/premiums.ts'
import type { CompiledPlan } from '#runway/compile/compiled-plan.ts'
import type { CourseBuffers } from './course-buffers.ts'

/**
 * The course's price level over the one the law of the year was indexed by: 1 in published years and on the expected
 * course. Income is divided by it before the law and the law's answer is multiplied by it.
 */
export const priceRatio = (plan: CompiledPlan, buffers: CourseBuffers, y: number): number =>
  plan.law.projected[y] === 1 ? buffers.state.januaryLevel / plan.law.expectedLevel[y]! : 1

/** Medicare looks at the income of the return two years back by the lines of that return (42 USC 1395r(i)(4)(B)); before the plan, of its filing. */
export const medicareColumn = (plan: CompiledPlan, { state }: CourseBuffers, y: number): MedicareColumn =>
  (y >= 2 ? state.jointReturn[y - 2] === 1 : plan.law.filing === marriedJoint) ? 1 : 0
