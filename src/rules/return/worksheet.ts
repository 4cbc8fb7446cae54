// The return worked line by line in whole cents: business, income, cover, adjusted gross income, taxable income. No credits yet.
import type { HouseholdYear } from '../fast/household-year.ts'
import { marriedSeparate, single } from '../filing-status.ts'
import type { LawYear } from '../law-year.ts'
import { type DeductionAndCredit, solveDeductionAndCredit } from '../marketplace/deduction-and-credit.ts'
import {
  type Cover,
  medicaidLineCents,
  povertyLineCents,
  repayment,
  wholePercent,
} from '../marketplace/premium-credit.ts'
import { wholeCents } from '../rounding.ts'
import { seniorDeduction, standardDeduction } from './deductions.ts'
import { earnedIncomeLimit } from './earned-income-limit.ts'
import { qualifiedBusinessDeduction } from './qualified-business.ts'
import { type SelfEmploymentTax, selfEmploymentTax } from './self-employment-tax.ts'
import { taxableBenefits } from './taxable-benefits.ts'

/** Whole cents, summed over the people on the return. */
export interface BusinessLines {
  people: SelfEmploymentTax[]
  farmProfit: number
  otherProfit: number
  /** Profit or loss that reaches income, after the loss limit of 26 USC 461(l). */
  business: number
  half: number
  tax: number
  netEarnings: number
  earned: number
  earnedLimit: number
}

export const workBusiness = (law: LawYear, household: HouseholdYear): BusinessLines => {
  const places = Array.from({ length: household.people }, (_, place) => place)
  const people = places.map((place) =>
    selfEmploymentTax(law, {
      wages: wholeCents(household.wages[place]!),
      farmProfit: wholeCents(household.farmProfit[place]!),
      otherProfit: wholeCents(household.otherSelfEmployment[place]!),
      useFarmOptional: household.farmOptional[place] === 1,
      farmGross: wholeCents(household.farmGross[place]!),
      useNonfarmOptional: household.nonfarmOptional[place] === 1,
      nonfarmGross: wholeCents(household.nonfarmGross[place]!),
    }),
  )
  const farm = places.map((place) => wholeCents(household.farmProfit[place]!))
  const other = places.map((place) => wholeCents(household.otherSelfEmployment[place]!))
  const businesses = people.map((person, place) => ({
    ...person,
    farmProfit: farm[place]!,
    otherProfit: other[place]!,
  }))
  const [farmProfit, otherProfit] = [sum(farm), sum(other)]
  return {
    people,
    farmProfit,
    otherProfit,
    business: Math.max(farmProfit + otherProfit, -law.businessLossLimit[household.status]! * 100),
    half: sum(people.map((person) => person.half)),
    tax: sum(people.map((person) => person.tax)),
    netEarnings: sum(people.map((person) => person.netEarnings)),
    earned: sum(people.map((person) => person.earned)),
    earnedLimit: earnedIncomeLimit(businesses, wholeCents(household.sep)),
  }
}

export interface IncomeLines {
  wages: number
  /** Gains less losses, not below the loss limit. */
  gains: number
  /** Net long-term gain and qualified dividends, taxed at the lower rates. */
  preferred: number
  investmentIncome: number
  /** All income but Social Security benefits. */
  beforeBenefits: number
  benefits: number
  taxExemptInterest: number
  /** Half self-employment tax, retirement and health savings contributions. */
  adjustments: number
}

export const workIncome = (law: LawYear, household: HouseholdYear, business: BusinessLines): IncomeLines => {
  const longTerm = wholeCents(household.longTermGains)
  const net = longTerm + wholeCents(household.shortTermGains)
  const gains = Math.max(net, -law.capitalLossLimit[household.status]! * 100)
  const longTermNet = Math.max(0, Math.min(longTerm, net))
  const interest = wholeCents(household.interest)
  const dividends = wholeCents(household.ordinaryDividends)
  const wages = sum(household.wages.slice(0, household.people).map(wholeCents))
  return {
    wages,
    gains,
    preferred: longTermNet + wholeCents(household.qualifiedDividends),
    investmentIncome: interest + dividends + gains,
    beforeBenefits:
      wages +
      business.business +
      interest +
      dividends +
      gains +
      wholeCents(household.iraDistributions) +
      wholeCents(household.otherIncome),
    benefits: wholeCents(household.socialSecurity),
    taxExemptInterest: wholeCents(household.taxExemptInterest),
    adjustments:
      business.half +
      wholeCents(household.traditionalIra) +
      wholeCents(household.sep) +
      wholeCents(household.hsa),
  }
}

