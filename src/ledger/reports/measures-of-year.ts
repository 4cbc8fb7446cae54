// Brings the reports of a farm year to what the finance measures ask for, once at cost and once at market values.
import { isTermLoan } from '#ledger/account.ts'
import { lineRole } from '#ledger/schedule-lines.ts'
import { addCents, type Cents, cents, sumCents, zeroCents } from '#money/cents.ts'
import {
  financeMeasures,
  type Measure,
  type MeasureInput,
  type Position,
  type RepaymentInput,
} from '../measures/finance-measures.ts'
import type { BalanceSheet } from './balance-sheet.ts'
import { type AccountYear, type BookYear, changeOf, closingOf, netIncomeOf } from './book-year.ts'
import { type IncomeStatement, sumOfPurposes } from './income-statement.ts'

export interface YearForMeasures {
  begin: BalanceSheet
  end: BalanceSheet
  income: IncomeStatement
  farm: BookYear
  household: BookYear | null
  ventures: readonly BookYear[]
  unpaidLaborCents: Cents | null
  replacementCents: Cents | null
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
  const [unknown] = year.end.dueUnknown
  return {
    begin: begin.totalAssets === 0 && begin.totalLiabilities === 0 ? null : begin,
    end: positionOf(year.end, column),
    dueUnknown: unknown === undefined ? null : `Say what falls due of “${unknown}” within twelve months`,
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
 * Principal is what was paid on the farm's term loans in the year, whatever was lent in it besides. Family living is living costs,
 * premiums, care, food from the farm, which is in the farm's revenue, and the household's own loan payments. What investments gain
 * before they are sold pays no debt.
 */
const repaymentOf = (year: YearForMeasures, household: BookYear): RepaymentInput => {
  const { farm } = year
  const loans = farm.accounts.filter(({ account }) => isTermLoan(account))
  const seasonal = farm.accounts.filter(({ account }) => account.currentKind === 'operating_loan')
  return {
    offFarmIncome: addCents(
      sumOfPurposes(
        {
          ...household,
          accounts: household.accounts.filter(({ account }) => account.taxKind !== 'unrealized'),
        },
        ['pay', 'benefit', 'interest', 'none'],
        'income',
      ),
      sumCents(year.ventures.map(netIncomeOf)),
    ),
    incomeAndSelfEmploymentTax: sumOfPurposes(household, ['tax'], 'expense'),
    familyLiving: addCents(
      sumOfPurposes(household, ['living', 'premium', 'care', 'farm_food', 'debt', 'none'], 'expense'),
      sumCents(household.accounts.map((row) => row.paidDownCents)),
    ),
    hasTermDebt: loans.some((row) => row.openingCents < 0 || closingOf(row) < 0),
    termPrincipal: sumCents(loans.map((row) => row.paidDownCents)),
    termInterest: sumCents(farm.accounts.map(termInterestOf)),
    unpaidOperatingDebt: sumCents(
      seasonal.map((row) => cents(Math.max(0, -row.openingCents - row.paidDownCents))),
    ),
    replacement: year.replacementCents,
  }
}

/** A mortgage's interest has a line of its own; other interest is of a term loan when it was booked with a payment on one. */
const termInterestOf = (row: AccountYear): Cents => {
  if (lineRole(row.account) !== 'interest') return zeroCents
  return row.account.scheduleLine === mortgageInterest ? changeOf(row) : row.termInterestCents
}

/** Schedule F, line 21a. */
const mortgageInterest = '21a'
