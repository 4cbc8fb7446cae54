// Spendable savings: cash and taxable accounts less the tax owed so far, with retirement accounts after tax where the plan counts them.
import { accountCode, isSpendable, taxCode } from '#runway/compile/codes.ts'
import type { CompiledPlan } from '#runway/compile/compiled-plan.ts'
import type { CourseBuffers, CourseState } from '#runway/course-buffers.ts'
import { isEarly } from './early.ts'
import { isPaidEvenly } from './even-months.ts'
import { unpaidCare } from './health-savings.ts'
import { convertedIn, isNewRoth, youngConversions } from './roth-layers.ts'

/** Tax of closed years not yet paid, and the estimate's part for `monthsGone` months of this year, less what was paid on it. */
export const taxOwedNow = ({ state }: CourseBuffers, monthsGone: number): number => {
  const { stateTax, year } = state
  const paid = year.withheld + year.estimatedPaid + year.statePaid
  const thisYear = monthsGone === 0 ? 0 : ((state.estimate + stateTax.estimate) * monthsGone) / 12 - paid
  const lastYear = state.taxDueJanuary + state.taxDueApril + stateTax.dueJanuary + stateTax.dueWithReturn
  return Math.max(0, lastYear + thisYear)
}

/** What could be spent in month `m`, less `taxOwed`: cash, taxable accounts, and retirement accounts where their age allows it. Dollars. */
export const spendableNow = (
  plan: CompiledPlan,
  buffers: CourseBuffers,
  m: number,
  taxOwed: number,
): number => {
  const { count, kind } = plan.savings
  const { balance } = buffers.state
  let held = retirementSpendable(plan, buffers, m) - taxOwed
  for (let account = 0; account < count; account += 1)
    if (isSpendable(kind[account]!)) held += balance[account]!
  return held
}

/** Our own assumption: money from retirement accounts bears at least the lowest rate. */
const leastRate = 0.1

/** Of a Roth account taken out whole. */
const earningsIn = (plan: CompiledPlan, state: CourseState, account: number, balance: number): number =>
  Math.max(0, balance - state.basis[account]! - convertedIn(plan, state, account))

const youngIn = (
  plan: CompiledPlan,
  state: CourseState,
  account: number,
  balance: number,
  y: number,
): number => youngConversions(plan, state, account, y, balance - state.basis[account]!)

/** Where the plan counts them: retirement accounts after what taking them out today would cost: tax at last year's average rate, at least the least one, and the early addition. */
export const retirementSpendable = (plan: CompiledPlan, buffers: CourseBuffers, m: number): number => {
  if (!plan.savings.retirementIsSpendable) return 0
  const { savings } = plan
  const { state } = buffers
  const rate = plan.law.method === taxCode.none ? 0 : Math.max(leastRate, state.averageRate)
  const y = Math.floor((plan.firstMonth + m) / 12) - plan.firstYear
  let worth = 0
  for (let account = 0; account < savings.count; account += 1) {
    const kind = savings.kind[account]!
    if (isSpendable(kind)) continue
    const early = plan.law.method === taxCode.law && isEarly(plan, buffers, account, m)
    if (isPaidEvenly(plan, buffers, account, m)) continue
    if (early && !savings.spendRetirementBeforeAge) continue
    const balance = state.balance[account]!
    if (kind === accountCode.health) {
      const other = Math.max(0, balance - unpaidCare(plan, buffers, account, m))
      worth += balance - other * (rate + (early ? plan.law.healthSavingsRate : 0))
      continue
    }
    const taxed =
      kind === accountCode.traditional
        ? balance
        : early || (plan.law.method === taxCode.law && isNewRoth(plan, state, account, y))
          ? earningsIn(plan, state, account, balance)
          : 0
    const added = early ? taxed + youngIn(plan, state, account, balance, y) : 0
    worth += balance - taxed * rate - added * plan.law.earlyWithdrawalRate
  }
  return worth
}
