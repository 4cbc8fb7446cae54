// Until when money out of a retirement account of the plan bears the tax added to early withdrawals.
import { day, monthOfDay } from '#calendar/day.ts'
import { type Month, parseMonth, yearOf } from '#calendar/month.ts'
import { earlyWithdrawalAge, separationAge } from '#rules/data/retirement-accounts.ts'
import { evenPaymentsEnd } from '#rules/even-payments.ts'
import { inForce } from '#rules/in-force.ts'
import type { Account } from '../savings-plan.ts'

/** Whether the addition is due on what an own account pays in a month (26 USC 72(t)); `born` of its owner. */
export const isAddedTo = (account: Account, born: string, at: Month): boolean =>
  at < freeFrom(account, born, yearOf(at)) && !isPaidEvenly(account, born, at)

/** At 59½, or when that employer was left in or after the year of 55 (26 USC 72(t)(2)(A)(i), (v)). */
export const freeFrom = (account: Account, born: string, year: number): Month => {
  const birth = monthOfDay(day(born))
  const at59Half = month59Half(born, year)
  if (!isWorkPlan(account) || account.leftWork === undefined) return at59Half
  const left = parseMonth(account.leftWork)!
  return yearOf(left) - yearOf(birth) >= inForce(separationAge, year)
    ? (Math.min(at59Half, left) as Month)
    : at59Half
}

export const month59Half = (born: string, year: number): Month =>
  (monthOfDay(day(born)) + inForce(earlyWithdrawalAge, year) * 12) as Month

export const isWorkPlan = ({ kind, heldAs, inherited }: Account): boolean =>
  heldAs === 'workPlan' && inherited === undefined && (kind === 'traditional' || kind === 'roth')

const isPaidEvenly = ({ evenPaymentsFrom }: Account, born: string, at: Month): boolean => {
  if (evenPaymentsFrom === undefined) return false
  const from = parseMonth(evenPaymentsFrom)!
  return at >= from && at < evenPaymentsEnd(from, month59Half(born, yearOf(from)))
}
