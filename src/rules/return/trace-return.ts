// Tells for every figure of a worked return which rule made it, where the rule stands, and what went in.
import type { Carryforwards } from '../carryforwards.ts'
import * as credits from '../data/credits.ts'
import * as incomeTax from '../data/income-tax.ts'
import * as marketplace from '../data/marketplace.ts'
import { hsaAdditionRate } from '../data/retirement-accounts.ts'
import * as selfEmployment from '../data/self-employment.ts'
import { filingStatuses, filingStatusNames } from '../filing-status.ts'
import { coverMethods, type HouseholdYear } from '../household-year.ts'
import type { LawYear } from '../law-year.ts'
import { applicableHundredths } from '../marketplace/premium-credit.ts'
import { inDollars } from '../rounding.ts'
import type { ReturnLines } from './return-lines.ts'
import type { Trace } from './trace.ts'

/** `law` names the fact's rule and source; `cents` become dollars. */
type Note = (
  figure: string,
  cents: number,
  law: { rule: string; source: string },
  inputs: Record<string, number | string>,
) => void

export const traceReturn = (
  law: LawYear,
  household: HouseholdYear,
  lines: ReturnLines,
  table: boolean,
): Trace => {
  const trace: Trace = []
  const note: Note = (figure, cents, { rule, source }, inputs) =>
    trace.push({ figure, amount: inDollars(cents), rule, source, inputs })
  traceBusiness(note, law, household, lines)
  traceCover(note, law, lines)
  traceIncome(note, law, household, lines)
  traceTaxes(note, law, household, lines, table)
  traceCredits(note, law, household, lines)
  traceTotals(note, household, lines)
  traceCarried(note, lines)
  return trace
}

/** A figure that a fact of the law leads to and is not, by its own name. */
const named = (rule: string, { source }: { source: string }) => ({ rule, source })

const selfEmploymentRule = named('self-employment tax', {
  source: '26 USC 1401, Schedule SE (Form 1040) line 12',
})

const traceBusiness = (
  note: Note,
  law: LawYear,
  household: HouseholdYear,
  { business }: ReturnLines,
): void => {
  const perPerson = Object.fromEntries(
    business.people.slice(0, household.people).flatMap((person, place) => [
      [`netEarningsPerson${place + 1}`, inDollars(person.netEarnings)],
      [`farmOptionalPerson${place + 1}`, inDollars(person.farmOptional)],
      [`nonfarmOptionalPerson${place + 1}`, inDollars(person.nonfarmOptional)],
    ]),
  )
  note('selfEmploymentTax', business.tax, selfEmploymentRule, {
    farmProfit: inDollars(business.farmProfit),
    otherSelfEmployment: inDollars(business.otherProfit),
    factor: law.selfEmploymentFactor,
    socialSecurityRate: law.selfEmploymentSocialSecurityRate,
    medicareRate: law.selfEmploymentMedicareRate,
    wageBase: law.wageBase,
    ...perPerson,
  })
}

const traceCover = (note: Note, law: LawYear, { cover, business }: ReturnLines): void => {
  const percent = cover.povertyPercent
  const line = inDollars(cover.cover.povertyLine)
  note('povertyPercent', percent * 100, named('of the federal poverty level', marketplace.povertyFirst), {
    householdIncome: inDollars(cover.householdIncome),
    povertyLine: line,
    householdSize: cover.size,
    guidelinesOf: law.year - 1,
  })
  note('selfEmployedHealthDeduction', cover.healthDeduction, deductionRule, {
    method: coverMethods[cover.method]!,
    premiums: inDollars(cover.cover.premium),
    premiumTaxCredit: inDollars(cover.credit),
    otherHealthPremiums: inDollars(cover.otherDeduction),
    earnedIncomeLimit: inDollars(business.earnedLimit),
  })
  note(
    'premiumTaxCredit',
    cover.credit,
    named('premium tax credit before its advance', marketplace.applicablePercentage),
    {
      householdIncome: inDollars(cover.householdIncome),
      percentOfPovertyLine: percent,
      applicablePercent: applicableHundredths(law, percent) / 100,
      benchmark: inDollars(cover.cover.benchmark),
      premiums: inDollars(cover.cover.premium),
      months: cover.cover.months,
    },
  )
  note('excessAdvance', cover.excessAdvance, marketplace.repaymentLimit, {
    advance: inDollars(cover.cover.advance),
    premiumTaxCredit: inDollars(cover.credit),
    percentOfPovertyLine: percent,
  })
}

