// How a figure came about: the rule, where it stands, and what went in. Kept in the order the return is worked.

export interface TraceLine {
  /** Name of the figure, as in the estimate. */
  figure: string
  /** Dollars, or percent where the figure is one. */
  amount: number
  rule: string
  source: string
  /** What went in, in dollars unless the name says otherwise. */
  inputs: Readonly<Record<string, number | string>>
}

export type Trace = TraceLine[]
