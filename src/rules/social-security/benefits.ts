// Social Security as the projection calls it: earnings record → primary amount → claim factor → spouse → survivor, in plain numbers, without allocation.
// It leaves out the law's roundings to the dime and the dollar (the other files of this room hold those): at most a few dollars a month apart.

import {
  benefitAges,
  computationYears,
  delayedCreditRate,
  earlyReduction,
  earningsTestShares,
  familyShares,
  fullRetirementAge,
  primaryFactors,
  quartersNeeded,
} from '../data/social-security.ts'
import { inForce } from '../in-force.ts'

/** Social Security law by calendar year; index 0 of every array is `firstYear`. Built by `benefitLaw`. */
export interface BenefitLaw {
  firstYear: number
  lastYear: number
  /** The first year whose wage index is projected rather than published. */
  firstProjectedWageYear: number
  /** National average wage index, dollars a year. */
  wageIndex: Float64Array
  /** Contribution and benefit base, dollars a year. */
  wageBase: Float64Array
  /** Cost-of-living adjustment of December of the year, fraction. */
  costOfLiving: Float64Array
  /** Bend points by the year the worker turns 62, dollars a month. */
  firstBend: Float64Array
  secondBend: Float64Array
  /** Earnings for one quarter of coverage, dollars. */
  quarterAmount: Float64Array
  /** Earnings-test amounts, dollars a year: before the year of full retirement age, and in that year before the month. */
  earningsTestUnder: Float64Array
  earningsTestYearOf: Float64Array
}

/** One person's covered earnings (wages and net self-employment earnings after the 0.9235 factor), index as in the law's arrays. */
export interface EarningsRecord {
  /** Year of birth as the law counts it: someone born on 1 January counts as born the year before. */
  bornYear: number
  /** Dollars a year, uncapped; index 0 is the law's `firstYear`. */
  earnings: Float64Array
}

/** Ages in months: the first benefit, the end of delayed credits, the first benefit of a widow or widower. */
const ages = inForce(benefitAges, Number.POSITIVE_INFINITY)
export const earliestClaimMonths = ages.earliest! * 12
export const lastCreditMonths = ages.lastCredit! * 12
export const survivorFromMonths = ages.survivor! * 12

const countedYears = inForce(computationYears, Number.POSITIVE_INFINITY)
const insuredQuarters = inForce(quartersNeeded, Number.POSITIVE_INFINITY)
const [lowFactor, middleFactor, highFactor] = inForce(primaryFactors, 1979)
const reduction = inForce(earlyReduction, 1983)
const family = inForce(familyShares, 1984)
const [withheldUnder, withheldYearOf] = inForce(earningsTestShares, 1990)

const bornFrom = 1900
const fullAges = Int16Array.from({ length: 200 }, (_, i) => inForce(fullRetirementAge, bornFrom + i))
const creditRates = Float64Array.from({ length: 200 }, (_, i) => inForce(delayedCreditRate, bornFrom + i))
const scratch = new Float64Array(160)

/**
 * Average indexed monthly earnings from all years before `year`, dollars a month. Highest 35 years, wages indexed to the
 * year of age 60 (42 USC 415(b)). For births from 1929.
 */
export const averageIndexedMonthly = (law: BenefitLaw, record: EarningsRecord, year: number): number => {
  const indexingYear = record.bornYear + 60
  const indexAt60 = wageIndexAt(law, indexingYear)
  let count = 0
  let sum = 0
  const end = Math.min(year - law.firstYear, record.earnings.length)
  for (let i = 0; i < end; i++) {
    const earned = record.earnings[i]!
    if (earned <= 0) continue
    const covered = Math.min(earned, law.wageBase[i]!)
    const factor = law.firstYear + i < indexingYear ? indexAt60 / law.wageIndex[i]! : 1
    const indexed = covered * factor
    scratch[count] = indexed
    count += 1
    sum += indexed
  }
  return (sum - lowestOf(count, count - countedYears)) / (countedYears * 12)
}

/** The sum of the `drop` smallest of the first `count` numbers in the scratch array, by partial selection. */
const lowestOf = (count: number, drop: number): number => {
  let sum = 0
  for (let done = 0; done < drop; done++) {
    let at = done
    for (let i = done + 1; i < count; i++) if (scratch[i]! < scratch[at]!) at = i
    const smallest = scratch[at]!
    scratch[at] = scratch[done]!
    scratch[done] = smallest
    sum += smallest
  }
  return sum
}

