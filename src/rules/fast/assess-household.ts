// The whole return again in plain numbers without a trace: nothing is allocated, so that a projection can call it millions of times.
import type { LawYear } from '../law-year.ts'
import type { DeductionAndCredit, DeductionCase } from '../marketplace/deduction-and-credit.ts'
import { solveDeductionAndCredit } from '../marketplace/deduction-and-credit.ts'
import {
  type Cover,
  medicaidLineCents,
  povertyLineCents,
  repayment,
  wholePercent,
} from '../marketplace/premium-credit.ts'
import { wholeCents } from '../rounding.ts'
import { addBusinesses } from './businesses.ts'
import type { AssessHousehold, HouseholdTax, HouseholdYear } from './household-year.ts'
import {
  additionalMedicare,
  atRate,
  careRate,
  earnedCredit,
  minimumTaxOver,
  qualifiedDeduction,
  saversRate,
  taxedBenefits,
  taxOn,
} from './tables.ts'
import { work } from './work.ts'

/** Same figures as `fileReturn`, the exact form; amounts inside are whole cents held in numbers. */
export const assessHousehold: AssessHousehold = (law, input, out) => {
  addBusinesses(law, input, out)
  addIncome(law, input)
  solveCover(law, input, out)
  findTaxableIncome(law, input, out)
  takeTaxes(law, input, out)
  takeCredits(law, input, out)
}

// Scratch like `work`: one run at a time, overwritten whole.
const cover: Cover = {
  povertyLine: 0,
  medicaidLine: 0,
  months: 0,
  premium: 0,
  benchmark: 0,
  advance: 0,
  creditAllowed: 0,
  repaymentSingle: 0,
}
const from: DeductionCase = { incomeBefore: 0, earnedLimit: 0, deductiblePremium: 0, deductibleMonths: 0 }
const solved: DeductionAndCredit = { deduction: 0, credit: 0, method: 0 }

const addIncome = (law: LawYear, input: HouseholdYear): void => {
  const longTerm = wholeCents(input.longTermGains)
  const net = longTerm + wholeCents(input.shortTermGains)
  const interest = wholeCents(input.interest)
  const dividends = wholeCents(input.ordinaryDividends)
  work.gains = Math.max(net, -law.capitalLossLimit[input.status]! * 100)
  work.preferred = Math.max(0, Math.min(longTerm, net)) + wholeCents(input.qualifiedDividends)
  work.investment = interest + dividends + work.gains
  work.beforeBenefits =
    work.wages +
    work.business +
    work.investment +
    wholeCents(input.iraDistributions) +
    wholeCents(input.otherIncome)
  work.benefits = wholeCents(input.socialSecurity)
  work.exempt = wholeCents(input.taxExemptInterest)
  work.adjustments =
    work.half + wholeCents(input.traditionalIra) + wholeCents(input.sep) + wholeCents(input.hsa)
}

const solveCover = (law: LawYear, input: HouseholdYear, out: HouseholdTax): void => {
  const size = input.people + input.childrenUnder17 + input.otherDependants
  const months = input.coverMonths
  cover.povertyLine = povertyLineCents(law, input.region, size)
  cover.medicaidLine = input.medicaidExpansion === 1 ? medicaidLineCents(law, input.region, size) : 0
  cover.months = months
  cover.premium = wholeCents(input.premiumMonthly) * months
  cover.benchmark = wholeCents(input.benchmarkMonthly) * months
  cover.advance = wholeCents(input.advanceMonthly) * months
  cover.creditAllowed = input.status === 3 ? 0 : 1
  cover.repaymentSingle = input.status === 0 ? 1 : 0
  const otherPremiums = Math.min(wholeCents(input.otherHealthPremiums), work.earnedLimit)
  from.deductibleMonths = Math.min(months, input.deductibleMonths)
  from.deductiblePremium = wholeCents(input.premiumMonthly) * from.deductibleMonths
  from.earnedLimit = work.earnedLimit - otherPremiums
  from.incomeBefore =
    work.beforeBenefits -
    work.adjustments -
    otherPremiums +
    work.benefits +
    work.exempt +
    wholeCents(input.dependantsIncome)
  solveDeductionAndCredit(law, cover, from, solved)
  const income = from.incomeBefore - solved.deduction
  work.healthDeduction = solved.deduction + otherPremiums
  work.excess = repayment(law, cover, income, cover.advance - solved.credit)
  out.householdIncome = income / 100
  out.povertyPercent = wholePercent(income, cover.povertyLine)
  out.selfEmployedHealthDeduction = work.healthDeduction / 100
  out.premiumTaxCredit = solved.credit / 100
  out.excessAdvance = work.excess / 100
  out.netPremium = (cover.premium - solved.credit) / 100
  out.method = solved.method
}

const findTaxableIncome = (law: LawYear, input: HouseholdYear, out: HouseholdTax): void => {
  const { status } = input
  const before = work.beforeBenefits - work.adjustments - work.healthDeduction
  const benefits = taxedBenefits(law, status, work.benefits, before + work.exempt)
  work.adjusted = before + benefits
  let aged = 0
  let additions = 0
  for (let place = 0; place < input.people; place += 1) {
    if (input.age[place]! >= 65) aged += 1
    additions += input.blind[place]!
  }
  const standard =
    (law.standardDeduction[status]! + law.agedOrBlindAddition[status]! * (aged + additions)) * 100
  const overSenior = Math.max(0, work.adjusted - law.seniorPhaseOutFrom[status]! * 100)
  const eachSenior = Math.max(0, law.seniorDeduction * 100 - atRate(overSenior, law.seniorPhaseOutRate))
  const deduction = Math.max(standard, wholeCents(input.itemized)) + (status === 3 ? 0 : aged * eachSenior)
  const taxableBefore = Math.max(0, work.adjusted - deduction)
  const qualified = Math.max(0, work.profit - work.half - work.healthDeduction - wholeCents(input.sep))
  work.qbi = qualifiedDeduction(
    law,
    status,
    qualified,
    taxableBefore,
    work.preferred,
    wholeCents(input.businessWages),
    wholeCents(input.businessProperty),
  )
  work.taxable = taxableBefore - work.qbi
  out.taxableSocialSecurity = benefits / 100
  out.adjustedGrossIncome = work.adjusted / 100
  out.medicareIncome = (work.adjusted + work.exempt) / 100
  out.deduction = deduction / 100
  out.qbiDeduction = work.qbi / 100
  out.taxableIncome = work.taxable / 100
  work.itemizing = wholeCents(input.itemized) > standard ? 1 : 0
}

