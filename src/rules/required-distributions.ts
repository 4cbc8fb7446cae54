// Required distributions: who must take one in a year, how much, and by which day.
import { type Day, day } from '#calendar/day.ts'
import { Decimal } from '#money/decimal.ts'
import {
  distributionStartAges,
  missedDistributionTax,
  uniformLifetimeDivisors,
} from './data/retirement-accounts.ts'
import { inForce } from './in-force.ts'

export interface RequiredDistribution {
  startAge: number
  firstYear: number
  age: number
  /** Null before the first year. */
  divisor: number | null
  /** Dollars to the cent. */
  amount: number
  /** April 1 of the next year for the first one, December 31 for all others. Null when nothing is due. */
  due: Day | null
  /** What the tax on a missed amount would be, and when it is mended in time. */
  ifMissed: { tax: number; mended: number }
}

/** For a traditional account's owner, by the Uniform Lifetime Table. `balance` is that of December 31 before, dollars. A Roth IRA owner has none. */
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

/** April 1 after the first year; taking it then puts two distributions into one tax year. */
export const distributionDue = (bornYear: number, year: number): Day =>
  year === bornYear + distributionStartAge(bornYear) ? day(`${year + 1}-04-01`) : day(`${year}-12-31`)

const divisors = inForce(uniformLifetimeDivisors, 2022)
const table = Float64Array.from({ length: 121 }, (_, age) => divisors[age] ?? 0)
const startAges = Int8Array.from({ length: 300 }, (_, i) => inForce(distributionStartAges, 1900 + i))

/**
 * The age whose year is the first with a required distribution (26 USC 401(a)(9)(C), SECURE 2.0 sec. 107): 75 for births
 * from 1960, 73 from 1951, 72 before (born from July 1949); earlier births started at 70½, here taken as 71 and long begun.
 */
export const distributionStartAge = (bornYear: number): number => startAges[bornYear - 1900]!

/**
 * Divisor of the Uniform Lifetime Table at the age reached in the year; `Infinity` before the start age, so that
 * balance ÷ divisor is 0. Not for a sole beneficiary spouse more than ten years younger (joint table, smaller amounts).
 */
export const distributionDivisor = (bornYear: number, year: number): number => {
  const age = year - bornYear
  if (age < distributionStartAge(bornYear)) return Number.POSITIVE_INFINITY
  return table[Math.min(120, Math.max(72, age))]!
}
