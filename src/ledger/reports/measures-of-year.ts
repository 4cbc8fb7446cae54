// Brings the reports of a farm year to what the finance measures ask for, once at cost and once at market values.
import { addCents, type Cents, sumCents, zeroCents } from '#money/cents.ts'
import {
  financeMeasures,
  type Measure,
  type MeasureInput,
  type Position,
  type RepaymentInput,
} from '../measures/finance-measures.ts'
import type { BalanceSheet } from './balance-sheet.ts'
import type { BookYear } from './book-year.ts'
import { type IncomeStatement, sumOfPurposes } from './income-statement.ts'

export interface YearForMeasures {
  begin: BalanceSheet
  end: BalanceSheet
  income: IncomeStatement
  farm: BookYear
  household: BookYear | null
  unpaidLaborCents: Cents | null
  replacementCents: Cents
}

export interface YearMeasures {
  cost: Measure[]
  market: Measure[]
}

/** A year that began with nothing on the farm has no beginning to average with. */
export const measuresOfYear = (year: YearForMeasures): YearMeasures => ({
  cost: financeMeasures(inputOf(year, 'costCents')),
  market: financeMeasures(inputOf(year, 'marketCents')),
})

const inputOf = (year: YearForMeasures, column: 'costCents' | 'marketCents'): MeasureInput => {
  const { income } = year
  const begin = positionOf(year.begin, column)
  return {
    begin: begin.totalAssets === 0 && begin.totalLiabilities === 0 ? null : begin,
    end: positionOf(year.end, column),
    grossRevenue: income.revenue.totalCents,
    operatingExpense: income.expenses.totalCents,
    depreciation: income.depreciation.totalCents,
    interest: income.interest.totalCents,
    capitalGain: income.capital.totalCents,
    unpaidLabor: year.unpaidLaborCents,
    repayment: year.household ? repaymentOf(year, year.household) : null,
  }
}

const positionOf = (sheet: BalanceSheet, column: 'costCents' | 'marketCents'): Position => ({
  currentAssets: sheet.currentAssets[column],
  totalAssets: sheet.totalAssets[column],
  currentLiabilities: sheet.currentLiabilities[column],
  totalLiabilities: sheet.totalLiabilities[column],
})

/**
 * Principal is what was paid on the farm's loans in the year, whatever was lent in it besides; all farm interest counts as
 * interest on term debt, because the books do not tell the two apart. Family living is living costs, premiums, care and the
 * household's own loan payments, interest and principal.
 */
const repaymentOf = (year: YearForMeasures, household: BookYear): RepaymentInput => ({
  offFarmIncome: sumOfPurposes(household, ['pay', 'benefit', 'interest', 'none'], 'income'),
  incomeAndSelfEmploymentTax: sumOfPurposes(household, ['tax'], 'expense'),
  familyLiving: addCents(
    sumOfPurposes(household, ['living', 'premium', 'care', 'debt', 'none'], 'expense'),
    principalPaid(household),
  ),
  termPrincipal: principalPaid(year.farm),
  termInterest: year.income.interest.totalCents,
  unpaidOperatingDebt: zeroCents,
  replacement: year.replacementCents,
})

const principalPaid = (side: BookYear): Cents => sumCents(side.accounts.map((row) => row.paidDownCents))
