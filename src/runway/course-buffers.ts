// Where a run writes: the month it is in, of which it keeps the figures that are asked for, one array per figure and year, its
// turning points, and the state it carries along. Made once, filled again and again.

import type { Month } from '#calendar/month.ts'
import {
  emptyHouseholdTax,
  emptyHouseholdYear,
  type HouseholdTax,
  type HouseholdYear,
} from '#rules/household-year.ts'
import type { CompiledPlan } from '#runway/compile/compiled-plan.ts'
import { type BenefitState, noBenefits } from './benefits/benefit-state.ts'
import { type CoverageState, noCoverage } from './coverage/coverage-state.ts'
import { emptyAhead, type FarmAhead } from './farm/farm-ahead-state.ts'
import { type AveragingState, noAveraging } from './farm-averaging-years.ts'
import {
  emptyMarks,
  emptyMonth,
  type Marks,
  type MonthFigures,
  type MonthSeries,
  type YearSeries,
  yearSeries,
} from './figures/course-figures.ts'
import { type LastingFigures, noLastingFigures } from './figures/lasting-figures.ts'
import { emptyTable, type MonthTable } from './figures/month-table.ts'
import { unwritten } from './figures/unwritten.ts'
import { type LossState, noLosses } from './loss-state.ts'
import { type HealthSavingsState, noHealthSavings } from './savings/health-savings-state.ts'
import { nothingRequired, type RequiredState } from './savings/required-state.ts'
import { noStateTax, type StateTaxState } from './state-tax/state-tax-state.ts'
import { emptyYearTotals, type YearTotals } from './year-totals.ts'

/** `Kept` are the figures that it keeps of every month; a run needs none of them. */
export interface CourseBuffers<Kept extends MonthSeries = never> {
  /** The figures of the month that is run, each written anew. */
  month: MonthFigures
  months: Record<Kept, Float64Array>
  kept: readonly KeptSeries[]
  /** All figures of each month run, anew for each run; null where nobody will read them. */
  table: MonthTable | null
  marks: Marks
  years: Record<YearSeries, Float64Array>
  /** Months run: all of them, or fewer when the last person has died. Entries from here on are not of this run. */
  endMonth: number
  /** Month in which each purchase was made, below 0 before the plan began; `notBought` when it was not. */
  boughtMonth: Int32Array
  state: CourseState
  /** Who is covered by what: member × month, places in `coverageKinds`. */
  coverage: Uint8Array
  /** Line by line what the month's sums were made of, as they were summed; null where nobody will ask. */
  parts: CourseParts | null
}

interface KeptSeries {
  name: MonthSeries
  values: Float64Array
}

