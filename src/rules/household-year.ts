// What a household brings to one tax year and what comes out, as mutable plain numbers that a loop can fill again and again.
import { type Carryforwards, noCarryforwards } from './carryforwards.ts'
import type { FarmAveraging } from './return/farm-averaging.ts'
import type { StateLaw } from './states/state-year.ts'

/** Dollars a year unless said. Lists have two places: the filer and the spouse; unused places hold 0. */
export interface HouseholdYear {
  /** Place in `filingStatuses`: 0 single, 1 joint, 2 head of household, 3 separate, 4 surviving spouse. */
  status: number
  /** 1 or 2 people sign the return (2 only when joint). */
  people: number
  /** Age on the last day of the year. */
  age: number[]
  /** 1 for blind, else 0. */
  blind: number[]
  /** Dependents who are qualifying children under 17 at year end. */
  childrenUnder17: number
  /** Qualifying children for the earned income credit: under 19, or under 24 and a student. */
  earnedCreditChildren: number
  /** Dependents without the child credit, 17 and older. */
  otherDependents: number
  /** Ages of all of them at year end, as far as they are told. */
  dependentAges: readonly number[]
  /** The income tax law of the state it lives in; null where none counts. */
  state: StateLaw | null
  /** Dependents under 13 whose care is paid for so that everyone on the return can work, and dollars paid for it. */
  careChildren: number
  careCosts: number
  /** Place in `regions`: 0 contiguous states, 1 Alaska, 2 Hawaii. */
  region: number
  wages: number[]
  /** Put off into a plan at work, by person: in none of `wages`, but wages for Social Security (26 USC 3121(v)(1)). */
  deferredPay?: readonly number[]
  /** Schedule F profit or loss, after depreciation and section 179 but for what was carried here. */
  farmProfit: number[]
  /** Other net profit or loss from self-employment. */
  otherSelfEmployment: number[]
  /** 1 when the person uses the farm optional method, else 0; it only applies where the law allows it. */
  farmOptional: number[]
  /** Gross farm income of the person; read only under the optional method. */
  farmGross: number[]
  /** 1 when the person uses the nonfarm optional method, else 0. */
  nonfarmOptional: number[]
  nonfarmGross: number[]
  interest: number
  taxExemptInterest: number
  /** All ordinary dividends, the qualified ones included. */
  ordinaryDividends: number
  qualifiedDividends: number
  /** Net long-term and short-term gain or loss. */
  longTermGains: number
  shortTermGains: number
  /** Net gain or loss on business property held long enough: a gain is a long-term one, a loss is ordinary (26 USC 1231(a)). */
  section1231: number
  iraDistributions: number
  /** Social Security benefits received, before any part is left untaxed. */
  socialSecurity: number
  /** Of both, the second person's. */
  secondIraDistributions: number
  secondSocialSecurity: number
  /** Of `iraDistributions`, by person, what came out of inherited accounts: only states ask. */
  inheritedIra: number[]
  /** Pensions of former employers, taxed in full. */
  pensions: number[]
  // Ordinary part of gains and losses on business property: depreciation taken back, or held too short. Income of the business, without
  // self-employment tax (26 USC 1402(a)(3)), and qualified business income (26 CFR 1.199A-3(b)(1)).
  businessGains: number
  /** Of `section1231` and of `businessGains`, what businesses sold that are no farm: nothing of a farming loss. */
  soldByVentures?: { section1231: number; ordinary: number }
  otherIncome: number
  /** Modified adjusted gross income of dependents who must file; counts for cover only. */
  dependentsIncome: number
  /** W-2 wages paid and unadjusted basis of property of the businesses; matter only above the qualified business threshold. */
  businessWages: number
  businessProperty: number
  /** What other years left to this one. */
  carried: Carryforwards
  /** The base years of farm income averaging, where it is chosen. */
  averaging: FarmAveraging | null
  itemized: number
  /** Of the home, paid in the year: only states ask. */
  propertyTax: number
  rent: number
  traditionalIra: number
  rothIra: number
  /** Of both kinds, what each person put in; where it is absent they are shared as is best. */
  iraByPerson?: readonly number[]
  /** Into plans of the own business: SEP, SIMPLE, solo 401(k). One line of the return (Schedule 1, line 16). */
  sep: number
  hsa: number
  /** Withdrawn before 59½ with no exception: the addition applies to it. It is not income by itself. */
  earlyWithdrawalAmount: number
  /** Taken out of health savings for other things than care: income (Form 8889 line 16); and the part of it taken before 65, which bears an addition. */
  healthSavingsTaxed: number
  healthSavingsEarly: number

