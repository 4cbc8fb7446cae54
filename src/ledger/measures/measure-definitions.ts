// Names, formulas, parts and units of the farm finance measures.
export const measureAreas = ['liquidity', 'solvency', 'profitability', 'repayment', 'efficiency'] as const
export type MeasureArea = (typeof measureAreas)[number]

/** What measures are made of, in the words of their formulas. */
export const partNames = {
  currentAssets: 'current assets',
  currentLiabilities: 'current liabilities',
  workingCapital: 'working capital',
  totalAssets: 'total assets',
  totalLiabilities: 'total liabilities',
  equity: 'equity',
  averageAssets: 'average total assets',
  averageEquity: 'average equity',
  grossRevenue: 'gross revenue',
  operatingExpense: 'operating expense',
  depreciation: 'depreciation',
  interest: 'interest',
  capitalGain: 'gain on capital sales',
  fromOperations: 'net farm income from operations',
  netFarmIncome: 'net farm income',
  unpaidLabor: 'unpaid labor and management',
  offFarmIncome: 'off-farm income',
  incomeTax: 'income and self-employment tax',
  familyLiving: 'family living',
  termInterest: 'interest on term debt',
  operatingInterest: 'operating interest',
  termPayments: 'principal and interest on term debt',
  duePayments: 'principal and interest on term debt',
  unpaidOperatingDebt: 'unpaid operating debt of earlier years',
  replacement: 'cash needed to replace assets',
  capacity: 'repayment capacity',
  margin: 'repayment margin',
} as const
export type PartId = keyof typeof partNames

interface MeasureDefinition {
  area: MeasureArea
  name: string
  formula: string
  unit: 'ratio' | 'fraction' | 'cents'
  obtained: 'read' | 'memory'
  parts: readonly PartId[]
  /** From the parts in their order; text says why there is no value. */
  work: (...amounts: number[]) => number | string
}

const define = (
  area: MeasureArea,
  name: string,
  formula: string,
  unit: MeasureDefinition['unit'],
  parts: readonly PartId[],
  work: MeasureDefinition['work'],
  obtained: MeasureDefinition['obtained'] = 'read',
): MeasureDefinition => ({ area, name, formula, unit, obtained, parts, work })

const over = (above = 0, below = 0): number => above / below

/** Equity of zero or less makes a ratio to it meaningless rather than negative. */
const overEquity = (above: number, equity: number): number | string =>
  equity > 0 ? above / equity : 'There is no equity: debts are as large as the assets'

/**
 * Names and formulas as in the public descriptions of the Farm Financial Standards Council's guideline measures. That returns, margin and
 * repayment rest on income from operations, without gains on capital sales, is from memory of the guidelines.
 */
