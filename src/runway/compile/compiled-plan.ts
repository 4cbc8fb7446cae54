// A plan made ready for many runs: plain data and flat arrays, so that it can be posted to a worker and read in a tight loop.

import type { FarmWork } from '#farm/work-done.ts'
import type { Plan } from '#plan/plan.ts'
import type { Carryforwards } from '#rules/carryforwards.ts'
import type { EstimatedTaxShares } from '#rules/estimated-tax.ts'
import type { LawYear, RateLaw } from '#rules/law-year.ts'
import type { ReturnBefore } from '#rules/loss-carryback.ts'
import type { MedicareYear } from '#rules/medicare/premiums.ts'
import type { BenefitLaw } from '#rules/social-security/benefit-law.ts'
import type { StateLaw } from '#rules/states/state-year.ts'
import type { ShockShape } from '#runway/shocks.ts'
import type { MarketFall } from '#runway/storms/weather.ts'
import type { CompiledDependents } from './compile-dependents.ts'
import type { CompiledStock } from './compile-stock.ts'
import type { CompiledAdded } from './compiled-added.ts'
import type { CompiledCoverage } from './compiled-coverage.ts'
import type { CompiledDraw } from './compiled-draw.ts'
import type { CompiledPerson } from './compiled-person.ts'
import type { CompiledRetirement } from './compiled-retirement.ts'
import type { CompiledVentures } from './compiled-ventures.ts'
import type { Growths } from './growth.ts'
import type { CompiledDay } from './plan-of-day.ts'

/**
 * Months count from 0, the plan's first month; years from 0, the calendar year of that month. `real` amounts are at the
 * plan's first prices and are multiplied by a price level in the run; `fixed` ones are contract dollars.
 */
export interface CompiledPlan extends CompiledDay {
  /** Calendar month (year × 12 + month − 1) of month 0. */
  firstMonth: number
  firstYear: number
  months: number
  /** Calendar years touched. */
  years: number
  shape: ShockShape
  /** Levels of prices, premiums, Medicare's premiums and care in month 0: 1, but in a plan that is continued. */
  opening: { prices: number; premiums: number; medicare: number; care: number }
  growth: Growths
  /** The part of a year by which the first January after month 0 steps prices. */
  firstStep: number
  priceStepsMonthly: boolean
  moneyMovesAtStart: boolean
  /** Nothing else of a compiled plan is made from a person's claim month: a question may turn it. */
  people: CompiledPerson[]
  household: CompiledHousehold
  health: CompiledHealth
  coverage: CompiledCoverage
  savings: CompiledSavings
  farm: CompiledFarm
  draw: CompiledDraw
  law: CompiledLaw
  /** First month of the first slower year; `months` when there is none. */
  firstSlowerMonth: number
}

/** How a living line grows: with prices, with the cost of care, or not at all. */
export const lineGrowths = ['inflation', 'care', 'fixed'] as const

/** Sums by month of lines that grow alike: at first prices, at the first cost of care, and in dollars of the month. */
export type Growing = Record<(typeof lineGrowths)[number], Float64Array>

export interface CompiledHousehold extends CompiledDependents {
  /** Living costs, line × month, after what the farm replaces of each; and by line how it grows, as a place in `lineGrowths`. */
  livingLines: number
  living: Float64Array
  livingGrowth: Uint8Array
  /** Those of all lines together, and what the farm replaces of them. */
  livingOfAll: Growing
  farmGoods: Growing
  /** Mean of the living costs of this month and the next eleven: what the floor and the reserve count. */
  smooth: Growing
  survivorShare: number
  /** Loans of the household, contract dollars: paid, come in as cash, owed at the month's end; and the mean paid over twelve months from each on. */
  loanPayments: Float64Array
  loanDrawn: Float64Array
  loanBalance: Float64Array
  smoothLoans: Float64Array
  oneOffReal: Float64Array
  oneOffFixed: Float64Array
  /** Per person × month: gross pay at first prices, what is withheld of it for income tax, and 0 where a bad year stops both. */
  payReal: Float64Array
  payFactor: Float64Array
  payWithheldReal: Float64Array
  /** Gross pensions per person × month, at first prices and in contract dollars; and what is withheld of them. */
  hasPensions: boolean
  pensionReal: Float64Array
  pensionFixed: Float64Array
  pensionWithheldReal: Float64Array
  pensionWithheldFixed: Float64Array
  /** The same rows of what goes on to a person after the other's death. */
  survivorPension: {
    real: Float64Array
    fixed: Float64Array
    withheldReal: Float64Array
    withheldFixed: Float64Array
  }
  /** Side ventures together, per owner × month (0, 1 people, 2 nobody's): takings less costs, at first prices; and what is set aside. */
  sideNetReal: Float64Array
  sideSetAsideReal: Float64Array
  ventures: CompiledVentures
  floorMonths: number
  floorDollars: number
  /** The part of the living costs that is care of children, by how it grows. */
  hasCareCosts: boolean
  careCosts: Growing
  /** Factor on living costs, 1 but for storms. */
  livingFactor: Float64Array
}

