// What a course tells of each month, of each year and of the whole: every figure by its name.

import { unwritten } from './unwritten.ts'

/** Figures of each month, dollars of that month unless said. Flows are of the month, balances of its end. */
export const emptyMonth = () => ({
  /** General price level, first prices = 1. */
  level: unwritten,
  farmSales: unwritten,
  /** Direct costs and the three after them together. */
  farmCosts: unwritten,
  farmMarketCosts: unwritten,
  farmOverheads: unwritten,
  farmHired: unwritten,
  /** Culls, leases and stock sold, less breeding stock bought. */
  farmStock: unwritten,
  /** Loans drawn less payments. */
  farmLoans: unwritten,
  farmPurchases: unwritten,
  /** Cash that purchases bring in, and their worth at the end of use. */
  farmPurchaseGains: unwritten,
  /** From the household into the farm, so that farm cash does not fall below zero. */
  contribution: unwritten,
  /** What the farm can spare before it draws: the least of its cash above the reserve over this and the next eleven expected months. */
  farmSpare: unwritten,
  plannedDraw: unwritten,
  draw: unwritten,
  /** Of the draw, what was called on beyond the planned one to hold savings at the floor. */
  drawToHoldFloor: unwritten,
  unmetDraw: unwritten,
  farmCash: unwritten,
  /** Hours worked, hired ones with them; the hired ones; and those that nobody works. */
  farmHours: unwritten,
  hiredHours: unwritten,
  undoneHours: unwritten,
  /** Take-home pay, what side ventures hand over after their costs, Social Security. */
  pay: unwritten,
  side: unwritten,
  /** What side ventures keep of their earnings, below zero where they hand over what they held; and what they hold. */
  sideKept: unwritten,
  ventureCash: unwritten,
  socialSecurity: unwritten,
  /** Of Social Security, what is paid for the children, and what others at home put in of their own: theirs, and not on the return. */
  othersBenefits: unwritten,
  /** Living costs after what the farm replaces, and what it replaces. */
  living: unwritten,
  farmGoods: unwritten,
  /** Premiums net of the credit taken in advance, and that credit. */
  premiums: unwritten,
  advanceCredit: unwritten,
  care: unwritten,
  /** Tax paid this month; below zero when it comes back. */
  taxes: unwritten,
  /** Of it, to the state. */
  stateTaxes: unwritten,
  /** One-off costs less one-off income. */
  oneOffs: unwritten,
  /** Loans of the household: paid, come in as cash, owed at the month's end. */
  loanPayments: unwritten,
  loanDrawn: unwritten,
  loanBalance: unwritten,
  /** Moved from cash to retirement and health savings accounts. */
  setAside: unwritten,
  /** Put into retirement accounts by the Treasury, for the year before: the saver's match. */
  saversMatch: unwritten,
  withdrawnTaxable: unwritten,
  withdrawnTraditional: unwritten,
  withdrawnRoth: unwritten,
  withdrawnHealth: unwritten,
  /** Moved from traditional to Roth accounts; in no withdrawal. */
  converted: unwritten,
  returns: unwritten,
  cash: unwritten,
  taxable: unwritten,
  traditional: unwritten,
  roth: unwritten,
  health: unwritten,
  /** Of them, what counts as spendable. */
  retirementSpendable: unwritten,
  taxOwed: unwritten,
  spendable: unwritten,
  floor: unwritten,
  /** Living, loan payments, premiums, care and taxes: what the cover ratio divides by. */
  householdCosts: unwritten,
  unmetNeed: unwritten,
})
export type MonthFigures = ReturnType<typeof emptyMonth>
export type MonthSeries = keyof MonthFigures
export const monthSeries = Object.keys(emptyMonth()) as MonthSeries[]

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
  /** Out of retirement accounts with the tax added to early withdrawals. */
  'earlyWithdrawals',
  'gains',
  'adjustedGrossIncome',
  /** As the premium tax credit and the states' programs count it. */
  'householdIncome',
  /** What Medicare looks at two years later. */
  'medicareIncome',
  'povertyPercent',
  /** What the state's programs asked of the year in January, or as the plan began: of the months ahead, of the year, and for children. */
  'programIncome',
  'programIncomeOfYear',
  'childProgramIncome',
  /** Of the year’s return: place in `filingStatuses`, how many sign it, and who signs first, as a place among the people. */
  'filingStatus',
  'signers',
  'firstSigner',
  'incomeTax',
  'selfEmploymentTax',
  'stateTax',
  /** Of it, what goes to a local office. */
  'localTax',
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
  /** Of it, left to settle once the year is over; below zero it comes back with the return. */
  'taxLeft',
  /** The state’s part of that. */
  'stateTaxLeft',
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
