// Cost-sharing reductions: the share of costs a silver plan covers at a household income (45 CFR 156.420, 155.305(g)).
import type { LawYear } from '../law-year.ts'

/** A silver plan's actuarial value without a reduction. */
const standardSilver = 0.7

/** Fraction of costs covered at an income in cents; the standard value from above the last band and under the poverty line. */
export const silverValueAt = (law: LawYear, income: number, povertyLine: number): number => {
  if (income * 100 < povertyLine * law.creditFromPercent) return standardSilver
  for (let band = 0; band < law.costSharingTo.length; band += 1) {
    if (income * 100 <= povertyLine * law.costSharingTo[band]!) return law.costSharingValue[band]!
  }
  return standardSilver
}