const deductionRule = {
  rule: 'self-employed health insurance deduction, solved together with the premium credit',
  source: '26 USC 162(l), 26 CFR 1.162(l)-1, 1.36B-4(a)(3)(iii), Rev. Proc. 2014-41, Form 7206',
}

const traceIncome = (note: Note, law: LawYear, household: HouseholdYear, lines: ReturnLines): void => {
  const { income, taxable, cover, business } = lines
  note('taxableSocialSecurity', taxable.taxableBenefits, incomeTax.benefitsBase, {
    benefits: inDollars(income.benefits),
    base: law.benefitsBase[household.status]!,
    upperBase: law.benefitsUpperBase[household.status]!,
  })
  if (income.netOperatingLoss > 0) {
    note('netOperatingLossDeduction', income.netOperatingLoss, incomeTax.netOperatingLossShare, {
      brought: household.carried.netOperatingLoss + household.carried.farmLoss,
      share: law.netOperatingLossShare,
    })
  }
  note('adjustedGrossIncome', taxable.adjustedGrossIncome, adjustedRule, {
    incomeBeforeBenefits: inDollars(income.beforeBenefits),
    taxableSocialSecurity: inDollars(taxable.taxableBenefits),
    halfSelfEmploymentTax: inDollars(business.half),
    retirementAndHealthSavings: inDollars(income.adjustments - business.half),
    ...(income.netOperatingLoss > 0 ? { netOperatingLossDeduction: inDollars(income.netOperatingLoss) } : {}),
    selfEmployedHealthDeduction: inDollars(cover.healthDeduction),
  })
  note('householdIncome', cover.householdIncome, householdIncomeRule, {
    adjustedGrossIncome: inDollars(taxable.adjustedGrossIncome),
    untaxedSocialSecurity: inDollars(income.benefits - taxable.taxableBenefits),
    taxExemptInterest: inDollars(income.taxExemptInterest),
    dependentsIncome: household.dependentsIncome,
  })
  note('deduction', taxable.deduction, incomeTax.standardDeduction, {
    filingStatus: filingStatusNames[filingStatuses[household.status]!],
    standard: inDollars(taxable.standard),
    itemized: inDollars(taxable.itemized),
    seniorDeduction: inDollars(taxable.senior),
    people65OrOlder: taxable.aged,
  })
  note('qbiDeduction', taxable.qbiDeduction, credits.qbiRate, {
    qualifiedIncome: inDollars(taxable.business.income),
    taxableIncomeBefore: inDollars(taxable.business.taxableBefore),
    gains: inDollars(income.preferred),
    minimum: law.qbiMinimum,
  })
  note('taxableIncome', taxable.taxableIncome, taxableRule, {
    adjustedGrossIncome: inDollars(taxable.adjustedGrossIncome),
    deduction: inDollars(taxable.deduction),
    qbiDeduction: inDollars(taxable.qbiDeduction),
  })
}

const adjustedRule = { rule: 'adjusted gross income', source: '26 USC 62, Form 1040 line 11' }
const taxableRule = { rule: 'taxable income', source: '26 USC 63, Form 1040 line 15' }
const householdIncomeRule = {
  rule: 'household income for marketplace coverage',
  source: '26 USC 36B(d)(2), 26 CFR 1.36B-1(e)',
}

const traceTaxes = (
  note: Note,
  law: LawYear,
  household: HouseholdYear,
  { business, income, taxable, taxes }: ReturnLines,
  table: boolean,
): void => {
  note('incomeTax', taxes.regularTax + taxes.minimumTax, incomeTax.ordinaryStarts, {
    taxableIncome: inDollars(taxable.taxableIncome),
    gainsAndQualifiedDividends: inDollars(income.preferred),
    taxBeforeMinimumTax: inDollars(taxes.regularTax),
    alternativeMinimumTax: inDollars(taxes.minimumTax),
    ...(taxes.averaged.elected > 0 ? { averagedFarmIncome: inDollars(taxes.averaged.elected) } : {}),
    lookedUp: table ? 'Tax Table' : 'rate schedule',
  })
  note('additionalMedicareTax', taxes.additionalMedicare, selfEmployment.additionalMedicareFrom, {
    wages: inDollars(business.socialSecurityWages),
    netEarnings: inDollars(business.netEarnings),
    threshold: law.additionalMedicareFrom[household.status]!,
  })
  note('netInvestmentIncomeTax', taxes.investmentTax, incomeTax.investmentTaxFrom, {
    investmentIncome: inDollars(income.investmentIncome),
    adjustedGrossIncome: inDollars(taxable.adjustedGrossIncome),
    threshold: law.investmentTaxFrom[household.status]!,
  })
  note('earlyWithdrawalTax', taxes.earlyWithdrawal, incomeTax.earlyWithdrawalRate, {
    amount: household.earlyWithdrawalAmount,
    rate: law.earlyWithdrawalRate,
  })
  if (household.healthSavingsTaxed > 0) {
    note('healthSavingsTax', taxes.healthSavings, hsaAdditionRate, {
      amount: household.healthSavingsEarly,
      rate: law.healthSavingsRate,
    })
  }
}

