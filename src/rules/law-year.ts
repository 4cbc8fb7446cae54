// One year of federal return and marketplace law as a flat plain object: cheap to read, safe to post to a worker.
import type { Basis } from './dated.ts'

/** Figures in the order of `filingStatuses`. */
export type ByStatus = readonly number[]

/** From where something shrinks with income, and where it is gone. */
export type IncomeRange = readonly [from: number, to: number]

/** Dollars a year, fractions of 1, ages in whole years; lists are in the order of `filingStatuses`, `regions` or children (0 to 3). */
export interface LawYear {
  year: number
  /** `projected` as soon as one figure is carried past its last published year. */
  basis: Basis
  /** The rules whose figures are projected, for the page that shows them. */
  projected: readonly string[]

  ordinaryRates: readonly number[]
  /** By status: taxable income at which each rate starts. */
  ordinaryStarts: readonly ByStatus[]
  /** By status: tax on the income below each start. */
  ordinaryTaxAtStart: readonly ByStatus[]
  standardDeduction: ByStatus
  /** For each person 65 or older, and again for each who is blind. */
  agedOrBlindAddition: ByStatus
  seniorDeduction: number
  seniorPhaseOutRate: number
  seniorPhaseOutFrom: ByStatus

  gainRates: readonly number[]
  gainZeroMax: ByStatus
  gainFifteenMax: ByStatus
  capitalLossLimit: ByStatus
  businessLossLimit: ByStatus
  netOperatingLossShare: number

  qbiRate: number
  qbiThreshold: ByStatus
  qbiRange: ByStatus
  /** Parts of wages paid alone, of wages beside property, and of property, that limit the deduction over the threshold. */
  qbiWagesRate: number
  qbiWagesWithPropertyRate: number
  qbiPropertyRate: number
  qbiMinimum: number
  qbiMinimumFrom: number

  childCredit: number
  childRefundableMax: number
  childRefundableRate: number
  childRefundableFrom: number
  otherDependentCredit: number
  childPhaseOutFrom: ByStatus
  childPhaseOutPerThousand: number

  /** By number of children: 0, 1, 2, 3 or more. */
  earnedCreditRate: readonly number[]
  earnedCreditAmount: readonly number[]
  /** The rate times the amount, to the dollar. */
  earnedCreditMax: readonly number[]
  earnedCreditPhaseOutRate: readonly number[]
  earnedCreditPhaseOutFrom: readonly number[]
  earnedCreditPhaseOutFromJoint: readonly number[]
  earnedCreditInvestmentMax: number

  saversRates: readonly number[]
  /** By status: adjusted gross income up to which each of `saversRates` applies. */
  saversLimits: readonly ByStatus[]
  saversCap: number
  /** Part of a contribution matched, none before the match begins; and the contribution counted, for each person. */
  saversMatchRate: number
  saversMatchCap: number
  /** By status: adjusted gross income from which the match shrinks, and at which it ends. */
  saversMatchRange: readonly (readonly [from: number, to: number])[]

  /** Care costs that count: for one child, for more. */
  careCap: readonly number[]
  careRateTop: number
  careRateMiddle: number
  careRateLeast: number
  careFirstFrom: number
  careStep: number
  careSecondFrom: ByStatus
  careSecondStep: ByStatus

  investmentTaxRate: number
  investmentTaxFrom: ByStatus
  additionalMedicareRate: number
  additionalMedicareFrom: ByStatus

  selfEmploymentFactor: number
  selfEmploymentSocialSecurityRate: number
  selfEmploymentMedicareRate: number
  selfEmploymentMinimum: number
  wageBase: number
  optionalMethodMax: number
  farmOptionalGrossLimit: number
  optionalNetLimit: number
  nonfarmOptionalShareLimit: number

  minimumTaxExemption: ByStatus
  minimumTaxPhaseOutFrom: ByStatus
  minimumTaxPhaseOutRate: number
  minimumTaxRates: readonly number[]
  minimumTaxUpperFrom: ByStatus

  /** Social Security benefits: taxed up to the lower and then up to the upper rate over these incomes. */
  benefitsBase: ByStatus
  benefitsUpperBase: ByStatus
  benefitsLowerRate: number
  benefitsUpperRate: number

  earlyWithdrawalRate: number
  healthSavingsRate: number
  /** By status: income over which the IRA deduction ends for someone in a plan at work, for a spouse of such a one, and over which Roth contributions end. */
  iraCoveredRange: readonly IncomeRange[]
  iraSpouseCoveredRange: readonly IncomeRange[]
  rothRange: readonly IncomeRange[]

  /** By region, for credits of the cover year: the guidelines of the year before. */
  povertyFirst: readonly number[]
  povertyAdditional: readonly number[]
  /** By region, for Medicaid: the guidelines of the year itself. */
  medicaidPovertyFirst: readonly number[]
  medicaidPovertyAdditional: readonly number[]
  medicaidPercent: number
  /** Bands of the applicable percentage, in percent of the poverty line and hundredths of a percent of income. */
  applicableFrom: readonly number[]
  applicableInitial: readonly number[]
  applicableFinal: readonly number[]
  creditFromPercent: number
  /** Percent of the poverty line above which there is no credit; `noLimit` in years without that line. */
  creditToPercent: number
  /** Upper ends of the repayment bands in percent, and what is repaid at most in each: single, all other. Empty: no limit. */
  repaymentBandTo: readonly number[]
  repaymentLimitSingle: readonly number[]
  repaymentLimitOther: readonly number[]
  costSharingTo: readonly number[]
  costSharingValue: readonly number[]
}

/** What income tax is worked with: enough of a year to tax more income in it. */
export type RateLaw = Pick<
  LawYear,
  'ordinaryRates' | 'ordinaryStarts' | 'ordinaryTaxAtStart' | 'gainRates' | 'gainZeroMax' | 'gainFifteenMax'
>

/** Stands for "no line" where a plain number is needed; far above any income or percentage. */
export const noLimit = 1e12
