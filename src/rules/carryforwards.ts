// What one tax year leaves to others: losses and deductions it could not use. Dollars, each 0 or more.

/** Brought into a year, or left by it. */
export interface Carryforwards {
  /** Net operating loss for later years (26 USC 172); this year's farming part is in it. */
  netOperatingLoss: number
  /**
   * Into a year: a farming loss of a later year carried back to it. Left by a year: what of that it could not use, and the
   * farming part of its own loss, which may be carried back instead of forward (26 USC 172(b)(1)(B)).
   */
  farmLoss: number
  /** Negative qualified business income (26 USC 199A(c)(2)). */
  qualifiedBusiness: number
  /** Capital losses over the yearly limit, by their kind (26 USC 1212(b)). */
  shortTermLoss: number
  longTermLoss: number
  /** Section 179 deduction over the year's business income (26 USC 179(b)(3)(B)). */
  section179: number
}

export const noCarryforwards = (): Carryforwards => ({
  netOperatingLoss: 0,
  farmLoss: 0,
  qualifiedBusiness: 0,
  shortTermLoss: 0,
  longTermLoss: 0,
  section179: 0,
})

/** Writes `from` times `factor` into `to`: all are dollars. */
export const copyCarryforwards = (from: Carryforwards, to: Carryforwards, factor = 1): void => {
  to.netOperatingLoss = from.netOperatingLoss * factor
  to.farmLoss = from.farmLoss * factor
  to.qualifiedBusiness = from.qualifiedBusiness * factor
  to.shortTermLoss = from.shortTermLoss * factor
  to.longTermLoss = from.longTermLoss * factor
  to.section179 = from.section179 * factor
}
