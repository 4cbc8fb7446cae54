// One course of the plan, month by month: the same loop for the expected course, a storm and a drawn path. It fills the buffers and allocates nothing.
import type { Month } from '#calendar/month.ts'
import { copyCarryforwards } from '#rules/carryforwards.ts'
import { isFarmersIncome } from '#rules/estimated-tax.ts'
import { survivorFromMonths } from '#rules/social-security/claim-factors.ts'
import { type CompiledPlan, deductionYears } from '#runway/compile/compiled-plan.ts'
import { beginBenefits } from './benefits/benefit-state.ts'
import { meetBenefits } from './benefits/year-benefits.ts'
import { type CourseBuffers, notBought } from './course-buffers.ts'
import { countFactors } from './coverage/year-coverage.ts'
import { lookAhead, lookAnew } from './farm/farm-ahead.ts'
import { callOnFarm, runFarmMonth } from './farm/farm-month.ts'
import { putToWork } from './farm/purchase-work.ts'
import { beginAveraging } from './farm-averaging-years.ts'
import { keepMonth } from './figures/keep-month.ts'
import { emptyTable } from './figures/month-table.ts'
import { countCosts, settleMonth } from './household-month.ts'
import { beginReturns } from './loss-years.ts'
import { beginMarks, markMonth } from './milestones.ts'
import { takeOwnAccounts } from './parting.ts'
import { bringTo, countHeld, deposit, earnMonth, fallOfMarkets } from './savings/savings-month.ts'
import { retirementSpendable, taxOwedNow } from './savings/spendable.ts'
import type { CourseShocks } from './shocks.ts'
import { closeYear } from './year-end.ts'
import { turnYear } from './year-turn.ts'

/** What a course is run under, and where it writes. */
interface Course {
  shocks: CourseShocks
  buffers: CourseBuffers
}

/**
 * Runs the plan under the shocks. The result is in `buffers`: its marks, its years, and up to `endMonth` the months that it keeps.
 * `isDecided` is asked after each month: the course ends there once what is wanted of it is known.
 */
export const runCourse = (
  given: CompiledPlan,
  shocks: CourseShocks,
  buffers: CourseBuffers,
  isDecided?: (m: number) => boolean,
): void => runCourses(given, [{ shocks, buffers }], isDecided)

/** Several courses abreast, a month of each in turn: what the processor has at hand of a month's code and of the plan serves them all. */
export const runCourses = (
  given: CompiledPlan,
  courses: readonly Course[],
  isDecided?: (m: number) => boolean,
): void => {
  const plans = courses.map(({ shocks, buffers }) => {
    const plan = seatedAs(given, shocks.seats)
    beginCourse(plan, shocks, buffers)
    return plan
  })
  for (let m = 0; m < given.months; m += 1) {
    for (let k = 0; k < courses.length; k += 1) {
      const { shocks, buffers } = courses[k]!
      if (m >= buffers.endMonth) continue
      runMonth(plans[k]!, shocks, buffers, m)
      if (isDecided?.(m)) buffers.endMonth = m + 1
    }
  }
}

const runMonth = (plan: CompiledPlan, shocks: CourseShocks, buffers: CourseBuffers, m: number): void => {
  const { state, month } = buffers
  const season = (plan.firstMonth + m) % 12
  const y = Math.floor((plan.firstMonth + m) / 12) - plan.firstYear
  if (m === plan.savings.broughtTo.month) bringTo(plan, buffers)
  if (m > 0 && plan.priceStepsMonthly) {
    state.level *= state.monthlyStep
    state.careLevel *= state.monthlyCareStep
  }
  const changed = meetPeople(plan, shocks, buffers, m)
  if (m === 0 || season === 0) turnYear(plan, shocks, buffers, m, y)
  else if (changed) {
    meetBenefits(plan, buffers, m, y)
    countFactors(plan, buffers, m, y)
  }
  month.level = state.level
  let returns = m === plan.savings.marketFall.month ? fallOfMarkets(plan, buffers) : 0
  if (!plan.moneyMovesAtStart) returns += earnMonth(plan, buffers)
  countCosts(plan, shocks, buffers, m, y, season)
  runFarmMonth(plan, shocks, buffers, m, y)
  settleMonth(plan, buffers, m, y, season)
  if (plan.moneyMovesAtStart) returns += earnMonth(plan, buffers)
  month.returns = returns
  if (season === 11) closeYear(plan, buffers, m, y)
  countBalances(plan, buffers, m, season)
  markMonth(plan, buffers, m)
  keepMonth(buffers, m)
}

/** The plan with the markets of its waiting lists as a drawn course has them. */
const seatedAs = (plan: CompiledPlan, seats: number): CompiledPlan => {
  const seated = plan.farm.bySeats[seats]
  return seated === undefined ? plan : { ...plan, farm: { ...plan.farm, ...seated } }
}

