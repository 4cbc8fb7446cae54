// January: prices step up, accounts get the year's returns, benefits and required distributions are set, the year's tax is estimated.
import { distributionDivisor } from '#rules/required-distributions.ts'
import { accountCode } from '#runway/compile/codes.ts'
import type { CompiledPlan } from '#runway/compile/compiled-plan.ts'
import { beginYearOfBenefits } from './benefits/year-benefits.ts'
import type { CourseBuffers, CourseState } from './course-buffers.ts'
import { empty } from './figures/emptied.ts'
import { startYearTotals } from './figures/year-start.ts'
import { ownerNow } from './savings/early.ts'
import { setInherited } from './savings/inherited.ts'
import type { CourseShocks } from './shocks.ts'
import { estimateYear } from './year-estimate.ts'
import { setYearPrices } from './year-prices.ts'

/** Runs at the start of each January, and at the start of the plan's first month. */
export const turnYear = (
  plan: CompiledPlan,
  shocks: CourseShocks,
  buffers: CourseBuffers,
  m: number,
  y: number,
): void => {
  const { state } = buffers
  if (m > 0) stepPrices(plan, shocks, buffers, y)
  setYearPrices(plan, buffers, y)
  if (plan.priceStepsMonthly) {
    state.monthlyStep = (1 + shocks.inflation[y]!) ** (1 / 12)
    state.monthlyCareStep = (1 + careStep(plan, shocks, y + 1)) ** (1 / 12)
  }
  setReturns(plan, shocks, buffers, y)
  setRequired(plan, buffers, m, y)
  startYearTotals(plan, buffers, m, y)
  beginYearOfBenefits(plan, buffers, m, y)
  estimateYear(plan, buffers, m, y)
}

/** The first year may be a part of one: prices and care then rise by that part, premiums by the whole (they are set once a year). */
const stepPrices = (plan: CompiledPlan, shocks: CourseShocks, buffers: CourseBuffers, y: number) => {
  const { state } = buffers
  const part = y === 1 ? plan.firstStep : 1
  if (!plan.priceStepsMonthly) {
    state.level *= (1 + shocks.inflation[y - 1]!) ** part
    state.careLevel *= (1 + careStep(plan, shocks, y)) ** part
  }
  const { premiums, medicare } = plan.growth
  const year = plan.firstYear + y
  const prices = 1 + shocks.inflation[y - 1]!
  state.premiumLevel *= year > premiums.until ? prices : 1 + shocks.premiumGrowth[y - 1]!
  state.medicareLevel *= year > medicare.until ? prices : 1 + shocks.medicareGrowth[y - 1]!
}

/** The step of the cost of care into year `y`. */
const careStep = (plan: CompiledPlan, shocks: CourseShocks, y: number): number =>
  (plan.firstYear + y > plan.growth.care.until ? shocks.inflation : shocks.careGrowth)[y - 1]!

const setReturns = (plan: CompiledPlan, shocks: CourseShocks, buffers: CourseBuffers, y: number) => {
  const { savings } = plan
  const { state } = buffers
  const twelfth = 1 / 12
  for (let account = 0; account < savings.count; account += 1) {
    const like = savings.growsLike[account]!
    if (like < account) {
      copyReturns(state, like, account)
      continue
    }
    const stocks = savings.stocks[account]!
    const interest = savings.bonds[account]! * shocks.bonds[y]! + savings.bills[account]! * shocks.bills[y]!
    const gross = Math.max(0, 1 + stocks * shocks.stocks[y]! + interest)
    state.growth[account] = (gross * (1 - savings.fee[account]!)) ** twelfth
    state.interestPerDollar[account] = interest > 0 ? (1 + interest) ** twelfth - 1 : 0
    state.dividendPerDollar[account] = (stocks * savings.stockYield) / 12
  }
}

const copyReturns = (state: CourseState, from: number, to: number) => {
  state.growth[to] = state.growth[from]!
  state.interestPerDollar[to] = state.interestPerDollar[from]!
  state.dividendPerDollar[to] = state.dividendPerDollar[from]!
}

/** Required distributions of the year from the balances of December 31; a plan that begins later in a year takes them as made. */
const setRequired = (plan: CompiledPlan, buffers: CourseBuffers, m: number, y: number) => {
  const { savings } = plan
  const { state } = buffers
  empty(state.required.own)
  empty(state.required.inherited)
  empty(state.required.inheritedIncome)
  if ((plan.firstMonth + m) % 12 !== 0) return
  const year = plan.firstYear + y
  setInherited(plan, buffers, y)
  for (let account = 0; account < savings.count; account += 1) {
    if (savings.kind[account] !== accountCode.traditional || savings.isInherited[account] === 1) continue
    const owner = ownerNow(plan, buffers, account)
    if (owner < 0 || state.alive[owner] === 0) continue
    const born = plan.people[owner]!.birthYear
    if (savings.requiredFromAge > 0 && year - born < savings.requiredFromAge) continue
    state.required.own[owner] =
      state.required.own[owner]! + state.balance[account]! / distributionDivisor(born, year)
  }
}
