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

export const balanceSteps = (rows: readonly Step[]): BalanceSteps => countSteps(oldestFirst(rows))

/** Files run forward or newest first; on one day alone both ways are tried, and the one that explains more is taken. */
const oldestFirst = <Row extends Step>(rows: readonly Row[]): readonly Row[] => {
  const [first, last] = [rows[0], rows.at(-1)]
  if (!first || !last || first.day < last.day) return rows
  const backward = [...rows].reverse()
  if (first.day > last.day) return backward
  const explained = (given: readonly Row[]) => {
    const { asRead, turned } = countSteps(given)
    return Math.max(asRead, turned)
  }
  return explained(rows) >= explained(backward) ? rows : backward
}

/** The balance before the oldest movement, where the balance bears the amounts as they are read. */
export const openingOf = (rows: readonly Step[]): { balance: number; day: Day } | null => {
  const [oldest] = oldestFirst(rows)
  if (oldest?.balance == null || balanceSays(balanceSteps(rows)) !== 'as read') return null
  return { balance: oldest.balance - oldest.amount, day: oldest.day }
}

/** The balance after the newest movement. */
export const endingOf = (rows: readonly Step[]): { balance: number; day: Day } | null => {
  const newest = oldestFirst(rows).at(-1)
  return newest?.balance == null ? null : { balance: newest.balance, day: newest.day }
}

type Worded = Step & { payee?: string; memo?: string }

/** Rows that stand right after their like with the very balance of it, where that balance counts the movement once. */
export const doubledRows = <Row extends Worded>(rows: readonly Row[]): Set<Row> => {
  if (balanceSays(balanceSteps(rows)) !== 'as read') return new Set()
  const inOrder = oldestFirst(rows)
  return new Set(
    inOrder.filter((row, at) => {
      const [first, before] = [inOrder[at - 1], inOrder[at - 2]]
      return (
        first !== undefined &&
        before?.balance != null &&
        row.amount !== 0 &&
        isLike(row, first) &&
        row.balance === before.balance + row.amount
      )
    }),
  )
}

const isLike = (one: Worded, other: Worded): boolean =>
  one.day === other.day &&
  one.amount === other.amount &&
  one.balance === other.balance &&
  one.payee === other.payee &&
  one.memo === other.memo

/** The first day whose movements do not lead from the balance of the day before to its own. What stands twice counts once. */
export const firstGap = (rows: readonly Step[]): { day: Day; missing: number } | null => {
  if (balanceSays(balanceSteps(rows)) !== 'as read') return null
  const days = new Map<Day, { sum: number; balance: number | null }>()
  const doubled = doubledRows(rows)
  for (const { day, amount, balance } of oldestFirst(rows).filter((row) => !doubled.has(row)))
    days.set(day, { sum: (days.get(day)?.sum ?? 0) + amount, balance: balance ?? null })
  let before: number | null = null
  for (const [day, { sum, balance }] of days) {
    if (before !== null && balance !== null && balance - before !== sum)
      return { day, missing: balance - before - sum }
    before = balance
  }
  return null
}

/** Most steps must agree before a balance is believed: banks round, sort within a day, and leave pending lines out. */
export const balanceSays = ({ steps, asRead, turned }: BalanceSteps): 'as read' | 'turned' | 'nothing' => {
  if (steps === 0 || asRead === turned) return 'nothing'
  if (asRead > turned) return asRead * 3 >= steps * 2 ? 'as read' : 'nothing'
  return turned * 3 >= steps * 2 ? 'turned' : 'nothing'
}

const countSteps = (rows: readonly Step[]): BalanceSteps => {
  const count = { steps: 0, asRead: 0, turned: 0 }
  for (const [index, { amount, balance }] of rows.entries()) {
    const before = rows[index - 1]?.balance
    if (before == null || balance == null) continue
    count.steps += 1
    if (balance - before === amount) count.asRead += 1
    if (balance - before === -amount) count.turned += 1
  }
  return count
}
