// What a running balance says of the amounts beside it: which way they go, and where a movement is missing.
import type { Day } from '#calendar/day.ts'
import type { Cents } from '#money/cents.ts'

export interface Step {
  day: Day
  /** As read: into the account positive. */
  amount: Cents
  balance?: Cents | null
}

export interface BalanceSteps {
  /** Pairs of neighbors with a balance each. */
  steps: number
  /** Steps that the amounts explain as they are, and with all signs turned. */
  asRead: number
  turned: number
}

/** Files run forward or newest first; on one day alone both ways are tried, and the one that explains more is taken. */
export const balanceSteps = (rows: readonly Step[]): BalanceSteps => {
  const [first, last] = [rows[0], rows.at(-1)]
  if (!first || !last) return { steps: 0, asRead: 0, turned: 0 }
  const forward = countSteps(rows)
  const backward = countSteps([...rows].reverse())
  if (first.day !== last.day) return first.day < last.day ? forward : backward
  return Math.max(forward.asRead, forward.turned) >= Math.max(backward.asRead, backward.turned)
    ? forward
    : backward
}

/** Most steps must agree before a balance is believed: banks round, sort within a day, and leave pending lines out. */
export const balanceSays = ({ steps, asRead, turned }: BalanceSteps): 'as read' | 'turned' | 'nothing' => {
  if (steps === 0 || asRead === turned) return 'nothing'
  if (asRead > turned) return asRead * 3 >= steps * 2 ? 'as read' : 'nothing'
  return turned * 3 >= steps * 2 ? 'turned' : 'nothing'
}

const countSteps = (oldestFirst: readonly Step[]): BalanceSteps => {
  const count = { steps: 0, asRead: 0, turned: 0 }
  for (const [index, { amount, balance }] of oldestFirst.entries()) {
    const before = oldestFirst[index - 1]?.balance
    if (before == null || balance == null) continue
    count.steps += 1
    if (balance - before === amount) count.asRead += 1
    if (balance - before === -amount) count.turned += 1
  }
  return count
}
