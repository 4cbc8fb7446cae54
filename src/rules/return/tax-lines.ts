// The last part of the return in whole cents: taxes, credits in the order the forms allow them, payments and what is owed.
import type { HouseholdYear } from '../household-year.ts'
import type { LawYear } from '../law-year.ts'
import { shareOf, wholeCents } from '../rounding.ts'
import type { BusinessLines } from './business-lines.ts'
import { type CareFacts, careCredit } from './care-credit.ts'
import { additionalChildCredit, type ChildCreditCase, fullChildCredit } from './child-credit.ts'
import type { CoverLines } from './cover-lines.ts'
import { type EarnedIncomeCase, earnedIncomeCredit } from './earned-income-credit.ts'
import { type AveragedTax, averageFarmIncome } from './farm-averaging.ts'
import type { IncomeLines } from './income-lines.ts'
import { incomeTax } from './income-tax.ts'
import {
  additionalMedicareTax,
  earlyWithdrawalTax,
  healthSavingsTax,
  minimumTax,
  netInvestmentIncomeTax,
} from './other-taxes.ts'
import { countedForSavers, type SaversCase, saversCredit } from './savers-credit.ts'
import type { TaxableLines } from './taxable-lines.ts'

/** Whole cents. The cases are what each credit was worked from. */
export interface TaxLines {
  regularTax: number
  /** What Schedule J elects and taxes; nothing elected where it is not chosen. */
  averaged: AveragedTax
  minimumTax: number
  additionalMedicare: number
  investmentTax: number
  earlyWithdrawal: number
  healthSavings: number
  /** Taxes that nonrefundable credits may use up: Schedule 2 puts an advance credit paid back among them. */
  beforeCredits: number
  care: CareFacts
  dependentCare: number
  savers: SaversCase
  saversCredit: number
  earned: EarnedIncomeCase
  earnedIncomeCredit: number
  child: ChildCreditCase
  childCredit: number
  additionalChildCredit: number
  totalTax: number
  totalPayments: number
}

/** The lines worked before: taxes and credits read them all. */
export interface LinesBefore {
  business: BusinessLines
  income: IncomeLines
  cover: CoverLines
  taxable: TaxableLines
}

/** `table` looks the tax and the earned income credit up in the printed tables. */
export const workTaxesAndCredits = (
  law: LawYear,
  household: HouseholdYear,
  before: LinesBefore,
  table: boolean,
  lines: TaxLines,
): void => {
  workTaxes(law, household, before, table, lines)
  takeCareAndSavers(law, household, before, lines)
  takeEarnedIncomeCredit(law, household, before, table, lines)
  takeChildCredit(law, household, before, lines)
  lines.totalTax =
    lines.beforeCredits -
    lines.dependentCare -
    lines.saversCredit -
    lines.childCredit +
    before.business.tax +
    lines.additionalMedicare +
    lines.investmentTax +
    lines.earlyWithdrawal +
    lines.healthSavings
  lines.totalPayments =
    wholeCents(household.withheld) +
    wholeCents(household.estimated) +
    wholeCents(household.fuelTaxCredit) +
    lines.earnedIncomeCredit +
    lines.additionalChildCredit +
    Math.max(0, before.cover.credit - before.cover.cover.advance)
}

const workTaxes = (
  law: LawYear,
  household: HouseholdYear,
  { business, income, cover, taxable }: LinesBefore,
  table: boolean,
  lines: TaxLines,
): void => {
  const { status } = household
  const { adjustedGrossIncome, taxableIncome, itemized, standard, qbiDeduction } = taxable
  lines.regularTax = incomeTax(law, status, taxableIncome, income.preferred, table)
  const minimumIncome = adjustedGrossIncome - (itemized > standard ? itemized : 0) - qbiDeduction
  lines.minimumTax = minimumTax(law, status, minimumIncome, taxableIncome, income.preferred, lines.regularTax)
  average(law, household, { business, income, cover, taxable }, lines)
  lines.additionalMedicare = additionalMedicareTax(
    law,
    status,
    business.socialSecurityWages,
    business.netEarnings,
  )
  lines.investmentTax = netInvestmentIncomeTax(law, status, income.investmentIncome, adjustedGrossIncome)
  lines.earlyWithdrawal = earlyWithdrawalTax(law, wholeCents(household.earlyWithdrawalAmount))
  lines.healthSavings = healthSavingsTax(law, wholeCents(household.healthSavingsEarly))
  lines.beforeCredits = lines.regularTax + lines.minimumTax + cover.excessAdvance
}

/**
 * After the minimum tax, which is worked without it (26 USC 55(c)(2)). Farm income is what taxable income has of it: half the
 * self-employment tax, the health deduction and the qualified business deduction go with the profit they come from.
 */
