// What part of the primary amount is paid, by the age at which a worker, a spouse or a survivor begins.
import { type Day, dateOfDay } from '#calendar/day.ts'
import { yearIn } from '#calendar/month.ts'
import {
  benefitAges,
  delayedCreditRate,
  earlyReduction,
  familyShares,
  fullRetirementAge,
} from '../data/social-security.ts'
import { inForce } from '../in-force.ts'

/** Ages in months. */
const ages = inForce(benefitAges, Number.POSITIVE_INFINITY)
export const earliestClaimMonths = ages.earliest! * 12
const lastCreditMonths = ages.lastCredit! * 12
export const survivorFromMonths = ages.survivor! * 12
export const childUntilMonths = ages.child! * 12
export const inCareUntilMonths = ages.childInCare! * 12

const reduction = inForce(earlyReduction, 1983)
const family = inForce(familyShares, 1984)

const bornFrom = 1900
const fullAges = Int16Array.from({ length: 200 }, (_, i) => inForce(fullRetirementAge, bornFrom + i))
const creditRates = Float64Array.from({ length: 200 }, (_, i) => inForce(delayedCreditRate, bornFrom + i))

/** Full retirement age in months by year of birth (42 USC 416(l)). */
export const fullRetirementAgeMonths = (bornYear: number): number => fullAges[bornYear - bornFrom]!

/** The same for a widow or widower: the schedule runs two years later (42 USC 416(l)(2); read in one published case, POMS RS 00615.301). */
export const survivorFullAgeMonths = (bornYear: number): number => fullRetirementAgeMonths(bornYear - 2)

/**
 * Share of the primary amount paid to a worker who claims at `claimAgeMonths` (62 to 70 years): 5/9 % a month for the
 * first 36 months early, 5/12 % for the rest (42 USC 402(q)); the delayed credit of the birth year up to 70 (402(w)).
 */
export const claimFactor = (bornYear: number, claimAgeMonths: number): number => {
  const full = fullRetirementAgeMonths(bornYear)
  if (claimAgeMonths < full) return 1 - reductionFor(full - claimAgeMonths, reduction.workerFirst36!)
  return 1 + ((Math.min(claimAgeMonths, lastCreditMonths) - full) * delayedCreditPerYear(bornYear)) / 12
}

const reductionFor = (monthsEarly: number, perMonthOfFirst36: number): number =>
  Math.min(monthsEarly, 36) * perMonthOfFirst36 + Math.max(0, monthsEarly - 36) * reduction.further!

/** Delayed credit as a fraction a year, by year of birth. */
const delayedCreditPerYear = (bornYear: number): number => creditRates[bornYear - bornFrom]!

/** Share of a spouse's part that is paid from an age on: 25/36 % a month off for 36 months, then 5/12 %. No delayed credits. */
export const spouseFactor = (bornYear: number, ageMonthsAtStart: number): number =>
  1 -
  reductionFor(Math.max(0, fullRetirementAgeMonths(bornYear) - ageMonthsAtStart), reduction.spouseFirst36!)

/** Share of a widow's or widower's benefit from an age on: 71.5 % at 60, rising evenly to all of it at the survivor's full age. 0 before 60. */
export const survivorFactor = (bornYear: number, ageMonthsAtStart: number): number => {
  if (ageMonthsAtStart < survivorFromMonths) return 0
  const full = survivorFullAgeMonths(bornYear)
  const monthsEarly = Math.max(0, full - ageMonthsAtStart)
  return 1 - ((1 - family.survivorAtSixty!) * monthsEarly) / (full - survivorFromMonths)
}

/** Year of birth as the law counts it: a person reaches an age on the day before the birthday, so January 1 belongs to the year before. */
export const benefitBirthYear = (born: Day): number =>
  born.endsWith('-01-01') ? yearIn(born) - 1 : yearIn(born)

/**
 * The age in months at the first month a retirement benefit can be paid for: 62 throughout the month, which those born on
 * the 1st or 2nd are in the month of the birthday, all others in the next (20 CFR 404.311(a), as described in public text).
 */
export const earliestClaimAgeMonths = (born: Day): number =>
  dateOfDay(born) <= 2 ? earliestClaimMonths : earliestClaimMonths + 1

/**
 * The share paid up to the next December of a claim in a month of the year, 1 to 12: delayed credits of the year of claim count
 * from January, except at 70 (42 USC 402(w); from memory). Equal to `claimFactor` for early claims.
 */
export const factorUntilJanuary = (
  bornYear: number,
  claimAgeMonths: number,
  claimMonthOfYear: number,
): number => {
  const late = claimAgeMonths - fullRetirementAgeMonths(bornYear)
  const waiting = claimAgeMonths >= lastCreditMonths ? 0 : Math.min(Math.max(0, late), claimMonthOfYear - 1)
  return claimFactor(bornYear, claimAgeMonths) - (waiting * delayedCreditPerYear(bornYear)) / 12
}