/** The month after the last: the plan's end, or the death of the last person. */
const endOfCourse = (plan: CompiledPlan, shocks: CourseShocks): number => {
  let last = plan.people.length === 0 ? plan.months : 0
  for (let p = 0; p < plan.people.length; p += 1) last = Math.max(last, shocks.deathMonth[p]!)
  return Math.max(0, Math.min(plan.months, last))
}

const beginCourse = (plan: CompiledPlan, shocks: CourseShocks, buffers: CourseBuffers) => {
  const { state } = buffers
  buffers.endMonth = endOfCourse(plan, shocks)
  if (buffers.table !== null) buffers.table = emptyTable(plan.firstMonth as Month, buffers.endMonth)
  const { law } = plan
  state.balance.set(plan.savings.opening)
  state.basis.set(plan.savings.openingBasis)
  state.evenMonthly.fill(0)
  state.converted.fill(0)
  state.rothSince.set(plan.savings.rothSince)
  state.farmCash = plan.farm.described ? plan.farm.openingCash : 0
  state.ventureCash.set(plan.household.ventures.opening)
  state.level = plan.opening.prices
  state.monthlyStep = 1
  state.monthlyCareStep = 1
  state.premiumLevel = plan.opening.premiums
  state.medicareLevel = plan.opening.medicare
  state.careLevel = plan.opening.care
  state.deductions.fill(0)
  state.section179.fill(0)
  state.section179Carried = law.carried.section179
  state.alive.fill(0)
  state.working.fill(0)
  state.workAgainMonth.fill(0)
  state.nextMeeting = 0
  beginMarks(plan, buffers)
  beginFarm(plan, buffers)
  for (let p = 0; p < plan.people.length; p += 1) state.deathMonth[p] = shocks.deathMonth[p]!
  beginBenefits(plan, state.benefits, state.deathMonth)
  state.matchDue.fill(0)
  state.health.careUnpaid = 0
  state.retirementTaken.fill(0)
  state.taxDueJanuary = law.lastYearDue.january
  state.taxDueApril = law.lastYearDue.april
  copyCarryforwards(law.carried, state.losses.carried)
  state.losses.carried.section179 = 0
  state.losses.refundDue = law.lossRefundDue
  if (law.farmLossesGoBack) beginReturns(law, state)
  beginAveraging(plan, state.averaging)
  state.lastTax = law.lastYearTax
  state.stateTax.dueJanuary = law.lastYearDue.stateJanuary
  state.stateTax.dueWithReturn = law.lastYearDue.stateReturn
  state.stateTax.lastTax = law.lastYearStateTax
  state.lastIncome = law.lastYearIncome
  state.lastYearWasFarmer = isFarmersIncome(law.estimatedTax, law.lastYearFarmShare, 1) ? 1 : 0
  state.averageRate = 0
  state.cover.needReal = 0
  state.cover.incomeBeyondReal = 0
}

const beginFarm = (plan: CompiledPlan, buffers: CourseBuffers) => {
  const { state } = buffers
  const { netBefore } = plan.farm
  state.netFarmSum = 0
  for (let k = 0; k < 12; k += 1) {
    state.netFarmRing[k] = netBefore[k]!
    state.netFarmSum += netBefore[k]!
  }
  state.ahead.known = 0
  state.ahead.addedCash.fill(0)
  state.ahead.hands.saved.fill(0)
  state.ahead.worthBack.fill(0)
  beginPurchases(plan, buffers)
}

/** Dated purchases of the time before the plan are made already, at the plan's first prices: what is left of their deductions counts, unless the books have told it. */
const beginPurchases = (plan: CompiledPlan, buffers: CourseBuffers) => {
  const { purchases, stockSpread } = plan.farm
  buffers.state.deductions.set(stockSpread.openingDeductions)
  buffers.state.section179[0] = stockSpread.openingSection179
  buffers.state.purchasesLeft = 0
  for (let p = 0; p < purchases.count; p += 1) {
    const month = purchases.month[p]!
    const made = month < 0 && purchases.waits[p] === 0
    buffers.boughtMonth[p] = made ? month : notBought
    if (month < plan.months && !made) buffers.state.purchasesLeft += 1
    if (!made) continue
    putToWork(plan, buffers, p)
    if (stockSpread.isByBooks) continue
    const age = plan.firstYear - Math.floor((plan.firstMonth + month) / 12)
    if (age === 0)
      buffers.state.section179[0] =
        buffers.state.section179[0]! + purchases.cost[p]! * purchases.section179[p]!
    for (let y = 0; y < plan.years && age + y < deductionYears; y += 1)
      buffers.state.deductions[y] =
        buffers.state.deductions[y]! + purchases.cost[p]! * purchases.deduction[p * deductionYears + age + y]!
  }
}

