// What a calendar year of the course has brought so far.
import { unwritten } from './figures/unwritten.ts'

/** Totals of the calendar year so far. */
export interface YearTotals {
  farmSales: number
  farmDeductions: number
  /** Pay and profit of everyone expected for the year in its January: retirement contributions are limited to it. */
  earnedAhead: number
  farmOtherGain: number
  farm1231Gain: number
  side: Float64Array
  wages: Float64Array
  /** By person. */
  pensions: Float64Array
  interest: number
  dividends: number
  gains: number
  retirementIncome: number
  /** Of it and of the benefits, the second person's. */
  secondRetirementIncome: number
  /** By person: of it, out of inherited accounts. */
  inheritedIncome: Float64Array
  secondBenefits: number
  earlyWithdrawals: number
  benefits: number
  premiumsDeductible: number
  /** Paid for the care of children. */
  careCosts: number
  marketplacePremium: number
  benchmark: number
  advance: number
  coverMonths: number
  /** By month of the year: marketplace premium and benchmark. */
  premiumByMonth: Float64Array
  benchmarkByMonth: Float64Array
  /** By person: pay expected for the year, deferred of it to plans at work (the untaxed part with it), and room in IRAs (see contribution-rooms.ts). */
  wagesAhead: Float64Array
  deferred: Float64Array
  untaxedDeferrals: Float64Array
  roomTraditional: Float64Array
  roomRoth: Float64Array
  /** By person: put into plans of the own business. */
  intoOwnPlan: Float64Array
  /** What the months' income left uncovered, one-offs apart; below zero where income was more. */
  need: number
  /** Into health savings accounts: of all, by person, the room of each alone, and the room that family cover gives both together. */
  healthSavings: number
  intoHealth: Float64Array
  roomHealth: Float64Array
  roomHealthShared: number
  /** Out of them for other things than care, and of it before the age from which that is free of the addition. */
  healthSpent: number
  healthSpentEarly: number
  /** Medicare premiums that health savings may still pay. */
  medicareUnpaid: number
  traditionalContributions: number
  rothContributions: number
  withheld: number
  estimatedPaid: number
  /** To the state. */
  statePaid: number
}

export const emptyYearTotals = (): YearTotals => ({
  farmSales: unwritten,
  farmDeductions: unwritten,
  earnedAhead: unwritten,
  farmOtherGain: unwritten,
  farm1231Gain: unwritten,
  side: new Float64Array(3),
  wages: new Float64Array(2),
  pensions: new Float64Array(2),
  interest: unwritten,
  dividends: unwritten,
  gains: unwritten,
  retirementIncome: unwritten,
  secondRetirementIncome: unwritten,
  inheritedIncome: new Float64Array(2),
  secondBenefits: unwritten,
  earlyWithdrawals: unwritten,
  benefits: unwritten,
  premiumsDeductible: unwritten,
  careCosts: unwritten,
  marketplacePremium: unwritten,
  benchmark: unwritten,
  advance: unwritten,
  coverMonths: unwritten,
  premiumByMonth: new Float64Array(12),
  benchmarkByMonth: new Float64Array(12),
  wagesAhead: new Float64Array(2),
  deferred: new Float64Array(2),
  untaxedDeferrals: new Float64Array(2),
  roomTraditional: new Float64Array(2),
  roomRoth: new Float64Array(2),
  intoOwnPlan: new Float64Array(2),
  need: unwritten,
  healthSavings: unwritten,
  intoHealth: new Float64Array(2),
  roomHealth: new Float64Array(2),
  roomHealthShared: unwritten,
  healthSpent: unwritten,
  healthSpentEarly: unwritten,
  medicareUnpaid: unwritten,
  traditionalContributions: unwritten,
  rothContributions: unwritten,
  withheld: unwritten,
  estimatedPaid: unwritten,
  statePaid: unwritten,
})
