// Where a course keeps what it expects of its farm.

/**
 * The farm's expected months ahead, by month at first prices, for those who live now and what has been bought so far:
 * worked out anew when either changes.
 */
export interface FarmAhead {
  /** Sales, with the cash purchases bring in; profit before depreciation and interest; net cash but for contracts. */
  sales: Float64Array
  profit: Float64Array
  net: Float64Array
  /** Of purchases made: cash brought in, hours saved, and worth at the end of use. */
  addedCash: Float64Array
  savedHours: Float64Array
  worthBack: Float64Array
}

export const emptyAhead = (months: number): FarmAhead => {
  const row = () => new Float64Array(months)
  return { sales: row(), profit: row(), net: row(), addedCash: row(), savedHours: row(), worthBack: row() }
}
