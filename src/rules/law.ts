// Puts together the law of one year from the dated facts: the return's and the marketplace's, as one plain object.
import * as credits from './data/credits.ts'
import * as incomeTax from './data/income-tax.ts'
import * as marketplace from './data/marketplace.ts'
import * as selfEmployment from './data/self-employment.ts'
import { type Amounts, type Dated, type Indexing, lookUp } from './dated.ts'
import type { ByStatus, LawYear } from './law-year.ts'

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
  const figures = { ...returnFigures(get), ...creditFigures(get), ...coverFigures(get, year) }
  return { year, basis: projected.length > 0 ? 'projected' : 'enacted', projected, ...figures }
}

type Get = <Value extends Amounts>(fact: Dated<Value>, of?: number) => Value

const returnFigures = (get: Get) => {
  const ordinaryRates = get(incomeTax.ordinaryRates)
  const ordinaryStarts = get(incomeTax.ordinaryStarts)
  return {
    ordinaryRates,
    ordinaryStarts,
    ordinaryTaxAtStart: ordinaryStarts.map((starts) => taxAtStarts(ordinaryRates, starts)),
    standardDeduction: get(incomeTax.standardDeduction),
    agedOrBlindAddition: get(incomeTax.agedOrBlindAddition),
    seniorDeduction: get(incomeTax.seniorDeduction),
    seniorPhaseOutRate: get(incomeTax.seniorPhaseOutRate),
    seniorPhaseOutFrom: get(incomeTax.seniorPhaseOutFrom),
    gainRates: get(incomeTax.gainRates),
    gainZeroMax: get(incomeTax.gainZeroMax),
    gainFifteenMax: get(incomeTax.gainFifteenMax),
    capitalLossLimit: get(incomeTax.capitalLossLimit),
    businessLossLimit: get(incomeTax.businessLossLimit),
    minimumTaxExemption: get(incomeTax.minimumTaxExemption),
    minimumTaxPhaseOutFrom: get(incomeTax.minimumTaxPhaseOutFrom),
    minimumTaxPhaseOutRate: get(incomeTax.minimumTaxPhaseOutRate),
    minimumTaxRates: get(incomeTax.minimumTaxRates),
    minimumTaxUpperFrom: get(incomeTax.minimumTaxUpperFrom),
    investmentTaxRate: get(incomeTax.investmentTaxRate),
    investmentTaxFrom: get(incomeTax.investmentTaxFrom),
    benefitsBase: get(incomeTax.benefitsBase),
    benefitsUpperBase: get(incomeTax.benefitsUpperBase),
    earlyWithdrawalRate: get(incomeTax.earlyWithdrawalRate),
    selfEmploymentFactor: get(selfEmployment.selfEmploymentFactor),
    selfEmploymentSocialSecurityRate: get(selfEmployment.selfEmploymentSocialSecurityRate),
    selfEmploymentMedicareRate: get(selfEmployment.selfEmploymentMedicareRate),
    selfEmploymentMinimum: get(selfEmployment.selfEmploymentMinimum),
    wageBase: get(selfEmployment.wageBase),
    optionalMethodMax: get(selfEmployment.optionalMethodMax),
    farmOptionalGrossLimit: get(selfEmployment.farmOptionalGrossLimit),
    optionalNetLimit: get(selfEmployment.optionalNetLimit),
    nonfarmOptionalShareLimit: get(selfEmployment.nonfarmOptionalShareLimit),
    additionalMedicareRate: get(selfEmployment.additionalMedicareRate),
    additionalMedicareFrom: get(selfEmployment.additionalMedicareFrom),
  }
}

const creditFigures = (get: Get) => ({
  qbiRate: get(credits.qbiRate),
  qbiThreshold: get(credits.qbiThreshold),
  qbiRange: get(credits.qbiRange),
  qbiMinimum: get(credits.qbiMinimum),
  qbiMinimumFrom: get(credits.qbiMinimumFrom),
  childCredit: get(credits.childCredit),
  childRefundableMax: get(credits.childRefundableMax),
  childRefundableRate: get(credits.childRefundableRate),
  childRefundableFrom: get(credits.childRefundableFrom),
  otherDependantCredit: get(credits.otherDependantCredit),
  childPhaseOutFrom: get(credits.childPhaseOutFrom),
  childPhaseOutPerThousand: get(credits.childPhaseOutPerThousand),
  earnedCreditRate: get(credits.earnedCreditRate),
  earnedCreditAmount: get(credits.earnedCreditAmount),
  earnedCreditMax: get(credits.earnedCreditMax),
  earnedCreditPhaseOutRate: get(credits.earnedCreditPhaseOutRate),
  earnedCreditPhaseOutFrom: get(credits.earnedCreditPhaseOutFrom),
  earnedCreditPhaseOutFromJoint: get(credits.earnedCreditPhaseOutFromJoint),
  earnedCreditInvestmentMax: get(credits.earnedCreditInvestmentMax),
  saversRates: get(credits.saversRates),
  saversLimits: get(credits.saversLimits),
  saversCap: get(credits.saversCap),
})

const coverFigures = (get: Get, year: number) => {
  const applicable = get(marketplace.applicablePercentage)
  const repayment = get(marketplace.repaymentLimit)
  const sharing = get(marketplace.costSharing)
  return {
    povertyFirst: get(marketplace.povertyFirst, year - 1),
    povertyAdditional: get(marketplace.povertyAdditional, year - 1),
    medicaidPovertyFirst: get(marketplace.povertyFirst),
    medicaidPovertyAdditional: get(marketplace.povertyAdditional),
    medicaidPercent: get(marketplace.medicaidPercent),
    applicableFrom: applicable.from,
    applicableInitial: applicable.initial,
    applicableFinal: applicable.final,
    creditFromPercent: get(marketplace.creditFromPercent),
    creditToPercent: get(marketplace.creditToPercent),
    repaymentBandTo: repayment.to,
    repaymentLimitSingle: repayment.single,
    repaymentLimitOther: repayment.other,
    costSharingTo: sharing.to,
    costSharingValue: sharing.value,
  }
}

const taxAtStarts = (rates: readonly number[], starts: ByStatus): number[] => {
  const taxes = [0]
  for (let band = 1; band < starts.length; band += 1) {
    const below = taxes[band - 1]! + rates[band - 1]! * (starts[band]! - starts[band - 1]!)
    taxes.push(Math.round(below * 10_000) / 10_000)
  }
  return taxes
}
