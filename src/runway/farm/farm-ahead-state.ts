// Where a course keeps what it expects of its farm.
import { emptyWorkDone, type Hands, type WorkDone } from '#farm/work-done.ts'

/**
 * The farm's expected months ahead, by month at first prices, for those who live now and what has been bought so far:
 * worked out up to `known`, and anew when either changes.
 */
export interface FarmAhead {
  known: number
  /** Sales, with the cash purchases bring in; profit before depreciation and interest. */
  sales: Float64Array
  profit: Float64Array
  /** Net cash but for contracts, dated purchases paid, at expected prices; with the year past the plan's end. */
  flow: Float64Array
  /** Who works, with the hours that purchases save, and what comes of it. */
  hands: Hands
  work: WorkDone
  /** Of purchases made: cash brought in, and worth at the end of use. */
  addedCash: Float64Array
  worthBack: Float64Array
}

export const emptyAhead = (months: number): FarmAhead => {
  const row = () => new Float64Array(months)
  return {
    known: 0,
    sales: row(),
    profit: row(),
    flow: new Float64Array(months + 12),
    hands: { kept: 1, crew: row(), saved: row() },
    work: emptyWorkDone(months),
    addedCash: row(),
    worthBack: row(),
  }
}
