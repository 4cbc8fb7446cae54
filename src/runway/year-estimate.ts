// What the couple expects of the year in January: it sets the credit taken in advance, what is paid ahead, and the claim of tax on savings.
import { copyCarryforwards } from '#rules/carryforwards.ts'
import { isFarmersIncome, requiredPayment } from '#rules/estimated-tax.ts'
import type { HouseholdTax, HouseholdYear } from '#rules/household-year.ts'
import { drawCode, isSpendable, taxCode } from '#runway/compile/codes.ts'
import type { CompiledLaw, CompiledPlan } from '#runway/compile/compiled-plan.ts'
import { pensionAt, pensionWithheldAt } from './benefits/pensions.ts'
import type { CourseBuffers, CourseState } from './course-buffers.ts'
import { setAdvance } from './coverage/cover-by-month.ts'
import { expectWithdrawals } from './coverage/expected-withdrawals.ts'
import { keepAsked } from './coverage/keep-asked.ts'
import { coverYear } from './coverage/year-coverage.ts'
import { careCostsAt } from './household-month.ts'
import { fillPeople } from './household-return.ts'
import { keepWithinRooms, setRooms } from './savings/contribution-rooms.ts'
import { expectConversions } from './savings/conversions.ts'
import { expectHealthSavings, setHealthRooms } from './savings/health-savings.ts'
import { expectOwnPlans } from './savings/own-plans.ts'
import { withheldForState } from './state-tax/state-taxes.ts'

/** Sets who is covered by what, the advance credit, the year's estimate and its installments. */
export const estimateYear = (plan: CompiledPlan, buffers: CourseBuffers, m: number, y: number): void => {
  const { state } = buffers
  const { law } = plan
  for (let p = 0; p < plan.people.length; p += 1)
    state.year.wagesAhead[p] =
      state.year.wages[p]! +
      sumOver(plan.household.payReal, p * plan.months + m, monthsLeftInYear(plan, m)) * state.level
  const input = state.householdYear
  const byLaw = law.method === taxCode.law
  state.quarterly = 0
  state.stateTax.ahead = 0
  fillExpected(plan, buffers, m, y)
  state.year.earnedAhead = byLaw ? earnedBy(input) : plainIncome(plan, buffers, m, y)
  // With nobody to cover and no tax by the law, nothing hangs on the return that is expected.
  const tax =
    byLaw || plan.coverage.members.length > 0 ? expectReturn(plan, buffers, m, y) : state.householdTax
  keepAsked(buffers, y)
  const toCome = setAdvance(plan, buffers, m, y, tax)
  const adjusted = tax.adjustedGrossIncome / buffers.state.lasting.priceRatio
  setHealthRooms(plan, buffers, m, y, buffers.coverage)
  setRooms(plan, buffers, m, y, byLaw ? Math.max(0, adjusted) : -1)
  if (m === 0) keepWithinRooms(plan, buffers)
  if (byLaw) {
    state.estimate = tax.balanceDue + toCome
    state.stateTax.estimate = tax.stateIncomeTax
    setInstallments(plan, buffers, m, y)
  } else {
    state.stateTax.estimate = 0
    state.estimate = law.method === taxCode.share ? law.plainShare * state.year.earnedAhead : 0
  }
}

/** With what will be converted by the line of a year that is expected without it. */
const expectReturn = (plan: CompiledPlan, buffers: CourseBuffers, m: number, y: number): HouseholdTax => {
  const count = monthsLeftInYear(plan, m)
  const tax = coverYear(plan, buffers, m, y, count)
  if (plan.savings.conversions.count === 0) return tax
  // Worked again also where nothing can be converted: what was tried last was a dollar more.
  expectConversions(plan, buffers, m, y)
  return coverYear(plan, buffers, m, y, count)
}

/** Wages, and profit of each where it is one (26 USC 219(b)(1)(B), (c): on a joint return either may use the other's). */
const earnedBy = (input: HouseholdYear): number => {
  let earned = 0
  for (let slot = 0; slot < input.people; slot += 1)
    earned += input.wages[slot]! + Math.max(0, input.farmProfit[slot]! + input.otherSelfEmployment[slot]!)
  return earned
}

/** What was sold before the projection began is in the year; nothing else is expected to be. */
const expectOnlySoldSoFar = (input: HouseholdYear, year: CourseState['year']): void => {
  input.longTermGains = 0
  input.section1231 = year.farm1231Gain
  input.businessGains = year.farmOtherGain
}

/** Months of the calendar year from month `m` of the plan on, the plan's end not passed. */
const monthsLeftInYear = (plan: CompiledPlan, m: number): number =>
  Math.min(12 - ((plan.firstMonth + m) % 12), plan.months - m)

