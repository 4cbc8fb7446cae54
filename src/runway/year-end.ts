// December: the year's return from its totals, what falls due when, and what benefits and Medicare will remember of the year.
import { isFarmersIncome } from '#rules/estimated-tax.ts'
import type { HouseholdTax } from '#rules/household-year.ts'
import { saversMatch } from '#rules/savers-match.ts'
import { changesAmounts } from '#rules/social-security/household-benefits.ts'
import { taxCode } from '#runway/compile/codes.ts'
import type { CompiledPlan } from '#runway/compile/compiled-plan.ts'
import type { CourseBuffers } from './course-buffers.ts'
import { noteNeed } from './coverage/expected-withdrawals.ts'
import { noteIncomeBeyond } from './coverage/year-coverage.ts'
import { keepBaseYear } from './farm-averaging-years.ts'
import { empty } from './figures/emptied.ts'
import { assessAtPrices, fillReturn } from './household-return.ts'
import { carryLosses } from './loss-years.ts'
import { convertInDecember } from './savings/conversions.ts'
import { withheldForState } from './state-tax/state-taxes.ts'

/** Runs after the month of December has settled; `m` is that month. */
export const closeYear = (plan: CompiledPlan, buffers: CourseBuffers, m: number, y: number): void => {
  const { state, years } = buffers
  const { year } = state
  const sideTotal = year.side[0]! + year.side[1]! + year.side[2]!
  const before = year.farmSales - year.farmDeductions - state.deductions[y]!
  const atOnce = takeSection179(buffers, y, before + sideTotal)
  const profit = before - atOnce
  if (plan.savings.conversions.count > 0) convertInDecember(plan, buffers, m, y, profit)
  years.farmGross[y] = year.farmSales
  years.farmProfit[y] = profit
  years.depreciation[y] = state.deductions[y]! + atOnce
  years.sideProfit[y] = sideTotal
  years.wages[y] = year.wages[0]! + year.wages[1]!
  years.sideProfitOfFirst[y] = year.side[0]! + year.side[2]!
  years.wagesOfFirst[y] = year.wages[0]!
  years.pensions[y] = year.pensions[0]! + year.pensions[1]!
  years.pensionsOfFirst[y] = year.pensions[0]!
  years.benefits[y] = year.benefits
  years.retirementIncome[y] = year.retirementIncome
  years.earlyWithdrawals[y] = year.earlyWithdrawals
  years.gains[y] = year.gains + year.farm1231Gain + year.farmOtherGain
  years.advanceCredit[y] = year.advance
  years.careCosts[y] = year.careCosts
  if (plan.law.method === taxCode.law) assessYear(plan, buffers, m, y, profit)
  else closePlainly(plan, buffers, m, y, profit)
  noteNeed(buffers)
  rememberEarnings(plan, buffers, y)
  scheduleTax(plan, buffers, y)
}

/**
 * What was elected this year or carried here, up to the income from businesses, wages and business property sold; the rest is
 * carried on (26 USC 179(b)(3)). The yearly limit of millions is above any plan here.
 */
const takeSection179 = (buffers: CourseBuffers, y: number, businessIncome: number): number => {
  const { state } = buffers
  const { year } = state
  const elected = state.section179[y]! + state.section179Carried
  const income = businessIncome + year.wages[0]! + year.wages[1]! + year.farm1231Gain + year.farmOtherGain
  const taken = Math.min(elected, Math.max(0, income))
  state.section179Carried = elected - taken
  buffers.years.section179Left[y] = state.section179Carried
  return taken
}

const assessYear = (plan: CompiledPlan, buffers: CourseBuffers, m: number, y: number, profit: number) => {
  const { state, years } = buffers
  const tax = assessReturn(plan, buffers, m, y, profit)
  carryLosses(plan, buffers, y, buffers.state.lasting.priceRatio)
  keepBaseYear(plan, state.averaging, state.householdYear.status, tax, y, buffers.state.lasting.priceRatio)
  years.taxableIncome[y] = tax.taxableIncome
  years.incomeTax[y] = tax.incomeTax
  years.selfEmploymentTax[y] = tax.selfEmploymentTax
  years.stateTax[y] = tax.stateIncomeTax
  years.localTax[y] = tax.localIncomeTax
  years.tax[y] = tax.balanceDue + tax.stateIncomeTax
  setSaversMatch(plan, buffers, y)
  state.averageRate = tax.taxableIncome > 0 ? Math.min(0.5, tax.incomeTax / tax.taxableIncome) : 0
}

/** The year's return by the law, as far as coverage and Medicare need it whatever the plan's taxes are. */
const assessReturn = (
  plan: CompiledPlan,
  buffers: CourseBuffers,
  m: number,
  y: number,
  profit: number,
): HouseholdTax => {
  const { state, years } = buffers
  fillReturn(plan, buffers, m, y, profit)
  const tax = assessAtPrices(
    plan,
    y,
    buffers.state.lasting.priceRatio,
    state.householdYear,
    state.householdTax,
  )
  years.adjustedGrossIncome[y] = tax.adjustedGrossIncome
  years.householdIncome[y] = tax.householdIncome
  years.medicareIncome[y] = tax.medicareIncome
  years.povertyPercent[y] = tax.povertyPercent
  years.filingStatus[y] = state.householdYear.status
  years.signers[y] = state.householdYear.people
  years.firstSigner[y] = state.slotPerson[0]!
  years.premiumTaxCredit[y] = tax.premiumTaxCredit
  noteIncomeBeyond(plan, buffers, m, y)
  return tax
}