const wageIndexAt = (law: BenefitLaw, year: number): number => {
  const value = law.wageIndex[year - law.firstYear]
  if (value === undefined)
    throw new Error(`No wage index for ${year}: law runs ${law.firstYear}–${law.lastYear}`)
  return value
}

/**
 * Quarters of coverage earned before `year`, at most four a year (42 USC 413). 40 are needed for a retirement benefit.
 * Years before 1978 counted quarter by quarter; here they count by the 1978 amount, which never overstates by more than a year.
 */
export const quartersBefore = (law: BenefitLaw, record: EarningsRecord, year: number): number => {
  let quarters = 0
  const end = Math.min(year - law.firstYear, record.earnings.length)
  for (let i = 0; i < end; i++)
    quarters += Math.min(4, Math.floor(record.earnings[i]! / law.quarterAmount[i]!))
  return quarters
}

/**
 * Primary insurance amount payable in `year`, dollars a month: earnings of all years before it, the formula of the year of
 * age 62, then each December's cost-of-living adjustment up to the one before `year`. 0 with fewer than 40 quarters.
 * Before the year of 62 the amount is that of the record so far, in the formula of that later year, without adjustments.
 */
export const primaryAmountMonthly = (law: BenefitLaw, record: EarningsRecord, year: number): number => {
  if (quartersBefore(law, record, year) < insuredQuarters) return 0
  const eligible = record.bornYear + 62 - law.firstYear
  const amount = primaryFromAverage(
    averageIndexedMonthly(law, record, year),
    law.firstBend[eligible]!,
    law.secondBend[eligible]!,
  )
  return amount * adjustmentsBetween(law, record.bornYear + 62, year)
}

/** 90 % to the first bend point, 32 % to the second, 15 % above (42 USC 415(a)(1)); dollars a month in, dollars a month out. */
export const primaryFromAverage = (average: number, firstBend: number, secondBend: number): number =>
  lowFactor * Math.min(average, firstBend) +
  middleFactor * Math.max(0, Math.min(average, secondBend) - firstBend) +
  highFactor * Math.max(0, average - secondBend)

/** Product of the cost-of-living adjustments of the years `from` … `year − 1`. */
const adjustmentsBetween = (law: BenefitLaw, from: number, year: number): number => {
  let factor = 1
  for (let y = from; y < year; y++) factor *= 1 + law.costOfLiving[y - law.firstYear]!
  return factor
}

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
export const delayedCreditPerYear = (bornYear: number): number => creditRates[bornYear - bornFrom]!

/**
 * What a spouse adds to the own retirement benefit, dollars a month: half the worker's primary amount less the spouse's
 * own, reduced for the spouse's age when it starts (25/36 % a month for 36 months, then 5/12 %). No delayed credits.
 * The worker must have claimed; the caller gives the age at the later of the two claims.
 */
export const spouseAmountMonthly = (
  ownPrimary: number,
  workerPrimary: number,
  spouseBornYear: number,
  spouseAgeMonthsAtStart: number,
): number => {
  const excess = family.spouse! * workerPrimary - ownPrimary
  if (excess <= 0) return 0
  const monthsEarly = Math.max(0, fullRetirementAgeMonths(spouseBornYear) - spouseAgeMonthsAtStart)
  return excess * (1 - reductionFor(monthsEarly, reduction.spouseFirst36!))
}

/**
 * A widow's or widower's benefit before comparing it with the own one, dollars a month. `workerFactor` is the claim factor
 * the deceased was paid at; when death came first, 1 (or the credits already earned after full retirement age).
 * At 60 it is 71.5 %, rising evenly to 100 % at the survivor's full age; after an early claim by the deceased it is limited
 * to the larger of what was paid and 82.5 % of the primary amount. 0 before 60.
 */
export const survivorAmountMonthly = (
  workerPrimary: number,
  workerFactor: number,
  survivorBornYear: number,
  survivorAgeMonthsAtStart: number,
): number => {
  if (survivorAgeMonthsAtStart < survivorFromMonths) return 0
  const full = survivorFullAgeMonths(survivorBornYear)
  const monthsEarly = Math.max(0, full - survivorAgeMonthsAtStart)
  const share = 1 - ((1 - family.survivorAtSixty!) * monthsEarly) / (full - survivorFromMonths)
  const amount = workerPrimary * Math.max(1, workerFactor) * share
  return workerFactor < 1
    ? Math.min(amount, workerPrimary * Math.max(workerFactor, family.survivorFloorAfterEarlyClaim!))
    : amount
}