const sumOver = (values: Float64Array, from: number, count: number): number => {
  let sum = 0
  for (let k = from; k < from + count; k += 1) sum += values[k]!
  return sum
}

const expectedFarmProfit = (plan: CompiledPlan, buffers: CourseBuffers, m: number, y: number): number => {
  const { state } = buffers
  if (plan.farm.described) {
    const count = monthsLeftInYear(plan, m)
    const profit =
      sumOver(state.ahead.profit, m, count) * state.januaryLevel -
      sumOver(plan.farm.loanInterest, m, count) -
      state.deductions[y]!
    // What is carried here or elected already; an estimate counts it against the farm's own profit only.
    return profit - Math.min(Math.max(0, profit), state.section179[y]! + state.section179Carried)
  }
  if (plan.draw.policy !== drawCode.steps) return -state.deductions[y]!
  const drawn =
    sumOver(plan.draw.planned, m, monthsLeftInYear(plan, m)) * (plan.draw.withPrices ? state.level : 1)
  return drawn - state.deductions[y]!
}

const plainIncome = (plan: CompiledPlan, buffers: CourseBuffers, m: number, y: number): number => {
  const { household } = plan
  const count = monthsLeftInYear(plan, m)
  let real = sumOver(household.sideNetReal, 2 * plan.months + m, count)
  for (let p = 0; p < plan.people.length; p += 1)
    real +=
      sumOver(household.sideNetReal, p * plan.months + m, count) +
      sumOver(household.payReal, p * plan.months + m, count)
  return Math.max(0, expectedFarmProfit(plan, buffers, m, y) + real * buffers.state.level)
}

const fillExpected = (plan: CompiledPlan, buffers: CourseBuffers, m: number, y: number) => {
  const { state } = buffers
  const { household, savings } = plan
  const input = state.householdYear
  const { year } = state
  const count = monthsLeftInYear(plan, m)
  fillPeople(plan, buffers, m, y)
  let unowned = sumOver(household.sideNetReal, 2 * plan.months + m, count) * state.level
  const profit = expectedFarmProfit(plan, buffers, m, y) + year.farmSales - year.farmDeductions
  const gross = sumOver(state.ahead.sales, m, count) * state.januaryLevel + year.farmSales
  for (let slot = 0; slot < 2; slot += 1) {
    const p = state.slotPerson[slot]!
    const alone = input.people === 1
    const part = slot >= input.people ? 0 : alone || p < 0 ? 1 : plan.people[p]!.farmShare
    input.farmProfit[slot] = profit * part
    input.farmGross[slot] = gross * part
    const known = p >= 0 && slot < input.people
    const from = Math.max(0, p) * plan.months + m
    input.wages[slot] = known ? sumOver(household.payReal, from, count) * state.level + year.wages[p]! : 0
    input.otherSelfEmployment[slot] = known
      ? sumOver(household.sideNetReal, from, count) * state.level + year.side[p]!
      : 0
    input.inheritedIra[slot] = p >= 0 ? state.required.inheritedIncome[p]! : 0
    input.pensions[slot] = known ? year.pensions[p]! + pensionsAhead(plan, state, p, from, count) : 0
    if (slot === 0) {
      input.otherSelfEmployment[0] = input.otherSelfEmployment[0]! + unowned
      unowned = 0
    }
  }
  let interest = year.interest
  let dividends = 0
  for (let account = 0; account < savings.count; account += 1) {
    interest +=
      state.balance[account]! *
      (isSpendable(savings.kind[account]!) ? state.interestPerDollar[account]! * count : 0)
    dividends +=
      state.balance[account]! *
      (isSpendable(savings.kind[account]!) ? state.dividendPerDollar[account]! * count : 0)
  }
  input.interest = interest
  input.ordinaryDividends = dividends
  input.qualifiedDividends = dividends
  expectOnlySoldSoFar(input, year)
  copyCarryforwards(state.losses.carried, input.carried)
  input.iraDistributions = requiredOf(state, 0) + requiredOf(state, 1)
  input.socialSecurity = (state.benefits.monthly[0]! + state.benefits.monthly[1]!) * count
  input.secondIraDistributions = state.slotPerson[1] === 1 ? requiredOf(state, 1) : 0
  input.secondSocialSecurity = state.slotPerson[1] === 1 ? state.benefits.monthly[1]! * count : 0
  input.otherIncome = 0
  input.earlyWithdrawalAmount = year.earlyWithdrawals
  input.healthSavingsTaxed = 0
  input.healthSavingsEarly = 0
  input.hsa = expectHealthSavings(plan, buffers, m, y, plan.coverage.listed)
  input.traditionalIra = 0
  input.rothIra = 0
  input.sep = expectOwnPlans(plan, buffers, m, y, count)
  fillExpectedCosts(plan, buffers, m, count)
  expectWithdrawals(plan, buffers, m, count)
}

