// What the agency pays a household in a month: retirement, spouse's, widow's, child's and parent's benefits, up to the family maximum.
import { familyShares } from '../data/social-security.ts'
import { inForce } from '../in-force.ts'
import { downToDime, downToDollar } from '../rounding.ts'
import type { BenefitLaw } from './benefit-law.ts'
import {
  claimFactor,
  fullRetirementAgeMonths,
  spouseFactor,
  survivorFactor,
  survivorFromMonths,
  survivorFullAgeMonths,
} from './claim-factors.ts'
import {
  adjusted,
  alive,
  type EarningsRecord,
  eligibleYearOf,
  indexedCents,
  isCurrentlyInsured,
  isFullyInsured,
  primaryAmount,
} from './primary-amount.ts'

/** Someone's course through the benefits. Months are calendar months (year × 12 + month − 1), amounts dollars a month. */
export interface BenefitPerson {
  record: EarningsRecord
  /** Calendar month of birth as the law counts it. */
  bornMonth: number
  claimMonth: number
  /** First month the person is no longer alive; `Infinity` while alive to the end of the plan. */
  deathMonth: number
  /** Months of a widow's or widower's benefit that earnings withheld before full age: it counts as begun so much later. */
  survivorMonthsBack: number
  /** On this record: for the worker and the children, for a widow or widower, and for all of the family together. */
  primary: number
  survivorPrimary: number
  familyMaximum: number
  /** What a further year's indexed earnings must pass to change them, cents. */
  leastCounted: number
}

/** Children of a month that benefits count: below 18, and whether one is below 16, so that its parent is paid for its care. */
export interface BenefitChildren {
  count: number
  inCare: boolean
}

const family = inForce(familyShares, 1984)

/** Someone before any amount is known. */
export const benefitPerson = (
  record: EarningsRecord,
  bornMonth: number,
  claimMonth: number,
  deathMonth = alive,
): BenefitPerson => ({
  record,
  bornMonth,
  claimMonth,
  deathMonth,
  survivorMonthsBack: 0,
  primary: 0,
  survivorPrimary: 0,
  familyMaximum: 0,
  leastCounted: 0,
})

/**
 * Works a person's amounts out of the record as it stands at the start of `year`, or in the month of the death. A living worker
 * needs 40 quarters; after a death those of the years lived are enough, and for child and parent six of late.
 */
export const setPrimaryAmounts = (
  law: BenefitLaw,
  person: BenefitPerson,
  spouse: BenefitPerson | null,
  year: number,
  isDead: boolean,
): void => {
  const { record } = person
  const deathYear = isDead ? Math.floor(person.deathMonth / 12) : alive
  const fully = isFullyInsured(law, record, year, deathYear)
  const insured = fully || (isDead && isCurrentlyInsured(law, record, deathYear))
  const own = insured ? primaryAmount(law, record, year, deathYear) : null
  person.primary = own?.amount ?? 0
  person.familyMaximum = own?.familyMaximum ?? 0
  person.leastCounted = own?.leastCounted ?? 0
  person.survivorPrimary = fully && isDead ? person.primary : 0
  const later = spouse === null || !fully ? deathYear : survivorEligibleYear(person, spouse, deathYear)
  if (isDead && later > deathYear && year >= later)
    person.survivorPrimary = Math.max(
      person.survivorPrimary,
      primaryAmount(law, record, year, deathYear, later).amount,
    )
}

/**
 * The year whose formula a widow's or widower's benefit may use instead: of the survivor's 60th birthday or the worker's 62nd, whichever
 * is earlier, when the worker died before 62 and the survivor was not yet 60 (42 USC 402(e)(2)(B); SSA Actuarial Note 141).
 */
export const survivorEligibleYear = (
  worker: BenefitPerson,
  survivor: BenefitPerson,
  deathYear: number,
): number =>
  Math.max(
    deathYear,
    Math.min(
      Math.floor((survivor.bornMonth + survivorFromMonths) / 12),
      eligibleYearOf(worker.record.bornYear, alive),
    ),
  )