/**
 * Who lives and works this month; the farm looks ahead anew when either changes. True when a benefit may change: a claim, a
 * death, a widow's or widower's 60th birthday, a child that grows up.
 */
const meetPeople = (plan: CompiledPlan, shocks: CourseShocks, buffers: CourseBuffers, m: number): boolean => {
  const { state } = buffers
  let changed = m > 0 && childrenChange(plan, m)
  if (m < state.nextMeeting) {
    lookAhead(plan, buffers, m)
    return changed
  }
  const calendar = plan.firstMonth + m
  let handsChanged = false
  for (let p = 0; p < plan.people.length; p += 1) {
    const person = plan.people[p]!
    const alive = m < shocks.deathMonth[p]! ? 1 : 0
    const working = alive === 1 && worksAt(plan, shocks, buffers, p, m) ? 1 : 0
    if (alive !== state.alive[p] || working !== state.working[p]) handsChanged = true
    if (
      alive !== state.alive[p] ||
      calendar === person.claimMonth ||
      calendar === person.bornMonth + survivorFromMonths
    )
      changed = true
    if (alive < state.alive[p]!) state.benefits.stale[p] = 1
    state.alive[p] = alive
    takeOwnAccounts(plan, buffers, p, m)
    state.working[p] = working
  }
  state.nextMeeting = nextMeeting(plan, shocks, buffers, m)
  keepForThoseLeft(plan, buffers)
  if (handsChanged) lookAnew(buffers, m)
  lookAhead(plan, buffers, m)
  return changed
}

const keepForThoseLeft = (plan: CompiledPlan, { state }: CourseBuffers): void => {
  const isLeftAlone = plan.people.length === 2 && state.alive[0]! + state.alive[1]! === 1
  state.lasting.livingKept = isLeftAlone ? plan.household.survivorShare : 1
  state.lasting.farmKept = isLeftAlone ? plan.farm.shareAfterDeath : 1
}

/** The next month in which someone may die, stop or take up work, or come to a claim; a year of the course on at the latest. */
const nextMeeting = (
  plan: CompiledPlan,
  shocks: CourseShocks,
  { state }: CourseBuffers,
  m: number,
): number => {
  const year = Math.floor(m / 12)
  let next = (year + 1) * 12
  for (let p = 0; p < plan.people.length; p += 1) {
    const person = plan.people[p]!
    next = sooner(next, shocks.deathMonth[p]!, m)
    next = sooner(next, shocks.lossOfWorkMonth[p * plan.years + year]!, m)
    next = sooner(next, state.workAgainMonth[p]!, m)
    next = sooner(next, person.claimMonth - plan.firstMonth, m)
    next = sooner(next, person.bornMonth + survivorFromMonths - plan.firstMonth, m)
  }
  return next
}

const sooner = (next: number, event: number, m: number): number => (event > m && event < next ? event : next)

const childrenChange = ({ household }: CompiledPlan, m: number): boolean =>
  household.benefitChildren[m] !== household.benefitChildren[m - 1] ||
  household.childrenInCare[m] !== household.childrenInCare[m - 1]

/** A spell without work begins in its month unless another still lasts. */
const worksAt = (
  plan: CompiledPlan,
  shocks: CourseShocks,
  buffers: CourseBuffers,
  p: number,
  m: number,
): boolean => {
  const { workAgainMonth } = buffers.state
  if (m < workAgainMonth[p]!) return false
  if (m !== shocks.lossOfWorkMonth[p * plan.years + Math.floor(m / 12)]) return true
  workAgainMonth[p] = m + shocks.lossOfWorkMonths[p]!
  return m >= workAgainMonth[p]!
}

/** In December the year is closed: all that is owed has its date. */
const owedAtEnd = (buffers: CourseBuffers, season: number): number =>
  taxOwedNow(buffers, season === 11 ? 0 : season + 1)

/** What markets and the year's tax took from savings below the floor, the farm first makes good as far as it can spare it. */
const countBalances = (plan: CompiledPlan, buffers: CourseBuffers, m: number, season: number) => {
  const { month } = buffers
  countHeld(plan, buffers, m)
  month.taxOwed = owedAtEnd(buffers, season)
  month.retirementSpendable = retirementSpendable(plan, buffers, m)
  month.spendable = month.cash + month.taxable + month.retirementSpendable - month.taxOwed
  const called = callOnFarm(plan, buffers, month.floor - month.spendable)
  deposit(plan, buffers, plan.savings.cashAccount, called)
  month.cash += called
  month.spendable += called
}
