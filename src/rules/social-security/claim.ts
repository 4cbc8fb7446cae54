// What is paid on a primary amount: the worker's own benefit by age of claim, the spouse's part, the survivor's benefit, rounded as paid.
import { type Day, dateOfDay } from '#calendar/day.ts'
import { Decimal } from '#money/decimal.ts'
import {
  claimFactor,
  delayedCreditPerYear,
  earliestClaimMonths,
  fullRetirementAgeMonths,
  lastCreditMonths,
  spouseAmountMonthly,
  survivorAmountMonthly,
} from './benefits.ts'
import { downToDime } from './primary-amount.ts'

/** Year of birth as the law counts it: a person reaches an age on the day before the birthday, so 1 January belongs to the year before. */
export const benefitBirthYear = (born: Day): number =>
  born.endsWith('-01-01') ? Number(born.slice(0, 4)) - 1 : Number(born.slice(0, 4))

/**
 * The age in months at the first month a retirement benefit can be paid for: 62 throughout the month, which those born on
 * the 1st or 2nd are in the month of the birthday, all others in the next (20 CFR 404.311(a), as described in public text).
 */
export const earliestClaimAgeMonths = (born: Day): number =>
  dateOfDay(born) <= 2 ? earliestClaimMonths : earliestClaimMonths + 1

export interface ClaimTerms {
  fullRetirementAgeMonths: number
  /** Positive when early, negative when late. */
  monthsEarly: number
  /** Fraction of the primary amount paid for life. */
  factor: number
  /**
   * Fraction paid up to the next December: delayed credits of the year of claim count from January, except at 70
   * (42 USC 402(w); from memory). Equal to `factor` for early claims.
   */
  factorUntilJanuary: number
}

/** Terms of a claim at an age in months (744 to 840) in a calendar month of the year, 1 to 12. */
export const claimTerms = (
  bornYear: number,
  claimAgeMonths: number,
  claimMonthOfYear: number,
): ClaimTerms => {
  if (claimAgeMonths < earliestClaimMonths)
    throw new Error(
      `A retirement benefit starts at ${earliestClaimMonths / 12}; asked for ${claimAgeMonths} months`,
    )
  const full = fullRetirementAgeMonths(bornYear)
  const factor = claimFactor(bornYear, claimAgeMonths)
  const waiting = Math.min(Math.max(0, claimAgeMonths - full), claimMonthOfYear - 1)
  const until =
    claimAgeMonths >= lastCreditMonths ? factor : factor - (waiting * delayedCreditPerYear(bornYear)) / 12
  return {
    fullRetirementAgeMonths: full,
    monthsEarly: full - claimAgeMonths,
    factor,
    factorUntilJanuary: until,
  }
}

/** The worker's monthly benefit, down to ten cents; `paid` after taking off the Medicare premium is down to the whole dollar. */
export const workerBenefit = (
  primary: Decimal,
  factor: number,
): { monthly: Decimal; paidWholeDollars: number } => {
  const monthly = downToDime(primary.times(Math.round(factor * factorParts)).div(factorParts))
  return { monthly, paidWholeDollars: monthly.floor().toNumber() }
}

/** The spouse's part on top of the own benefit, down to ten cents (42 USC 402(b), (c), (k), (q)). */
export const spousePart = (
  ownPrimary: Decimal,
  workerPrimary: Decimal,
  spouseBornYear: number,
  ageMonthsAtStart: number,
): Decimal =>
  downToDime(
    new Decimal(
      String(
        spouseAmountMonthly(
          ownPrimary.toNumber(),
          workerPrimary.toNumber(),
          spouseBornYear,
          ageMonthsAtStart,
        ),
      ),
    ).toDecimalPlaces(6),
  )

/** The survivor's benefit before comparing it with the own one, down to ten cents (42 USC 402(e), (f), (q)). */
export const survivorBenefit = (
  workerPrimary: Decimal,
  workerFactor: number,
  survivorBornYear: number,
  ageMonthsAtStart: number,
): Decimal =>
  downToDime(
    new Decimal(
      String(
        survivorAmountMonthly(workerPrimary.toNumber(), workerFactor, survivorBornYear, ageMonthsAtStart),
      ),
    ).toDecimalPlaces(6),
  )

/**
 * Every factor is a whole number of these parts: 5/9 and 5/12 % a month early, a twelfth of 3 to 8 % a month late. Taken whole,
 * the product is exact, and a benefit of even dimes is not rounded to the dime below.
 */
const factorParts = 7200