const average = (
  law: LawYear,
  { status, averaging }: HouseholdYear,
  { business, income, cover, taxable }: LinesBefore,
  lines: TaxLines,
): void => {
  lines.averaged.elected = 0
  const { farmProfit, otherProfit, half } = business
  if (averaging === null || farmProfit <= 0) return
  const deducted = half + cover.healthDeduction + taxable.qbiDeduction
  const farmIncome = farmProfit - shareOf(deducted, farmProfit, farmProfit + Math.max(0, otherProfit))
  const year = { status, taxable: taxable.taxableIncome, preferred: income.preferred, farmIncome }
  averageFarmIncome(law, year, averaging, lines.averaged)
  if (lines.averaged.elected > 0) lines.regularTax = lines.averaged.tax
}

const takeCareAndSavers = (
  law: LawYear,
  household: HouseholdYear,
  { business, taxable }: LinesBefore,
  lines: TaxLines,
): void => {
  const { care, savers } = lines
  care.costs = wholeCents(household.careCosts)
  care.children = household.careChildren
  care.leastEarned = business.leastEarned
  care.adjustedGrossIncome = taxable.adjustedGrossIncome
  care.taxLeft = lines.beforeCredits
  lines.dependentCare = careCredit(law, household.status, care)
  savers.people = household.people
  const putIn = wholeCents(household.traditionalIra) + wholeCents(household.rothIra)
  // What was put off into a plan at work counts too (26 USC 25B(d)(1)(B)).
  const deferred = business.socialSecurityWages - business.wages
  const byPerson = household.iraByPerson?.map((own, place) => own + (household.deferredPay?.[place] ?? 0))
  savers.contributions = countedForSavers(law, putIn + deferred, byPerson)
  savers.distributions = wholeCents(household.iraDistributions)
  savers.adjustedGrossIncome = taxable.adjustedGrossIncome
  savers.taxLeft = care.taxLeft - lines.dependentCare
  lines.saversCredit = saversCredit(law, household.status, savers)
}

const takeEarnedIncomeCredit = (
  law: LawYear,
  household: HouseholdYear,
  { business, income, taxable }: LinesBefore,
  table: boolean,
  lines: TaxLines,
): void => {
  const { earned } = lines
  earned.children = household.earnedCreditChildren
  earned.ageAllows = false
  for (let place = 0; place < household.people; place += 1) {
    const age = household.age[place]!
    if (age >= 25 && age < 65) earned.ageAllows = true
  }
  earned.earnedIncome = business.wages + business.earned - business.half
  earned.adjustedGrossIncome = taxable.adjustedGrossIncome
  earned.investmentIncome = income.investmentIncome - Math.min(0, income.gains) + income.taxExemptInterest
  lines.earnedIncomeCredit = earnedIncomeCredit(law, household.status, earned, table)
}

const takeChildCredit = (
  law: LawYear,
  household: HouseholdYear,
  { business, taxable }: LinesBefore,
  lines: TaxLines,
): void => {
  const { child } = lines
  child.childrenUnder17 = household.childrenUnder17
  child.otherDependents = household.otherDependents
  child.adjustedGrossIncome = taxable.adjustedGrossIncome
  child.taxLeft = lines.savers.taxLeft - lines.saversCredit
  child.earnedIncome = lines.earned.earnedIncome
  child.socialTaxes = business.half + business.withheldFromWages
  child.earnedIncomeCredit = lines.earnedIncomeCredit
  const full = fullChildCredit(law, household.status, child)
  lines.childCredit = Math.min(full, Math.max(0, child.taxLeft))
  lines.additionalChildCredit = additionalChildCredit(law, child, full - lines.childCredit)
}

export const noTaxLines = (): TaxLines => ({
  regularTax: 0,
  averaged: { elected: 0, tax: 0 },
  minimumTax: 0,
  additionalMedicare: 0,
  investmentTax: 0,
  earlyWithdrawal: 0,
  healthSavings: 0,
  beforeCredits: 0,
  care: { costs: 0, children: 0, leastEarned: 0, adjustedGrossIncome: 0, taxLeft: 0 },
  dependentCare: 0,
  savers: { people: 0, contributions: 0, distributions: 0, adjustedGrossIncome: 0, taxLeft: 0 },
  saversCredit: 0,
  earned: { children: 0, ageAllows: false, earnedIncome: 0, adjustedGrossIncome: 0, investmentIncome: 0 },
  earnedIncomeCredit: 0,
  child: {
    childrenUnder17: 0,
    otherDependents: 0,
    adjustedGrossIncome: 0,
    taxLeft: 0,
    earnedIncome: 0,
    socialTaxes: 0,
    earnedIncomeCredit: 0,
  },
  childCredit: 0,
  additionalChildCredit: 0,
  totalTax: 0,
  totalPayments: 0,
})
