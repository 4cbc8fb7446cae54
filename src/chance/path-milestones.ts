// The milestones of one path as plain numbers: the same readings that the page names for the expected course.
import type { CompiledPlan } from '#runway/compile/compiled-plan.ts'
import type { CourseBuffers } from '#runway/course-buffers.ts'
import { carryMonthOf } from '#runway/milestones.ts'
import { placeOf } from './course-run.ts'

/** Writes the milestones of the course just run into `figures`. What never happens is `Infinity` there. */
export function writeMilestones(plan: CompiledPlan, buffers: CourseBuffers, figures: Float64Array): void {
  const { marks, endMonth } = buffers
  figures[placeOf.held] = marks.firstUnmet < 0 ? 1 : 0
  figures[placeOf.monthsLeft] = orNever(marks.floorMonth)
  figures[placeOf.firstShortMonth] = orNever(marks.firstUnmet)
  figures[placeOf.unmetNeed] = marks.unmetNeed
  figures[placeOf.lowestSavings] = marks.lowest
  figures[placeOf.lowestAtFirstPrices] = marks.lowestAtFirstPrices
  figures[placeOf.unmetAtFirstPrices] = marks.unmetAtFirstPrices
  figures[placeOf.lowestMonth] = Math.max(0, marks.lowestMonth)
  figures[placeOf.firstDraw] = orNever(marks.firstDraw)
  figures[placeOf.carryMonth] = orNever(carryMonthOf(plan, buffers))
  figures[placeOf.months] = endMonth
  const slower = plan.firstSlowerMonth
  const isSeen = slower > 0 && slower < plan.months && slower <= endMonth
  figures[placeOf.atSlowerYear] = isSeen ? marks.savingsAtSlower : Number.NaN
  figures[placeOf.pricesAtSlowerYear] = isSeen ? marks.levelAtSlower : Number.NaN
  figures[placeOf.atEnd] = endMonth === 0 ? 0 : marks.savings / buffers.month.level
  figures[placeOf.farmAtEnd] = endMonth === 0 ? 0 : buffers.state.farmCash / buffers.month.level
  figures[placeOf.untaxedAtEnd] = endMonth === 0 ? 0 : buffers.month.traditional / buffers.month.level
  figures[placeOf.pricesAtEnd] = endMonth === 0 ? 1 : buffers.month.level
}

const orNever = (month: number): number => (month < 0 ? Number.POSITIVE_INFINITY : month)
