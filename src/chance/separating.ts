// What the bad tenth have in common: for each drawn factor, how well it alone tells the bad tenth from the rest.

/** Names of the drawn factors among the figures of a path, in the order in which they are compared. */
export const factorNames = [
  'stocksEarly',
  'stocksLater',
  'bondsEarly',
  'inflationEarly',
  'inflationLater',
  'seasonEarly',
  'seasonLater',
  'premiumEarly',
  'care',
  'lastDeath',
  'firstDeath',
  'workLost',
] as const

export interface Separation {
  /** Place of the factor in the table that was given. */
  factor: number
  /**
   * Chance that a course of the bad tenth has a lower value than a course of the rest (ties count half): 0.5 tells
   * nothing, 1 means lower values always went with bad courses, 0 higher values.
   * The Mann-Whitney statistic divided by the number of pairs (cited from memory).
   */
  lowerWhenBad: number
  /** Means of the factor in the bad tenth and in the rest. */
  meanOfBad: number
  meanOfRest: number
}

/**
 * Ranks the factors by how well they separate, best first. `outcome` has one value per course, low is bad; `factors`
 * are rows of one value per course. The bad tenth is the tenth of courses with the lowest outcomes; courses that tie
 * with its best one are taken in order of their number.
 */
export function separateBadTenth(outcome: Float64Array, factors: readonly Float64Array[]): Separation[] {
  const courses = outcome.length
  const order = Uint32Array.from({ length: courses }, (_, course) => course).sort(
    (a, b) => outcome[a]! - outcome[b]! || a - b,
  )
  const isBad = new Uint8Array(courses)
  const badCount = Math.max(1, Math.floor(courses / 10))
  for (const course of order.subarray(0, badCount)) isBad[course] = 1
  return factors
    .map((values, factor) => separationBy(values, isBad, badCount, factor))
    .sort((a, b) => Math.abs(b.lowerWhenBad - 0.5) - Math.abs(a.lowerWhenBad - 0.5))
}

function separationBy(values: Float64Array, isBad: Uint8Array, badCount: number, factor: number): Separation {
  const order = Uint32Array.from({ length: values.length }, (_, course) => course).sort(
    (a, b) => values[a]! - values[b]!,
  )
  let rankSum = 0
  let badSum = 0
  let restSum = 0
  let start = 0
  while (start < order.length) {
    let end = start
    while (end < order.length && values[order[end]!] === values[order[start]!]) end += 1
    const meanRank = (start + 1 + end) / 2
    for (const course of order.subarray(start, end)) {
      if (isBad[course]) rankSum += meanRank
      if (isBad[course]) badSum += values[course]!
      else restSum += values[course]!
    }
    start = end
  }
  const restCount = values.length - badCount
  const pairs = badCount * restCount
  const higherWhenBad = pairs === 0 ? 0.5 : (rankSum - (badCount * (badCount + 1)) / 2) / pairs
  return {
    factor,
    lowerWhenBad: 1 - higherWhenBad,
    meanOfBad: badSum / badCount,
    meanOfRest: restCount === 0 ? 0 : restSum / restCount,
  }
}