const traceCredits = (
  note: Note,
  law: LawYear,
  household: HouseholdYear,
  { taxable, taxes }: ReturnLines,
): void => {
  const adjustedGrossIncome = inDollars(taxable.adjustedGrossIncome)
  if (household.careCosts > 0) {
    note('dependentCareCredit', taxes.dependentCare, credits.careRates, {
      adjustedGrossIncome,
      costs: household.careCosts,
      children: household.careChildren,
      costsCountUpTo: law.careCap[household.careChildren > 1 ? 1 : 0]!,
    })
  }
  note('saversCredit', taxes.saversCredit, credits.saversLimits, {
    adjustedGrossIncome,
    contributions: household.traditionalIra + household.rothIra,
    distributionsOfTheYear: household.iraDistributions,
  })
  const family = { childrenUnder17: household.childrenUnder17, otherDependents: household.otherDependents }
  note('childTaxCredit', taxes.childCredit, credits.childCredit, { adjustedGrossIncome, ...family })
  note(
    'additionalChildTaxCredit',
    taxes.additionalChildCredit,
    named('refundable part of the child tax credit', credits.childRefundableMax),
    {
      ...family,
      earnedIncome: inDollars(taxes.earned.earnedIncome),
      earnedIncomeOver: law.childRefundableFrom,
    },
  )
  note(
    'earnedIncomeCredit',
    taxes.earnedIncomeCredit,
    named('earned income credit', credits.earnedCreditAmount),
    {
      adjustedGrossIncome,
      earnedIncome: inDollars(taxes.earned.earnedIncome),
      children: household.earnedCreditChildren,
    },
  )
}

const traceTotals = (note: Note, household: HouseholdYear, { cover, taxes }: ReturnLines): void => {
  note(
    'totalTax',
    taxes.totalTax,
    { rule: 'total tax', source: 'Form 1040 line 24' },
    {
      ...(household.careCosts > 0 ? { dependentCareCredit: inDollars(taxes.dependentCare) } : {}),
      saversCredit: inDollars(taxes.saversCredit),
      childTaxCredit: inDollars(taxes.childCredit),
      excessAdvance: inDollars(cover.excessAdvance),
    },
  )
  const netCredit = inDollars(Math.max(0, cover.credit - cover.cover.advance))
  note(
    'totalPayments',
    taxes.totalPayments,
    { rule: 'total payments', source: 'Form 1040 line 33' },
    {
      withheld: household.withheld,
      estimated: household.estimated,
      fuelTaxCredit: household.fuelTaxCredit,
      earnedIncomeCredit: inDollars(taxes.earnedIncomeCredit),
      additionalChildTaxCredit: inDollars(taxes.additionalChildCredit),
      netPremiumTaxCredit: netCredit,
    },
  )
  note('balanceDue', taxes.totalTax - taxes.totalPayments, balanceRule, {
    totalTax: inDollars(taxes.totalTax),
    totalPayments: inDollars(taxes.totalPayments),
  })
}

/** Only what there is: most years leave nothing to others. */
const traceCarried = (note: Note, { left }: ReturnLines): void => {
  for (const name of Object.keys(carriedRules) as (keyof Carryforwards)[])
    if (left[name] > 0) note(`carried.${name}`, left[name], carriedRules[name], {})
}

const carriedRules: Record<keyof Carryforwards, { rule: string; source: string }> = {
  netOperatingLoss: { rule: 'net operating loss for later years', source: '26 USC 172, Pub. 536' },
  farmLoss: { rule: 'farming loss that may be carried back', source: '26 USC 172(b)(1)(B)' },
  qualifiedBusiness: {
    rule: 'negative qualified business income for the next year',
    source: '26 USC 199A(c)(2)',
  },
  shortTermLoss: { rule: 'short-term capital loss for later years', source: '26 USC 1212(b)' },
  longTermLoss: { rule: 'long-term capital loss for later years', source: '26 USC 1212(b)' },
  section179: { rule: 'section 179 deduction for later years', source: '26 USC 179(b)(3)(B)' },
}

const balanceRule = { rule: 'owed above 0, refund below 0', source: 'Form 1040 lines 34 and 37' }
