// What compile-conversions.ts makes of conversions into Roth accounts: flat arrays, in the plan's order.

export interface CompiledConversions {
  count: number
  /** Places of accounts. */
  from: Int32Array
  into: Int32Array
  /** Months of the plan from which on, and before which, a December converts. */
  fromMonth: Float64Array
  endMonth: Float64Array
  /** A place in `conversionLines`; dollars a year at first prices, percent of the poverty line, or a rate. */
  upTo: Uint8Array
  line: Float64Array
}