export interface CompiledHealth {
  /** Premium lines at first premiums: those that count for the deduction and those that do not. */
  premiumsDeductible: Float64Array
  premiumsOther: Float64Array
  advanceCredit: boolean
  medicareFrom65: boolean
  /** Below 0: the national base premium. */
  partDPlan: number
  supplement: number
  careBefore65: number
  careFrom65: number
  /** Care of all dependents at home, by month, at first cost of care. */
  dependentCare: Float64Array
  /** Factor on premiums, 1 but for storms. */
  premiumFactor: Float64Array
  /** By year: a `savingsCoverCode`. */
  savingsCover: Uint8Array
}

export interface CompiledSavings extends CompiledRetirement, CompiledAdded {
  count: number
  /** An `accountCode`; owner 0 or 1, −1 nobody. */
  kind: Int32Array
  owner: Int32Array
  opening: Float64Array
  openingBasis: Float64Array
  stocks: Float64Array
  bonds: Float64Array
  bills: Float64Array
  fee: Float64Array
  /** The first account with the same investments and fee: they grow alike. */
  growsLike: Int32Array
  /** Accounts in the order in which a shortfall is met. */
  spendOrder: Int32Array
  /** The account money moves through, where a surplus goes, and each person's account for retirement saving; −1 none. */
  cashAccount: number
  surplusAccount: number
  retirementAccount: Int32Array
  /** The first traditional account of each person, which alone can take the saver's match; −1 for none. */
  matchAccount: Int32Array
  reserveMonths: number
  surplusToRetirement: number
  retirementIsSpendable: boolean
  spendRetirementBeforeAge: boolean
  requiredFromAge: number
  /** The account that required distributions go to. */
  requiredAccount: number
  stockYield: number
  /** A storm's fall of markets; month −1 in calm ones. */
  marketFall: MarketFall
  /** Whether there are any planned contributions; those per account × month, contract dollars. */
  contributes: boolean
  contributions: Float64Array
  /** Most that one person may put into retirement accounts in a year, by person × year. */
  contributionLimit: Float64Array
}

