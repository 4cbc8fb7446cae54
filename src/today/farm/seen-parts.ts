// What plan → seen is made of: a row, the farm with its figure taken over, and which batch speaks for an enterprise.
import { monthOfDay } from '#calendar/day.ts'
import { monthName } from '#calendar/month.ts'
import type { Enterprise, Farm } from '#farm/farm-document.ts'
import type { Seasonal } from '#farm/seasonal.ts'
import type { BatchRow } from './batch-figures.ts'

export interface SeenRow {
  key: string
  of: string
  what: string
  plan: number
  seen: number
  unit: 'hours' | 'miles' | 'dollars' | 'share' | 'young'
  /** What the figure rests on. */
  restsOn: string
}

export interface Seen extends SeenRow {
  /** The farm with the figure taken over; nothing else of it changes. */
  taken: Farm
}

/** Fewer market days than these show a day, not a market. */
export const fewestMarketDays = 3
/** A figure of the plan keeps as many digits as a person would type. */
export const shown = (value: number): number => Math.round(value * 100) / 100

/** The months keep their shape. */
export const scaled = (field: Seasonal, plan: number, seen: number): Seasonal =>
  typeof field === 'number' || plan <= 0 ? seen : field.map((month) => shown((month * seen) / plan))

export const withEnterprise = (
  farm: Farm,
  at: number,
  change: Partial<Farm['enterprises'][number]>,
): Farm => ({
  ...farm,
  enterprises: farm.enterprises.map((one, index) => (index === at ? { ...one, ...change } : one)),
})

/** The newest ended batch of an enterprise that counts in the plan's own unit and knows what is asked. */
export const batchOf = (
  one: Enterprise,
  rows: readonly BatchRow[],
  knows: (row: BatchRow) => boolean,
): BatchRow | undefined =>
  rows.find(
    (row) =>
      row.batch.endedDay !== null &&
      row.batch.enterpriseId === (one.tag ?? one.id) &&
      oneOf(row.batch.unit) === oneOf(one.unit) &&
      knows(row),
  )

export const endOf = ({ batch }: BatchRow): string => monthName(monthOfDay(batch.endedDay!))

/** `beds` and `bed` are the same unit. */
const oneOf = (unit: string): string => unit.trim().toLowerCase().replace(/s$/, '')
