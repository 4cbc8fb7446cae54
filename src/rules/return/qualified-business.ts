// Qualified business income deduction (26 USC 199A) of one business or of several taken together. Whole cents.
import type { LawYear } from '../law-year.ts'
import { atRate, shareOf } from '../rounding.ts'

/** Whole cents. */
export interface QualifiedBusiness {
  /** Profit less half the self-employment tax, the health deduction and plan contributions of the business. */
  income: number
  /** The part of it from businesses the owner takes an active part in, for the minimum deduction from 2026. */
  activeIncome: number
  wagesPaid: number
  property: number
  taxableBefore: number
  /** Net capital gain and qualified dividends, which the deduction may not cover. */
  gains: number
}

export const qualifiedBusinessDeduction = (
  law: LawYear,
  status: number,
  business: QualifiedBusiness,
): number => {
  const fifth = afterWageLimit(law, status, business)
  const overall = atRate(Math.max(0, business.taxableBefore - business.gains), law.qbiRate)
  const deduction = Math.min(fifth, overall)
  const least = business.activeIncome >= law.qbiMinimumFrom * 100 ? law.qbiMinimum * 100 : 0
  return Math.min(Math.max(deduction, least), Math.max(0, business.taxableBefore))
}

/** A fifth of the income, cut towards the wage and property limit as income runs through the phase-in range. */
const afterWageLimit = (law: LawYear, status: number, business: QualifiedBusiness): number => {
  const fifth = atRate(Math.max(0, business.income), law.qbiRate)
  const over = business.taxableBefore - law.qbiThreshold[status]! * 100
  if (over <= 0) return fifth
  const limit = Math.max(
    atRate(business.wagesPaid, law.qbiWagesRate),
    atRate(business.wagesPaid, law.qbiWagesWithPropertyRate) + atRate(business.property, law.qbiPropertyRate),
  )
  const cut = Math.max(0, fifth - limit)
  const range = law.qbiRange[status]! * 100
  return fifth - (over >= range ? cut : shareOf(cut, over, range))
}
