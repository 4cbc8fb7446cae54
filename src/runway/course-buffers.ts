// Where a run writes: one array per figure and month, one per figure and year, and the state it carries along. Made once, filled again and again.

import {
  emptyHouseholdTax,
  emptyHouseholdYear,
  type HouseholdTax,
  type HouseholdYear,
} from '#rules/household-year.ts'
import type { BenefitPerson } from '#rules/social-security/benefits.ts'
import type { CompiledPlan } from '#runway/compile/compiled-plan.ts'
import { emptyAhead, type FarmAhead } from './farm/farm-ahead-state.ts'
import { type LossState, noLosses } from './loss-state.ts'
import { emptyYearTotals, type YearTotals } from './year-totals.ts'

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

export const yearSeries = [
  'farmGross',
  'farmProfit',
  'depreciation',
  'sideProfit',
  'wages',
  /** Of both, the part of the plan's first person, with what is nobody's. */
  'sideProfitOfFirst',
  'wagesOfFirst',
  'benefits',
  'retirementIncome',
  'gains',
  'adjustedGrossIncome',
  /** What Medicare looks at two years later. */
  'medicareIncome',
  'povertyPercent',
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

export interface CourseBuffers {
  months: Record<MonthSeries, Float64Array>
  years: Record<YearSeries, Float64Array>
  /** Months run: all of them, or fewer when the last person has died. Entries from here on are not of this run. */
  endMonth: number
  /** Month in which each purchase was made, below 0 before the plan began; `notBought` when it was not. */
  boughtMonth: Int32Array
  state: CourseState
  /** Line by line what the month's sums were made of, as they were summed; null where nobody will ask. */
  parts: CourseParts | null
}

/** Rows as in the compiled plan: line × month or farm row × month. */
export interface CourseParts {
  /** Less what the farm replaces. */
  living: Float64Array
  farmSales: Float64Array
  farmDirectCosts: Float64Array
}

export const notBought = -100_000

/** What is carried from month to month. */
export interface CourseState {
  balance: Float64Array
  basis: Float64Array
  /** Monthly growth factor, taxable interest and dividends per dollar and month, by account, for the year. */
  growth: Float64Array
  interestPerDollar: Float64Array
  dividendPerDollar: Float64Array
  farmCash: number
  /** What the farm can still spare this month. */
  farmSpare: number
  ahead: FarmAhead
  level: number
  /** The price level of this year's January (or of the plan's first month). */
  januaryLevel: number
  /** What a month adds where prices step monthly. */
  monthlyStep: number
  monthlyCareStep: number
  premiumLevel: number
  careLevel: number
  /** Net farm cash of the last twelve months before draws, as a ring. */
  netFarmRing: Float64Array
  netFarmSum: number
  /** Deductions already certain for each year from purchases, and what is elected under section 179 in it. */
  deductions: Float64Array
  section179: Float64Array
  /** Section 179 of earlier years that their income did not allow. */
  section179Carried: number
  /** Per person: covered earnings of the record with the run's own, primary amount a month, benefit a month. */
  earnings: Float64Array[]
  primary: Float64Array
  primaryStale: Uint8Array
  benefit: Float64Array
  benefitPeople: BenefitPerson[]
  benefitWithheld: Float64Array
  monthsBack: Float64Array
  /** Covered earnings of the year before, for the earnings test. */
  lastEarnings: Float64Array
  deathMonth: Float64Array
  /** By year: 1 where a joint return was filed. */
  jointReturn: Uint8Array
  /** Which person fills which place of the return; −1 nobody. */
  slotPerson: Int32Array
  /** 1 while the person is alive, and while at work. */
  alive: Uint8Array
  working: Uint8Array
  /** First month after the last spell without work. */
  workAgainMonth: Float64Array
  contributed: Float64Array
  requiredThisYear: Float64Array
  year: YearTotals
  /** By person: last year's saver's match, on its way. */
  matchDue: Float64Array
  taxDueJanuary: number
  taxDueApril: number
  losses: LossState
  quarterly: number
  estimate: number
  onMedicaid: number
  advanceMonthly: number
  lastTax: number
  lastIncome: number
  averageRate: number
  lastYearWasFarmer: number
  expectsFarmerYear: number
  /** Household costs of a mean month as things stand: what the reserve is counted in. */
  monthlyCosts: number
  householdYear: HouseholdYear
  householdTax: HouseholdTax
}

/** Buffers for runs of this plan. */
export const makeBuffers = (plan: CompiledPlan, withParts = false): CourseBuffers => ({
  months: seriesOf(monthSeries, plan.months),
  years: seriesOf(yearSeries, plan.years),
  endMonth: 0,
  boughtMonth: new Int32Array(plan.farm.purchases.count),
  state: makeState(plan),
  parts: withParts ? emptyParts(plan) : null,
})

const emptyParts = (plan: CompiledPlan): CourseParts => ({
  living: new Float64Array(plan.household.livingLines * plan.months),
  farmSales: new Float64Array(plan.farm.rows * plan.months),
  farmDirectCosts: new Float64Array(plan.farm.rows * plan.months),
})

const seriesOf = <Name extends string>(names: readonly Name[], length: number): Record<Name, Float64Array> =>
  Object.fromEntries(names.map((name) => [name, new Float64Array(length)])) as Record<Name, Float64Array>

const makeState = (plan: CompiledPlan): CourseState => {
  const earnings = plan.people.map((person) => new Float64Array(person.earnings.length))
  const perAccount = () => new Float64Array(plan.savings.count)
  return {
    balance: perAccount(),
    basis: perAccount(),
    growth: perAccount(),
    interestPerDollar: perAccount(),
    dividendPerDollar: perAccount(),
    farmCash: 0,
    farmSpare: 0,
    ahead: emptyAhead(plan.months),
    level: 1,
    januaryLevel: 1,
    monthlyStep: 1,
    monthlyCareStep: 1,
    premiumLevel: 1,
    careLevel: 1,
    netFarmRing: new Float64Array(12),
    netFarmSum: 0,
    deductions: new Float64Array(plan.years),
    section179: new Float64Array(plan.years),
    section179Carried: 0,
    earnings,
    primary: new Float64Array(2),
    primaryStale: new Uint8Array(2),
    benefit: new Float64Array(2),
    benefitPeople: plan.people.map((person, p) => ({
      record: { bornYear: person.bornYear, earnings: earnings[p]! },
      bornMonth: person.bornMonth,
      claimMonth: person.claimMonth,
      deathMonth: Number.POSITIVE_INFINITY,
    })),
    benefitWithheld: new Float64Array(2),
    monthsBack: new Float64Array(2),
    lastEarnings: new Float64Array(2),
    deathMonth: new Float64Array(2),
    jointReturn: new Uint8Array(plan.years),
    slotPerson: new Int32Array(2),
    alive: new Uint8Array(2),
    working: new Uint8Array(2),
    workAgainMonth: new Float64Array(2),
    contributed: new Float64Array(2),
    requiredThisYear: new Float64Array(2),
    matchDue: new Float64Array(2),
    year: emptyYearTotals(),
    taxDueJanuary: 0,
    taxDueApril: 0,
    losses: noLosses(),
    quarterly: 0,
    estimate: 0,
    onMedicaid: 0,
    advanceMonthly: 0,
    lastTax: 0,
    lastIncome: 0,
    averageRate: 0,
    lastYearWasFarmer: 0,
    expectsFarmerYear: 0,
    monthlyCosts: 0,
    householdYear: emptyHouseholdYear(),
    householdTax: emptyHouseholdTax(),
  }
}
