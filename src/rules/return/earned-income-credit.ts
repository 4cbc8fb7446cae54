// Earned income credit (26 USC 32), by the formula or by the printed table. Whole cents.
import { marriedJoint, marriedSeparate } from '../filing-status.ts'
import type { LawYear } from '../law-year.ts'
import { atRate } from '../rounding.ts'

/** Whole cents unless said. */
export interface EarnedIncomeCase {
  children: number
  /** True when someone on the return is 25 to 64 at year end: needed only without children. */
  ageAllows: boolean
  earnedIncome: number
  adjustedGrossIncome: number
  investmentIncome: number
}

export const earnedIncomeCredit = (
  law: LawYear,
  status: number,
  family: EarnedIncomeCase,
  table = false,
): number => {
  const open =
    status !== marriedSeparate &&
    family.earnedIncome > 0 &&
    (family.children > 0 || family.ageAllows) &&
    family.investmentIncome <= law.earnedCreditInvestmentMax * 100
  if (!open) return 0
  const at = table ? tableCredit : formulaCredit
  const children = Math.min(3, family.children)
  const byEarnings = at(law, status, children, family.earnedIncome)
  const phaseOutFrom = phaseOutStart(law, status, children)
  return family.adjustedGrossIncome < phaseOutFrom
    ? byEarnings
    : Math.min(byEarnings, at(law, status, children, family.adjustedGrossIncome))
}

const formulaCredit = (law: LawYear, status: number, children: number, income: number): number => {
  const rising = Math.min(
    law.earnedCreditMax[children]! * 100,
    atRate(income, law.earnedCreditRate[children]!),
  )
  const over = Math.max(0, income - phaseOutStart(law, status, children))
  return Math.max(0, rising - atRate(over, law.earnedCreditPhaseOutRate[children]!))
}

const phaseOutStart = (law: LawYear, status: number, children: number): number =>
  (status === marriedJoint ? law.earnedCreditPhaseOutFromJoint : law.earnedCreditPhaseOutFrom)[children]! *
  100

/**
 * The printed table: rows of 50 dollars, the formula at the middle of the row to the nearest dollar. The row in which the
 * phase-in ends shows the full credit.
 */
const tableCredit = (law: LawYear, status: number, children: number, income: number): number => {
  const row = Math.floor(income / 50_00) * 50_00
  const full = law.earnedCreditAmount[children]! * 100
  const middle = row <= full && full < row + 50_00 ? full : row + 25_00
  return Math.floor(formulaCredit(law, status, children, middle) / 100 + 0.5) * 100
}
