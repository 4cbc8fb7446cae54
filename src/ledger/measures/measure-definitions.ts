// Names, formulas and units of the farm finance measures.
export const measureAreas = ['liquidity', 'solvency', 'profitability', 'repayment', 'efficiency'] as const
export type MeasureArea = (typeof measureAreas)[number]

const define = (
  area: MeasureArea,
  name: string,
  formula: string,
  unit: 'ratio' | 'fraction' | 'cents',
  obtained: 'read' | 'memory' = 'read',
) => ({ area, name, formula, unit, obtained })

/** Names and formulas as in the public descriptions of the Farm Financial Standards Council's guideline measures. */
export const measureDefinitions = {
  currentRatio: define('liquidity', 'current ratio', 'current assets ÷ current liabilities', 'ratio'),
  workingCapital: define('liquidity', 'working capital', 'current assets − current liabilities', 'cents'),
  workingCapitalToRevenue: define(
    'liquidity',
    'working capital to gross revenue',
    'working capital ÷ gross revenue',
    'fraction',
  ),
  workingCapitalToExpense: define(
    'liquidity',
    'working capital to operating expense',
    'working capital ÷ operating expense',
    'fraction',
  ),
  debtToAsset: define('solvency', 'debt to asset', 'total liabilities ÷ total assets', 'fraction'),
  equityToAsset: define('solvency', 'equity to asset', 'equity ÷ total assets', 'fraction'),
  debtToEquity: define('solvency', 'debt to equity', 'total liabilities ÷ equity', 'fraction'),
  netFarmIncome: define(
    'profitability',
    'net farm income',
    'gross revenue − operating expense − depreciation − interest + gain on capital sales',
    'cents',
  ),
  returnOnAssets: define(
    'profitability',
    'rate of return on farm assets',
    '(net farm income + interest − unpaid labor and management) ÷ average total assets',
    'fraction',
  ),
  returnOnEquity: define(
    'profitability',
    'rate of return on farm equity',
    '(net farm income − unpaid labor and management) ÷ average equity',
    'fraction',
  ),
  operatingProfitMargin: define(
    'profitability',
    'operating profit margin',
    '(net farm income + interest − unpaid labor and management) ÷ gross revenue',
    'fraction',
  ),
  assetTurnover: define(
    'profitability',
    'asset turnover',
    'gross revenue ÷ average total assets',
    'fraction',
  ),
  ebitda: define(
    'profitability',
    'net farm income before interest and depreciation',
    'net farm income + interest + depreciation',
    'cents',
  ),
  repaymentCapacity: define(
    'repayment',
    'capital debt repayment capacity',
    'net farm income + off-farm income + depreciation + interest on term debt − income and self-employment tax − family living',
    'cents',
  ),
  repaymentMargin: define(
    'repayment',
    'capital debt repayment margin',
    'capacity − principal and interest on term debt − unpaid operating debt of earlier years',
    'cents',
  ),
  replacementMargin: define(
    'repayment',
    'replacement margin',
    'repayment margin − cash needed to replace assets',
    'cents',
  ),
  termDebtCoverage: define(
    'repayment',
    'term debt coverage',
    'capacity ÷ principal and interest on term debt',
    'ratio',
  ),
  replacementCoverage: define(
    'repayment',
    'replacement coverage',
    'capacity ÷ (principal and interest on term debt + replacement)',
    'ratio',
  ),
  debtCoverage: define(
    'repayment',
    'debt coverage',
    '(capacity + operating interest) ÷ all scheduled principal and interest',
    'ratio',
    'memory',
  ),
  operatingExpenseRatio: define(
    'efficiency',
    'operating expense ratio',
    'operating expense without interest and depreciation ÷ gross revenue',
    'fraction',
  ),
  depreciationRatio: define(
    'efficiency',
    'depreciation expense ratio',
    'depreciation ÷ gross revenue',
    'fraction',
  ),
  interestRatio: define('efficiency', 'interest expense ratio', 'interest ÷ gross revenue', 'fraction'),
  netIncomeRatio: define(
    'efficiency',
    'net farm income ratio',
    'net farm income from operations ÷ gross revenue',
    'fraction',
  ),
} as const

export type MeasureId = keyof typeof measureDefinitions
