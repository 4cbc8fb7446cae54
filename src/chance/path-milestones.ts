// The milestones of one path as plain numbers: the same readings that the page names for the expected course.
import type { CompiledPlan } from '#runway/compile/compiled-plan.ts'
import type { CourseBuffers } from '#runway/course-buffers.ts'
import {
  carryMonthOf,
  firstDrawMonthOf,
  firstUnmetMonthOf,
  floorMonthOf,
  lowestMonthOf,
  lowestOf,
  savingsBefore,
  unmetNeedOf,
} from '#runway/milestones.ts'
import { placeOf } from './course-run.ts'

/** Writes the milestones of the course just run into `figures`. What never happens is `Infinity` there. */
export function writeMilestones(plan: CompiledPlan, buffers: CourseBuffers, figures: Float64Array): void {
  const { months, endMonth } = buffers
  const short = firstUnmetMonthOf(plan, buffers)
  const lowest = lowestMonthOf(plan, buffers)
  figures[placeOf.held] = short < 0 ? 1 : 0
  figures[placeOf.monthsLeft] = orNever(floorMonthOf(plan, buffers))
  figures[placeOf.firstShortMonth] = orNever(short)
  figures[placeOf.unmetNeed] = unmetNeedOf(plan, buffers)
  figures[placeOf.lowestSavings] = lowestOf(plan, buffers)
  figures[placeOf.lowestMonth] = Math.max(0, lowest)
  figures[placeOf.firstDraw] = orNever(firstDrawMonthOf(plan, buffers))
  figures[placeOf.carryMonth] = orNever(carryMonthOf(plan, buffers))
  figures[placeOf.months] = endMonth
  const slower = plan.firstSlowerMonth
  const isSeen = slower > 0 && slower < plan.months && slower <= endMonth
  figures[placeOf.atSlowerYear] = isSeen ? savingsBefore(plan, buffers, slower) : Number.NaN
  figures[placeOf.pricesAtSlowerYear] = isSeen ? months.level[slower - 1]! : Number.NaN
  const last = endMonth - 1
  figures[placeOf.atEnd] = last < 0 ? 0 : savingsBefore(plan, buffers, endMonth) / months.level[last]!
}

const orNever = (month: number): number => (month < 0 ? Number.POSITIVE_INFINITY : month)
