// Quarters of coverage, and what a year of low farm profit does to them and to the later benefit.
import { quartersNeeded } from '../data/social-security.ts'
import { inForce } from '../in-force.ts'
import {
  averageIndexedMonthly,
  type BenefitLaw,
  type EarningsRecord,
  primaryFromAverage,
  quartersBefore,
} from './benefits.ts'

/** Quarters earned by covered earnings of one year, 0 to 4. */
const quartersOf = (law: BenefitLaw, year: number, coveredEarnings: number): number =>
  Math.min(4, Math.floor(coveredEarnings / law.quarterAmount[year - law.firstYear]!))

export interface CoverageStanding {
  quarters: number
  needed: number
  /** Years at four quarters each until insured; 0 when insured. */
  yearsLeft: number
}

/** Where a record stands at the start of `year`. */
export const coverageStanding = (law: BenefitLaw, record: EarningsRecord, year: number): CoverageStanding => {
  const needed = inForce(quartersNeeded, year)
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
  const i = year - law.firstYear
  const earnings = record.earnings.slice()
  const claimYear = record.bornYear + 62
  const amountWith = (amount: number) => {
    earnings[i] = amount
    const average = averageIndexedMonthly(law, { ...record, earnings }, Math.max(claimYear, year + 1))
    const eligible = claimYear - law.firstYear
    return primaryFromAverage(average, law.firstBend[eligible]!, law.secondBend[eligible]!)
  }
  return {
    coveredEarnings,
    quarters: quartersOf(law, year, coveredEarnings),
    primaryAmountChange: amountWith(coveredEarnings) - amountWith(0),
  }
}
