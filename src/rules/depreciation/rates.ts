// Share of basis deducted in each year of service: printed half-year tables, and the declining-balance rule for everything not tabled.
import {
  doubleDecliningHalfYear,
  type FarmAssetClass,
  onePointFiveDecliningHalfYear,
} from '../data/depreciation.ts'
import { inForce } from '../in-force.ts'
import { recoveryIn } from './recovery.ts'

/** Half-year, mid-quarter (quarter of first use), or mid-month (month of first use; tenant houses only). */
export type Convention =
  | { kind: 'half-year' }
  | { kind: 'mid-quarter'; quarter: 1 | 2 | 3 | 4 }
  | { kind: 'mid-month'; month: number }

/** The general system, its two elections (26 USC 168(b)(2)(D), (b)(5)), and the alternative one (168(g)). */
export type DepreciationSystem = 'general' | 'general-150' | 'general-line' | 'alternative'

/**
 * Fractions of the depreciable basis by year of service, adding to 1. `inServiceYear` chooses the law of the class.
 * Half-year rows are the printed ones; mid-quarter, mid-month and straight-line rows are computed by the rule of 26 USC
 * 168(b)-(d), unrounded, within 0.01 percentage points of print.
 */
export const yearlyShares = (
  assetClass: FarmAssetClass,
  inServiceYear: number,
  convention: Convention,
  system: DepreciationSystem = 'general',
): Float64Array => {
  const recovery = recoveryIn(assetClass, inServiceYear)
  const firstPart = firstYearPart(convention)
  if (system === 'alternative') return straightLineShares(recovery.alternativeYears, firstPart)
  if (recovery.straightLine || system === 'general-line')
    return straightLineShares(recovery.generalYears, firstPart)
  const balance = system === 'general-150' ? 150 : recovery.decliningBalance
  const printed = balance === 200 ? doubleDecliningHalfYear : onePointFiveDecliningHalfYear
  const row = inForce(printed, inServiceYear)[recovery.generalYears]
  if (convention.kind === 'half-year' && row) return Float64Array.from(row, (percent) => percent / 100)
  return decliningShares(recovery.generalYears, balance / 100, firstPart)
}

/** Part of the first year that counts. */
const firstYearPart = (convention: Convention): number => {
  if (convention.kind === 'half-year') return 0.5
  if (convention.kind === 'mid-quarter') return (4 - convention.quarter + 0.5) / 4
  return (12 - convention.month + 0.5) / 12
}

/** Declining balance at `factor` ÷ years, changing to straight line over what is left when that is more. */
export const decliningShares = (years: number, factor: number, firstPart: number): Float64Array => {
  const shares = new Float64Array(Math.ceil(years + 1 - 1e-9))
  let left = 1
  for (let i = 0; i < shares.length; i++) {
    const part = i === 0 ? firstPart : 1
    const yearsLeft = i === 0 ? years : years - firstPart - (i - 1)
    const declining = left * (factor / years) * part
    const straight = yearsLeft <= part ? left : (left / yearsLeft) * part
    shares[i] = Math.min(left, Math.max(declining, straight))
    left -= shares[i]!
  }
  return shares
}

const straightLineShares = (years: number, firstPart: number): Float64Array => {
  const shares = new Float64Array(Math.ceil(years - firstPart - 1e-9) + 1)
  let left = 1
  for (let i = 0; i < shares.length; i++) {
    shares[i] = Math.min(left, (i === 0 ? firstPart : 1) / years)
    left -= shares[i]!
  }
  return shares
}

/**
 * For the projection: the deduction in each year as a fraction of cost, half-year convention: bonus on what section 179
 * leaves, then the tables. The section 179 share itself is not in it: a year's income limits it; nor are the yearly limits of
 * cars, which bind above some 60,000 dollars. Work it out once per class and year, then multiply.
 */
export const deductionShares = (
  assetClass: FarmAssetClass,
  inServiceYear: number,
  section179Share: number,
  bonusShare: number,
): Float64Array => {
  const shares = yearlyShares(
    assetClass,
    inServiceYear,
    assetClass === 'tenant-house' ? { kind: 'mid-month', month: 7 } : { kind: 'half-year' },
  )
  const rest = (1 - section179Share) * (1 - bonusShare)
  for (let i = 0; i < shares.length; i++) shares[i] = shares[i]! * rest
  shares[0] = shares[0]! + (1 - section179Share) * bonusShare
  return shares
}
