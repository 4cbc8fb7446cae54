// Marketplace cover on the return: the health deduction and the premium credit solved together, and the advance settled.
import { marriedSeparate, single } from '../filing-status.ts'
import { type CoverByMonth, type HouseholdYear, householdSize } from '../household-year.ts'
import type { LawYear } from '../law-year.ts'
import {
  type DeductionAndCredit,
  type DeductionCase,
  solveDeductionAndCredit,
} from '../marketplace/deduction-and-credit.ts'
import {
  type CentsByMonth,
  type Cover,
  medicaidLineCents,
  povertyLineCents,
  repayment,
  wholePercent,
} from '../marketplace/premium-credit.ts'
import { wholeCents } from '../rounding.ts'
import type { BusinessLines } from './business-lines.ts'
import type { IncomeLines } from './income-lines.ts'

/** Whole cents. */
export interface CoverLines extends DeductionAndCredit {
  cover: Cover
  from: DeductionCase
  /** Where the months differ, each of them; else of no meaning. */
  months: CentsByMonth
  size: number
  /** Deduction for other health premiums (Medicare, dental), taken before the marketplace premiums. */
  otherDeduction: number
  /** Both deductions for health premiums. */
  healthDeduction: number
  householdIncome: number
  povertyPercent: number
  excessAdvance: number
}

export const workCover = (
  law: LawYear,
  household: HouseholdYear,
  business: BusinessLines,
  income: IncomeLines,
  lines: CoverLines,
): void => {
  lines.size = householdSize(household)
  lines.otherDeduction = Math.min(wholeCents(household.otherHealthPremiums), business.earnedLimit)
  fillCover(law, household, lines)
  fillCase(household, lines.cover, business, income, lines.otherDeduction, lines.from)
  solveDeductionAndCredit(law, lines.cover, lines.from, lines)
  lines.healthDeduction = lines.deduction + lines.otherDeduction
  lines.householdIncome = lines.from.incomeBefore - lines.deduction
  lines.povertyPercent = wholePercent(lines.householdIncome, lines.cover.povertyLine)
  lines.excessAdvance = repayment(law, lines.cover, lines.householdIncome, lines.cover.advance - lines.credit)
}

const fillCover = (
  law: LawYear,
  household: HouseholdYear,
  { size, cover, months: each }: CoverLines,
): void => {
  const months = household.coverMonths
  cover.povertyLine = povertyLineCents(law, household.region, size)
  cover.medicaidLine = household.medicaidExpansion === 1 ? medicaidLineCents(law, household.region, size) : 0
  cover.months = months
  cover.premium = wholeCents(household.premiumMonthly) * months
  cover.benchmark = wholeCents(household.benchmarkMonthly) * months
  cover.byMonth = null
  if (household.coverByMonth !== null) fillByMonth(household.coverByMonth, cover, each)
  cover.advance = wholeCents(household.advanceMonthly) * months
  const paid = household.coverByMonth?.advance
  if (paid !== undefined) {
    cover.advance = 0
    for (let k = 0; k < 12; k += 1) cover.advance += wholeCents(paid[k]!)
  }
  cover.creditAllowed = household.status === marriedSeparate ? 0 : 1
  cover.repaymentSingle = household.status === single ? 1 : 0
}

const fillByMonth = ({ premium, benchmark }: CoverByMonth, cover: Cover, into: CentsByMonth): void => {
  cover.byMonth = into
  cover.premium = 0
  cover.benchmark = 0
  for (let k = 0; k < 12; k += 1) {
    into.premiums[k] = wholeCents(premium[k]!)
    into.benchmarks[k] = wholeCents(benchmark[k]!)
    cover.premium += into.premiums[k]!
    cover.benchmark += into.benchmarks[k]!
  }
}

const fillCase = (
  household: HouseholdYear,
  cover: Cover,
  business: BusinessLines,
  income: IncomeLines,
  otherDeduction: number,
  from: DeductionCase,
): void => {
  from.deductibleMonths = Math.min(household.coverMonths, household.deductibleMonths)
  from.deductiblePremium =
    cover.byMonth !== null && from.deductibleMonths === cover.months
      ? cover.premium
      : wholeCents(household.premiumMonthly) * from.deductibleMonths
  from.earnedLimit = business.earnedLimit - otherDeduction
  from.incomeBefore =
    income.beforeBenefits -
    income.netOperatingLoss -
    income.adjustments -
    otherDeduction +
    income.benefits +
    income.taxExemptInterest +
    wholeCents(household.dependentsIncome)
}

export const noCoverLines = (): CoverLines => ({
  deduction: 0,
  credit: 0,
  method: 0,
  cover: {
    povertyLine: 0,
    medicaidLine: 0,
    months: 0,
    premium: 0,
    benchmark: 0,
    byMonth: null,
    advance: 0,
    creditAllowed: 0,
    repaymentSingle: 0,
  },
  from: { incomeBefore: 0, earnedLimit: 0, deductiblePremium: 0, deductibleMonths: 0 },
  months: { premiums: new Float64Array(12), benchmarks: new Float64Array(12) },
  size: 0,
  otherDeduction: 0,
  healthDeduction: 0,
  householdIncome: 0,
  povertyPercent: 0,
  excessAdvance: 0,
})
