// The part of Social Security benefits that is taxed (26 USC 86; the worksheet of Pub. 915). Whole cents.
import type { LawYear } from '../law-year.ts'
import { atRate } from '../rounding.ts'

/** `otherIncome`: adjusted gross income without the benefits, plus tax-exempt interest. `status`: place in `filingStatuses`. */
export const taxableBenefits = (
  law: LawYear,
  status: number,
  benefits: number,
  otherIncome: number,
): number => {
  if (benefits <= 0) return 0
  const half = atRate(benefits, law.benefitsLowerRate)
  const provisional = otherIncome + half
  const base = law.benefitsBase[status]! * 100
  const upper = law.benefitsUpperBase[status]! * 100
  if (provisional <= base) return 0
  const halfTaxed = Math.min(half, atRate(Math.min(provisional, upper) - base, law.benefitsLowerRate))
  if (provisional <= upper) return halfTaxed
  return Math.min(
    atRate(provisional - upper, law.benefitsUpperRate) + halfTaxed,
    atRate(benefits, law.benefitsUpperRate),
  )
}