/**
 * The match of the year on its way to each saver. What both people of a return took out this year and in the two before counts
 * against it, as it did for the credit it replaces (26 USC 25B(d)(2), from memory); the months up to filing are not looked at.
 */
const setSaversMatch = (plan: CompiledPlan, buffers: CourseBuffers, y: number) => {
  const { state } = buffers
  const law = plan.law.years[y]!
  if (law.saversMatchRate === 0) return
  let taken = 0
  for (let k = Math.max(0, y - 2); k <= y; k += 1) taken += state.retirementTaken[k]!
  const ratio = buffers.state.lasting.priceRatio
  const adjusted = state.householdTax.adjustedGrossIncome / ratio
  for (let p = 0; p < plan.people.length; p += 1) {
    const saved = (state.contributed[p]! + state.year.deferred[p]! - taken) / ratio
    state.matchDue[p] = ratio * saversMatch(law, state.householdYear.status, adjusted, saved)
  }
}

/** Taxes that the plan takes as a share, or leaves out; the income and the premium credit are still those of the law. */
const closePlainly = (plan: CompiledPlan, buffers: CourseBuffers, m: number, y: number, profit: number) => {
  const { state, years } = buffers
  const { advance } = state.year
  const tax = assessReturn(plan, buffers, m, y, profit)
  const business = profit + years.sideProfit[y]!
  const share =
    plan.law.method === taxCode.share ? plan.law.plainShare * Math.max(0, business + years.wages[y]!) : 0
  years.incomeTax[y] = share
  years.tax[y] = share + tax.excessAdvance - Math.max(0, tax.premiumTaxCredit - advance)
  state.averageRate = plan.law.method === taxCode.share ? plan.law.plainShare : 0
}

/** Wages and net self-employment earnings join the record; at the law's own prices, so that its indexing fits them. */
const rememberEarnings = (plan: CompiledPlan, buffers: CourseBuffers, y: number) => {
  const { state } = buffers
  const law = plan.law.benefits
  if (law === null) return
  const place = plan.firstYear + y - law.firstYear
  const ratio = buffers.state.lasting.priceRatio
  empty(state.benefits.lastEarnings)
  for (let p = 0; p < plan.people.length; p += 1) {
    let earned = state.year.wages[p]!
    if (plan.law.method === taxCode.law) {
      for (let slot = 0; slot < 2; slot += 1)
        if (state.slotPerson[slot] === p) earned += state.householdTax.netSelfEmploymentEarnings[slot]!
    } else {
      const part = plan.people.length === 1 ? 1 : plan.people[p]!.farmShare
      earned +=
        plan.law.selfEmploymentFactor * Math.max(0, buffers.years.farmProfit[y]! * part + state.year.side[p]!)
    }
    state.benefits.lastEarnings[p] = earned
    if (earned <= 0 || place >= state.benefits.earnings[p]!.length) continue
    state.benefits.earnings[p]![place] = state.benefits.earnings[p]![place]! + earned / ratio
    if (changesAmounts(law, state.benefits.people[p]!, plan.firstYear + y)) state.benefits.stale[p] = 1
  }
}

/** A farmer's year is paid whole in January; any other is settled in April after its installments. Refunds come in April. */
const scheduleTax = (plan: CompiledPlan, buffers: CourseBuffers, y: number) => {
  const { state, years } = buffers
  const { year } = state
  const ofState = plan.law.method === taxCode.law ? years.stateTax[y]! : 0
  const tax = years.tax[y]! - ofState
  const withheld = withheldForState(plan.law, year.withheld, tax, ofState)
  const fourth = state.quarterly
  const left = tax - (year.withheld - withheld) - year.estimatedPaid
  const farmer = isFarmerYear(plan, buffers, y)
  const wholeInJanuary = farmer || state.lastYearWasFarmer === 1
  if (plan.law.method === taxCode.share) {
    state.taxDueJanuary = left
  } else if (left > 0 && wholeInJanuary) state.taxDueJanuary = left
  else {
    state.taxDueJanuary = fourth
    state.taxDueApril = left - fourth
  }
  const leftOfState = ofState - withheld - year.statePaid
  years.taxLeft[y] = left + leftOfState
  years.stateTaxLeft[y] = leftOfState
  scheduleStateTax(plan, buffers, ofState, leftOfState, wholeInJanuary)
  state.lastYearWasFarmer = farmer ? 1 : 0
  state.lastTax = Math.max(0, tax)
  state.lastIncome = years.adjustedGrossIncome[y]!
  state.estimate = tax
}

const scheduleStateTax = (
  { law }: CompiledPlan,
  { state: { stateTax } }: CourseBuffers,
  tax: number,
  left: number,
  wholeInJanuary: boolean,
) => {
  // A state that asks for nothing ahead has no early day to be paid by either.
  const share = law.stateShares[0]!
  const inJanuary = left > 0 && wholeInJanuary && share > 0 ? left : stateTax.ahead * share
  stateTax.dueJanuary = inJanuary
  stateTax.dueWithReturn = left - inJanuary
  stateTax.lastTax = Math.max(0, tax)
  stateTax.estimate = tax
}

const isFarmerYear = (plan: CompiledPlan, buffers: CourseBuffers, y: number): boolean => {
  const { years, state } = buffers
  const farm = years.farmGross[y]! + Math.max(0, state.year.farm1231Gain + state.year.farmOtherGain)
  const total =
    farm +
    Math.max(0, years.sideProfit[y]!) +
    years.wages[y]! +
    years.pensions[y]! +
    state.year.interest +
    state.year.dividends +
    Math.max(0, state.year.gains) +
    years.retirementIncome[y]! +
    years.benefits[y]!
  return isFarmersIncome(plan.law.estimatedTax, farm, total)
}