/**
 * Benefits withheld in a year for earnings, dollars (42 USC 403): one of two dollars over the amount before the year of full
 * retirement age; one of three in that year, counting earnings before the month; none after. Never more than the benefit.
 */
export const earningsTestWithheld = (
  law: BenefitLaw,
  year: number,
  bornYear: number,
  bornMonth: number,
  earningsInYear: number,
  benefitInYear: number,
): number => {
  const fullAgeMonth = bornYear * 12 + bornMonth - 1 + fullRetirementAgeMonths(bornYear)
  const fullAgeYear = Math.floor(fullAgeMonth / 12)
  if (year > fullAgeYear) return 0
  const i = year - law.firstYear
  const yearOf = year === fullAgeYear
  const monthsBefore = yearOf ? fullAgeMonth - year * 12 : 12
  const counted = (earningsInYear * monthsBefore) / 12
  const over = counted - (yearOf ? law.earningsTestYearOf[i]! : law.earningsTestUnder[i]!)
  const subject = (benefitInYear * monthsBefore) / 12
  return Math.max(0, Math.min(subject, over * (yearOf ? withheldYearOf : withheldUnder)))
}

/** Whole months of benefit the test withheld, credited back at full retirement age as if the claim had been that much later. */
export const monthsGivenBack = (withheldInYear: number, benefitMonthly: number): number =>
  benefitMonthly > 0 ? Math.min(12, Math.max(0, Math.ceil(withheldInYear / benefitMonthly - 1e-9))) : 0

/** Someone's course through the benefits: the record, the claim and, if it comes, the month of death. Months are calendar months (year × 12 + month − 1). */
export interface BenefitPerson {
  record: EarningsRecord
  /** Calendar month of birth as the law counts it. */
  bornMonth: number
  claimMonth: number
  /** First month the person is no longer alive; `Infinity` while alive to the end of the plan. */
  deathMonth: number
}

/**
 * Monthly benefits of two spouses in a calendar month, dollars, before the earnings test and Medicare, written to
 * `out[0]` and `out[1]`. Primary amounts are given (see `primaryAmountMonthly`), so that the caller works them out once a
 * year. For one person alone pass the same function with `second` null.
 */
export const householdBenefitsMonthly = (
  first: BenefitPerson,
  second: BenefitPerson | null,
  firstPrimary: number,
  secondPrimary: number,
  calendarMonth: number,
  out: Float64Array,
): void => {
  out[0] = benefitOf(first, second, firstPrimary, secondPrimary, calendarMonth)
  out[1] = second === null ? 0 : benefitOf(second, first, secondPrimary, firstPrimary, calendarMonth)
}

const benefitOf = (
  person: BenefitPerson,
  other: BenefitPerson | null,
  primary: number,
  otherPrimary: number,
  calendarMonth: number,
): number => {
  if (calendarMonth >= person.deathMonth) return 0
  const bornYear = person.record.bornYear
  const claimed = calendarMonth >= person.claimMonth
  const own = claimed ? primary * claimFactor(bornYear, person.claimMonth - person.bornMonth) : 0
  if (other === null) return own
  if (calendarMonth >= other.deathMonth) {
    const survivor =
      calendarMonth < person.bornMonth + survivorFromMonths ? 0 : survivorOf(person, other, otherPrimary)
    return Math.max(own, survivor)
  }
  if (!claimed || calendarMonth < other.claimMonth) return own
  const startAge = Math.max(person.claimMonth, other.claimMonth) - person.bornMonth
  return own + spouseAmountMonthly(primary, otherPrimary, bornYear, startAge)
}

/** The survivor's benefit starts at the death or at 60, whichever is later; waiting longer for a larger one is not modelled. */
const survivorOf = (person: BenefitPerson, other: BenefitPerson, otherPrimary: number): number => {
  const startAge = Math.max(other.deathMonth - person.bornMonth, survivorFromMonths)
  const otherAge = Math.min(other.claimMonth, other.deathMonth) - other.bornMonth
  const full = fullRetirementAgeMonths(other.record.bornYear)
  const factor =
    other.claimMonth <= other.deathMonth || otherAge > full ? claimFactor(other.record.bornYear, otherAge) : 1
  return survivorAmountMonthly(otherPrimary, factor, person.record.bornYear, startAge)
}
