// The most that Social Security can pay a retired worker a month: who earned the whole taxable base of every year.
import { steadyIndexing } from '../dated.ts'
import { type BenefitLaw, benefitLaw } from './benefit-law.ts'
import { claimFactor } from './claim-factors.ts'
import { primaryAmount } from './primary-amount.ts'

/** Nobody is covered before; what was earned so young hardly ever counts. */
const firstCoveredAge = 16

/** Birth years for which `primaryAmount` holds. */
const bornFrom = 1929

/**
 * Whole dollars a month at a claim at `claimAgeMonths` (62 to 70 years), in dollars of `year`: published law up to now, and the bases
 * and bend points of its last published year from there on. A claim already made has the adjustments since. Null for births
 * before 1929, for which the formula here does not hold.
 */
export const mostMonthlyBenefit = (bornYear: number, claimAgeMonths: number, year: number): number | null => {
  if (bornYear < bornFrom) return null
  const claimed = bornYear + Math.floor(claimAgeMonths / 12)
  const paidIn = Math.max(claimed, year)
  const law = benefitLaw(paidIn + 1, steadyIndexing(0))
  const { amount } = primaryAmount(law, { bornYear, earnings: wholeBases(law, bornYear) }, paidIn)
  return Math.floor(amount * claimFactor(bornYear, claimAgeMonths) + 1e-9)
}

const wholeBases = (law: BenefitLaw, bornYear: number): Float64Array =>
  law.wageBase.map((base, place) => (law.firstYear + place >= bornYear + firstCoveredAge ? base : 0))
