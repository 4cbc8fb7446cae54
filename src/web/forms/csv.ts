// Tables as CSV (RFC 4180, with a header line), safe to open in a spreadsheet.

import type { Dollars } from '#runway/dollars/dollars.ts'
import { figureSaid } from '#today/figures-said.ts'

type Cell = string | number | null | undefined

export interface CsvTable {
  header: readonly string[]
  /** Numbers go out as they are; text that a spreadsheet would run as a formula is led by an apostrophe. */
  rows: readonly (readonly Cell[])[]
  /** Told in these dollars, whichever the page shows; null where no row holds amounts of the plan, or each says its own. */
  dollars?: Dollars | null
}

/** A spreadsheet keeps its cells and not the page they came from: every row says its dollars. */
export const withDollars = (table: CsvTable, ofPage: Dollars): CsvTable => {
  const dollars = table.dollars === undefined ? ofPage : table.dollars
  if (dollars === null) return table
  const said = dollarsInCell(dollars)
  return { header: [...table.header, 'dollars'], rows: table.rows.map((row) => [...row, said]) }
}

export const dollarsInCell = (dollars: Dollars): string =>
  dollars.of === 'year' ? 'of each year' : `of ${dollars.month}`

/** By column: its name, and how its cell is read from a row. A name must not be a bare number. */
type Columns<Row> = Readonly<Record<string, (row: Row) => Cell>>

export const tableOf = <Row>(rows: readonly Row[], columns: Columns<Row>): CsvTable => ({
  header: Object.keys(columns),
  rows: rows.map((row) => Object.values(columns).map((read) => read(row))),
})

/** The same with numbers to the cent, and nothing for what has no number. */
export const centTableOf = <Row>(rows: readonly Row[], columns: Columns<Row>): CsvTable => {
  const { header, rows: cells } = tableOf(rows, columns)
  return { header, rows: cells.map((row) => row.map(toTheCent)) }
}

/** A column for each thing that a row says, by its own name. */
export const columnsOf = <Row extends object>(row: Row | undefined): Columns<Row> =>
  Object.fromEntries(
    Object.keys(row ?? {}).map((name) => [name, (one: Row) => one[name as keyof Row] as Cell]),
  )

const toTheCent = (value: Cell): Cell =>
  typeof value !== 'number' ? value : Number.isFinite(value) ? Math.round(value * 100) / 100 : ''

export const csvText = ({ header, rows }: CsvTable): string =>
  [header, ...rows.map((row) => row.map((value, place) => said(value, header[place] ?? '')))]
    .map((row) => `${row.map(cell).join(',')}\r\n`)
    .join('')

const said = (value: Cell, column: string): Cell =>
  typeof value === 'number' ? figureSaid(value, column) : value

const cell = (value: Cell): string => {
  if (value === null || value === undefined) return ''
  const text = String(value)
  const isPlainNumber = /^-?\d+(\.\d+)?$/.test(text)
  const safe = !isPlainNumber && /^[=+\-@\t\r]/.test(text) ? `'${text}` : text
  return /[",\r\n]/.test(safe) ? `"${safe.replaceAll('"', '""')}"` : safe
}
