// Quarters of coverage, and what a year of low farm profit does to them and to the later benefit.
import type { BenefitLaw } from './benefit-law.ts'
import {
  alive,
  type EarningsRecord,
  eligibleYearOf,
  primaryAmount,
  quartersBefore,
  quartersNeededBy,
  quartersOf,
} from './primary-amount.ts'

export interface CoverageStanding {
  quarters: number
  needed: number
  /** Years at four quarters each until insured; 0 when insured. */
  yearsLeft: number
}

/** Where a record stands for a retirement benefit at the start of `year`. */
export const coverageStanding = (law: BenefitLaw, record: EarningsRecord, year: number): CoverageStanding => {
  const needed = quartersNeededBy(record.bornYear, alive)
  const quarters = quartersBefore(law, record, year)
  return { quarters, needed, yearsLeft: Math.ceil(Math.max(0, needed - quarters) / 4) }
}

export interface FarmYearEffect {
  /** Net earnings that count: profit × 0.9235 (0 under 400 dollars), or the optional amount. */
  coveredEarnings: number
  quarters: number
  /** Change of the primary amount in the formula of the year of 62, dollars a month, against a year without earnings. */
  primaryAmountChange: number
}

/**
 * What one year's covered farm earnings are worth later: quarters, and dollars a month on the primary amount, all other
 * years left as the record has them. Compare the regular method with the optional one by calling it for each.
 */
export const farmYearEffect = (
  law: BenefitLaw,
  record: EarningsRecord,
  year: number,
  coveredEarnings: number,
): FarmYearEffect => {
  const earnings = record.earnings.slice()
  const counted = Math.max(eligibleYearOf(record.bornYear, alive), year + 1)
  const amountWith = (amount: number) => {
    earnings[year - law.firstYear] = amount
    return primaryAmount(law, { ...record, earnings }, counted).atEligibility
  }
  return {
    coveredEarnings,
    quarters: quartersOf(law, year, coveredEarnings),
    primaryAmountChange: amountWith(coveredEarnings) - amountWith(0),
  }
}
