// Even payments out of a retirement account before 59½: set each January or when they begin, paid month by month.
import { evenPayment, evenPaymentMethods } from '#rules/even-payments.ts'
import type { CompiledPlan } from '#runway/compile/compiled-plan.ts'
import type { CourseBuffers } from '#runway/course-buffers.ts'
import { isPaidEvenly } from './even-months.ts'
import { deposit, withdraw } from './savings-month.ts'

/** Runs before the month's needs are met; the payments of a dead owner end. */
export const payEvenly = (plan: CompiledPlan, buffers: CourseBuffers, m: number, y: number): void => {
  const { savings } = plan
  if (!savings.paysEvenly) return
  const { state } = buffers
  for (let account = 0; account < savings.count; account += 1) {
    if (!isPaidEvenly(plan, buffers, account, m)) {
      state.evenMonthly[account] = 0
      continue
    }
    const begins = m === savings.evenFrom[account]
    const anew = isWorkedAnew(plan, account) && (plan.firstMonth + m) % 12 === 0
    if (begins || anew) state.evenMonthly[account] = paymentOf(plan, buffers, account, y) / 12
    const taken = withdraw(plan, buffers, account, state.evenMonthly[account]!, m)
    deposit(plan, buffers, savings.cashAccount, taken)
  }
}

const isWorkedAnew = ({ savings }: CompiledPlan, account: number): boolean =>
  evenPaymentMethods[savings.evenMethod[account]!] === 'lifeExpectancy'

const paymentOf = (plan: CompiledPlan, { state }: CourseBuffers, account: number, y: number): number => {
  const { savings } = plan
  if (!isWorkedAnew(plan, account) && savings.evenAmount[account]! > 0) return savings.evenAmount[account]!
  const age = plan.firstYear + y - plan.people[savings.owner[account]!]!.birthYear
  return evenPayment(
    evenPaymentMethods[savings.evenMethod[account]!]!,
    state.balance[account]!,
    age,
    savings.evenRate[account]!,
    savings.evenFactor[account]!,
  )
}
