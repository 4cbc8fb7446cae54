// How much may go into each kind of retirement or health savings account in a year, and how much of it is deductible.
import {
  annualAdditions,
  compensationCap,
  deferralCatchUp,
  deferralCatchUpSixties,
  deferralLimit,
  hsaCatchUp,
  hsaFamily,
  hsaSelfOnly,
  iraCatchUp,
  iraLimit,
  sepRate,
  simpleCatchUp,
  simpleCatchUpSixties,
  simpleDeferral,
  simpleDeferralSmallEmployer,
} from './data/retirement-accounts.ts'
import { type Amounts, type Basis, type Dated, type Indexing, lookUp, yearsOf } from './dated.ts'
import { inForce } from './in-force.ts'
import type { IncomeRange, LawYear } from './law-year.ts'

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

/**
 * The part of an IRA limit that may be deducted at a modified adjusted gross income, dollars (26 USC 219(g)). `covered`: taking
 * part in a plan at work; a SEP, SIMPLE or solo 401(k) of one's own counts.
 */
export const deductibleIra = (
  law: LawYear,
  status: number,
  limit: number,
  income: number,
  covered: boolean,
  spouseCovered: boolean,
): number => {
  if (covered) return withinRange(limit, income, law.iraCoveredRange[status]!)
  return spouseCovered ? withinRange(limit, income, law.iraSpouseCoveredRange[status]!) : limit
}

/** How much of the limit may go to a Roth IRA (26 USC 408A(c)(3)). */
export const rothAllowed = (law: LawYear, status: number, limit: number, income: number): number =>
  withinRange(limit, income, law.rothRange[status]!)

/** In full below the range, none above, rounded up to ten dollars and at least 200 within. */
const withinRange = (limit: number, income: number, range: IncomeRange): number => {
  const from = range[0]
  const to = range[1]
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
