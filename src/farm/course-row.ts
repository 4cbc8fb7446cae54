// What one row of the farm's course stands for.
import type { Farm } from './farm-document.ts'

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

export const courseRows = (farm: Farm): CourseRow[] => [
  ...farm.enterprises.map((one) => ({
    id: one.id,
    name: one.name,
    kind: 'enterprise' as const,
    tag: one.tag ?? one.id,
    scheduleFSalesLine: one.scheduleFSalesLine,
    scheduleFCostLines: asShares(one.scheduleFCostLines),
    seasonSpread: one.seasonSpread,
  })),
  ...farm.herds.map((one) => ({
    id: one.id,
    name: one.name,
    kind: 'herd' as const,
    tag: one.tag ?? one.id,
    scheduleFSalesLine: '2',
    scheduleFCostLines: asShares(one.scheduleFCostLines),
    seasonSpread: one.seasonSpread,
  })),
]

const asShares = (weights: Record<string, number>): Record<string, number> => {
  const whole = Object.values(weights).reduce((a, b) => a + b, 0)
  if (whole <= 0) return { '28': 1 }
  return Object.fromEntries(Object.entries(weights).map(([line, weight]) => [line, weight / whole]))
}
