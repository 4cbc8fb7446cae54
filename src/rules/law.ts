// Puts together the law of one year from the dated facts: the return's and the marketplace's, as one plain object.
import * as credits from './data/credits.ts'
import * as incomeTax from './data/income-tax.ts'
import * as marketplace from './data/marketplace.ts'
import * as retirementAccounts from './data/retirement-accounts.ts'
import * as selfEmployment from './data/self-employment.ts'
import { type Amounts, type Dated, type Indexing, lookUp, yearsOf } from './dated.ts'
import { marriedJoint, single } from './filing-status.ts'
import { inForce } from './in-force.ts'
import { type ByStatus, type IncomeRange, type LawYear, noLimit, type RateLaw } from './law-year.ts'

export type { ByStatus, LawYear } from './law-year.ts'

/** First and last tax year in which every income tax figure is published. */
export const firstLawYear = 2024
export const lastPublishedLawYear = 2026

/** The law of a tax year. Throws `RuleYearError`, naming rule and year, for a year before the data. */
export const lawFor = (year: number, indexing: Indexing): LawYear => {
  const projected: string[] = []
  const get = <Value extends Amounts>(fact: Dated<Value>, of = year): Value => {
    const { value, basis } = lookUp(fact, of, indexing)
    if (basis === 'projected') projected.push(fact.rule)
    return value
  }
  const law = { year, basis: 'enacted', projected } as unknown as Filling
  fillIncomeTax(law, get)
  fillSelfEmployment(law, get)
  fillCredits(law, get, year)
  fillCover(law, get, year)
  fillAccounts(law, get)
  addSurvivingSpouse(law)
  if (projected.length > 0) law.basis = 'projected'
  return law
}

/** Rates and where they begin, of one year more than the rest of the law: for the base years of farm income averaging. */
export const rateLawFor = (year: number, indexing: Indexing): RateLaw => {
  const law = {} as Filling
  fillRates(law, (fact, of = year) => lookUp(fact, of, indexing).value)
  for (const name of ['ordinaryStarts', 'ordinaryTaxAtStart', 'gainZeroMax', 'gainFifteenMax'] as const)
    addJointTo(law, name)
  return law
}

/** The first year of `rateLawFor`. */
export const firstRateYear = yearsOf(incomeTax.ordinaryStarts).first

const fillRates = (law: Filling, get: Get): void => {
  law.ordinaryRates = get(incomeTax.ordinaryRates)
  law.ordinaryStarts = get(incomeTax.ordinaryStarts)
  law.ordinaryTaxAtStart = law.ordinaryStarts.map((starts) => taxAtStarts(law.ordinaryRates, starts))
  law.gainRates = get(incomeTax.gainRates)
  law.gainZeroMax = get(incomeTax.gainZeroMax)
  law.gainFifteenMax = get(incomeTax.gainFifteenMax)
}

// Fields are stored one by one by name: an object spread of this many would leave the engine's fast form.
type Filling = { -readonly [Key in keyof LawYear]: LawYear[Key] }

type Get = <Value extends Amounts>(fact: Dated<Value>, of?: number) => Value

const fillIncomeTax = (law: Filling, get: Get): void => {
  fillRates(law, get)
  law.standardDeduction = get(incomeTax.standardDeduction)
  law.agedOrBlindAddition = get(incomeTax.agedOrBlindAddition)
  law.seniorDeduction = get(incomeTax.seniorDeduction)
  law.seniorPhaseOutRate = get(incomeTax.seniorPhaseOutRate)
  law.seniorPhaseOutFrom = get(incomeTax.seniorPhaseOutFrom)
  law.capitalLossLimit = get(incomeTax.capitalLossLimit)
  law.businessLossLimit = get(incomeTax.businessLossLimit)
  law.netOperatingLossShare = get(incomeTax.netOperatingLossShare)
  law.minimumTaxExemption = get(incomeTax.minimumTaxExemption)
  law.minimumTaxPhaseOutFrom = get(incomeTax.minimumTaxPhaseOutFrom)
  law.minimumTaxPhaseOutRate = get(incomeTax.minimumTaxPhaseOutRate)
  law.minimumTaxRates = get(incomeTax.minimumTaxRates)
  law.minimumTaxUpperFrom = get(incomeTax.minimumTaxUpperFrom)
  law.investmentTaxRate = get(incomeTax.investmentTaxRate)
  law.investmentTaxFrom = get(incomeTax.investmentTaxFrom)
  law.benefitsBase = get(incomeTax.benefitsBase)
  law.benefitsUpperBase = get(incomeTax.benefitsUpperBase)
  const [lower, upper] = get(incomeTax.benefitsShares)
  law.benefitsLowerRate = lower
  law.benefitsUpperRate = upper
  law.earlyWithdrawalRate = get(incomeTax.earlyWithdrawalRate)
  law.healthSavingsRate = get(retirementAccounts.hsaAdditionRate)
}

