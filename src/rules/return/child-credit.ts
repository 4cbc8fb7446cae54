// Child tax credit, credit for other dependents, and the part paid out (26 USC 24; Schedule 8812). Whole cents.
import type { LawYear } from '../law-year.ts'
import { atRate } from '../rounding.ts'

/** Whole cents unless said. */
export interface ChildCreditCase {
  childrenUnder17: number
  otherDependents: number
  adjustedGrossIncome: number
  /** Tax the credit may use up: income tax, minimum tax and advance credit paid back, less the saver's credit. */
  taxLeft: number
  earnedIncome: number
  /** Social Security and Medicare tax withheld and half of self-employment tax, for families with three children. */
  socialTaxes: number
  earnedIncomeCredit: number
}

/** The part of the full credit that the tax cannot use up and that is paid out. */
export const additionalChildCredit = (law: LawYear, family: ChildCreditCase, unused: number): number => {
  if (unused <= 0 || family.childrenUnder17 === 0) return 0
  const most = Math.min(unused, family.childrenUnder17 * law.childRefundableMax * 100)
  const overFloor = Math.max(0, family.earnedIncome - law.childRefundableFrom * 100)
  const byEarnings = atRate(overFloor, law.childRefundableRate)
  const byTaxes =
    family.childrenUnder17 >= 3 ? Math.max(0, family.socialTaxes - family.earnedIncomeCredit) : 0
  return Math.min(most, Math.max(byEarnings, byTaxes))
}

/** Before the limit to the tax: 50 dollars less for each 1,000 of income, or part of it, above the threshold. */
export const fullChildCredit = (law: LawYear, status: number, family: ChildCreditCase): number => {
  const amount =
    family.childrenUnder17 * law.childCredit * 100 + family.otherDependents * law.otherDependentCredit * 100
  const over = family.adjustedGrossIncome - law.childPhaseOutFrom[status]! * 100
  const lost = over > 0 ? Math.ceil(over / 1_000_00) * law.childPhaseOutPerThousand * 100 : 0
  return Math.max(0, amount - lost)
}
