// From an earnings record to the primary insurance amount and the family maximum, step by step as the agency rounds, without allocation.
import {
  computationYears,
  familyMaximumShares,
  primaryFactors,
  quartersNeeded,
} from '../data/social-security.ts'
import { inForce } from '../in-force.ts'
import { downToDime } from '../rounding.ts'
import type { BenefitLaw } from './benefit-law.ts'
import { earliestClaimMonths } from './claim-factors.ts'

/** One person's covered earnings (wages and net self-employment earnings after the 0.9235 factor), index as in the law's arrays. */
export interface EarningsRecord {
  /** Year of birth as the law counts it: someone born on January 1 counts as born the year before. */
  bornYear: number
  /** Dollars a year, uncapped; index 0 is the law's `firstYear`. */
  earnings: Float64Array
}

/** Dollars a month unless said. Each call writes the same object again. */
export interface PrimaryAmount {
  eligibleYear: number
  /** Years with earnings, those of them that count, and how many the average is taken over. */
  yearsWithEarnings: number
  yearsCounted: number
  yearsAveraged: number
  /** The highest indexed years together, dollars; average indexed monthly earnings, whole dollars. */
  sumOfHighest: number
  /** Indexed cents that a further year must pass to change anything: of the lowest year that counts, or none while years are missing. */
  leastCounted: number
  average: number
  firstBend: number
  secondBend: number
  atEligibility: number
  amount: number
  familyMaximum: number
}

/** A living worker. */
export const alive = Number.POSITIVE_INFINITY

const counting = inForce(computationYears, Number.POSITIVE_INFINITY)
const quarters = inForce(quartersNeeded, Number.POSITIVE_INFINITY)
const [low, middle, high] = inForce(primaryFactors, 1979)
const familyShares = inForce(familyMaximumShares, 1979)
const scratch = new Float64Array(160)

const worked: PrimaryAmount = {
  eligibleYear: 0,
  yearsWithEarnings: 0,
  yearsCounted: 0,
  yearsAveraged: 0,
  sumOfHighest: 0,
  leastCounted: 0,
  average: 0,
  firstBend: 0,
  secondBend: 0,
  atEligibility: 0,
  amount: 0,
  familyMaximum: 0,
}

/** The year whose formula counts: of age 62, or of a death before it (42 USC 415(a)(3)(B)). */
export const eligibleYearOf = (bornYear: number, deathYear: number): number =>
  Math.min(bornYear + earliestClaimMonths / 12, deathYear)

/** How many of the highest years make the average (42 USC 415(b)(2)(A)): 35 of a full working life, fewer after an early death. */
export const yearsAveraged = (bornYear: number, deathYear: number): number =>
  Math.max(
    counting.least!,
    eligibleYearOf(bornYear, deathYear) - bornYear - counting.fromAge! - counting.leftOut!,
  )

/**
 * The amount payable in `year` on the earnings of all years before it, a dead worker's year of death included (42 USC 415(a), (b),
 * (i); 20 CFR 404.211, 404.212), for births from 1929 and not for disability. Does not ask for quarters of coverage. Another
 * `eligibleYear` than the worker's own is how a widow's or widower's benefit may be worked out (42 USC 402(e)(2)(B)).
 */
export const primaryAmount = (
  law: BenefitLaw,
  record: EarningsRecord,
  year: number,
  deathYear = alive,
  eligibleYear = eligibleYearOf(record.bornYear, deathYear),
): PrimaryAmount => {
  worked.eligibleYear = eligibleYear
  worked.yearsAveraged = yearsAveraged(record.bornYear, deathYear)
  averageEarnings(law, record, Math.min(year, deathYear + 1))
  const i = eligibleYear - law.firstYear
  worked.firstBend = at(law, law.firstBend, eligibleYear)
  worked.secondBend = law.secondBend[i]!
  worked.atEligibility = primaryFromAverage(worked.average, worked.firstBend, worked.secondBend)
  worked.amount = worked.atEligibility
  worked.familyMaximum = familyMaximumOf(law, worked.atEligibility, eligibleYear)
  for (let of = eligibleYear; of < year; of += 1) {
    worked.amount = adjusted(worked.amount, at(law, law.costOfLiving, of))
    worked.familyMaximum = adjusted(worked.familyMaximum, law.costOfLiving[of - law.firstYear]!)
  }
  return worked
}

/** Earnings of a year up to its base, moved with wages to the second year before eligibility, if that is later. */
export const indexedCents = (law: BenefitLaw, earned: number, year: number, eligibleYear: number): number => {
  const i = year - law.firstYear
  const covered = Math.min(earned, law.wageBase[i]!)
  if (year >= eligibleYear - 2) return Math.round(covered * 100)
  return Math.round((covered * at(law, law.wageIndex, eligibleYear - 2) * 100) / law.wageIndex[i]!)
}