const fillSelfEmployment = (law: Filling, get: Get): void => {
  law.selfEmploymentFactor = get(selfEmployment.selfEmploymentFactor)
  law.selfEmploymentSocialSecurityRate = get(selfEmployment.selfEmploymentSocialSecurityRate)
  law.selfEmploymentMedicareRate = get(selfEmployment.selfEmploymentMedicareRate)
  law.selfEmploymentMinimum = get(selfEmployment.selfEmploymentMinimum)
  law.wageBase = get(selfEmployment.wageBase)
  law.optionalMethodMax = get(selfEmployment.optionalMethodMax)
  law.farmOptionalGrossLimit = get(selfEmployment.farmOptionalGrossLimit)
  law.optionalNetLimit = get(selfEmployment.optionalNetLimit)
  law.nonfarmOptionalShareLimit = get(selfEmployment.nonfarmOptionalShareLimit)
  law.additionalMedicareRate = get(selfEmployment.additionalMedicareRate)
  law.additionalMedicareFrom = get(selfEmployment.additionalMedicareFrom)
}

const fillCredits = (law: Filling, get: Get, year: number): void => {
  law.qbiRate = get(credits.qbiRate)
  law.qbiThreshold = get(credits.qbiThreshold)
  law.qbiRange = get(credits.qbiRange)
  const limits = get(credits.qbiLimits)
  law.qbiWagesRate = limits.wages
  law.qbiWagesWithPropertyRate = limits.wagesWithProperty
  law.qbiPropertyRate = limits.property
  law.qbiMinimum = get(credits.qbiMinimum)
  law.qbiMinimumFrom = get(credits.qbiMinimumFrom)
  law.childCredit = get(credits.childCredit)
  law.childRefundableMax = get(credits.childRefundableMax)
  law.childRefundableRate = get(credits.childRefundableRate)
  law.childRefundableFrom = get(credits.childRefundableFrom)
  law.otherDependentCredit = get(credits.otherDependentCredit)
  law.childPhaseOutFrom = get(credits.childPhaseOutFrom)
  law.childPhaseOutPerThousand = get(credits.childPhaseOutPerThousand)
  law.earnedCreditRate = get(credits.earnedCreditRate)
  law.earnedCreditAmount = get(credits.earnedCreditAmount)
  law.earnedCreditMax = law.earnedCreditAmount.map((amount, children) =>
    Math.round(amount * law.earnedCreditRate[children]!),
  )
  law.earnedCreditPhaseOutRate = get(credits.earnedCreditPhaseOutRate)
  law.earnedCreditPhaseOutFrom = get(credits.earnedCreditPhaseOutFrom)
  law.earnedCreditPhaseOutFromJoint = get(credits.earnedCreditPhaseOutFromJoint)
  law.earnedCreditInvestmentMax = get(credits.earnedCreditInvestmentMax)
  law.saversRates = get(credits.saversRates)
  law.saversLimits = get(credits.saversLimits)
  law.saversCap = get(credits.saversCap)
  const [matchRate, matchCap] = inForce(retirementAccounts.saversMatch, year)
  law.saversMatchRate = matchRate
  law.saversMatchCap = matchCap
  law.saversMatchRange = matchRate > 0 ? get(retirementAccounts.saversMatchRange) : []
  const care = get(credits.careRates)
  law.careCap = get(credits.careCap)
  law.careRateTop = care.top
  law.careRateMiddle = care.middle
  law.careRateLeast = care.least
  law.careFirstFrom = care.from
  law.careStep = care.step
  law.careSecondFrom = care.secondFrom
  law.careSecondStep = care.secondStep
}

