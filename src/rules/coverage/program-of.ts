// Which public program takes a person at a household income, in January or at any time of the year.
import { coverageAges } from '../data/coverage-ages.ts'
import { inForce } from '../in-force.ts'
import { basicProgram, childrensProgram, marketplace, medicaid } from './coverage-kinds.ts'
import type { CoverageLimits } from './coverage-limits.ts'

/** What a person is to the programs: by age, by children at home, by pregnancy (42 CFR 435.110 to 435.119, 457.310). */
export const standings = [
  'infant',
  'youngChild',
  'olderChild',
  'adult',
  'parent',
  'pregnant',
  'older',
] as const
export type Standing = (typeof standings)[number]

const infant = 0
const youngChild = 1
const olderChild = 2
const adult = 3
const parent = 4
const pregnant = 5
/** From 65 on none of these programs takes a person. */
const older = 6

/** Of somebody whom no income of the household brings into a program. */
export const askedForNothing = older

/** Ages in months at which a child passes from one line to the next, and at which the adults’ lines end. */
const ages = inForce(coverageAges, Number.POSITIVE_INFINITY)
const infantTo = ages.infant!
const youngTo = ages.young!
const childTo = ages.child!
const adultTo = ages.adult!

/** In months: the age at which Medicare takes the place of the adults’ programs (42 USC 1395c). */
export const medicareAge = adultTo

/** Place in `standings` of someone of that age in months. */
export const standingOf = (ageMonths: number, isParent: boolean, isPregnant: boolean): number => {
  if (isPregnant) return pregnant
  if (ageMonths < infantTo) return infant
  if (ageMonths < youngTo) return youngChild
  if (ageMonths < childTo) return olderChild
  if (ageMonths >= adultTo) return older
  return isParent ? parent : adult
}

/** Whether someone of this age at home makes a parent of the adults (42 CFR 435.4: under 18, or 18 and at school). */
export const makesParents = (ageMonths: number): boolean => ageMonths >= 0 && ageMonths < childTo

/**
 * Place in `coverageKinds`: the program whose line the income does not pass, else the marketplace. `percent`: household income of the
 * month in percent of the poverty level, not cut to whole percents; `ofYear`: that of the year, by which Medicaid takes who is beyond its
 * line in the month while the year is under the level (42 CFR 435.603(i)), as no credit is for such a year; `forBasic`: that of the year in
 * percent of the level by which a basic health program goes.
 */
export const programOf = (
  limits: CoverageLimits,
  standing: number,
  percent: number,
  ofYear: number = percent,
  forBasic: number = ofYear,
): number => {
  if (standing === older) return marketplace
  const line = medicaidLimitOf(limits, standing)
  if (isWithin(percent, line) || (ofYear < yearCounts && isWithin(ofYear, line))) return medicaid
  if (standing <= olderChild)
    return isWithin(percent, limits.childrensProgram) ? childrensProgram : marketplace
  return isWithin(forBasic, limits.basic) ? basicProgram : marketplace
}

/** Percent of the poverty level below which a year's income counts for Medicaid too. */
export const yearCounts = 100

/** A year of loss is below every line, but for one that is not there. */
const isWithin = (percent: number, limit: number): boolean => limit > 0 && percent <= limit + lessThanACent

/** Percent: more than a quotient drifts in binary, less than a cent is of any poverty line, so that an income at a line is within it. */
const lessThanACent = 1e-6

const medicaidLimitOf = (limits: CoverageLimits, standing: number): number => {
  switch (standing) {
    case infant:
      return limits.infant
    case youngChild:
      return limits.youngChild
    case olderChild:
      return limits.olderChild
    case parent:
      return Math.max(limits.parent, limits.adult)
    case pregnant:
      return Math.max(limits.pregnant, limits.parent, limits.adult)
    default:
      return limits.adult
  }
}
