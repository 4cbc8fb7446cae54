// The law of each of the plan's years, looked up once and projected with the plan's own growth past the last published year.
import { monthOfYear, yearIn } from '#calendar/month.ts'
import { regionOfPlan } from '#plan/place/follows-from-place.ts'
import type { Plan } from '#plan/plan.ts'
import { statePartOfWithheld } from '#plan/state-law.ts'
import { earlyWithdrawalRate, survivingSpouseYears } from '#rules/data/income-tax.ts'
import { hsaAdditionRate } from '#rules/data/retirement-accounts.ts'
import { selfEmploymentFactor } from '#rules/data/self-employment.ts'
import { steadyIndexing } from '#rules/dated.ts'
import { estimatedTaxShares } from '#rules/estimated-tax.ts'
import { headOfHousehold, marriedJoint, regionIndex, single } from '#rules/filing-status.ts'
import { unsaid } from '#rules/filing-status-of.ts'
import { inForce } from '#rules/in-force.ts'
import { type ReturnBefore, returnOfTwoLines } from '#rules/loss-carryback.ts'
import { seasonOfMonthDay, stateDatesOf } from '#rules/states/state-dates.ts'
import { stateLaws } from '#rules/states/typed-tax.ts'
import type { RunwayRules } from '#runway/runway-rules.ts'
import { firstStep, type Span } from '#runway/span.ts'
import { taxCode } from './codes.ts'
import type { CompiledLaw } from './compiled-plan.ts'
import { type PlanOfDay, settledIn } from './plan-of-day.ts'

export const compileLaw = (
  plan: PlanOfDay,
  rules: RunwayRules,
  span: Span,
  openingLevel: number,
): CompiledLaw => {
  const { tax, household } = plan
  const byLaw = tax.method === 'law'
  const years = Array.from({ length: span.years }, (_, y) => span.firstYear + y)
  const oldest = Math.max(...household.people.map((person) => yearIn(person.born) + 72), 0)
  const level = expectedLevel(plan, span, openingLevel)
  return {
    method: taxCode[tax.method],
    plainShare: tax.share,
    filing: filingOf(plan),
    chosenFiling: chosenFiling(plan),
    region: regionIndex(regionOfPlan(plan)),
    years: years.map((year) => rules.lawFor(year)),
    projected: Uint8Array.from(years, (year) => (year > rules.lastPublishedYear ? 1 : 0)),
    benefits:
      household.people.length > 0 ? rules.benefitLaw(Math.max(span.firstYear + span.years, oldest)) : null,
    medicare: household.people.length > 0 ? years.map((year) => rules.medicareFor(year)) : [],
    state: stateLaws(
      byLaw ? tax.stateTax : { kind: 'none' },
      household.place.state,
      years.map((year, y) => ({ year, level: level[y]! })),
      steadyIndexing(plan.assumptions.inflation),
    ),
    ...stateMonths(plan),
    withheldForState: statePartOfWithheld(plan),
    itemized: tax.itemized,
    propertyTax: household.place.propertyTax ?? 0,
    rent: household.place.rent ?? 0,
    optionalMethod: tax.optionalSelfEmployment,
    lastYearTax: tax.lastYear.tax,
    lastYearStateTax: tax.lastYear.stateTax,
    lastYearIncome: tax.lastYear.adjustedGrossIncome,
    lastYearDue: lastYearDue(plan, span),
    twoYearsBackIncome: tax.lastYear.incomeTwoYearsBack,
    lastYearFarmShare: tax.lastYear.farmShare,
    estimatedTax: estimatedTaxShares(span.firstYear),
    selfEmploymentFactor: inForce(selfEmploymentFactor, span.firstYear),
    earlyWithdrawalRate: inForce(earlyWithdrawalRate, span.firstYear),
    healthSavingsRate: inForce(hsaAdditionRate, span.firstYear),
    survivingSpouseYears: inForce(survivingSpouseYears, span.firstYear),
    carried: { ...tax.carried, farmLoss: 0 },
    lossRefundDue: tax.lossRefundDue,
    farmLossesGoBack: byLaw && tax.farmLosses === 'back',
    averageFarmIncome: byLaw && tax.averageFarmIncome,
    baseYears: baseYears(plan, rules, span.firstYear),
    returnsBefore: returnsBefore(plan, rules, span.firstYear),
    soFar: { ...tax.soFar },
    expectedLevel: level,
  }
}

