// What the simulations behind Now came to, as the page and its JSON show it.

export interface ChanceNow {
  isRunning: boolean
  /** The outcome shown is of the plan or the books before their last change. */
  isOfBefore: boolean
  outcome: {
    runs: number
    /** Months to the floor in the worst tenth and in the middle; null: savings last. */
    oneInTen: number | null
    middle: number | null
    /** Simulations in which savings never reach the floor. */
    neverReach: number
  } | null
}
