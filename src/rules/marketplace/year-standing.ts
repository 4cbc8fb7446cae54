// A year of a household at one income after another: its return worked again with more of one kind of income, on the step of coverage that holds there.

import { type CoverageStep, stepLineCents, stepsOf } from '../coverage/coverage-steps.ts'
import {
  emptyHouseholdTax,
  emptyHouseholdYear,
  type HouseholdTax,
  type HouseholdYear,
  householdSize,
} from '../household-year.ts'
import type { LawYear } from '../law-year.ts'
import { assessHousehold } from '../return/assess-household.ts'
import { silverValueAt } from './cost-sharing.ts'
import { povertyLineCents } from './premium-credit.ts'

/** A year as it stands at one income. Dollars a year. */
export interface YearStanding {
  householdIncome: number
  povertyPercent: number
  povertyLine: number
  premium: number
  credit: number
  netPremium: number
  /** Federal and state tax less refundable credits, before what was withheld or paid ahead, and without the premium credit. */
  tax: number
  silverValue: number
  /** Place of the coverage step it stands on, and whether programs leave nobody to the marketplace there. */
  step: number
  onMedicaid: boolean
  method: number
}

/** Where the extra income comes from: farm profit bears self-employment tax and lifts the health deduction's limit. */
export type ExtraIncome = 'farmProfit' | 'otherIncome'

/** What a year costs in tax and premiums together, in dollars. */
export const costOf = (year: YearStanding): number => toCent(year.tax + year.netPremium)

/** Sums of cents held as dollars carry a hair of binary drift. */
export const toCent = (dollars: number): number => Math.round(dollars * 100) / 100

/** The year with `extra` dollars more of one kind of income, on the first step of coverage whose line it does not pass. */
export const standAt = (
  law: LawYear,
  household: HouseholdYear,
  kind: ExtraIncome,
  extra: number,
  steps: readonly CoverageStep[] = stepsOf(law, household),
): YearStanding => standing(law, household, kind, steps)(extra)

/**
 * The same for one extra income after another: hundreds are asked for, and copying so many fields for each takes longer than its
 * return. So one copy in the engine's fast form and one record of its figures are used again.
 */
export const standing = (
  law: LawYear,
  household: HouseholdYear,
  kind: ExtraIncome,
  steps: readonly CoverageStep[] = stepsOf(law, household),
): ((extra: number) => YearStanding) => {
  const year: HouseholdYear = Object.assign(emptyHouseholdYear(), household)
  const profit = [...household.farmProfit]
  if (kind === 'farmProfit') year.farmProfit = profit
  // More of the farm's profit is each one's as the profit is.
  const all = profit[0]! + profit[1]!
  const ofFirst = all === 0 ? 1 : profit[0]! / all
  const tax = emptyHouseholdTax()
  const lines = steps.map((step) => stepLineCents(law, household, step))
  return (extra) => {
    if (kind === 'otherIncome') year.otherIncome = household.otherIncome + extra
    else {
      profit[0] = household.farmProfit[0]! + extra * ofFirst
      profit[1] = household.farmProfit[1]! + extra * (1 - ofFirst)
    }
    let place = -1
    do {
      place += 1
      putOnStep(year, steps[place]!, household.deductibleMonths)
      assessHousehold(law, year, tax)
    } while (Math.round(tax.householdIncome * 100) > lines[place]!)
    return yearStanding(law, year, tax, steps, place)
  }
}

const putOnStep = (year: HouseholdYear, step: CoverageStep, deductibleMonths: number): void => {
  year.coverMonths = step.coverMonths
  year.deductibleMonths = Math.min(deductibleMonths, step.coverMonths)
  year.premiumMonthly = step.premiumMonthly
  year.benchmarkMonthly = step.benchmarkMonthly
  year.coverByMonth = step.byMonth
}

const premiumOf = ({ coverByMonth, coverMonths, premiumMonthly }: HouseholdYear): number =>
  coverByMonth === null
    ? coverMonths * premiumMonthly
    : coverByMonth.premium.reduce((sum, monthly) => sum + monthly, 0)

const yearStanding = (
  law: LawYear,
  year: HouseholdYear,
  tax: HouseholdTax,
  steps: readonly CoverageStep[],
  place: number,
): YearStanding => {
  const line = povertyLineCents(law, year.region, householdSize(year))
  const premium = premiumOf(year)
  const advance = year.coverMonths * year.advanceMonthly
  const settled = tax.balanceDue + tax.stateIncomeTax + year.withheld + year.estimated
  const isLeft = steps[place]!.people.some(({ kind }) => kind === 'none')
  const onMedicaid = steps[place]!.monthsAhead === 0 && steps.length > 1 && !isLeft
  return {
    householdIncome: tax.householdIncome,
    povertyPercent: tax.povertyPercent,
    povertyLine: line / 100,
    premium: toCent(premium),
    credit: tax.premiumTaxCredit,
    netPremium: toCent(premium - tax.premiumTaxCredit),
    tax: toCent(settled - advance + tax.premiumTaxCredit),
    silverValue: onMedicaid ? 1 : silverValueAt(law, Math.round(tax.householdIncome * 100), line),
    step: place,
    onMedicaid,
    method: tax.method,
  }
}
