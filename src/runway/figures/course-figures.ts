// What a course tells of each month, of each year and of the whole: every figure by its name.
import { type NamedRow, namedRows } from './named-row.ts'

/** Figures of each month, dollars of that month unless said. Flows are of the month, balances of its end. */
export const monthSeries = [
  /** General price level, first prices = 1. */
  'level',
  'farmSales',
  /** Direct costs and the three after them together. */
  'farmCosts',
  'farmMarketCosts',
  'farmOverheads',
  'farmHired',
  /** Culls, leases and stock sold, less breeding stock bought. */
  'farmStock',
  /** Loans drawn less payments. */
  'farmLoans',
  'farmPurchases',
  /** Cash that purchases bring in, and their worth at the end of use. */
  'farmPurchaseGains',
  /** From the household into the farm, so that farm cash does not fall below zero. */
  'contribution',
  /** What the farm can spare before it draws: the least of its cash above the reserve over this and the next eleven expected months. */
  'farmSpare',
  'plannedDraw',
  'draw',
  /** Of the draw, what was called on beyond the planned one to hold savings at the floor. */
  'drawToHoldFloor',
  'unmetDraw',
  'farmCash',
  /** Hours worked, hired ones with them; the hired ones; and those that nobody works. */
  'farmHours',
  'hiredHours',
  'undoneHours',
  /** Take-home pay, side ventures after their costs, Social Security. */
  'pay',
  'side',
  'socialSecurity',
  /** Of Social Security, what is paid for the children: it is their income and not on the return. */
  'childBenefits',
  /** Living costs after what the farm replaces, and what it replaces. */
  'living',
  'farmGoods',
  /** Premiums net of the credit taken in advance, and that credit. */
  'premiums',
  'advanceCredit',
  'care',
  /** Tax paid this month; below zero when it comes back. */
  'taxes',
  /** One-off costs less one-off income. */
  'oneOffs',
  /** Loans of the household: paid, come in as cash, owed at the month's end. */
  'loanPayments',
  'loanDrawn',
  'loanBalance',
  /** Moved from cash to retirement accounts. */
  'setAside',
  /** Put into retirement accounts by the Treasury, for the year before: the saver's match. */
  'saversMatch',
  'withdrawnTaxable',
  'withdrawnTraditional',
  'withdrawnRoth',
  'returns',
  'cash',
  'taxable',
  'traditional',
  'roth',
  /** Of them, what counts as spendable. */
  'retirementSpendable',
  'taxOwed',
  'spendable',
  'floor',
  /** Living, loan payments, premiums, care and taxes: what the cover ratio divides by. */
  'householdCosts',
  'unmetNeed',
] as const
export type MonthSeries = (typeof monthSeries)[number]
export type MonthFigures = NamedRow<MonthSeries>
export const emptyMonth: () => MonthFigures = namedRows(monthSeries)

export const yearSeries = [
  'farmGross',
  'farmProfit',
  'depreciation',
  'sideProfit',
  'wages',
  /** Of these, the part of the plan's first person, with what is nobody's. */
  'sideProfitOfFirst',
  'wagesOfFirst',
  'pensions',
  'pensionsOfFirst',
  'benefits',
  'retirementIncome',
  'gains',
  'adjustedGrossIncome',
  /** As the premium tax credit and the states' programs count it. */
  'householdIncome',
  /** What Medicare looks at two years later. */
  'medicareIncome',
  'povertyPercent',
  /** Of the year’s return: place in `filingStatuses`, how many sign it, and who signs first, as a place among the people. */
  'filingStatus',
  'signers',
  'firstSigner',
  'incomeTax',
  'selfEmploymentTax',
  'stateTax',
  'premiumTaxCredit',
  'advanceCredit',
  /** Care of children under 13, paid so that everyone can work. */
  'careCosts',
  'taxableIncome',
  /** Left at the year's end to later ones. */
  'netOperatingLoss',
  'qualifiedBusinessLoss',
  'shortTermLoss',
  'longTermLoss',
  'section179Left',
  /** Tax of the two years before that the year's farming loss brings back, paid in the next one. */
  'lossRefund',
  /** All tax of the year less refundable credits; below zero when the year gives money back. */
  'tax',
] as const
export type YearSeries = (typeof yearSeries)[number]

/** The turning points of a course. Months count from the plan's first; −1 where a thing never happens. */
export interface Marks {
  /** The first month in which spendable savings are below the floor. It is also the months left. */
  floorMonth: number
  /** Month with the lowest spendable savings, the first of equals, and they; −1 and 0 for an empty course. Needs that nothing met stand apart. */
  lowestMonth: number
  lowest: number
  /** The lowest at first prices, which may be another month's, and what nothing met at them. */
  lowestAtFirstPrices: number
  unmetAtFirstPrices: number
  firstDraw: number
  /** Last month in which the household had to put money into the farm. */
  lastContribution: number
  /** First month with a need that nothing could meet, and all such needs. */
  firstUnmet: number
  unmetNeed: number
  /** All savings of the household, retirement accounts included, less tax owed, now; and as the first slower year begins, with its price level. */
  savings: number
  savingsAtSlower: number
  levelAtSlower: number
  /** First month from which net draws have covered all household costs over any twelve months running; and what it was as the first slower year began. */
  carryFrom: number
  carryAtSlower: number
  /** By how much net draws were above costs in each of the last twelve months, as a ring, and in all of them. */
  gaps: Float64Array
  gap: number
}

export const unmarked: Omit<Marks, 'gaps'> = {
  floorMonth: -1,
  lowestMonth: -1,
  lowest: 0,
  lowestAtFirstPrices: 0,
  unmetAtFirstPrices: 0,
  firstDraw: -1,
  lastContribution: -1,
  firstUnmet: -1,
  unmetNeed: 0,
  savings: 0,
  savingsAtSlower: 0,
  levelAtSlower: 0,
  carryFrom: -1,
  carryAtSlower: -1,
  gap: 0,
}

export const emptyMarks = (): Marks => ({ ...unmarked, gaps: new Float64Array(12) })