/** Rows as in the compiled plan: line × month or farm row × month. */
export interface CourseParts {
  /** Less what the farm replaces. */
  living: Float64Array
  farmSales: Float64Array
  farmDirectCosts: Float64Array
  /** What each side venture holds at the month's end. */
  ventureCash: Float64Array
  /** What each account of the plan holds at the month's end. */
  accounts: Float64Array
  /** Months a row is long. */
  months: number
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
  /** By side venture. */
  ventureCash: Float64Array
  /** What the farm can still spare this month. */
  farmSpare: number
  ahead: FarmAhead
  level: number
  /** The price level of this year's January (or of the plan's first month). */
  januaryLevel: number
  lasting: LastingFigures
  /** What a month adds where prices step monthly. */
  monthlyStep: number
  monthlyCareStep: number
  premiumLevel: number
  medicareLevel: number
  careLevel: number
  /** Purchases that can still be made. */
  purchasesLeft: number
  /** Net farm cash of the last twelve months before draws, as a ring. */
  netFarmRing: Float64Array
  netFarmSum: number
  /** Deductions already certain for each year from purchases, and what is elected under section 179 in it. */
  deductions: Float64Array
  section179: Float64Array
  /** Section 179 of earlier years that their income did not allow. */
  section179Carried: number
  benefits: BenefitState
  deathMonth: Float64Array
  /** By year: 1 where a joint return was filed. */
  jointReturn: Uint8Array
  /** Which person fills which place of the return; −1 nobody. */
  slotPerson: Int32Array
  /** 1 while the person is alive, and while at work. */
  alive: Uint8Array
  working: Uint8Array
  /** Until then nobody dies, stops or takes up work. */
  nextMeeting: number
  /** First month after the last spell without work. */
  workAgainMonth: Float64Array
  contributed: Float64Array
  health: HealthSavingsState
  /** By account: what even payments bring a month. */
  evenMonthly: Float64Array
  /** Account × year: dollars that were converted in it and are still there. */
  converted: Float64Array
  /** By person: the first year of the plan with money in a Roth account; below zero before it, infinite where there is none. */
  rothSince: Float64Array
  /** By account: the most that the year's expected profit lets into a plan of the own business. */
  ownPlanRoom: Float64Array
  required: RequiredState
  year: YearTotals
  /** By person: last year's saver's match, on its way. */
  matchDue: Float64Array
  /** By year: taken out of retirement accounts. */
  retirementTaken: Float64Array
  taxDueJanuary: number
  taxDueApril: number
  losses: LossState
  averaging: AveragingState
  quarterly: number
  estimate: number
  stateTax: StateTaxState
  cover: CoverageState
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

/** Buffers for runs of this plan that keep these figures of every month. */
export const makeBuffers = <Kept extends MonthSeries>(
  plan: CompiledPlan,
  keep: readonly Kept[],
  isWhole = false,
): CourseBuffers<Kept> => {
  const months = seriesOf(keep, plan.months)
  return {
    month: emptyMonth(),
    months,
    kept: keep.map((name) => ({ name, values: months[name] })),
    marks: emptyMarks(),
    years: seriesOf(yearSeries, plan.years),
    coverage: new Uint8Array(plan.coverage.members.length * plan.months),
    endMonth: 0,
    boughtMonth: new Int32Array(plan.farm.purchases.count),
    state: makeState(plan),
    table: isWhole ? emptyTable(plan.firstMonth as Month, 0) : null,
    parts: isWhole ? emptyParts(plan) : null,
  }
}

/** For whoever writes out whole courses: every figure of every month. */
export type WholeCourse = CourseBuffers & { table: MonthTable }
export const wholeCourse = (plan: CompiledPlan): WholeCourse => makeBuffers(plan, [], true) as WholeCourse

const emptyParts = (plan: CompiledPlan): CourseParts => ({
  living: new Float64Array(plan.household.livingLines * plan.months),
  farmSales: new Float64Array(plan.farm.rows * plan.months),
  farmDirectCosts: new Float64Array(plan.farm.rows * plan.months),
  ventureCash: new Float64Array(plan.household.ventures.count * plan.months),
  accounts: new Float64Array(plan.savings.count * plan.months),
  months: plan.months,
})

const seriesOf = <Name extends string>(names: readonly Name[], length: number): Record<Name, Float64Array> =>
  Object.fromEntries(names.map((name) => [name, new Float64Array(length)])) as Record<Name, Float64Array>

const perAccount = ({ savings }: CompiledPlan) => new Float64Array(savings.count)

const makeState = (plan: CompiledPlan): CourseState => ({
  balance: perAccount(plan),
  basis: perAccount(plan),
  growth: perAccount(plan),
  interestPerDollar: perAccount(plan),
  dividendPerDollar: perAccount(plan),
  farmCash: unwritten,
  ventureCash: new Float64Array(plan.household.ventures.count),
  farmSpare: unwritten,
  ahead: emptyAhead(plan.months),
  level: unwritten,
  januaryLevel: unwritten,
  lasting: noLastingFigures(),
  monthlyStep: unwritten,
  monthlyCareStep: unwritten,
  premiumLevel: unwritten,
  medicareLevel: unwritten,
  careLevel: unwritten,
  purchasesLeft: unwritten,
  netFarmRing: new Float64Array(12),
  netFarmSum: unwritten,
  deductions: new Float64Array(plan.years),
  section179: new Float64Array(plan.years),
  section179Carried: unwritten,
  benefits: noBenefits(plan),
  deathMonth: new Float64Array(2),
  jointReturn: new Uint8Array(plan.years),
  slotPerson: new Int32Array(2),
  alive: new Uint8Array(2),
  working: new Uint8Array(2),
  nextMeeting: unwritten,
  workAgainMonth: new Float64Array(2),
  contributed: new Float64Array(2),
  health: noHealthSavings(plan.savings.count),
  evenMonthly: perAccount(plan),
  converted: new Float64Array(plan.savings.conversions.count === 0 ? 0 : plan.savings.count * plan.years),
  rothSince: new Float64Array(2),
  ownPlanRoom: perAccount(plan),
  required: nothingRequired(plan.savings.count),
  matchDue: new Float64Array(2),
  retirementTaken: new Float64Array(plan.years),
  year: emptyYearTotals(),
  taxDueJanuary: unwritten,
  taxDueApril: unwritten,
  losses: noLosses(),
  averaging: noAveraging(),
  quarterly: unwritten,
  estimate: unwritten,
  stateTax: noStateTax(),
  cover: noCoverage(plan.coverage.members.length),
  lastTax: unwritten,
  lastIncome: unwritten,
  averageRate: unwritten,
  lastYearWasFarmer: unwritten,
  expectsFarmerYear: unwritten,
  monthlyCosts: unwritten,
  householdYear: emptyHouseholdYear(),
  householdTax: emptyHouseholdTax(),
})
