// One course of the plan, month by month: the same loop for the expected course, a storm and a drawn path. It fills the buffers and allocates nothing.
import { isFarmersIncome } from '#rules/estimated-tax.ts'
import { survivorFromMonths } from '#rules/social-security/benefits.ts'
import { type CompiledPlan, deductionYears } from '#runway/compile/compiled-plan.ts'
import { type CourseBuffers, notBought } from './course-buffers.ts'
import { runFarmMonth } from './farm-month.ts'
import { countCosts, settleMonth } from './household-month.ts'
import { earnMonth, heldIn } from './savings-month.ts'
import type { CourseShocks } from './shocks.ts'
import { closeYear } from './year-end.ts'
import { setBenefits, turnYear } from './year-turn.ts'

/** Runs the plan under the shocks. The result is in `buffers.months`, `buffers.years`, up to `buffers.endMonth`. */
export const runCourse = (plan: CompiledPlan, shocks: CourseShocks, buffers: CourseBuffers): void => {
  const end = endOfCourse(plan, shocks)
  buffers.endMonth = end
  beginCourse(plan, shocks, buffers)
  const { state, months } = buffers
  for (let m = 0; m < end; m += 1) {
    const season = (plan.firstMonth + m) % 12
    const y = Math.floor((plan.firstMonth + m) / 12) - plan.firstYear
    if (m > 0 && plan.priceStepsMonthly) state.level *= state.monthlyStep
    if (plan.restart !== null && m === plan.restart.month) restart(plan, buffers)
    const changed = meetPeople(plan, shocks, buffers, m)
    if (m === 0 || season === 0) turnYear(plan, shocks, buffers, m, y)
    else if (changed) setBenefits(plan, buffers, m, y)
    months.level[m] = state.level
    let returns = plan.moneyMovesAtStart ? 0 : earnMonth(plan, buffers)
    countCosts(plan, shocks, buffers, m, y, season)
    runFarmMonth(plan, shocks, buffers, m, y, season)
    settleMonth(plan, buffers, m, y, season)
    if (plan.moneyMovesAtStart) returns = earnMonth(plan, buffers)
    months.returns[m] = returns
    if (season === 11) closeYear(plan, buffers, m, y)
    recordBalances(plan, buffers, m, season)
  }
}

/** The books' balances in place of the course's: cash takes up the difference, what taxable accounts hold stays where it can. */
const restart = (plan: CompiledPlan, buffers: CourseBuffers) => {
  const { state } = buffers
  const { savings } = plan
  let left = Math.max(0, plan.restart!.spendable)
  for (let account = 0; account < savings.count; account += 1) {
    const kind = savings.kind[account]!
    if (kind > 1) continue
    const kept = kind === 1 ? Math.min(left, state.balance[account]!) : 0
    if (kind === 1 && state.balance[account]! > 0)
      state.basis[account] = (state.basis[account]! * kept) / state.balance[account]!
    state.balance[account] = kept
    left -= kept
  }
  state.balance[savings.cashAccount] = state.balance[savings.cashAccount]! + left
  if (plan.farm.described) state.farmCash = Math.max(0, plan.restart!.farmCash)
}

/** The month after the last: the plan's end, or the death of the last person. */
const endOfCourse = (plan: CompiledPlan, shocks: CourseShocks): number => {
  let last = plan.people.length === 0 ? plan.months : 0
  for (let p = 0; p < plan.people.length; p += 1) last = Math.max(last, shocks.deathMonth[p]!)
  return Math.max(0, Math.min(plan.months, last))
}

const beginCourse = (plan: CompiledPlan, shocks: CourseShocks, buffers: CourseBuffers) => {
  const { state } = buffers
  const { law } = plan
  state.balance.set(plan.savings.opening)
  state.basis.set(plan.savings.openingBasis)
  state.farmCash = plan.farm.described ? plan.farm.openingCash : 0
  state.level = 1
  state.monthlyStep = 1
  state.premiumLevel = 1
  state.careLevel = 1
  state.netFarmRing.fill(0)
  state.netFarmSum = 0
  state.deductions.fill(0)
  state.section179.fill(0)
  state.section179Carried = 0
  state.lastEarnings.fill(0)
  state.benefitWithheld.fill(0)
  state.monthsBack.fill(0)
  state.primary.fill(0)
  state.primaryStale.fill(1)
  state.alive.fill(0)
  state.working.fill(0)
  beginPurchases(plan, buffers)
  for (let p = 0; p < plan.people.length; p += 1) {
    state.earnings[p]!.set(plan.people[p]!.earnings)
    state.deathMonth[p] = shocks.deathMonth[p]!
    state.benefitPeople[p]!.claimMonth = plan.people[p]!.claimMonth
    state.benefitPeople[p]!.deathMonth = plan.firstMonth + shocks.deathMonth[p]!
  }
  state.matchDue.fill(0)
  state.taxDueJanuary = 0
  state.taxDueApril = 0
  state.lastTax = law.lastYearTax
  state.lastIncome = law.lastYearIncome
  state.lastYearWasFarmer = isFarmersIncome(law.estimatedTax, law.lastYearFarmShare, 1) ? 1 : 0
  state.averageRate = 0
}

