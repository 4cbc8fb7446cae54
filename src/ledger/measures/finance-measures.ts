// The farm finance measures of the Farm Financial Standards, from a balance sheet, an income statement and the household's claims.
import type { Cents } from '#money/cents.ts'
import { type MeasureArea, type MeasureId, measureDefinitions } from './measure-definitions.ts'

export type { MeasureId } from './measure-definitions.ts'

export interface Position {
  currentAssets: Cents
  totalAssets: Cents
  /** With the part of term debt that falls due within twelve months. */
  currentLiabilities: Cents
  totalLiabilities: Cents
}

/** One farm year in cents. `begin` null: the year's first books; averages then use the end alone, and say so. */
export interface MeasureInput {
  begin: Position | null
  end: Position
  grossRevenue: Cents
  /** Without interest and depreciation. */
  operatingExpense: Cents
  depreciation: Cents
  interest: Cents
  /** Gain or loss on capital sales, part of net farm income. */
  capitalGain: Cents
  /** Value of unpaid family labor and management; null when not estimated, and the measures that need it say so. */
  unpaidLabor: Cents | null
  repayment: RepaymentInput | null
}

/** What debt repayment rests on; null when the household's figures are not in the books. */
export interface RepaymentInput {
  offFarmIncome: Cents
  incomeAndSelfEmploymentTax: Cents
  familyLiving: Cents
  termPrincipal: Cents
  termInterest: Cents
  unpaidOperatingDebt: Cents
  replacement: Cents
}

export interface Measure {
  id: MeasureId
  area: MeasureArea
  name: string
  formula: string
  unit: 'ratio' | 'fraction' | 'cents'
  obtained: 'read' | 'memory'
  /** Null when it cannot be told; `missing` says why. */
  value: number | null
  missing?: string
}

/** All measures in the order of the standards. */
export const financeMeasures = (input: MeasureInput): Measure[] => {
  const values = { ...positionValues(input), ...incomeValues(input), ...repaymentValues(input) }
  return (Object.keys(measureDefinitions) as MeasureId[]).map((id) => {
    const value = values[id]
    const definition = measureDefinitions[id]
    return typeof value === 'number' && Number.isFinite(value)
      ? { id, ...definition, value }
      : { id, ...definition, value: null, missing: typeof value === 'string' ? value : zeroBase }
  })
}

/** A value, or the reason there is none. */
type Told = number | string
type Values<Key extends MeasureId> = Record<Key, Told>

const zeroBase = 'What it is divided by is zero'
const over = (above: number, below: number): Told => (below === 0 ? zeroBase : above / below)

/** Equity of zero or less makes a ratio to it meaningless rather than negative. */
const overEquity = (above: number, equity: number): Told =>
  equity > 0 ? above / equity : 'There is no equity: debts are as large as the assets'

const positionValues = ({
  end,
  grossRevenue,
  operatingExpense,
}: MeasureInput): Values<
  | 'currentRatio'
  | 'workingCapital'
  | 'workingCapitalToRevenue'
  | 'workingCapitalToExpense'
  | 'debtToAsset'
  | 'equityToAsset'
  | 'debtToEquity'
> => {
  const workingCapital = end.currentAssets - end.currentLiabilities
  const equity = end.totalAssets - end.totalLiabilities
  return {
    currentRatio:
      end.currentLiabilities === 0
        ? 'There are no current liabilities'
        : over(end.currentAssets, end.currentLiabilities),
    workingCapital,
    workingCapitalToRevenue: over(workingCapital, grossRevenue),
    workingCapitalToExpense: over(workingCapital, operatingExpense),
    debtToAsset: over(end.totalLiabilities, end.totalAssets),
    equityToAsset: over(equity, end.totalAssets),
    debtToEquity: overEquity(end.totalLiabilities, equity),
  }
}

const incomeValues = (
  input: MeasureInput,
): Values<
  | 'netFarmIncome'
  | 'returnOnAssets'
  | 'returnOnEquity'
  | 'operatingProfitMargin'
  | 'assetTurnover'
  | 'ebitda'
  | 'operatingExpenseRatio'
  | 'depreciationRatio'
  | 'interestRatio'
  | 'netIncomeRatio'
> => {
  const { begin, end, grossRevenue, operatingExpense, depreciation, interest, unpaidLabor } = input
  const fromOperations = grossRevenue - operatingExpense - depreciation - interest
  const netFarmIncome = fromOperations + input.capitalGain
  const averageAssets = ((begin ?? end).totalAssets + end.totalAssets) / 2
  const equityOf = (position: Position) => position.totalAssets - position.totalLiabilities
  const averageEquity = (equityOf(begin ?? end) + equityOf(end)) / 2
  const withLabor = (value: (labor: number) => Told): Told =>
    unpaidLabor === null ? 'Enter what your own unpaid work is worth' : value(unpaidLabor)
  return {
    netFarmIncome,
    returnOnAssets: withLabor((labor) => over(netFarmIncome + interest - labor, averageAssets)),
    returnOnEquity: withLabor((labor) => overEquity(netFarmIncome - labor, averageEquity)),
    operatingProfitMargin: withLabor((labor) => over(netFarmIncome + interest - labor, grossRevenue)),
    assetTurnover: over(grossRevenue, averageAssets),
    ebitda: netFarmIncome + interest + depreciation,
    operatingExpenseRatio: over(operatingExpense, grossRevenue),
    depreciationRatio: over(depreciation, grossRevenue),
    interestRatio: over(interest, grossRevenue),
    netIncomeRatio: over(fromOperations, grossRevenue),
  }
}

const repaymentValues = (
  input: MeasureInput,
): Values<
  | 'repaymentCapacity'
  | 'repaymentMargin'
  | 'replacementMargin'
  | 'termDebtCoverage'
  | 'replacementCoverage'
  | 'debtCoverage'
> => {
  const { repayment, depreciation, interest } = input
  if (repayment === null) {
    const missing = 'The household’s income and living costs are not in these books'
    return {
      repaymentCapacity: missing,
      repaymentMargin: missing,
      replacementMargin: missing,
      termDebtCoverage: missing,
      replacementCoverage: missing,
      debtCoverage: missing,
    }
  }
  const netFarmIncome =
    input.grossRevenue - input.operatingExpense - depreciation - interest + input.capitalGain
  const termPayments = repayment.termPrincipal + repayment.termInterest
  const capacity =
    netFarmIncome +
    repayment.offFarmIncome +
    depreciation +
    repayment.termInterest -
    repayment.incomeAndSelfEmploymentTax -
    repayment.familyLiving
  const margin = capacity - termPayments - repayment.unpaidOperatingDebt
  const operatingInterest = interest - repayment.termInterest
  const noDebt = (value: Told): Told => (termPayments === 0 ? 'There is no term debt' : value)
  return {
    repaymentCapacity: capacity,
    repaymentMargin: margin,
    replacementMargin: margin - repayment.replacement,
    termDebtCoverage: noDebt(over(capacity, termPayments)),
    replacementCoverage: over(capacity, termPayments + repayment.replacement),
    debtCoverage: over(capacity + operatingInterest, termPayments + operatingInterest),
  }
}