export interface CoverLines extends DeductionAndCredit {
  cover: Cover
  size: number
  incomeBefore: number
  /** Deduction for other health premiums (Medicare, dental), taken before the marketplace premiums. */
  otherDeduction: number
  householdIncome: number
  povertyPercent: number
  excessAdvance: number
}

export const workCover = (
  law: LawYear,
  household: HouseholdYear,
  business: BusinessLines,
  income: IncomeLines,
): CoverLines => {
  const size = householdSize(household)
  const months = household.coverMonths
  const cover: Cover = {
    povertyLine: povertyLineCents(law, household.region, size),
    medicaidLine: household.medicaidExpansion === 1 ? medicaidLineCents(law, household.region, size) : 0,
    months,
    premium: wholeCents(household.premiumMonthly) * months,
    benchmark: wholeCents(household.benchmarkMonthly) * months,
    advance: wholeCents(household.advanceMonthly) * months,
    creditAllowed: household.status === marriedSeparate ? 0 : 1,
    repaymentSingle: household.status === single ? 1 : 0,
  }
  const otherDeduction = Math.min(wholeCents(household.otherHealthPremiums), business.earnedLimit)
  const incomeBefore =
    income.beforeBenefits -
    income.adjustments -
    otherDeduction +
    income.benefits +
    income.taxExemptInterest +
    wholeCents(household.dependantsIncome)
  const deductibleMonths = Math.min(months, household.deductibleMonths)
  const solved: DeductionAndCredit = { deduction: 0, credit: 0, method: 0 }
  solveDeductionAndCredit(
    law,
    cover,
    {
      incomeBefore,
      earnedLimit: business.earnedLimit - otherDeduction,
      deductiblePremium: wholeCents(household.premiumMonthly) * deductibleMonths,
      deductibleMonths,
    },
    solved,
  )
  const householdIncome = incomeBefore - solved.deduction
  const excess = cover.advance - solved.credit
  return {
    ...solved,
    cover,
    size,
    incomeBefore,
    otherDeduction,
    householdIncome,
    povertyPercent: wholePercent(householdIncome, cover.povertyLine),
    excessAdvance: repayment(law, cover, householdIncome, excess),
  }
}

export const householdSize = (household: HouseholdYear): number =>
  household.people + household.childrenUnder17 + household.otherDependants

export interface TaxableLines {
  taxableBenefits: number
  adjustedGrossIncome: number
  aged: number
  standard: number
  itemized: number
  senior: number
  deduction: number
  qualifiedBusiness: number
  qbiDeduction: number
  taxableIncome: number
}

export const workTaxableIncome = (
  law: LawYear,
  household: HouseholdYear,
  business: BusinessLines,
  income: IncomeLines,
  cover: CoverLines,
): TaxableLines => {
  const { status } = household
  const healthDeduction = cover.deduction + cover.otherDeduction
  const withoutBenefits = income.beforeBenefits - income.adjustments - healthDeduction
  const benefits = taxableBenefits(law, status, income.benefits, withoutBenefits + income.taxExemptInterest)
  const adjustedGrossIncome = withoutBenefits + benefits
  const places = Array.from({ length: household.people }, (_, place) => place)
  const aged = places.filter((place) => household.age[place]! >= 65).length
  const blind = places.filter((place) => household.blind[place] === 1).length
  const standard = standardDeduction(law, status, aged, blind)
  const itemized = wholeCents(household.itemized)
  const senior = seniorDeduction(law, status, aged, adjustedGrossIncome)
  const deduction = Math.max(standard, itemized) + senior
  const taxableBefore = Math.max(0, adjustedGrossIncome - deduction)
  const qualifiedBusiness = Math.max(
    0,
    business.farmProfit + business.otherProfit - business.half - healthDeduction - wholeCents(household.sep),
  )
  const qbiDeduction = qualifiedBusinessDeduction(law, status, {
    income: qualifiedBusiness,
    activeIncome: qualifiedBusiness,
    wagesPaid: wholeCents(household.businessWages),
    property: wholeCents(household.businessProperty),
    taxableBefore,
    gains: income.preferred,
  })
  return {
    taxableBenefits: benefits,
    adjustedGrossIncome,
    aged,
    standard,
    itemized,
    senior,
    deduction,
    qualifiedBusiness,
    qbiDeduction,
    taxableIncome: taxableBefore - qbiDeduction,
  }
}

const sum = (amounts: readonly number[]): number => amounts.reduce((total, amount) => total + amount, 0)
