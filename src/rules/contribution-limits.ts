// How much may go into each kind of retirement or health savings account in a year, and how much of it is deductible.
import {
  annualAdditions,
  compensationCap,
  contributionWidths,
  deferralCatchUp,
  deferralCatchUpSixties,
  deferralLimit,
  hsaCatchUp,
  hsaFamily,
  hsaSelfOnly,
  iraCatchUp,
  iraDeductionFromJoint,
  iraDeductionFromSingle,
  iraDeductionFromSpouseCovered,
  iraLimit,
  iraRangeSeparate,
  rothFromJoint,
  rothFromSingle,
  sepRate,
  simpleCatchUp,
  simpleCatchUpSixties,
  simpleDeferral,
  simpleDeferralSmallEmployer,
} from './data/retirement-accounts.ts'
import { type Amounts, type Basis, type Dated, type Indexing, lookUp, yearsOf } from './dated.ts'
import type { FilingStatus } from './filing-status.ts'
import { inForce } from './in-force.ts'

/** One person's limits of a year, dollars, catch-up included for the age reached in the year. */
export interface ContributionLimits {
  year: number
  basis: Basis
  /** Traditional and Roth together, also limited by the year's compensation. */
  ira: number
  deferral: number
  deferralCatchUp: number
  simple: number
  simpleSmallEmployer: number
  annualAdditions: number
  compensationCap: number
  /** Two 55-year-olds each add the catch-up to an account of their own; the family amount is one for both. */
  hsaSelfOnly: number
  hsaFamily: number
  hsaCatchUp: number
}

/** Limits for a person who reaches `age` in the year. Throws `RuleYearError` before 2024. */
export const contributionLimits = (year: number, age: number, indexing: Indexing): ContributionLimits => {
  let basis: Basis = 'enacted'
  const get = <Value extends Amounts>(fact: Dated<Value>): Value => {
    const found = lookUp(fact, year, indexing)
    if (found.basis === 'projected') basis = 'projected'
    return found.value
  }
  const catchUp = (usual: Dated<number>, sixties: Dated<number>): number => {
    if (age < 50) return 0
    const higher = age >= 60 && age <= 63 && year >= yearsOf(sixties).first
    return higher ? get(sixties) : get(usual)
  }
  const hsaExtra = age >= 55 ? inForce(hsaCatchUp, year) : 0
  const limits = {
    ira: get(iraLimit) + (age >= 50 ? get(iraCatchUp) : 0),
    deferral: get(deferralLimit),
    deferralCatchUp: catchUp(deferralCatchUp, deferralCatchUpSixties),
    simple: get(simpleDeferral) + catchUp(simpleCatchUp, simpleCatchUpSixties),
    simpleSmallEmployer: get(simpleDeferralSmallEmployer),
    annualAdditions: get(annualAdditions),
    compensationCap: get(compensationCap),
    hsaSelfOnly: get(hsaSelfOnly) + hsaExtra,
    hsaFamily: get(hsaFamily) + hsaExtra,
    hsaCatchUp: hsaExtra,
  }
  return { year, ...limits, basis }
}

export interface IraIncome {
  year: number
  status: FilingStatus
  /** Modified adjusted gross income, dollars. */
  income: number
  /** Taking part in a plan at work; a SEP, SIMPLE or solo 401(k) of one's own counts. */
  coveredAtWork: boolean
  spouseCoveredAtWork: boolean
}

/** The deductible part of an IRA limit (26 USC 219(g)): in full below the range, none above, rounded up to ten dollars and at least 200 within. */
export const deductibleIra = (limit: number, income: IraIncome, indexing: Indexing): number => {
  const range = iraDeductionRange(income, indexing)
  return range ? withinRange(limit, income.income, range) : limit
}

const iraDeductionRange = (income: IraIncome, indexing: Indexing): readonly [number, number] | null => {
  const { status, year } = income
  if (status === 'married_separate') {
    return income.coveredAtWork || income.spouseCoveredAtWork ? inForce(iraRangeSeparate, year) : null
  }
  if (income.coveredAtWork) {
    return hasJointRange(status)
      ? rangeFrom(iraDeductionFromJoint, 'joint', year, indexing)
      : rangeFrom(iraDeductionFromSingle, 'single', year, indexing)
  }
  const spouse = status === 'married_joint' && income.spouseCoveredAtWork
  return spouse ? rangeFrom(iraDeductionFromSpouseCovered, 'spouseCovered', year, indexing) : null
}

/** How much of the limit may go to a Roth IRA (26 USC 408A(c)(3)). */
export const rothAllowed = (
  limit: number,
  year: number,
  status: FilingStatus,
  income: number,
  indexing: Indexing,
): number => {
  if (status === 'married_separate') return withinRange(limit, income, inForce(iraRangeSeparate, year))
  const range = hasJointRange(status)
    ? rangeFrom(rothFromJoint, 'rothJoint', year, indexing)
    : rangeFrom(rothFromSingle, 'rothSingle', year, indexing)
  return withinRange(limit, income, range)
}

/** Joint returns and surviving spouses (26 USC 219(g)(3)(B), 408A(c)(3); Pub. 590-A). */
const hasJointRange = (status: FilingStatus): boolean =>
  status === 'married_joint' || status === 'surviving_spouse'

/** Where a range begins moves with prices; how wide it is does not. */
const rangeFrom = (
  fact: Dated<number>,
  width: string,
  year: number,
  indexing: Indexing,
): readonly [number, number] => {
  const from = lookUp(fact, year, indexing).value
  return [from, from + inForce(contributionWidths, year)[width]!]
}

const withinRange = (limit: number, income: number, [from, to]: readonly [number, number]): number => {
  if (income <= from) return limit
  if (income >= to) return 0
  const part = (limit * (to - income)) / (to - from)
  return Math.min(limit, Math.max(200, Math.ceil(part / 10 - 1e-9) * 10))
}

/**
 * The owner's own SEP contribution, dollars: a quarter of compensation after the contribution itself, which is a fifth of
 * net profit less half of self-employment tax, within the compensation cap and the limit on additions (IRS Pub. 560).
 */
export const ownerSepContribution = (
  netProfit: number,
  halfSelfEmploymentTax: number,
  limits: ContributionLimits,
): number => {
  const rate = inForce(sepRate, limits.year)
  const earned = Math.max(0, netProfit - halfSelfEmploymentTax)
  return Math.min((earned * rate) / (1 + rate), limits.compensationCap * rate, limits.annualAdditions)
}

/** A solo 401(k): the deferral (with catch-up outside the limit on additions) and the employer part, within what was earned. */
export const soloPlanContribution = (
  netProfit: number,
  halfSelfEmploymentTax: number,
  limits: ContributionLimits,
): { deferral: number; employer: number; total: number } => {
  const earned = Math.max(0, netProfit - halfSelfEmploymentTax)
  const employer = ownerSepContribution(netProfit, halfSelfEmploymentTax, limits)
  const usual = Math.min(limits.deferral, earned - employer, limits.annualAdditions - employer)
  const catchUp = Math.min(limits.deferralCatchUp, earned - employer - usual)
  return { deferral: usual + catchUp, employer, total: usual + catchUp + employer }
}
