// The employer's part of payroll taxes that is booked and not paid yet: on the cash method it is deducted in the year it is paid.
import { type Cents, cents } from '#money/cents.ts'

/** A posting on an account of a business with `taxKind` payroll; debits positive. */
export interface PayrollPosting {
  entryNo: number
  sideId: string
  accountId: number
  /** liability: owed to the office, worker's and employer's part; expense: the employer's part as a cost. */
  kind: 'liability' | 'expense'
  amountCents: Cents
}

/**
 * By account of the cost, what of it is still owed after these postings, in the order of their days. Payments pay what was owed first;
 * an entry that takes a pay back takes off what was owed last. What opened the books as owed counts as the worker's part: nothing says
 * that it was ever deducted.
 */
export const unpaidEmployerTax = (postings: readonly PayrollPosting[]): Map<number, Cents> => {
  const unpaid = new Map<number, Cents>()
  for (const sideId of new Set(postings.map((one) => one.sideId)))
    for (const { owed, left, costs } of owedOf(postings.filter((one) => one.sideId === sideId)))
      for (const [accountId, cost] of costs) {
        const part = Math.round((cost * left) / owed)
        unpaid.set(accountId, cents((unpaid.get(accountId) ?? 0) + part))
      }
  return unpaid
}

interface Owed {
  owed: number
  left: number
  costs: ReadonlyMap<number, number>
}

const owedOf = (postings: readonly PayrollPosting[]): Owed[] => {
  const queue: Owed[] = []
  let ahead = 0
  for (const { owed, costs } of entriesOf(postings)) {
    const left = Math.min(Math.max(0, owed), Math.max(0, owed - ahead))
    if (owed > 0) {
      ahead -= owed - left
      queue.push({ owed, left, costs })
    } else {
      const isTakenBack = [...costs.values()].some((cost) => cost < 0)
      ahead += payOff(isTakenBack ? queue.toReversed() : queue, -owed)
    }
  }
  return queue.filter((one) => one.left > 0)
}

/** What is over once all that was owed is paid. */
const payOff = (queue: readonly Owed[], amount: number): number =>
  queue.reduce((rest, one) => {
    const paid = Math.min(one.left, rest)
    one.left -= paid
    return rest - paid
  }, amount)

const entriesOf = (postings: readonly PayrollPosting[]) => {
  const entries = new Map<number, { owed: number; costs: Map<number, number> }>()
  for (const { entryNo, accountId, kind, amountCents } of postings) {
    const entry = entries.get(entryNo) ?? { owed: 0, costs: new Map<number, number>() }
    entries.set(entryNo, entry)
    if (kind === 'liability') entry.owed -= amountCents
    else entry.costs.set(accountId, (entry.costs.get(accountId) ?? 0) + amountCents)
  }
  return entries.values()
}