/** Dated purchases of the time before the plan are made already, at the plan's first prices: what is left of their deductions counts. */
const beginPurchases = (plan: CompiledPlan, buffers: CourseBuffers) => {
  const { purchases } = plan.farm
  for (let p = 0; p < purchases.count; p += 1) {
    const month = purchases.month[p]!
    const made = month < 0 && purchases.waits[p] === 0
    buffers.boughtMonth[p] = made ? month : notBought
    if (!made) continue
    const age = plan.firstYear - Math.floor((plan.firstMonth + month) / 12)
    if (age === 0)
      buffers.state.section179[0] =
        buffers.state.section179[0]! + purchases.cost[p]! * purchases.section179[p]!
    for (let y = 0; y < plan.years && age + y < deductionYears; y += 1)
      buffers.state.deductions[y] =
        buffers.state.deductions[y]! + purchases.cost[p]! * purchases.deduction[p * deductionYears + age + y]!
  }
}

/** Who lives and works this month. True when a benefit may change: a claim, a death, a widow's or widower's 60th birthday. */
const meetPeople = (plan: CompiledPlan, shocks: CourseShocks, buffers: CourseBuffers, m: number): boolean => {
  const { state } = buffers
  const calendar = plan.firstMonth + m
  let changed = false
  for (let p = 0; p < plan.people.length; p += 1) {
    const person = plan.people[p]!
    const alive = m < shocks.deathMonth[p]! ? 1 : 0
    if (
      alive !== state.alive[p] ||
      calendar === person.claimMonth ||
      calendar === person.bornMonth + survivorFromMonths
    )
      changed = true
    state.alive[p] = alive
    const lost = shocks.lossOfWorkMonth[p]!
    state.working[p] = alive === 1 && !(m >= lost && m < lost + shocks.lossOfWorkMonths[p]!) ? 1 : 0
  }
  return changed
}

const recordBalances = (plan: CompiledPlan, buffers: CourseBuffers, m: number, season: number) => {
  const { months, state } = buffers
  const cash = heldIn(plan, buffers, 0)
  const taxable = heldIn(plan, buffers, 1)
  const traditional = heldIn(plan, buffers, 2)
  const roth = heldIn(plan, buffers, 3)
  months.cash[m] = cash
  months.taxable[m] = taxable
  months.traditional[m] = traditional
  months.roth[m] = roth
  const paid = state.year.withheld + state.year.estimatedPaid
  const thisYear = season === 11 ? 0 : (state.estimate * (season + 1)) / 12 - paid
  const owed = Math.max(0, state.taxDueJanuary + state.taxDueApril + thisYear)
  months.taxOwed[m] = owed
  months.spendable[m] =
    cash + taxable - owed + (plan.savings.retirementIsSpendable ? retirementAfterTax(plan, buffers, m) : 0)
}

/** Our own assumption: money from retirement accounts bears at least the lowest rate. */
const leastRate = 0.1

/** Retirement accounts after what taking them out today would cost: tax at last year's average rate, at least the least one, and the early addition. */
const retirementAfterTax = (plan: CompiledPlan, buffers: CourseBuffers, m: number): number => {
  const { savings } = plan
  const { state } = buffers
  const rate = plan.law.method === 0 ? 0 : Math.max(leastRate, state.averageRate)
  let worth = 0
  for (let account = 0; account < savings.count; account += 1) {
    const kind = savings.kind[account]!
    if (kind < 2) continue
    const owner = savings.owner[account]!
    const early = owner >= 0 && m < plan.people[owner]!.month59Half && plan.law.method === 2
    if (early && !savings.spendRetirementBeforeAge) continue
    const balance = state.balance[account]!
    const taxed = kind === 2 ? balance : early ? Math.max(0, balance - state.basis[account]!) : 0
    worth += balance - taxed * (rate + (early ? plan.law.earlyWithdrawalRate : 0))
  }
  return worth
}