  withheld: number
  estimated: number
  fuelTaxCredit: number

  /** Months of marketplace cover, 0 to 12, and dollars a month. */
  coverMonths: number
  premiumMonthly: number
  benchmarkMonthly: number
  advanceMonthly: number
  /** Where the months of cover differ, each month's premium and benchmark, dollars; null where they are alike. */
  coverByMonth: CoverByMonth | null
  /** Months of the cover in which neither could join an employer's subsidised plan: only these premiums are deductible. */
  deductibleMonths: number
  /** Year's other deductible health premiums, not of the marketplace: Medicare, dental. */
  otherHealthPremiums: number
  /** 1 where the state covers adults to the Medicaid line and the household would be sent there: no credit at or under it. */
  medicaidExpansion: number
}

/** January first; 0 in a month without cover. */
export interface CoverByMonth {
  premium: Float64Array
  benchmark: Float64Array
  /** Credit paid in advance, where each month's is known: then the year's is their sum. */
  advance?: Float64Array
}

/** Dollars. The first group has the names of the estimate; the second is what pages and the projection also need. */
export interface HouseholdTax {
  adjustedGrossIncome: number
  householdIncome: number
  /** Household income in whole percent of the poverty line, the fraction dropped. */
  povertyPercent: number
  /** Standard or itemized deduction, with the senior deduction. */
  deduction: number
  qbiDeduction: number
  /** Losses of other years taken off income. */
  netOperatingLossDeduction: number
  taxableIncome: number
  /** Of it, long-term gains and qualified dividends; and the farm income taxed in the three years before (Schedule J). */
  preferredIncome: number
  averagedFarmIncome: number
  /** Tax on taxable income with the alternative minimum tax, before credits. */
  incomeTax: number
  selfEmploymentTax: number
  additionalMedicareTax: number
  netInvestmentIncomeTax: number
  selfEmployedHealthDeduction: number
  /** The whole credit of the year, whether or not it was paid in advance. */
  premiumTaxCredit: number
  /** Advance to be paid back, after the year's limit where there is one. */
  excessAdvance: number
  childTaxCredit: number
  additionalChildTaxCredit: number
  earnedIncomeCredit: number
  saversCredit: number
  dependentCareCredit: number
  taxableSocialSecurity: number
  earlyWithdrawalTax: number
  healthSavingsTax: number
  totalTax: number
  totalPayments: number
  /** Above 0 is owed, below 0 comes back. */
  balanceDue: number
  /** Place in `coverMethods`. */
  method: number
  alternativeMinimumTax: number
  /** Net earnings from self-employment per person, as Social Security counts them. */
  netSelfEmploymentEarnings: number[]
  /** Adjusted gross income plus tax-exempt interest: what Medicare looks at two years later. */
  medicareIncome: number
  /** Part of the marketplace premiums the credit does not pay. */
  netPremium: number
  /** By the state's own return, refundable credits taken off: below zero the state pays. In none of the figures above. */
  stateIncomeTax: number
  /** Of that, local tax that goes to an office of its own. */
  localIncomeTax: number
  /** What this year leaves to others. */
  carried: Carryforwards
}

/** Everybody the poverty line counts: those who sign and all dependents. */
export const householdSize = (household: HouseholdYear): number =>
  household.people + household.childrenUnder17 + household.otherDependents

