// What a side spent by kind and month. Cents, as spent: a refund is negative.
import type { Month } from '#calendar/month.ts'
import type { Cents } from '#money/cents.ts'

export interface SpendingRow {
  name: string
  /** Null for a kind, which stands above the accounts that it is made of. */
  accountId: number | null
  /** By month, as the months of the figures. */
  spent: readonly Cents[]
  /** What was expected of each month; null where no plan tells, or for all of them. */
  planned: readonly (Cents | null)[] | null
  totalCents: Cents
  /** Of the months that a plan tells of: expected, and how much more was spent in those. */
  plannedCents: Cents | null
  differenceCents: Cents | null
}

export interface SpendingFigures {
  months: readonly Month[]
  /** This month: the last that can be asked for. */
  now: Month
  /** Whether the last of the months is over. */
  isOver: boolean
  rows: readonly SpendingRow[]
  total: SpendingRow
  /** Of the last month's total, what the household bought to last: no cost of a month. */
  lastThingsCents: Cents
}
