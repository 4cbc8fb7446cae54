// The draws of a plan made ready for a run.

export interface CompiledDraw {
  /** A `drawCode`. */
  policy: number
  /** Steps: planned draw by month in contract dollars (raises included). Other policies: unused. */
  planned: Float64Array
  withPrices: boolean
  /** Farm cash that can be spared is drawn before savings fall below the floor. */
  holdsFloor: boolean
  fromMonth: number
  fromShare: number
  toMonth: number
  toShare: number
}