/** Whether what a living worker earned in a year, now on the record, can change the amounts worked out before it. */
export const changesAmounts = (
  law: BenefitLaw,
  { record, leastCounted }: BenefitPerson,
  year: number,
): boolean =>
  indexedCents(law, record.earnings[year - law.firstYear]!, year, eligibleYearOf(record.bornYear, alive)) >
  leastCounted

/** The next year's amounts on a record that no longer changes. */
export const adjustAmounts = (person: BenefitPerson, costOfLiving: number): void => {
  person.primary = adjusted(person.primary, costOfLiving)
  person.survivorPrimary = adjusted(person.survivorPrimary, costOfLiving)
  person.familyMaximum = adjusted(person.familyMaximum, costOfLiving)
}

/** Places in `out` of `householdBenefits`: the two adults', the children's together, and on whose record those are paid, 0 or 1. */
export const ofChildren = 2
export const childrenOn = 3

/**
 * Benefits of a calendar month as paid, before the earnings test and Medicare. A child of two workers is paid on the record that
 * gives it more; the maximum of both records together (42 USC 403(a)(3)) is not used. Nobody is divorced or married again, no
 * child disabled.
 */
export const householdBenefits = (
  first: BenefitPerson,
  second: BenefitPerson | null,
  children: BenefitChildren,
  calendarMonth: number,
  out: Float64Array,
): void => {
  const { count, inCare } = children
  const on = second !== null && childRate(second, calendarMonth) > childRate(first, calendarMonth) ? 1 : 0
  shareOut(first, second, on === 0 ? count : 0, inCare, calendarMonth)
  let child = shared.child
  out[0] = ownBenefit(first, calendarMonth)
  out[1] = shared.relative
  if (second !== null) {
    shareOut(second, first, on === 1 ? count : 0, inCare, calendarMonth)
    child = Math.max(child, shared.child)
    out[0] = shared.relative
  }
  out[0] = downToDollar(out[0])
  out[1] = downToDollar(out[1])
  out[ofChildren] = count * downToDollar(child)
  out[childrenOn] = on
}

/** What the last record paid: the spouse or survivor in all, own benefit with it, and each child. */
const shared = { relative: 0, child: 0 }

const ownBenefit = (person: BenefitPerson, month: number): number =>
  month >= person.deathMonth || month < person.claimMonth
    ? 0
    : downToDime(person.primary * claimFactor(person.record.bornYear, person.claimMonth - person.bornMonth))

const childRate = (worker: BenefitPerson, month: number): number => {
  if (month >= worker.deathMonth) return downToDime(family.survivingChild! * worker.primary)
  return month < worker.claimMonth ? 0 : downToDime(family.child! * worker.primary)
}

/**
 * Divides one record among the family: each one's rate in full, or its part of the maximum when they come to more; only then
 * is it reduced for age (SSA POMS RS 00615.756). What a relative's own benefit takes the place of goes to the children.
 */
const shareOut = (
  worker: BenefitPerson,
  relative: BenefitPerson | null,
  count: number,
  inCare: boolean,
  month: number,
): void => {
  shared.relative = relative === null ? 0 : ownBenefit(relative, month)
  shared.child = 0
  const dead = month >= worker.deathMonth
  if (!dead && month < worker.claimMonth) return
  const child = childRate(worker, month)
  const rate = relative === null ? 0 : relativeRate(worker, relative, inCare, month)
  const limit = worker.familyMaximum - (dead ? 0 : worker.primary)
  const total = rate + count * child
  const part = count > 0 && total > limit ? limit / total : 1
  let used = rate * part
  if (relative !== null && rate > 0)
    used = dead
      ? payWidowed(worker, relative, part, inCare, month)
      : paySpouse(worker, relative, used, inCare, month)
  if (count > 0) shared.child = downToDime(Math.min(child, (limit - used) / count))
}

