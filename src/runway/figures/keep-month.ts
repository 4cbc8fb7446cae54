// What stays of a month once it has run: the series that were asked for, or all of it as a row.
import { type Month, monthText } from '#calendar/month.ts'
import type { CompiledPlan } from '#runway/compile/compiled-plan.ts'
import type { CourseBuffers } from '../course-buffers.ts'
import { hair } from '../milestones.ts'
import { monthRow, type ProjectedMonth } from './month-row.ts'

export const keepMonth = (plan: CompiledPlan, { kept, month, rows }: CourseBuffers, m: number): void => {
  for (let k = 0; k < kept.length; k += 1) kept[k]!.values[m] = month[kept[k]!.name]
  if (rows === null) return
  const row = monthRow(month, 1, monthText((plan.firstMonth + m) as Month))
  rows.push(row)
  row.coverRatio = coverRatioOf(rows)
}

/** Net draws ÷ household costs over the last twelve months (fewer at the start); null while there are no costs. */
const coverRatioOf = (rows: readonly ProjectedMonth[]): number | null => {
  let draws = 0
  let costs = 0
  for (let m = Math.max(0, rows.length - 12); m < rows.length; m += 1) {
    draws += rows[m]!.draw - rows[m]!.contribution
    costs += rows[m]!.householdCosts
  }
  return costs > hair ? draws / costs : null
}
