// Percentile bands of spendable savings, month by month, over the courses that still run.
import type { CourseRun } from './course-run.ts'
import { percentiles } from './percentiles.ts'

export const bandShares = [0.1, 0.5, 0.9] as const

export interface BandRows {
  fromMonth: number
  /** For each month: the 10th, 50th and 90th percentile, dollars of that month; NaN where no course runs any more. */
  values: Float64Array
  /** For each month: courses that still run. */
  running: Int32Array
}

/** `months` has `run.plan.months` cells per path, NaN past the end of a course. */
export function bandRows(months: Float32Array, run: CourseRun, fromMonth: number, toMonth: number): BandRows {
  const width = run.plan.months
  const column = new Float32Array(run.paths)
  const count = toMonth - fromMonth
  const rows: BandRows = {
    fromMonth,
    values: new Float64Array(count * bandShares.length).fill(Number.NaN),
    running: new Int32Array(count),
  }
  for (let month = fromMonth; month < toMonth; month += 1) {
    let running = 0
    for (let path = 0; path < run.paths; path += 1) {
      const savings = months[path * width + month]!
      if (!Number.isNaN(savings)) column[running++] = savings
    }
    rows.running[month - fromMonth] = running
    if (running === 0) continue
    rows.values.set(
      percentiles(column.subarray(0, running), bandShares),
      (month - fromMonth) * bandShares.length,
    )
  }
  return rows
}
