// Saver's credit (26 USC 25B), in force up to 2026. Whole cents.
import type { LawYear } from '../law-year.ts'
import { atRate } from '../rounding.ts'

/** Whole cents unless said. */
export interface SaversCase {
  people: number
  contributions: number
  distributions: number
  adjustedGrossIncome: number
  taxLeft: number
}

/**
 * `contributions` of all people on the return, `distributions` of the year set against them. How they are shared between
 * two people is not asked: up to the cap times the people counts.
 */
export const saversCredit = (law: LawYear, status: number, saver: SaversCase): number => {
  const limits = law.saversLimits[status]!
  let rate = 0
  for (let band = limits.length - 1; band >= 0; band -= 1) {
    if (saver.adjustedGrossIncome <= limits[band]! * 100) rate = law.saversRates[band]!
  }
  const counted = Math.min(
    Math.max(0, saver.contributions - saver.distributions),
    saver.people * law.saversCap * 100,
  )
  return Math.min(atRate(counted, rate), Math.max(0, saver.taxLeft))
}
