// The earnings test: what is withheld from benefits claimed before full retirement age while still earning, and given back at that age.
import { earningsTestShares } from '../data/social-security.ts'
import { inForce } from '../in-force.ts'
import type { BenefitLaw } from './benefit-law.ts'
import { fullRetirementAgeMonths } from './claim-factors.ts'

const [withheldUnder, withheldYearOf] = inForce(earningsTestShares, 1990)

/**
 * Benefits withheld in a year for earnings (wages and net self-employment earnings), dollars (42 USC 403(b), (f)): one of two
 * dollars over the amount before the year of full retirement age; one of three in that year, counting an even part of the
 * earnings before the month; none after. Never more than the benefit.
 */
export const earningsTestWithheld = (
  law: BenefitLaw,
  year: number,
  bornYear: number,
  bornMonth: number,
  earningsInYear: number,
  benefitInYear: number,
): number => {
  const fullAgeMonth = bornYear * 12 + bornMonth - 1 + fullRetirementAgeMonths(bornYear)
  const fullAgeYear = Math.floor(fullAgeMonth / 12)
  if (year > fullAgeYear) return 0
  const yearOf = year === fullAgeYear
  const monthsBefore = yearOf ? fullAgeMonth - year * 12 : 12
  const counted = (earningsInYear * monthsBefore) / 12
  return withheldOf(law, year, yearOf, counted, (benefitInYear * monthsBefore) / 12)
}

/** The same for earnings and benefits of the months that count alone. */
export const withheldOf = (
  law: BenefitLaw,
  year: number,
  inYearOfFullAge: boolean,
  earnings: number,
  benefits: number,
): number => {
  const i = year - law.firstYear
  const over = earnings - (inYearOfFullAge ? law.earningsTestYearOf[i]! : law.earningsTestUnder[i]!)
  return Math.max(0, Math.min(benefits, over * (inYearOfFullAge ? withheldYearOf : withheldUnder)))
}

/** Whole months of benefit the test withheld, credited back at full retirement age as if the claim had been that much later. */
export const monthsGivenBack = (withheldInYear: number, benefitMonthly: number): number =>
  benefitMonthly > 0 ? Math.min(12, Math.max(0, Math.ceil(withheldInYear / benefitMonthly - 1e-9))) : 0
