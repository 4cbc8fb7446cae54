// What one row of the farm's course stands for.

/** One line of the course: an enterprise or a herd. */
export interface CourseRow {
  id: string
  name: string
  kind: 'enterprise' | 'herd'
  tag: string
  scheduleFSalesLine: string
  /** Shares by Schedule F line, summing to 1. */
  scheduleFCostLines: Record<string, number>
  seasonSpread: number
}