export interface CompiledFarm {
  /** For drawn courses: what changes by each way in which seats on waiting lists can fall. Empty where none is drawn. */
  bySeats: readonly Partial<CompiledFarm>[]
  /** False when the plan says nothing of the farm: draws are then taken as planned. */
  described: boolean
  rows: number
  /** Per row × month at first prices, farm price growth included: offered × season is sold up to the ceiling. */
  offered: Float64Array
  ceiling: Float64Array
  directCosts: Float64Array
  /** By month at first prices, farm cost growth included: everything that is paid whatever the season. */
  marketCosts: Float64Array
  overheads: Float64Array
  /** Breeding stock bought, and what of it is deducted when it is bought; the rest is spread. */
  stockBought: Float64Array
  stockAtOnce: Float64Array
  stockSpread: CompiledStock
  /** Culls, leases, stock and equipment sold in a slower year; what of it is a gain of business property, and other income. */
  stockSold: Float64Array
  cullGain1231: Float64Array
  stockGain: Float64Array
  loanInterest: Float64Array
  loanBalance: Float64Array
  work: FarmWork
  /** Hours that can be given, per person × month, with those of the crew who are not the plan's people as a third row. */
  crewHours: Float64Array
  /** Hours of the crew lost to a storm. */
  hoursLost: Float64Array
  /** What an hour of hired help costs, by month at first prices, farm cost growth included. */
  hourCost: Float64Array
  /** Factor on what is offered: 1 but for storms. */
  salesFactor: Float64Array
  shareAfterDeath: number
  openingCash: number
  reserve: number
  purchases: CompiledPurchases
  /** Net farm cash of the twelve months before the plan, the first of them first: what a share policy trails at the start. */
  netBefore: Float64Array
  /** The plan's dated purchases, by month at first prices, and its planned draws, in dollars of the expected month. */
  datedPurchases: Float64Array
  expectedDraws: Float64Array
  /** Loans drawn less payments by month, with the payments of the last year once more for the year past the end. */
  contracts: Float64Array
  /** Sales of an ordinary season and direct costs of all rows with all work done, by month at first prices. */
  fullSales: Float64Array
  fullDirectCosts: Float64Array
  /** Expected price level of each month, first prices = 1. */
  expectedLevel: Float64Array
}

export interface CompiledPurchases {
  count: number
  cost: Float64Array
  /** 1 when it waits for cash. */
  waits: Uint8Array
  /** Dated: the month. Waiting: the earliest. */
  month: Int32Array
  /** Per purchase × 12: cash added a month (January first), and hours saved. */
  addsCash: Float64Array
  savesHours: Float64Array
  /** First month of its use, and the month after the last, counted from the one it is bought in. */
  worksFrom: Int32Array
  worksUntil: Int32Array
  valueAtEnd: Float64Array
  /** Per purchase × `deductionYears`: share of the cost deducted in the year of purchase and the years after. */
  deduction: Float64Array
  /** Per purchase: share of the cost elected under section 179 in the year of purchase. */
  section179: Float64Array
}

export const deductionYears = 30

export interface CompiledLaw {
  /** A `taxCode`. */
  method: number
  plainShare: number
  /** A filing status, while both live; then the law's own rule. And what the plan says of it; below zero where it leaves it to the law. */
  filing: number
  chosenFiling: number
  region: number
  years: LawYear[]
  /** By year: 1 where the law is projected and so moves with the course's own prices. */
  projected: Uint8Array
  benefits: BenefitLaw | null
  medicare: MedicareYear[]
  /** By year; null where no state tax counts. */
  state: (StateLaw | null)[]
  /** By calendar month: the part of the state's payments ahead that falls due in it (January: the year before's); and the month of its return. */
  stateShares: Float64Array
  stateReturnSeason: number
  /** Of what is withheld; null where the plan says none, or no state tax counts. */
  withheldForState: number | null
  itemized: number
  /** Of the home, a year at first prices. */
  propertyTax: number
  rent: number
  optionalMethod: boolean
  lastYearTax: number
  lastYearStateTax: number
  lastYearIncome: number
  /** Of last year's tax, still to pay in the plan's first January and April, and to the state; below zero a refund. */
  lastYearDue: { january: number; april: number; stateJanuary: number; stateReturn: number }
  twoYearsBackIncome: number
  lastYearFarmShare: number
  /** What makes a farmer's year, and what must be paid ahead in one that is none. */
  estimatedTax: EstimatedTaxShares
  selfEmploymentFactor: number
  earlyWithdrawalRate: number
  healthSavingsRate: number
  survivingSpouseYears: number
  /** What the returns before the plan left to it, dollars. */
  carried: Carryforwards
  /** Whether a farming loss goes back; then the returns of the second and the first year before the plan. */
  farmLossesGoBack: boolean
  averageFarmIncome: boolean
  /** The three years before the plan, the last first. */
  baseYears: { law: RateLaw | null; taxable: number }[]
  /** Of a loss before the plan, still to come in May. */
  lossRefundDue: number
  returnsBefore: [twoBack: ReturnBefore, last: ReturnBefore]
  soFar: Plan['tax']['soFar']
  /** Expected price level at the start of each year, first prices = 1: what the projected law was indexed by. */
  expectedLevel: Float64Array
}
