// What Medicare costs a person in a year, in its exact form: premiums by income two years back, late additions, Part A by quarters.
import { Decimal } from '#money/decimal.ts'
import {
  lateEnrollment,
  lookBackYears,
  partAFullPremium,
  partAInpatientDeductible,
  partAReducedPremium,
  partDOutOfPocketCap,
  premiumFreeQuarters,
} from '../data/medicare.ts'
import { type Indexing, lookUp, yearsOf } from '../dated.ts'
import type { FilingStatus } from '../filing-status.ts'
import { inForce } from '../in-force.ts'
import { medicareYear, type PremiumLevel } from './medicare-year.ts'
import { type MedicareColumn, medicareTier } from './premiums.ts'

export interface MedicarePerson {
  premiumYear: number
  status: FilingStatus
  /** Only for separate returns: lived with the spouse at any time in the year of the return. */
  livedTogether?: boolean
  /** Adjusted gross income plus tax-exempt interest of the return of `returnYearFor(premiumYear)`. */
  income: number
  quarters: number
  /** Full 12-month periods Part B was late, and months Part D was late. */
  partBYearsLate?: number
  partDMonthsLate?: number
  /** The chosen Part D plan's own premium; the national base when none is given. */
  partDPlanMonthly?: number
}

/** Dollars a month for one person, to the cent. */
export interface MedicareCost {
  projected: boolean
  returnYear: number
  tier: number
  partA: number
  partB: number
  partBAddition: number
  partBLate: number
  partDPlan: number
  partDAddition: number
  partDLate: number
  monthly: number
  yearly: number
  partADeductible: number
  partBDeductible: number
  /** Yearly cap on Part D out-of-pocket costs; null before 2025, when there was none. */
  partDOutOfPocketCap: number | null
  /** Income at which the next tier begins, and what it would add a month; null in the top tier. */
  nextTier: { income: number; addsMonthly: number } | null
}

/** The return a premium year rests on. */
export const returnYearFor = (premiumYear: number): number =>
  premiumYear - inForce(lookBackYears, premiumYear)

/** Which column of income lines a person is in. */
export const medicareColumn = (status: FilingStatus, livedTogether: boolean): MedicareColumn => {
  if (status === 'married_joint') return 1
  return status === 'married_separate' && livedTogether ? 2 : 0
}

/** Costs of one person. Throws `RuleYearError` before 2024. */
export const medicareCost = (
  person: MedicarePerson,
  indexing: Indexing,
  premiums: PremiumLevel = indexing.prices,
): MedicareCost => {
  const law = medicareYear(person.premiumYear, indexing, premiums)
  const column = medicareColumn(person.status, person.livedTogether ?? true)
  const tier = medicareTier(law, person.income, column)
  const late = inForce(lateEnrollment, person.premiumYear)
  const parts = {
    partA: partAMonthly(person, indexing),
    partB: law.standardPartB,
    partBAddition: law.addedPartB[tier]!,
    partBLate: toDime(law.standardPartB * late.partBPer12Months! * (person.partBYearsLate ?? 0)),
    partDPlan: person.partDPlanMonthly ?? law.basePartD,
    partDAddition: law.addedPartD[tier]!,
    partDLate: toDime(law.basePartD * late.partDPerMonth! * (person.partDMonthsLate ?? 0)),
  }
  const monthly = Object.values(parts).reduce((sum, part) => sum.plus(String(part)), new Decimal(0))
  return {
    projected: law.projected,
    returnYear: returnYearFor(person.premiumYear),
    tier,
    ...parts,
    monthly: monthly.toNumber(),
    yearly: monthly.times(12).toNumber(),
    partADeductible: lookUp(partAInpatientDeductible, person.premiumYear, indexing).value,
    partBDeductible: law.deductiblePartB,
    partDOutOfPocketCap: capOf(person.premiumYear, indexing),
    nextTier: nextTierOf(law, tier, column),
  }
}

const partAMonthly = (person: MedicarePerson, indexing: Indexing): number => {
  const [reduced, free] = inForce(premiumFreeQuarters, person.premiumYear)
  if (person.quarters >= free) return 0
  const fact = person.quarters >= reduced ? partAReducedPremium : partAFullPremium
  return lookUp(fact, person.premiumYear, indexing).value
}

const capOf = (year: number, indexing: Indexing): number | null =>
  year < yearsOf(partDOutOfPocketCap).first ? null : lookUp(partDOutOfPocketCap, year, indexing).value

const nextTierOf = (law: ReturnType<typeof medicareYear>, tier: number, column: MedicareColumn) => {
  const starts = law.tierStarts[column]
  if (tier >= starts.length) return null
  const income = starts[tier]!
  const reached = tier === starts.length - 1 ? tier + 1 : starts.lastIndexOf(income) + 1
  const adds = (tiers: Float64Array) => new Decimal(String(tiers[reached])).minus(String(tiers[tier]))
  return { income, addsMonthly: adds(law.addedPartB).plus(adds(law.addedPartD)).toNumber() }
}

const toDime = (amount: number): number => Math.round(amount * 10) / 10
