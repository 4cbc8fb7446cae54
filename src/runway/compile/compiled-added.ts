// Money that a question adds to a plan or takes from it, and where it lies.

export interface CompiledAdded {
  /** Where money lies that the plan does not have and a question adds, as parts of it by account: cash and taxable accounts. */
  addedTo: Float64Array
  /** What a question brings all accounts to as a month begins, or cash and taxable alone, less tax owed, dollars at first prices; month −1 for none. */
  broughtTo: { month: number; amount: number; spendableAlone: boolean }
}
