// The earnings test in its exact form: what is withheld from benefits claimed before full retirement age while still earning.
import { Decimal } from '#money/decimal.ts'
import { earningsTestShares } from '../data/social-security.ts'
import { inForce } from '../in-force.ts'
import { type BenefitLaw, monthsGivenBack } from './benefits.ts'

export interface EarningsTestInput {
  year: number
  /** `under`: below full retirement age all year. `year-of`: reaches it in the year, earnings before that month. `over`: no test. */
  stage: 'under' | 'year-of' | 'over'
  /** Wages and net self-employment earnings counted, dollars; not pensions, interest, gains or rents. */
  earnings: number
  /** Benefits of the months that can be withheld, dollars. */
  benefits: number
}

export interface EarningsTestResult {
  exempt: number
  /** Dollars to the cent, never above the benefits. */
  withheld: number
  /** Months credited back at full retirement age, for an even monthly benefit. */
  monthsGivenBack: number
}

/** Withheld benefits of a year (42 USC 403(b), (f)). */
export const earningsTest = (law: BenefitLaw, input: EarningsTestInput): EarningsTestResult => {
  const i = input.year - law.firstYear
  if (input.stage === 'over') return { exempt: 0, withheld: 0, monthsGivenBack: 0 }
  const yearOf = input.stage === 'year-of'
  const exempt = yearOf ? law.earningsTestYearOf[i]! : law.earningsTestUnder[i]!
  const [under, inYearOf] = inForce(earningsTestShares, input.year)
  const over = new Decimal(String(input.earnings)).minus(exempt)
  const withheld = Decimal.min(
    Decimal.max(0, over.times(yearOf ? inYearOf : under)),
    String(input.benefits),
  ).toDecimalPlaces(2)
  return {
    exempt,
    withheld: withheld.toNumber(),
    monthsGivenBack: monthsGivenBack(withheld.toNumber(), input.benefits / 12),
  }
}