/** What a spouse or survivor is entitled to before the maximum, any reduction for age and own benefits. */
const relativeRate = (
  worker: BenefitPerson,
  relative: BenefitPerson,
  inCare: boolean,
  month: number,
): number => {
  if (month >= relative.deathMonth) return 0
  if (month >= worker.deathMonth)
    return Math.max(widowRate(worker, relative, month), inCare ? parentRate(worker) : 0)
  return inCare || month >= relative.claimMonth ? downToDime(family.spouse! * worker.primary) : 0
}

const parentRate = (worker: BenefitPerson): number => downToDime(family.parentInCare! * worker.primary)

const widowRate = (worker: BenefitPerson, survivor: BenefitPerson, month: number): number =>
  month < survivor.bornMonth + survivorFromMonths
    ? 0
    : downToDime(worker.survivorPrimary * Math.max(1, paidFactor(worker)))

/** The claim factor a worker was paid at; when death came first, the credits earned after full age. */
const paidFactor = ({ record, bornMonth, claimMonth, deathMonth }: BenefitPerson): number => {
  const age = Math.min(claimMonth, deathMonth) - bornMonth
  return claimMonth <= deathMonth || age > fullRetirementAgeMonths(record.bornYear)
    ? claimFactor(record.bornYear, age)
    : 1
}

/** The larger of the own benefit, the widow's or widower's and the parent's. Returns what it uses of the maximum. */
const payWidowed = (
  worker: BenefitPerson,
  survivor: BenefitPerson,
  part: number,
  inCare: boolean,
  month: number,
): number => {
  const own = shared.relative
  const rate = widowRate(worker, survivor, month)
  const parent = inCare ? parentRate(worker) : 0
  const widow = rate > 0 ? widowBenefit(worker, survivor, rate * part) : 0
  shared.relative = Math.max(own, widow, downToDime(parent * part))
  return Math.max(0, Math.max(rate, parent) * part - own)
}

/** Begun at the death or at 60, whichever is later; waiting longer for a larger one is not modelled. */
const widowBenefit = (worker: BenefitPerson, survivor: BenefitPerson, rate: number): number => {
  const { bornYear } = survivor.record
  const begun =
    Math.max(worker.deathMonth - survivor.bornMonth, survivorFromMonths) + survivor.survivorMonthsBack
  return survivorAmount(
    rate,
    worker.survivorPrimary,
    paidFactor(worker),
    bornYear,
    Math.min(begun, Math.max(survivorFullAgeMonths(bornYear), begun - survivor.survivorMonthsBack)),
  )
}

/** The own benefit, and what half the worker's amount is above the own; whole while a child is in care. Returns what it uses of the maximum. */
const paySpouse = (
  worker: BenefitPerson,
  spouse: BenefitPerson,
  rate: number,
  inCare: boolean,
  month: number,
): number => {
  const claimed = month >= spouse.claimMonth
  const excess = Math.max(0, rate - (claimed ? spouse.primary : 0))
  const begun = Math.max(spouse.claimMonth, worker.claimMonth) - spouse.bornMonth
  shared.relative += downToDime(excess * (inCare ? 1 : spouseFactor(spouse.record.bornYear, begun)))
  return excess
}

/**
 * A widow's or widower's benefit of `rate` taken at an age: after an early claim by the deceased no more than the larger of
 * what was paid and 82.5 % of the primary amount (42 USC 402(e)(2)(D)).
 */
export const survivorAmount = (
  rate: number,
  primary: number,
  workerFactor: number,
  bornYear: number,
  ageMonthsAtStart: number,
): number => {
  const amount = rate * survivorFactor(bornYear, ageMonthsAtStart)
  return downToDime(
    workerFactor < 1
      ? Math.min(amount, primary * Math.max(workerFactor, family.survivorFloorAfterEarlyClaim!))
      : amount,
  )
}
