// What the household expects in January to take from savings over the year: it counts as income as far as it comes from retirement
// accounts and from gains.
import { ofChildren } from '#rules/social-security/household-benefits.ts'
import { pensionAt, pensionWithheldAt } from '#runway/benefits/pensions.ts'
import { accountCode, drawCode, isSpendable } from '#runway/compile/codes.ts'
import type { CompiledPlan } from '#runway/compile/compiled-plan.ts'
import { accountParts } from '#runway/compile/compiled-retirement.ts'
import type { CourseBuffers } from '#runway/course-buffers.ts'
import { empty } from '#runway/figures/emptied.ts'
import { atPrices, careOfMonth } from '#runway/household-month.ts'
import { isEarly } from '#runway/savings/early.ts'
import { isPaidEvenly } from '#runway/savings/even-months.ts'
import { convertedIn, isNewRoth, youngConversions } from '#runway/savings/roth-layers.ts'

/**
 * What last year's income left uncovered, at this year's prices, with this year's one-offs in place of last year's; while no whole
 * year lies behind, what the plan's own lines leave, since a month or two of autumn say little of a year. So a course begun in
 * December expects of January what one begun in January does. Met from the accounts in the plan's order, as they stand now.
 */
export const expectWithdrawals = (
  plan: CompiledPlan,
  buffers: CourseBuffers,
  m: number,
  count: number,
): void => {
  const { state } = buffers
  const { savings } = plan
  const input = state.householdYear
  const y = Math.floor((plan.firstMonth + m) / 12) - plan.firstYear
  const need = m < 12 ? firstNeed(plan, buffers, m, count) : (state.cover.needReal * state.level * count) / 12
  expectEvenPayments(plan, buffers, m, count)
  expectCare(plan, buffers, m, count)
  const { cover } = state
  cover.onceTaken = input.iraDistributions
  cover.onceGains = 0
  let left = need + oneOffs(plan, buffers, m, count) - input.iraDistributions
  // What the months themselves ask for; what is taken after it is taken once.
  let steady = Math.max(0, Math.min(left, need - input.iraDistributions))
  for (let place = 0; place < savings.spendOrder.length && left > 0; place += 1) {
    const account = savings.spendOrder[place]!
    if (isPaidEvenly(plan, buffers, account, m)) continue
    const kind = savings.kind[account]!
    const early = !isSpendable(kind) && isEarly(plan, buffers, account, m)
    const part = savings.spendPart[place]!
    const isFree = part === accountParts.contributions || part === accountParts.care
    if (early && !isFree && !savings.spendRetirementBeforeAge) continue
    if (kind === accountCode.health) {
      const spent = expectHealthSpent(plan, buffers, place, left, early)
      left -= spent
      steady = Math.max(0, steady - spent)
      continue
    }
    const balance = state.balance[account]!
    // Its contributions, where they stand in the order before the account, have been counted.
    const basis = part === accountParts.rest ? 0 : state.basis[account]!
    const there = part === accountParts.rest ? balance - state.basis[account]! : balance
    const taken = Math.min(
      left,
      Math.max(0, part === accountParts.contributions ? Math.min(there, basis) : there),
    )
    left -= taken
    if (taken <= 0) continue
    const once = Math.max(0, taken - steady) / taken
    steady = Math.max(0, steady - taken)
    if (kind === accountCode.taxable) {
      const gain = taken - (taken * basis) / balance
      input.longTermGains += gain
      cover.onceGains += gain * once
    }
    const income = incomeIn(plan, buffers, account, taken, basis, early, y)
    expectDistribution(plan, buffers, account, income)
    cover.onceTaken += income * once
    if (!early) continue
    input.earlyWithdrawalAmount += income
    if (kind === accountCode.roth)
      input.earlyWithdrawalAmount += youngConversions(plan, state, account, y, taken - basis)
  }
}

/** Income in what is taken from a retirement account of so much basis. */
const incomeIn = (
  plan: CompiledPlan,
  { state }: CourseBuffers,
  account: number,
  taken: number,
  basis: number,
  early: boolean,
  y: number,
): number => {
  const kind = plan.savings.kind[account]!
  if (kind === accountCode.traditional) return taken
  return kind === accountCode.roth && (early || isNewRoth(plan, state, account, y))
    ? Math.max(0, taken - basis - convertedIn(plan, state, account))
    : 0
}

/** What health savings may pay of a year to come: care that is behind unpaid, and what the plan expects of it. */
const expectCare = (plan: CompiledPlan, buffers: CourseBuffers, m: number, count: number): void => {
  const { health, careLevel } = buffers.state
  if (!plan.savings.hasHealthSavings) return
  empty(health.countedForCare)
  health.careExpected = health.careUnpaid
  for (let k = m; k < m + count; k += 1) health.careExpected += careOfMonth(plan, buffers, k) * careLevel
}

