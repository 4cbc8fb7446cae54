// Listed property used for the business in part: deductions by each year's share of use, and what is taken back when it falls.
import { qualifiedUseShare } from '../data/business-deductions.ts'
import { inForce } from '../in-force.ts'

/** Business part of the use by year of service, each from 0 to 1; the last one holds on. */
export type UseShares = readonly number[]

export const useIn = (shares: UseShares, yearOfService: number): number =>
  shares[Math.min(yearOfService, shares.length - 1)] ?? 1

/**
 * Business part of a thing over all years it was in use, up to `years` of them: the mean of the years' shares. A sale is told as one of
 * two things, by this part (IRS Pub. 544, property used partly for business; that the mean of the years is taken is common practice).
 */
export const meanUse = (shares: UseShares, years: number): number => {
  let sum = 0
  for (let i = 0; i < years; i++) sum += useIn(shares, i)
  return years > 0 ? sum / years : useIn(shares, 0)
}

export const changesUse = (shares: UseShares): boolean => shares.some((share) => share !== shares[0])

/** Used for the business no more than half: straight line, nothing at once (26 USC 280F(b)(1), (d)(1)). */
export const isMostlyPrivate = (share: number, year: number): boolean =>
  share <= inForce(qualifiedUseShare, year)

export interface ChangingUse {
  serviceYear: number
  /** Dollars, private part and all. */
  wholeCost: number
  /** Deducted in the first year under section 179 and as bonus. */
  atOnce: number
  shares: UseShares
  /** Parts of the basis by year of service, by the method it began with and by the straight line. */
  byMethod: ArrayLike<number>
  byLine: ArrayLike<number>
  /** Most of each year for a thing all of whose use is business; null where there is none. */
  limitIn: ((yearOfService: number) => number) | null
}

/**
 * Deductions of the years after the first: the year's share of the cost, without what went at once, by the table (IRS Pub. 946, Form
 * 4562 line 26); from the year in which half or less is business on, by the straight line (26 USC 280F(b)(2)). Dollars.
 */
export const laterDeductions = (use: ChangingUse): number[] => {
  const { serviceYear, wholeCost, atOnce, shares, byMethod, byLine, limitIn } = use
  const drop = droppedIn(use)
  const years = Math.max(byMethod.length, drop === null ? 0 : byLine.length)
  return Array.from({ length: years - 1 }, (_, k) => {
    const i = k + 1
    const share = useIn(shares, i)
    const isDropped = drop !== null && serviceYear + i >= drop
    const basis = wholeCost * share - (isDropped ? 0 : atOnce)
    const amount = Math.max(0, basis) * ((isDropped ? byLine : byMethod)[i] ?? 0)
    return Math.min(amount, limitIn ? limitIn(i) * share : Number.POSITIVE_INFINITY)
  })
}

/** The year in which use falls to half or less after it was more; null where it does not, or began so. */
const droppedIn = ({ serviceYear, shares }: ChangingUse): number | null => {
  if (isMostlyPrivate(useIn(shares, 0), serviceYear)) return null
  const at = shares.findIndex((share, i) => isMostlyPrivate(share, serviceYear + i))
  return at < 0 ? null : serviceYear + at
}

/** What the years before deducted beyond the straight line: income of that year (26 USC 280F(b)(2)). `deducted` by year of service. */
export const excessOnDrop = (
  use: ChangingUse,
  deducted: readonly number[],
): { year: number; amount: number } | null => {
  const year = droppedIn(use)
  if (year === null) return null
  const before = year - use.serviceYear
  const sum = (amounts: readonly number[]) => amounts.reduce((all, amount) => all + amount, 0)
  const byLine = Array.from({ length: before }, (_, i) => {
    const share = useIn(use.shares, i)
    const amount = (use.byLine[i] ?? 0) * use.wholeCost * share
    return Math.min(amount, use.limitIn ? use.limitIn(i) * share : Number.POSITIVE_INFINITY)
  })
  const excess = sum(deducted.slice(0, before)) - sum(byLine)
  return { year, amount: Math.max(0, Math.round(excess * 100) / 100) }
}
