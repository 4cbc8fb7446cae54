// Child and dependent care credit (26 USC 21). Whole cents.
import type { LawYear } from '../law-year.ts'
import { atRate } from '../rounding.ts'

export interface CareFacts {
  /** Paid in the year for the care of the children below, so that everyone on the return can work. */
  costs: number
  /** Dependents under 13 who were cared for. */
  children: number
  /** Earned income of the person on the return who has least of it, after half of the self-employment tax. */
  leastEarned: number
  adjustedGrossIncome: number
  taxLeft: number
}

/** None on a separate return (21(e)(2)); costs count up to the cap and to the lesser earned income (21(c), (d)). */
export const careCredit = (law: LawYear, status: number, care: CareFacts): number => {
  if (status === separate || care.children === 0) return 0
  const cap = law.careCap[care.children > 1 ? 1 : 0]! * 100
  const counted = Math.max(0, Math.min(care.costs, cap, care.leastEarned))
  return Math.min(atRate(counted, careRate(law, status, care.adjustedGrossIncome)), Math.max(0, care.taxLeft))
}

const separate = 3

/** The percentage falls by a point for each step of income or part of one, in one stretch or, from 2026, in two. */
export const careRate = (law: LawYear, status: number, adjustedGrossIncome: number): number => {
  const first = pointsAt(
    law.careRateTop,
    law.careRateMiddle,
    adjustedGrossIncome,
    law.careFirstFrom,
    law.careStep,
  )
  const from = law.careSecondFrom[status]!
  return (
    pointsAt(first / 100, law.careRateLeast, adjustedGrossIncome, from, law.careSecondStep[status]!) / 100
  )
}

/** Whole points of the percentage, from `top` down to `least`, for income (cents) over `from` (dollars). */
const pointsAt = (top: number, least: number, income: number, from: number, step: number): number => {
  const over = income - from * 100
  const points = Math.round(top * 100)
  return over > 0 ? Math.max(Math.round(least * 100), points - Math.ceil(over / (step * 100))) : points
}
