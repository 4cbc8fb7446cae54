// The mixed program while it is being written: its columns and rows, where its parts lie, and small sums over months.
import { monthNames } from '#calendar/month.ts'
import type { Column, Program, Row } from '#farm/program.ts'
import type { MixFrame, Period } from './mix-frame.ts'

export interface MixAim {
  kind: 'most net' | 'fewest hours'
  /** Least net for `fewest hours`, dollars a year. */
  netAtLeast?: number | undefined
  /** Largest change from today, as a share of today's scale (and of full trips). */
  largestChange?: number | undefined
  /** Ids of lines and markets kept as they are, beside those the plan pins. */
  pinned?: readonly string[] | undefined
}

/** The program with where its parts lie: columns of lines, of trips by season, of hired hours; rows of hours, land, net. */
export interface MixProgram {
  program: Program
  lineColumns: number[]
  tripColumns: { market: number; season: number; column: number; today: number }[]
  hiredColumns: number[]
  hourRows: number[]
  landRow: number | null
  netRow: number | null
  /** Net = Σ netTerms − fixedCosts. */
  netTerms: [number, number][]
  fixedCosts: number
  hourTerms: [number, number][]
  fixedHours: number
  /** Rows that state what a market or a field is, and can never give. */
  structural: Set<Row>
}

export const emptyMix = (frame: MixFrame): MixProgram => ({
  program: { sense: 'max', columns: [], rows: [] },
  lineColumns: [],
  tripColumns: [],
  hiredColumns: [],
  hourRows: [],
  landRow: null,
  netRow: null,
  netTerms: [],
  fixedCosts: frame.overheads,
  hourTerms: [],
  fixedHours: total(frame.overheadHours),
  structural: new Set(),
})

export const addColumn = (mix: MixProgram, column: Partial<Column> = {}): number =>
  mix.program.columns.push({
    objective: 0,
    lower: 0,
    upper: Number.POSITIVE_INFINITY,
    whole: false,
    ...column,
  }) - 1

export const addRow = (
  mix: MixProgram,
  name: string,
  terms: Row['terms'],
  relation: Row['relation'],
  limit: number,
  structural = false,
): number => {
  const row = { name, terms, relation, limit }
  if (structural) mix.structural.add(row)
  return mix.program.rows.push(row) - 1
}

export const tripColumn = (mix: MixProgram, market: number, season: number) =>
  mix.tripColumns.find((one) => one.market === market && one.season === season)

export const monthsInWords = (period: Period): string =>
  period.length === 1
    ? monthNames[period[0]!]!
    : `${monthNames[period[0]!]!.slice(0, 3)}–${monthNames[period.at(-1)!]!.slice(0, 3)}`

export const total = (values: readonly number[]) => values.reduce((a, b) => a + b, 0)
export const sumOver = (values: readonly number[], months: Period) =>
  months.reduce((sum, k) => sum + values[k]!, 0)
export const show = (value: number) => String(Math.round(value * 100) / 100)