const requiredOf = ({ required }: CourseState, p: number): number =>
  required.own[p]! + required.inheritedIncome[p]!

const pensionsAhead = (plan: CompiledPlan, state: CourseState, p: number, from: number, count: number) => {
  let sum = 0
  for (let cell = from; cell < from + count; cell += 1) sum += pensionAt(plan, state, p, cell)
  return sum
}

/** Deductible premiums and care of children as they stand in January. */
const fillExpectedCosts = (plan: CompiledPlan, buffers: CourseBuffers, m: number, count: number) => {
  const { state } = buffers
  const { health } = plan
  const input = state.householdYear
  let deductible = state.year.premiumsDeductible
  for (let k = m; k < m + count; k += 1)
    deductible += health.premiumsDeductible[k]! * state.premiumLevel * health.premiumFactor[k]!
  input.otherHealthPremiums = deductible
  input.careCosts = state.year.careCosts
  if (!plan.household.hasCareCosts) return
  for (let k = m; k < m + count; k += 1) input.careCosts += careCostsAt(plan, buffers, k)
}

/**
 * Two thirds of gross income from farming, last year or expected this year: nothing is paid ahead (26 USC 6654(i)).
 * Else the smaller of most of this year's expected tax and last year's whole tax (more after a high income), in four parts.
 */
const setInstallments = (plan: CompiledPlan, buffers: CourseBuffers, m: number, y: number) => {
  const { state } = buffers
  const { law } = plan
  const input = state.householdYear
  const gross = input.farmGross[0]! + input.farmGross[1]!
  const other =
    input.wages[0]! +
    input.wages[1]! +
    input.pensions[0]! +
    input.pensions[1]! +
    Math.max(0, input.otherSelfEmployment[0]!) +
    Math.max(0, input.otherSelfEmployment[1]!)
  const total =
    gross + other + input.interest + input.ordinaryDividends + input.iraDistributions + input.socialSecurity
  state.expectsFarmerYear = isFarmersIncome(law.estimatedTax, gross, total) ? 1 : 0
  if (state.lastYearWasFarmer === 1 || state.expectsFarmerYear === 1) return
  const toCome = withheldAhead(plan, buffers, m)
  const { stateTax } = state
  const ofState = withheldForState(law, toCome, state.estimate, stateTax.estimate)
  const { paid, withheld, statePaid } = m === 0 ? law.soFar : nothingSoFar
  const season = (plan.firstMonth + m) % 12
  const lastTax = y > 0 || law.lastYearTax > 0 ? state.lastTax : null
  const ahead = aheadFor(law, state, state.estimate, lastTax, toCome - ofState + withheld)
  state.quarterly = (Math.max(0, ahead - (paid - withheld)) * partOfEach(federalShares, season)) / 4
  const lastOfState = y > 0 || law.lastYearStateTax > 0 ? stateTax.lastTax : null
  stateTax.ahead =
    aheadFor(law, state, stateTax.estimate, lastOfState, ofState + statePaid) *
    partOfEach(law.stateShares, season)
}

const nothingSoFar = { paid: 0, withheld: 0, statePaid: 0 }

/** A quarter in April, June, September and January. */
const federalShares = Float64Array.of(0.25, 0, 0, 0.25, 0, 0.25, 0, 0, 0.25, 0, 0, 0)

/**
 * What is left to pay ahead goes by the shares of the dates still to come: over their sum. Of a year that has begun the missed
 * ones are caught up so. 0 where none asks for anything.
 */
const partOfEach = (shares: Float64Array, season: number): number => {
  let left = shares[0]!
  for (let k = Math.max(1, season); k < 12; k += 1) left += shares[k]!
  return left > 0 ? 1 / left : 0
}

/** What must be paid ahead for the year. A state's is reckoned by the federal shares and bounds. */
const aheadFor = (
  { estimatedTax }: CompiledLaw,
  { lastIncome }: CourseState,
  estimate: number,
  lastTax: number | null,
  withheld: number,
): number =>
  estimate - withheld < estimatedTax.nothingUnder
    ? 0
    : Math.max(0, requiredPayment(estimatedTax, false, estimate, lastTax, lastIncome, false) - withheld)

const withheldAhead = (plan: CompiledPlan, buffers: CourseBuffers, m: number): number => {
  const count = monthsLeftInYear(plan, m)
  const { household } = plan
  const { state } = buffers
  let withheld = 0
  for (let p = 0; p < plan.people.length; p += 1) {
    const from = p * plan.months + m
    withheld += sumOver(household.payWithheldReal, from, count) * state.level
    for (let cell = from; household.hasPensions && cell < from + count; cell += 1)
      withheld += pensionWithheldAt(plan, state, p, cell)
  }
  return withheld
}
