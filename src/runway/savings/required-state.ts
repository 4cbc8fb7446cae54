// What must come out of retirement accounts in the year under way.

/** Dollars. */
export interface RequiredState {
  /** By person, from all traditional accounts of their own. */
  own: Float64Array
  /** By account, out of that inherited one alone; and what of it is income, by person. */
  inherited: Float64Array
  inheritedIncome: Float64Array
}

export const nothingRequired = (accounts: number): RequiredState => ({
  own: new Float64Array(2),
  inherited: new Float64Array(accounts),
  inheritedIncome: new Float64Array(2),
})