/** Takes up to `wanted` dollars of the health savings at a place of the order, as income what is not for care. Returns what is taken. */
const expectHealthSpent = (
  { savings }: CompiledPlan,
  { state }: CourseBuffers,
  place: number,
  wanted: number,
  early: boolean,
): number => {
  const { health, householdYear } = state
  const account = savings.spendOrder[place]!
  const there = state.balance[account]! - health.countedForCare[account]!
  const most = savings.spendPart[place] === accountParts.care ? Math.min(there, health.careExpected) : there
  const taken = Math.max(0, Math.min(wanted, most))
  const forCare = Math.min(taken, health.careExpected)
  health.careExpected -= forCare
  health.countedForCare[account] = health.countedForCare[account]! + forCare
  householdYear.healthSavingsTaxed += taken - forCare
  if (early) householdYear.healthSavingsEarly += taken - forCare
  return taken
}

/** As set for the year; an account in which they begin later in it counts from the next one on. */
const expectEvenPayments = (plan: CompiledPlan, buffers: CourseBuffers, m: number, count: number): void => {
  for (let account = 0; account < plan.savings.count; account += 1)
    if (isPaidEvenly(plan, buffers, account, m))
      expectDistribution(plan, buffers, account, buffers.state.evenMonthly[account]! * count)
}

/** Income of the year, and of the person whose account it comes from; out of an inherited one states may tax it otherwise. */
const expectDistribution = (
  plan: CompiledPlan,
  { state }: CourseBuffers,
  account: number,
  amount: number,
): void => {
  const input = state.householdYear
  const ofSecond = plan.savings.owner[account] === 1 && state.slotPerson[1] === 1
  input.iraDistributions += amount
  if (ofSecond) input.secondIraDistributions += amount
  if (plan.savings.isInherited[account] === 0) return
  const slot = ofSecond ? 1 : 0
  input.inheritedIra[slot] = input.inheritedIra[slot]! + amount
}

/** The costs that the plan lists less the income it lists. */
const firstNeed = (plan: CompiledPlan, buffers: CourseBuffers, m: number, count: number): number => {
  const { state } = buffers
  const { household, health } = plan
  const kept = state.lasting.livingKept
  let need = -expectedDraws(plan, buffers, m, count)
  for (let k = m; k < m + count; k += 1) {
    const living = atPrices(buffers, household.smooth, k)
    const premiums = (health.premiumsDeductible[k]! + health.premiumsOther[k]!) * state.premiumLevel
    const care = careOfMonth(plan, buffers, k) * state.careLevel
    const loans = household.loanPayments[k]! - household.loanDrawn[k]!
    need +=
      living * kept + premiums + care + loans - household.sideNetReal[2 * plan.months + k]! * state.level
    need -= state.benefits.monthly[ofChildren]! + household.ownMoneyReal[k]! * state.level
    for (let p = 0; p < plan.people.length; p += 1) {
      if (state.alive[p] === 0) continue
      const cell = p * plan.months + k
      const pay = household.payReal[cell]! - household.payWithheldReal[cell]!
      need -= (pay + household.sideNetReal[cell]!) * state.level + state.benefits.monthly[p]!
      need -= pensionAt(plan, state, p, cell) - pensionWithheldAt(plan, state, p, cell)
    }
  }
  return need
}

/** Steps as planned; any other draw as the farm's expected profit before depreciation. */
const expectedDraws = (plan: CompiledPlan, { state }: CourseBuffers, m: number, count: number): number => {
  let steps = 0
  let profit = 0
  for (let k = m; k < m + count; k += 1) {
    steps += plan.draw.planned[k]!
    profit += state.ahead.profit[k]!
  }
  if (plan.draw.policy === drawCode.steps) return steps * (plan.draw.withPrices ? state.level : 1)
  return plan.farm.described ? Math.max(0, profit * state.januaryLevel) : 0
}

const oneOffs = (plan: CompiledPlan, { state }: CourseBuffers, m: number, count: number): number => {
  const { household } = plan
  let sum = 0
  for (let k = m; k < m + count; k += 1)
    sum += household.oneOffReal[k]! * state.level + household.oneOffFixed[k]!
  return sum
}

/** December of a whole year: what its income left uncovered, one-offs apart, at first prices. */
export const noteNeed = ({ state }: CourseBuffers): void => {
  state.cover.needReal = state.year.need / state.level
}