const takeTaxes = (law: LawYear, input: HouseholdYear, out: HouseholdTax): void => {
  const { status } = input
  const regular = taxOn(law, status, work.taxable, work.preferred)
  const minimumIncome = work.adjusted - (work.itemizing === 1 ? wholeCents(input.itemized) : 0) - work.qbi
  const minimum = minimumTaxOver(law, status, minimumIncome, work.taxable, work.preferred, regular)
  const medicare = additionalMedicare(law, status, work.wages, work.net)
  const overInvestment = Math.max(0, work.adjusted - law.investmentTaxFrom[status]! * 100)
  const investment = atRate(Math.min(Math.max(0, work.investment), overInvestment), law.investmentTaxRate)
  const early = atRate(Math.max(0, wholeCents(input.earlyWithdrawalAmount)), law.earlyWithdrawalRate)
  work.beforeCredits = regular + minimum + work.excess
  work.others = work.selfEmploymentTax + medicare + investment + early
  out.incomeTax = (regular + minimum) / 100
  out.alternativeMinimumTax = minimum / 100
  out.selfEmploymentTax = work.selfEmploymentTax / 100
  out.additionalMedicareTax = medicare / 100
  out.netInvestmentIncomeTax = investment / 100
  out.earlyWithdrawalTax = early / 100
}

const takeCredits = (law: LawYear, input: HouseholdYear, out: HouseholdTax): void => {
  const distributions = wholeCents(input.iraDistributions)
  const saved = wholeCents(input.traditionalIra) + wholeCents(input.rothIra) - distributions
  const counted = Math.min(Math.max(0, saved), input.people * law.saversCap * 100)
  const care = careCredit(law, input)
  const afterCare = work.beforeCredits - care
  const savers = Math.min(atRate(counted, saversRate(law, input.status, work.adjusted)), afterCare)
  const earnedIncome = work.wages + work.earned - work.half
  const earned = earnedCreditOpen(law, input, earnedIncome)
    ? earnedCredit(law, input.status === 1, input.earnedCreditChildren, earnedIncome, work.adjusted)
    : 0
  const left = afterCare - savers
  const full = fullChildCredit(law, input)
  const child = Math.min(full, left)
  const additional = additionalChild(law, input, full - child, earnedIncome, earned)
  const total = left - child + work.others
  const payments =
    wholeCents(input.withheld) +
    wholeCents(input.estimated) +
    earned +
    additional +
    Math.max(0, solved.credit - cover.advance)
  out.dependentCareCredit = care / 100
  out.saversCredit = savers / 100
  out.earnedIncomeCredit = earned / 100
  out.childTaxCredit = child / 100
  out.additionalChildTaxCredit = additional / 100
  out.totalTax = total / 100
  out.totalPayments = payments / 100
  out.balanceDue = (total - payments) / 100
}

/** Zero for most households: they are told from two numbers. */
const careCredit = (law: LawYear, input: HouseholdYear): number => {
  if (input.careCosts <= 0 || input.careChildren === 0 || input.status === 3) return 0
  const cap = law.careCap[input.careChildren > 1 ? 1 : 0]! * 100
  const counted = Math.max(0, Math.min(wholeCents(input.careCosts), cap, work.leastEarned))
  return Math.min(atRate(counted, careRate(law, input.status, work.adjusted)), work.beforeCredits)
}

const earnedCreditOpen = (law: LawYear, input: HouseholdYear, earnedIncome: number): boolean => {
  if (input.status === 3 || earnedIncome <= 0) return false
  const investment = work.investment - Math.min(0, work.gains) + work.exempt
  if (investment > law.earnedCreditInvestmentMax * 100) return false
  if (input.earnedCreditChildren > 0) return true
  for (let place = 0; place < input.people; place += 1) {
    if (input.age[place]! >= 25 && input.age[place]! < 65) return true
  }
  return false
}

const fullChildCredit = (law: LawYear, input: HouseholdYear): number => {
  const amount =
    (input.childrenUnder17 * law.childCredit + input.otherDependants * law.otherDependantCredit) * 100
  const over = work.adjusted - law.childPhaseOutFrom[input.status]! * 100
  if (amount === 0 || over <= 0) return amount
  return Math.max(0, amount - Math.ceil(over / 100_000) * law.childPhaseOutPerThousand * 100)
}

const additionalChild = (
  law: LawYear,
  input: HouseholdYear,
  unused: number,
  earnedIncome: number,
  earned: number,
): number => {
  const children = input.childrenUnder17
  if (unused <= 0 || children === 0) return 0
  const byEarnings = atRate(
    Math.max(0, earnedIncome - law.childRefundableFrom * 100),
    law.childRefundableRate,
  )
  const byTaxes = children >= 3 ? work.half + work.withheldSocial - earned : 0
  return Math.min(unused, children * law.childRefundableMax * 100, Math.max(byEarnings, byTaxes))
}
