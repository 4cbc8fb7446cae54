// What may be deducted at once: section 179 with its limit, phase-out and income limit, and bonus depreciation by day of purchase.
import type { Day } from '#calendar/day.ts'
import {
  bonusPercentEarlierPurchases,
  bonusPercentSince,
  section179Limit,
  section179PhaseOut,
  section179SuvCap,
} from '../data/depreciation.ts'
import { type Basis, type Indexing, lookUp, yearsOf } from '../dated.ts'
import { inForce } from '../in-force.ts'

export interface Section179Limits {
  limit: number
  phaseOutOver: number
  suvCap: number
  basis: Basis
}

/** Section 179 limits of a tax year, dollars. Throws `RuleYearError` before 2024. */
export const section179Limits = (year: number, indexing: Indexing): Section179Limits => {
  const { value: limit, basis } = lookUp(section179Limit, year, indexing)
  return {
    limit,
    phaseOutOver: lookUp(section179PhaseOut, year, indexing).value,
    suvCap: lookUp(section179SuvCap, year, indexing).value,
    basis,
  }
}

/**
 * The most that may be deducted in the year, dollars: the limit, less a dollar for each dollar of qualifying cost over the
 * phase-out start, and not above the year's active business income (wages of either spouse count). The rest carries forward.
 */
export const section179Ceiling = (
  limits: Pick<Section179Limits, 'limit' | 'phaseOutOver'>,
  qualifyingCost: number,
  activeBusinessIncome: number,
): number => {
  const limit = Math.max(0, limits.limit - Math.max(0, qualifyingCost - limits.phaseOutOver))
  return Math.max(0, Math.min(limit, activeBusinessIncome))
}

/** What was elected within the year's limit but is over its business income: deducted in a later year (26 USC 179(b)(3)(B)). */
export const section179Carried = (
  limits: Pick<Section179Limits, 'limit' | 'phaseOutOver'>,
  qualifyingCost: number,
  activeBusinessIncome: number,
  elected: number,
): number => {
  const within = section179Ceiling(limits, qualifyingCost, Number.POSITIVE_INFINITY)
  const allowed = section179Ceiling(limits, qualifyingCost, activeBusinessIncome)
  return Math.max(0, Math.min(elected, within) - allowed)
}

/** First year of service whose bonus is kept here. */
export const firstBonusYear = yearsOf(bonusPercentEarlierPurchases).first

const changeOfLaw = '2025-01-20' as Day

/**
 * Bonus share of the basis (1 is all of it) by day of purchase and year of first use. Used property counts when new to the
 * taxpayer; property under the alternative system does not qualify (the caller decides). Throws `RuleYearError` before 2018.
 */
export const bonusShare = (acquired: Day, inServiceYear: number): number =>
  acquired >= changeOfLaw
    ? inForce(bonusPercentSince, inServiceYear) / 100
    : inForce(bonusPercentEarlierPurchases, inServiceYear) / 100