/** How the health deduction and the premium credit were found, in the order of `HouseholdTax.method`. */
export const coverMethods = ['none', 'no deduction', 'iterative', 'bracketed', 'up to the line'] as const

const noCover = (): Pick<
  HouseholdYear,
  | 'coverMonths'
  | 'premiumMonthly'
  | 'benchmarkMonthly'
  | 'advanceMonthly'
  | 'coverByMonth'
  | 'deductibleMonths'
  | 'otherHealthPremiums'
  | 'medicaidExpansion'
> => ({
  coverMonths: 0,
  premiumMonthly: 0,
  benchmarkMonthly: 0,
  advanceMonthly: 0,
  coverByMonth: null,
  deductibleMonths: 0,
  otherHealthPremiums: 0,
  medicaidExpansion: 0,
})

/** One person, single, aged 40, with nothing. A spread in the first place takes V8 many times as long as in the last. */
export const emptyHouseholdYear = (): HouseholdYear => ({
  status: 0,
  people: 1,
  age: [40, 0],
  blind: [0, 0],
  childrenUnder17: 0,
  earnedCreditChildren: 0,
  otherDependents: 0,
  dependentAges: [],
  state: null,
  careChildren: 0,
  careCosts: 0,
  region: 0,
  wages: [0, 0],
  farmProfit: [0, 0],
  otherSelfEmployment: [0, 0],
  farmOptional: [0, 0],
  farmGross: [0, 0],
  nonfarmOptional: [0, 0],
  nonfarmGross: [0, 0],
  interest: 0,
  taxExemptInterest: 0,
  ordinaryDividends: 0,
  qualifiedDividends: 0,
  longTermGains: 0,
  shortTermGains: 0,
  section1231: 0,
  iraDistributions: 0,
  socialSecurity: 0,
  secondIraDistributions: 0,
  secondSocialSecurity: 0,
  inheritedIra: [0, 0],
  pensions: [0, 0],
  businessGains: 0,
  otherIncome: 0,
  dependentsIncome: 0,
  businessWages: 0,
  businessProperty: 0,
  carried: noCarryforwards(),
  averaging: null,
  itemized: 0,
  propertyTax: 0,
  rent: 0,
  traditionalIra: 0,
  rothIra: 0,
  sep: 0,
  hsa: 0,
  earlyWithdrawalAmount: 0,
  healthSavingsTaxed: 0,
  healthSavingsEarly: 0,
  withheld: 0,
  estimated: 0,
  fuelTaxCredit: 0,
  ...noCover(),
})

/** Where `assessHousehold` writes; keep one and use it again. */
export const emptyHouseholdTax = (): HouseholdTax => ({
  adjustedGrossIncome: 0,
  householdIncome: 0,
  povertyPercent: 0,
  deduction: 0,
  qbiDeduction: 0,
  netOperatingLossDeduction: 0,
  taxableIncome: 0,
  preferredIncome: 0,
  averagedFarmIncome: 0,
  incomeTax: 0,
  selfEmploymentTax: 0,
  additionalMedicareTax: 0,
  netInvestmentIncomeTax: 0,
  selfEmployedHealthDeduction: 0,
  premiumTaxCredit: 0,
  excessAdvance: 0,
  childTaxCredit: 0,
  additionalChildTaxCredit: 0,
  earnedIncomeCredit: 0,
  saversCredit: 0,
  dependentCareCredit: 0,
  taxableSocialSecurity: 0,
  earlyWithdrawalTax: 0,
  healthSavingsTax: 0,
  totalTax: 0,
  totalPayments: 0,
  balanceDue: 0,
  method: 0,
  alternativeMinimumTax: 0,
  netSelfEmploymentEarnings: [0, 0],
  medicareIncome: 0,
  netPremium: 0,
  stateIncomeTax: 0,
  localIncomeTax: 0,
  carried: noCarryforwards(),
})
