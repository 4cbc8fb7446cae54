// Side ventures as the run reads them.

/** Side ventures with cash of their own: all of the plan's where one of them holds or keeps any, else none. */
export interface CompiledVentures {
  count: number
  /** 0 or 1, people; 2 nobody's. */
  owner: Int32Array
  /** Venture × month: takings less costs, at first prices. */
  netReal: Float64Array
  /** Held as the plan begins, and what it needs for its work, at first prices. */
  opening: Float64Array
  keepsReal: Float64Array
  /** The first month in which it is no more. */
  overFrom: Float64Array
  /** What the books write off of things in use before the projection, per owner × year, in dollars of the year. */
  writtenOff: Float64Array
}
