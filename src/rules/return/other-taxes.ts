// Minimum tax, additional Medicare tax, net investment income tax and the addition for early withdrawals. Whole cents.
import type { LawYear } from '../law-year.ts'
import { atRate } from '../rounding.ts'
import { gainsTax } from './income-tax.ts'

/**
 * Alternative minimum tax (26 USC 55, 56(b)(1)): income without the standard and senior deductions, less the exemption, at
 * 26 and 28 %, gains at their own rates. `minimumIncome` is adjusted gross income less itemized and qualified business
 * deductions. Preferences such as incentive options and depletion are not asked for.
 */
export const minimumTax = (
  law: LawYear,
  status: number,
  minimumIncome: number,
  taxable: number,
  preferred: number,
  regularTax: number,
): number => {
  const over = Math.max(0, minimumIncome - law.minimumTaxPhaseOutFrom[status]! * 100)
  const exemption = Math.max(
    0,
    law.minimumTaxExemption[status]! * 100 - atRate(over, law.minimumTaxPhaseOutRate),
  )
  const base = Math.max(0, minimumIncome - exemption)
  if (base === 0) return 0
  const gains = Math.min(base, preferred)
  const ordinary = Math.max(0, taxable - Math.min(taxable, preferred))
  const tentative = Math.min(
    minimumRates(law, status, base),
    minimumRates(law, status, base - gains) + gainsTax(law, status, ordinary, gains),
  )
  return Math.max(0, tentative - regularTax)
}

const minimumRates = (law: LawYear, status: number, base: number): number => {
  const over = Math.max(0, base - law.minimumTaxUpperFrom[status]! * 100)
  return atRate(base - over, law.minimumTaxRates[0]!) + atRate(over, law.minimumTaxRates[1]!)
}

/** Form 8959: on wages over the threshold, and on self-employment net earnings over what the wages leave of it. */
export const additionalMedicareTax = (
  law: LawYear,
  status: number,
  wages: number,
  netEarnings: number,
): number => {
  const threshold = law.additionalMedicareFrom[status]! * 100
  const onWages = Math.max(0, wages - threshold)
  const onSelfEmployment = Math.max(0, netEarnings - Math.max(0, threshold - wages))
  return atRate(onWages, law.additionalMedicareRate) + atRate(onSelfEmployment, law.additionalMedicareRate)
}

/** 26 USC 1411: on the lesser of net investment income and income over the threshold. */
export const netInvestmentIncomeTax = (
  law: LawYear,
  status: number,
  investmentIncome: number,
  adjustedGrossIncome: number,
): number => {
  const over = Math.max(0, adjustedGrossIncome - law.investmentTaxFrom[status]! * 100)
  return atRate(Math.min(Math.max(0, investmentIncome), over), law.investmentTaxRate)
}

/** 26 USC 223(f)(4): Form 8889 line 17b, Schedule 2 line 17c. */
export const healthSavingsTax = (law: LawYear, amount: number): number =>
  atRate(Math.max(0, amount), law.healthSavingsRate)

/** 26 USC 72(t), on the amount that falls under no exception. */
export const earlyWithdrawalTax = (law: LawYear, amount: number): number =>
  atRate(Math.max(0, amount), law.earlyWithdrawalRate)