/** Where a range begins moves with prices; how wide it is does not. A spouse's plan counts on a joint or separate return alone. */
const fillAccounts = (law: Filling, get: Get): void => {
  const widths = get(retirementAccounts.contributionWidths)
  const from = (start: number, width: string): IncomeRange => [start, start + widths[width]!]
  const unmarried = from(get(retirementAccounts.iraDeductionFromSingle), 'single')
  const joint = from(get(retirementAccounts.iraDeductionFromJoint), 'joint')
  const spouse = from(get(retirementAccounts.iraDeductionFromSpouseCovered), 'spouseCovered')
  const separate = get(retirementAccounts.iraRangeSeparate)
  const roth = from(get(retirementAccounts.rothFromSingle), 'rothSingle')
  law.iraCoveredRange = [unmarried, joint, unmarried, separate]
  law.iraSpouseCoveredRange = [never, spouse, never, separate]
  law.rothRange = [roth, from(get(retirementAccounts.rothFromJoint), 'rothJoint'), roth, separate]
}

const hundredths = (percent: number): number => Math.round(percent * 100)

const never: IncomeRange = [noLimit, noLimit]

const fillCover = (law: Filling, get: Get, year: number): void => {
  const applicable = get(marketplace.applicablePercentage)
  const repayment = get(marketplace.repaymentLimit)
  const sharing = get(marketplace.costSharing)
  law.povertyFirst = get(marketplace.povertyFirst, year - 1)
  law.povertyAdditional = get(marketplace.povertyAdditional, year - 1)
  law.medicaidPovertyFirst = get(marketplace.povertyFirst)
  law.medicaidPovertyAdditional = get(marketplace.povertyAdditional)
  law.medicaidPercent = get(marketplace.medicaidPercent)
  law.applicableFrom = applicable.from
  law.applicableInitial = applicable.initial.map(hundredths)
  law.applicableFinal = applicable.final.map(hundredths)
  law.creditFromPercent = get(marketplace.creditFromPercent)
  law.creditToPercent = get(marketplace.creditToPercent)
  law.repaymentBandTo = repayment.to
  law.repaymentLimitSingle = repayment.single
  law.repaymentLimitOther = repayment.other
  law.costSharingTo = sharing.to
  law.costSharingValue = sharing.value
}

/**
 * A surviving spouse with a child has the joint figures for two years where the law says "joint return or surviving spouse"
 * (26 USC 1(a), 2(a), 63(c), (f)(3), 55(d), 1(h), 1411(b), 219(g)(3)(B), 408A(c)(3)), and else those of an unmarried person: where it says "joint return"
 * alone (24(h)(3), 25B(b), 32(b), 86(c), 151(d)(5)(C), 199A(e), 461(l), 1401(b)(2), 21(a)(2)).
 */
const addSurvivingSpouse = (law: Filling): void => {
  const joint = [
    'ordinaryStarts',
    'ordinaryTaxAtStart',
    'standardDeduction',
    'agedOrBlindAddition',
    'gainZeroMax',
    'gainFifteenMax',
    'minimumTaxExemption',
    'minimumTaxPhaseOutFrom',
    'minimumTaxUpperFrom',
    'investmentTaxFrom',
    'iraCoveredRange',
    'rothRange',
  ] as const
  const unmarried = [
    'capitalLossLimit',
    'businessLossLimit',
    'seniorPhaseOutFrom',
    'qbiThreshold',
    'qbiRange',
    'childPhaseOutFrom',
    'saversLimits',
    'saversMatchRange',
    'careSecondFrom',
    'careSecondStep',
    'additionalMedicareFrom',
    'benefitsBase',
    'benefitsUpperBase',
    'iraSpouseCoveredRange',
  ] as const
  const lists = law as unknown as Record<(typeof joint | typeof unmarried)[number], readonly unknown[]>
  for (const name of joint) addJointTo(law, name)
  for (const name of unmarried) lists[name] = [...lists[name], lists[name][single]]
}

/** Fifth in a list by status, the figure of a joint return. */
const addJointTo = (law: Filling, name: keyof LawYear): void => {
  const lists = law as unknown as Record<string, readonly unknown[]>
  lists[name] = [...lists[name]!, lists[name]![marriedJoint]]
}

const taxAtStarts = (rates: readonly number[], starts: ByStatus): number[] => {
  const taxes = [0]
  for (let band = 1; band < starts.length; band += 1) {
    const below = taxes[band - 1]! + rates[band - 1]! * (starts[band]! - starts[band - 1]!)
    taxes.push(Math.round(below * 10_000) / 10_000)
  }
  return taxes
}