/** The highest years together and their average. */
const averageEarnings = (law: BenefitLaw, record: EarningsRecord, before: number): void => {
  let count = 0
  let cents = 0
  const end = Math.min(before - law.firstYear, record.earnings.length)
  for (let i = 0; i < end; i += 1) {
    if (record.earnings[i]! <= 0) continue
    scratch[count] = indexedCents(law, record.earnings[i]!, law.firstYear + i, worked.eligibleYear)
    cents += scratch[count]!
    count += 1
  }
  const dropped = count - worked.yearsAveraged
  cents -= lowestOf(count, dropped)
  worked.leastCounted = dropped < 0 ? 0 : leastOf(dropped, count)
  worked.yearsWithEarnings = count
  worked.yearsCounted = Math.min(count, worked.yearsAveraged)
  worked.sumOfHighest = cents / 100
  worked.average = Math.floor(cents / (1200 * worked.yearsAveraged))
}

/** The sum of the `drop` smallest of the first `count` numbers in the scratch array: parted by a pivot again and again, until they are the first. */
const lowestOf = (count: number, drop: number): number => {
  let [first, last] = [0, drop > 0 ? count - 1 : 0]
  while (first < last) {
    const pivot = scratch[(first + last) >> 1]!
    let [i, j] = [first, last]
    while (i <= j) {
      while (scratch[i]! < pivot) i += 1
      while (scratch[j]! > pivot) j -= 1
      if (i > j) break
      const moved = scratch[i]!
      scratch[i] = scratch[j]!
      scratch[j] = moved
      i += 1
      j -= 1
    }
    if (drop <= j) last = j
    else if (drop > i) first = i
    else break
  }
  let sum = 0
  for (let i = 0; i < drop; i += 1) sum += scratch[i]!
  return sum
}

/** The smallest number of the scratch array from `first` to before `end`. */
const leastOf = (first: number, end: number): number => {
  let least = Number.POSITIVE_INFINITY
  for (let i = first; i < end; i += 1) if (scratch[i]! < least) least = scratch[i]!
  return least
}

/** Average monthly earnings to the primary amount: 90 % to the first bend point, 32 % to the second, 15 % above (42 USC 415(a)(1)). */
export const primaryFromAverage = (average: number, firstBend: number, secondBend: number): number =>
  downToDime(
    low * Math.min(average, firstBend) +
      middle * Math.max(0, Math.min(average, secondBend) - firstBend) +
      high * Math.max(0, average - secondBend),
  )

/** The most a family is paid on one record, by the year of eligibility (42 USC 403(a)(1)); not for disability. */
export const familyMaximumOf = (law: BenefitLaw, primary: number, eligibleYear: number): number => {
  const i = eligibleYear - law.firstYear
  const first = law.firstFamilyBend[i]!
  const second = law.secondFamilyBend[i]!
  const third = law.thirdFamilyBend[i]!
  return downToDime(
    familyShares[0] * Math.min(primary, first) +
      familyShares[1] * Math.max(0, Math.min(primary, second) - first) +
      familyShares[2] * Math.max(0, Math.min(primary, third) - second) +
      familyShares[3] * Math.max(0, primary - third),
  )
}

/** One December's cost-of-living adjustment, a fraction. */
export const adjusted = (amount: number, costOfLiving: number): number =>
  downToDime(amount * (1 + costOfLiving))

/**
 * Quarters of coverage of the years `from` to before `year`, at most four a year (42 USC 413). Years before 1978 counted quarter
 * by quarter; here they count by the 1978 amount, which never overstates by more than a year.
 */
export const quartersBefore = (
  law: BenefitLaw,
  record: EarningsRecord,
  year: number,
  from = law.firstYear,
): number => {
  let sum = 0
  const end = Math.min(year - law.firstYear, record.earnings.length)
  for (let i = Math.max(0, from - law.firstYear); i < end; i += 1)
    sum += quartersOf(law, law.firstYear + i, record.earnings[i]!)
  return sum
}

/** Quarters earned by covered earnings of one year, 0 to 4. */
export const quartersOf = (law: BenefitLaw, year: number, earned: number): number =>
  Math.min(4, Math.floor(earned / law.quarterAmount[year - law.firstYear]!))

/** Quarters that make fully insured: one for each year from 22 up to 62 or the death, at least six (42 USC 414(a)). */
export const quartersNeededBy = (bornYear: number, deathYear: number): number =>
  Math.min(
    quarters.most!,
    Math.max(quarters.least!, eligibleYearOf(bornYear, deathYear) - bornYear - quarters.fromAge!),
  )

/** Enough quarters by `year` or the death for a retirement or a survivor’s benefit (42 USC 414(a)). */
export const isFullyInsured = (
  law: BenefitLaw,
  record: EarningsRecord,
  year: number,
  deathYear: number,
): boolean =>
  quartersBefore(law, record, Math.min(year, deathYear + 1)) >= quartersNeededBy(record.bornYear, deathYear)

/** Enough of late for a child's and its parent's benefit after a death (42 USC 414(b)). */
export const isCurrentlyInsured = (law: BenefitLaw, record: EarningsRecord, deathYear: number): boolean =>
  quartersBefore(law, record, deathYear + 1, deathYear - quarters.currentYearsBefore!) >=
  quarters.currentlyInsured!

const at = (law: BenefitLaw, values: Float64Array, year: number): number => {
  const value = values[year - law.firstYear]
  if (value === undefined) throw new Error(`Law runs ${law.firstYear}–${law.lastYear}; asked for ${year}`)
  return value
}
