// Required distributions in their exact form: who must take one in a year, how much, and by which day.
import { type Day, day } from '#calendar/day.ts'
import { Decimal } from '#money/decimal.ts'
import { missedDistributionTax } from './data/retirement-accounts.ts'
import { distributionDivisor, distributionStartAge } from './fast/distributions.ts'
import { inForce } from './in-force.ts'

export interface RequiredDistribution {
  startAge: number
  firstYear: number
  age: number
  /** Null before the first year. */
  divisor: number | null
  /** Dollars to the cent. */
  amount: number
  /** 1 April of the next year for the first one, 31 December for all others. Null when nothing is due. */
  due: Day | null
  /** What the tax on a missed amount would be, and when it is mended in time. */
  ifMissed: { tax: number; mended: number }
}

/** For a traditional account's owner, by the Uniform Lifetime Table. `balance` is that of 31 December before, dollars. A Roth IRA owner has none. */
export const requiredDistributionOf = (
  bornYear: number,
  year: number,
  balance: number,
): RequiredDistribution => {
  const startAge = distributionStartAge(bornYear)
  const firstYear = bornYear + startAge
  const due = year >= firstYear
  const divisor = due ? distributionDivisor(bornYear, year) : null
  const amount =
    divisor === null ? new Decimal(0) : new Decimal(String(balance)).div(String(divisor)).toDecimalPlaces(2)
  const [tax, mended] = inForce(missedDistributionTax, Math.max(2023, year))
  return {
    startAge,
    firstYear,
    age: year - bornYear,
    divisor,
    amount: amount.toNumber(),
    due: due ? distributionDue(bornYear, year) : null,
    ifMissed: {
      tax: amount.times(String(tax)).toDecimalPlaces(2).toNumber(),
      mended: amount.times(String(mended)).toDecimalPlaces(2).toNumber(),
    },
  }
}

/** 1 April after the first year; taking it then puts two distributions into one tax year. */
export const distributionDue = (bornYear: number, year: number): Day =>
  year === bornYear + distributionStartAge(bornYear) ? day(`${year + 1}-04-01`) : day(`${year}-12-31`)