export const measureDefinitions = {
  currentRatio: define(
    'liquidity',
    'current ratio',
    'current assets ÷ current liabilities',
    'ratio',
    ['currentAssets', 'currentLiabilities'],
    (assets = 0, debts = 0) => (debts === 0 ? 'There are no current liabilities' : assets / debts),
  ),
  workingCapital: define(
    'liquidity',
    'working capital',
    'current assets − current liabilities',
    'cents',
    ['currentAssets', 'currentLiabilities'],
    (assets = 0, debts = 0) => assets - debts,
  ),
  workingCapitalToRevenue: define(
    'liquidity',
    'working capital to gross revenue',
    'working capital ÷ gross revenue',
    'fraction',
    ['workingCapital', 'grossRevenue'],
    over,
  ),
  workingCapitalToExpense: define(
    'liquidity',
    'working capital to operating expense',
    'working capital ÷ operating expense',
    'fraction',
    ['workingCapital', 'operatingExpense'],
    over,
  ),
  debtToAsset: define(
    'solvency',
    'debt to asset',
    'total liabilities ÷ total assets',
    'fraction',
    ['totalLiabilities', 'totalAssets'],
    over,
  ),
  equityToAsset: define(
    'solvency',
    'equity to asset',
    'equity ÷ total assets',
    'fraction',
    ['equity', 'totalAssets'],
    over,
  ),
  debtToEquity: define(
    'solvency',
    'debt to equity',
    'total liabilities ÷ equity',
    'fraction',
    ['totalLiabilities', 'equity'],
    (debts = 0, equity = 0) => overEquity(debts, equity),
  ),
  netFarmIncome: define(
    'profitability',
    'net farm income',
    'gross revenue − operating expense − depreciation − interest + gain on capital sales',
    'cents',
    ['grossRevenue', 'operatingExpense', 'depreciation', 'interest', 'capitalGain'],
    (revenue = 0, expense = 0, depreciation = 0, interest = 0, gain = 0) =>
      revenue - expense - depreciation - interest + gain,
  ),
  returnOnAssets: define(
    'profitability',
    'rate of return on farm assets',
    '(net farm income from operations + interest − unpaid labor and management) ÷ average total assets',
    'fraction',
    ['fromOperations', 'interest', 'unpaidLabor', 'averageAssets'],
    (income = 0, interest = 0, labor = 0, assets = 0) => over(income + interest - labor, assets),
  ),
  returnOnEquity: define(
    'profitability',
    'rate of return on farm equity',
    '(net farm income from operations − unpaid labor and management) ÷ average equity',
    'fraction',
    ['fromOperations', 'unpaidLabor', 'averageEquity'],
    (income = 0, labor = 0, equity = 0) => overEquity(income - labor, equity),
  ),
  operatingProfitMargin: define(
    'profitability',
    'operating profit margin',
    '(net farm income from operations + interest − unpaid labor and management) ÷ gross revenue',
    'fraction',
    ['fromOperations', 'interest', 'unpaidLabor', 'grossRevenue'],
    (income = 0, interest = 0, labor = 0, revenue = 0) => over(income + interest - labor, revenue),
  ),
  assetTurnover: define(
    'profitability',
    'asset turnover',
    'gross revenue ÷ average total assets',
    'fraction',
    ['grossRevenue', 'averageAssets'],
    over,
  ),
  ebitda: define(
    'profitability',
    'net farm income before interest and depreciation',
    'net farm income + interest + depreciation',
    'cents',
    ['netFarmIncome', 'interest', 'depreciation'],
    (income = 0, interest = 0, depreciation = 0) => income + interest + depreciation,
  ),
  repaymentCapacity: define(
    'repayment',
    'capital debt repayment capacity',
    'net farm income from operations + off-farm income + depreciation + interest on term debt − income and self-employment tax − family living',
    'cents',
    ['fromOperations', 'offFarmIncome', 'depreciation', 'termInterest', 'incomeTax', 'familyLiving'],
    (farm = 0, other = 0, depreciation = 0, interest = 0, tax = 0, living = 0) =>
      farm + other + depreciation + interest - tax - living,
  ),
  repaymentMargin: define(
    'repayment',
    'capital debt repayment margin',
    'repayment capacity − principal and interest on term debt − unpaid operating debt of earlier years',
    'cents',
    ['capacity', 'termPayments', 'unpaidOperatingDebt'],
    (capacity = 0, payments = 0, unpaid = 0) => capacity - payments - unpaid,
  ),
  replacementMargin: define(
    'repayment',
    'replacement margin',
    'repayment margin − cash needed to replace assets',
    'cents',
    ['margin', 'replacement'],
    (margin = 0, replacement = 0) => margin - replacement,
  ),
  termDebtCoverage: define(
    'repayment',
    'term debt coverage',
    'repayment capacity ÷ principal and interest on term debt',
    'ratio',
    ['capacity', 'duePayments'],
    over,
  ),
  replacementCoverage: define(
    'repayment',
    'replacement coverage',
    'repayment capacity ÷ (principal and interest on term debt + cash needed to replace assets)',
    'ratio',
    ['capacity', 'termPayments', 'replacement'],
    (capacity = 0, payments = 0, replacement = 0) => over(capacity, payments + replacement),
  ),
  debtCoverage: define(
    'repayment',
    'debt coverage',
    '(repayment capacity + operating interest) ÷ (principal and interest on term debt + operating interest)',
    'ratio',
    ['capacity', 'operatingInterest', 'termPayments'],
    (capacity = 0, interest = 0, payments = 0) =>
      payments + interest === 0
        ? 'No principal or interest was paid in the year'
        : (capacity + interest) / (payments + interest),
    'memory',
  ),
  operatingExpenseRatio: define(
    'efficiency',
    'operating expense ratio',
    'operating expense without interest and depreciation ÷ gross revenue',
    'fraction',
    ['operatingExpense', 'grossRevenue'],
    over,
  ),
  depreciationRatio: define(
    'efficiency',
    'depreciation expense ratio',
    'depreciation ÷ gross revenue',
    'fraction',
    ['depreciation', 'grossRevenue'],
    over,
  ),
  interestRatio: define(
    'efficiency',
    'interest expense ratio',
    'interest ÷ gross revenue',
    'fraction',
    ['interest', 'grossRevenue'],
    over,
  ),
  netIncomeRatio: define(
    'efficiency',
    'net farm income ratio',
    'net farm income from operations ÷ gross revenue',
    'fraction',
    ['fromOperations', 'grossRevenue'],
    over,
  ),
}

export type MeasureId = keyof typeof measureDefinitions
export const measureIds = Object.keys(measureDefinitions) as MeasureId[]