/** What its months still ahead settle of the year before; what fell due earlier was paid. */
const lastYearDue = (plan: PlanOfDay, span: Span): CompiledLaw['lastYearDue'] => {
  const first = monthOfYear(span.firstMonth) - 1
  const due = { january: 0, april: 0, stateJanuary: 0, stateReturn: 0 }
  for (let season = first; season < 12; season += 1) {
    const { federal, state } = settledIn(plan, season)
    due[season === 0 ? 'january' : 'april'] += federal
    due[season === 0 ? 'stateJanuary' : 'stateReturn'] += state
  }
  return due
}

const stateMonths = ({ household }: Plan): Pick<CompiledLaw, 'stateShares' | 'stateReturnSeason'> => {
  const dates = stateDatesOf(household.place.state)
  const stateShares = new Float64Array(12)
  dates.estimated.forEach((monthDay, k) => {
    stateShares[seasonOfMonthDay(monthDay)]! += dates.shares[k]!
  })
  return { stateShares, stateReturnSeason: seasonOfMonthDay(dates.return) }
}

const baseYears = ({ tax: { lastYear } }: Plan, rules: RunwayRules, firstYear: number) =>
  [lastYear.taxableIncome, lastYear.taxableIncomeTwoYearsBack, lastYear.taxableIncomeThreeYearsBack].map(
    (taxable, k) => ({ law: rules.rateLawFor(firstYear - 1 - k), taxable }),
  )

const returnsBefore = (plan: Plan, rules: RunwayRules, firstYear: number): CompiledLaw['returnsBefore'] => {
  const { lastYear } = plan.tax
  const of = (back: number, income: number, taxable: number) =>
    returnBefore(plan, rules, firstYear - back, income, taxable)
  return [
    of(2, lastYear.incomeTwoYearsBack, lastYear.taxableIncomeTwoYearsBack),
    of(1, lastYear.adjustedGrossIncome, lastYear.taxableIncome),
  ]
}

/** A return before the plan as far as the plan tells it; none where its law is not known here. */
const returnBefore = (
  plan: Plan,
  rules: RunwayRules,
  year: number,
  income: number,
  taxable: number,
): ReturnBefore => ({
  law: year >= rules.firstYear ? rules.lawFor(year) : null,
  household: returnOfTwoLines(filingOf(plan), income, taxable),
  ratio: 1,
})

/** The status that a plan asks for, while its people live. */
export const filingOf = (plan: Plan): number => {
  if (plan.tax.filing === 'head') return headOfHousehold
  if (plan.tax.filing === 'joint' || plan.household.people.length === 2) return marriedJoint
  return single
}

/** What is said of it, for `filingStatusOf`. */
export const chosenFiling = (plan: Plan): number =>
  plan.tax.filing === undefined && plan.household.people.length === 1 ? unsaid : filingOf(plan)

/** Expected price level of each January (of the first month for the first year): the same steps as the run takes. */
const expectedLevel = (plan: Plan, span: Span, openingLevel: number): Float64Array => {
  const out = new Float64Array(span.years).fill(openingLevel)
  const { inflation, priceSteps } = plan.assumptions
  const part = firstStep(span)
  const monthly = (1 + inflation) ** (1 / 12)
  let level = openingLevel
  for (let y = 1; y < span.years; y += 1) {
    const months = y === 1 ? 12 - (span.firstMonth % 12) : 12
    if (priceSteps === 'monthly') for (let k = 0; k < months; k += 1) level *= monthly
    else level *= y === 1 && part < 1 ? (1 + inflation) ** part : 1 + inflation
    out[y] = level
  }
  return out
}
