// How the law of a year meets the prices of a course: past the published years the law moves with the prices the course really had.
import type { MedicareColumn } from '#rules/medicare/premiums.ts'
import type { CompiledPlan } from '#runway/compile/compiled-plan.ts'
import type { CourseBuffers } from './course-buffers.ts'

/**
 * The course's price level over the one the law of the year was indexed by: 1 in published years and on the expected
 * course. Income is divided by it before the law and the law's answer is multiplied by it.
 */
export const priceRatio = (plan: CompiledPlan, buffers: CourseBuffers, y: number): number =>
  plan.law.projected[y] === 1 ? buffers.state.januaryLevel / plan.law.expectedLevel[y]! : 1

export const medicareColumn = (plan: CompiledPlan, buffers: CourseBuffers): MedicareColumn =>
  plan.people.length === 2 && buffers.state.alive[0] === 1 && buffers.state.alive[1] === 1 ? 1 : 0
