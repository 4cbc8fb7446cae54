// Standard deduction with its additions, the senior deduction, and the choice against itemizing. Whole cents.
import { marriedSeparate } from '../filing-status.ts'
import type { LawYear } from '../law-year.ts'
import { atRate } from '../rounding.ts'

/** `aged` and `blind`: how many people on the return are 65 or older at year end, and how many are blind (26 USC 63). */
export const standardDeduction = (law: LawYear, status: number, aged: number, blind: number): number =>
  (law.standardDeduction[status]! + law.agedOrBlindAddition[status]! * (aged + blind)) * 100

/** Senior deduction of 26 USC 151(d)(5)(C): each person's amount shrinks by itself; none when filing separately. */
export const seniorDeduction = (
  law: LawYear,
  status: number,
  aged: number,
  adjustedGrossIncome: number,
): number => {
  if (status === marriedSeparate || aged === 0) return 0
  const over = Math.max(0, adjustedGrossIncome - law.seniorPhaseOutFrom[status]! * 100)
  return aged * Math.max(0, law.seniorDeduction * 100 - atRate(over, law.seniorPhaseOutRate))
}
