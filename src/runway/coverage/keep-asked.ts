// Keeps with the year the income by which its cover was found: what the year came to is known only in December.
import type { CourseBuffers } from '#runway/course-buffers.ts'

/** Dollars of the year; 0 where no program was asked. Of a first year that is a part of one, the months ahead as a year of twelve. */
export const keepAsked = ({ years, state }: CourseBuffers, y: number): void => {
  const { forAdults, forChildren } = state.cover
  const asked = Number.isFinite(forAdults.months)
  years.programIncome[y] = asked ? forAdults.months : 0
  years.programIncomeOfYear[y] = asked ? forAdults.year : 0
  years.childProgramIncome[y] = asked ? forChildren.months : 0
}
