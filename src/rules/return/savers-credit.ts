// Saver's credit (26 USC 25B), in force up to 2026. Whole cents.
import type { LawYear } from '../law-year.ts'
import { atRate, wholeCents } from '../rounding.ts'

/** Whole cents unless said. */
export interface SaversCase {
  people: number
  contributions: number
  distributions: number
  adjustedGrossIncome: number
  taxLeft: number
}

/**
 * `contributions` of all people on the return, as far as the cap of each lets them count (`countedForSavers`); `distributions` of the
 * year are set against them.
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

/** Each person's contributions count up to the cap (26 USC 25B(a), from memory); where nobody said whose they are, as if shared as is best. Whole cents. */
export const countedForSavers = (law: LawYear, all: number, byPerson?: readonly number[]): number =>
  byPerson === undefined
    ? all
    : Math.min(
        all,
        byPerson.reduce((sum, own) => sum + Math.min(wholeCents(own), law.saversCap * 100), 0),
      )
