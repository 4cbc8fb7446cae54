// The leak: what the household has put into the farm, net. Contributions − draws − reimbursements, per month and running.
import type { Month } from '#calendar/month.ts'
import { addCents, type Cents, cents, zeroCents } from '#money/cents.ts'

export interface CrossedInMonth {
  month: Month
  contributionCents: Cents
  drawCents: Cents
  reimbursementCents: Cents
}

export interface LeakMonth extends CrossedInMonth {
  /** Positive: the household put more in than it got out. */
  leakCents: Cents
  /** Since the first month given. */
  runningCents: Cents
}

/** Months in order, the first one being where the running sum starts. Loans are not in it: they are owed back. */
export const leakByMonth = (months: readonly CrossedInMonth[]): LeakMonth[] => {
  let running = zeroCents
  return months.map(({ month, contributionCents, drawCents, reimbursementCents }) => {
    const leakCents = cents(contributionCents - drawCents - reimbursementCents)
    running = addCents(running, leakCents)
    return { month, contributionCents, drawCents, reimbursementCents, leakCents, runningCents: running }
  })
}
