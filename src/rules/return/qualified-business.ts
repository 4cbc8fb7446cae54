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
  const deduction = Math.min(fifth, incomeLimit(law, business))
  const least = business.activeIncome >= law.qbiMinimumFrom * 100 ? law.qbiMinimum * 100 : 0
  return Math.min(Math.max(deduction, least), Math.max(0, business.taxableBefore))
}

/** The deduction is a part of the income, at most the same part of taxable income less gains. */
export const qualifiedFifth = (law: LawYear, { income }: QualifiedBusiness): number =>
  atRate(Math.max(0, income), law.qbiRate)

export const incomeLimit = (law: LawYear, { taxableBefore, gains }: QualifiedBusiness): number =>
  atRate(Math.max(0, taxableBefore - gains), law.qbiRate)

/** Over it wages and property of the business count (26 USC 199A(b)(3)). */
export const isOverThreshold = (law: LawYear, status: number, business: QualifiedBusiness): boolean =>
  overThreshold(law, status, business) > 0

const overThreshold = (law: LawYear, status: number, { taxableBefore }: QualifiedBusiness): number =>
  taxableBefore - law.qbiThreshold[status]! * 100

/** A fifth of the income, cut towards the wage and property limit as income runs through the phase-in range. */
const afterWageLimit = (law: LawYear, status: number, business: QualifiedBusiness): number => {
  const fifth = qualifiedFifth(law, business)
  const over = overThreshold(law, status, business)
  if (over <= 0) return fifth
  const limit = Math.max(
    atRate(business.wagesPaid, law.qbiWagesRate),
    atRate(business.wagesPaid, law.qbiWagesWithPropertyRate) + atRate(business.property, law.qbiPropertyRate),
  )
  const cut = Math.max(0, fifth - limit)
  const range = law.qbiRange[status]! * 100
  return fifth - (over >= range ? cut : shareOf(cut, over, range))
}
