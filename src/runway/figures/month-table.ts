// The figures of a course's months as numbers in one block, a month after the other. As rows each number would be an object of its own,
// which V8 moves and looks through for as long as a plan is kept: so rows are written out only for those who read rows.
import { addMonths, type Month, monthText } from '#calendar/month.ts'
import { type MonthFigures, type MonthSeries, monthSeries } from './course-figures.ts'
import { hair } from './hair.ts'
import { figurePlace, monthRow, type ProjectedMonth } from './month-row.ts'

export interface MonthTable {
  firstMonth: Month
  /** Months written. */
  count: number
  /** Month × figure, in the order of `monthSeries`: dollars of each month. */
  values: Float64Array
  /** What a dollar of each month is shown as; null for what it is. */
  factors: Float64Array | null
}

const width = monthSeries.length

export const emptyTable = (firstMonth: Month, months: number): MonthTable => ({
  firstMonth,
  count: 0,
  values: new Float64Array(months * width),
  factors: null,
})

/** As the month after those written. */
export const writeMonth = (table: MonthTable, month: MonthFigures): void => {
  let at = table.count * width
  for (const name in month) {
    table.values[at] = month[name as MonthSeries]
    at += 1
  }
  table.count += 1
}

/** A figure by its place, as the run wrote it. */
export const figureAt = ({ values }: MonthTable, m: number, figure: number): number =>
  values[m * width + figure]!

/** What money of a month is multiplied with. */
export const factorAt = ({ factors }: MonthTable, m: number): number => (factors === null ? 1 : factors[m]!)

export const textAt = ({ firstMonth }: MonthTable, m: number): string => monthText(addMonths(firstMonth, m))

export const rowsOf = (table: MonthTable): ProjectedMonth[] =>
  Array.from({ length: table.count }, (_, m) => {
    const row = monthRow(table.values, m * width, factorAt(table, m), textAt(table, m))
    row.coverRatio = coverRatioAt(table, m)
    return row
  })

/** Net draws ÷ household costs over the last twelve months (fewer at the start); null while there are no costs. */
export const coverRatioAt = (table: MonthTable, last: number): number | null => {
  let draws = 0
  let costs = 0
  for (let m = Math.max(0, last - 11); m <= last; m += 1) {
    draws += figureAt(table, m, figurePlace.draw) - figureAt(table, m, figurePlace.contribution)
    costs += figureAt(table, m, figurePlace.householdCosts)
  }
  return costs > hair ? draws / costs : null
}
