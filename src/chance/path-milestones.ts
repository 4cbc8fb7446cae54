// The milestones of one path as plain numbers: the ones the page names for the expected course, without their words.
import type { CompiledPlan } from '#runway/compiled-plan.ts'
import type { CourseBuffers } from '#runway/course-buffers.ts'
import { placeOf } from './course-run.ts'

/** Less than this in all is a rounding of cents, not a need. */
export const unmetNeedCounts = 0.005

const never = Number.POSITIVE_INFINITY

/** Writes the milestones of the course just run into `figures`. */
export function writeMilestones(plan: CompiledPlan, buffers: CourseBuffers, figures: Float64Array): void {
  const { spendable, floor, unmetNeed, draw, level } = buffers.months
  const { endMonth } = buffers
  let monthsLeft = never
  let firstShortMonth = never
  let firstDraw = never
  let unmet = 0
  let lowest = never
  let lowestMonth = 0
  for (let month = 0; month < endMonth; month += 1) {
    const savings = spendable[month]!
    if (monthsLeft === never && savings < floor[month]!) monthsLeft = month
    if (firstDraw === never && draw[month]! > 0) firstDraw = month
    if (savings < lowest) {
      lowest = savings
      lowestMonth = month
    }
    unmet += unmetNeed[month]!
    if (firstShortMonth === never && unmet >= unmetNeedCounts) firstShortMonth = month
  }
  figures[placeOf.held] = firstShortMonth === never ? 1 : 0
  figures[placeOf.monthsLeft] = monthsLeft
  figures[placeOf.firstShortMonth] = firstShortMonth
  figures[placeOf.unmetNeed] = unmet
  figures[placeOf.lowestSavings] = lowest === never ? 0 : lowest
  figures[placeOf.lowestMonth] = lowestMonth
  figures[placeOf.firstDraw] = firstDraw
  figures[placeOf.carryMonth] = carryMonthOf(buffers)
  figures[placeOf.months] = endMonth
  const slower = plan.firstSlowerMonth
  const isSeen = slower > 0 && slower < plan.months && slower <= endMonth
  figures[placeOf.atSlowerYear] = isSeen ? spendable[slower - 1]! : Number.NaN
  figures[placeOf.pricesAtSlowerYear] = isSeen ? level[slower - 1]! : Number.NaN
  figures[placeOf.atEnd] = endMonth === 0 ? 0 : allSavings(buffers, endMonth - 1) / level[endMonth - 1]!
}

/** First month from which draws cover household costs over every twelve months to the end of the course. */
function carryMonthOf(buffers: CourseBuffers): number {
  const { draw, householdCosts } = buffers.months
  const { endMonth } = buffers
  if (endMonth < 12) return never
  let over = 0
  for (let month = endMonth - 12; month < endMonth; month += 1) over += draw[month]! - householdCosts[month]!
  let carry = never
  for (let month = endMonth - 12; month >= 0 && over >= -unmetNeedCounts; month -= 1) {
    carry = month
    if (month === 0) break
    over += draw[month - 1]! - householdCosts[month - 1]!
    over -= draw[month + 11]! - householdCosts[month + 11]!
  }
  return carry
}

function allSavings(buffers: CourseBuffers, month: number): number {
  const { cash, taxable, traditional, roth } = buffers.months
  return cash[month]! + taxable[month]! + traditional[month]! + roth[month]!
}
