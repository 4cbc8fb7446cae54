// Reads a bank's CSV by a column mapping. A row that cannot be read refuses the whole file, with its line and why.
import { CsvError, parse } from 'csv-parse/sync'
import type { Cents } from '#money/cents.ts'
import { cents } from '#money/cents.ts'
import type { ColumnMapping } from './column-mapping.ts'
import {
  type BrokenFile,
  brokenFile,
  type ReadStatements,
  type Statement,
  type StatementLine,
} from './statement.ts'
import { readAmount, readDay } from './written-amount.ts'

export interface CsvRow {
  /** Line of the file on which the row starts, from 1. */
  fileLine: number
  cells: string[]
}

/** All rows that are not blank. `limit` reads only the first rows, for the mapping form. */
export const readRows = (
  text: string,
  delimiter: string,
  limit?: number,
): { ok: true; rows: CsvRow[] } | BrokenFile => {
  try {
    const records: string[][] = parse(text, {
      delimiter,
      bom: true,
      relax_column_count: true,
      relax_quotes: true,
      record_delimiter: '\n',
      max_record_size: 100_000,
      // Blank rows count for the parser: four times as many are looked at for those that say something.
      ...(limit === undefined ? {} : { to: 4 * limit }),
    })
    return { ok: true, rows: numbered(records).slice(0, limit) }
  } catch (error) {
    if (!(error instanceof CsvError)) throw error
    return brokenFile(Number(error.lines ?? 0), csvMessage(error))
  }
}

/** One statement, lines in file order: some banks write the newest first. */
export const readCsv = (text: string, mapping: ColumnMapping): ReadStatements => {
  const read = readRows(text, mapping.delimiter)
  if (!read.ok) return read
  const rows = read.rows.slice(mapping.rowsToSkip)
  if (rows.length === 0) return brokenFile(0, 'The file holds no rows below its header')
  const statement: Statement = {
    bankAccount: '',
    kind: 'bank',
    currency: '',
    closing: null,
    lines: [],
    remarks: [],
  }
  for (const row of rows) {
    const result = lineFrom(row, mapping)
    if ('refusal' in result) return brokenFile(row.fileLine, result.refusal)
    if ('remark' in result) statement.remarks.push({ fileLine: row.fileLine, message: result.remark })
    else statement.lines.push(result.line)
  }
  statement.closing = closingFrom(rows, statement.lines, mapping)
  return { ok: true, statements: [statement] }
}

type ReadRow = { line: StatementLine } | { remark: string } | { refusal: string }

const lineFrom = ({ fileLine, cells }: CsvRow, mapping: ColumnMapping): ReadRow => {
  const cell = (column: number | null): string => (column === null ? '' : (cells[column] ?? '').trim())
  const dayText = cell(mapping.dayColumn)
  const amount = amountFrom(cell, mapping)
  // Totals and remarks under the movements: no date and no amount.
  if (dayText === '' && amount === 'empty') return { remark: 'A row with no date and no amount. Left out' }
  const day = readDay(dayText, mapping.dayOrder)
  if (!day) return { refusal: dayRefusal(dayText, mapping) }
  if (amount === 'empty') return { remark: 'The amount is empty. Left out' }
  if (typeof amount !== 'number') return { refusal: amount.refusal }
  if (amount === 0) return { remark: 'No money moved (the amount is 0). Left out' }
  return {
    line: {
      fileLine,
      bankNumber: cell(mapping.bankNumberColumn),
      day,
      amount,
      payee: cell(mapping.payeeColumn).replace(/\s+/g, ' '),
      memo: cell(mapping.memoColumn).replace(/\s+/g, ' '),
      checkNumber: cell(mapping.checkNumberColumn),
    },
  }
}

const dayRefusal = (text: string, mapping: ColumnMapping): string =>
  text === ''
    ? `There is no date in column ${mapping.dayColumn + 1}`
    : `“${shown(text)}” is not a date written as ${mapping.dayOrder.replaceAll('-', ', ')}`

const amountFrom = (
  cell: (column: number) => string,
  { amount, decimalMark }: ColumnMapping,
): Cents | 'empty' | { refusal: string } => {
  const read = (text: string): Cents | { refusal: string } =>
    readAmount(text, decimalMark) ?? {
      refusal: `“${shown(text)}” is not an amount with “${decimalMark}” as its decimal mark`,
    }
  if (amount.kind === 'signed') {
    const text = cell(amount.column)
    if (text === '') return 'empty'
    const value = read(text)
    return typeof value === 'number' && amount.moneyOutIs === 'positive' ? cents(-value) : value
  }
  const [outText, inText] = [cell(amount.outColumn), cell(amount.inColumn)]
  if (outText === '' && inText === '') return 'empty'
  const out = outText === '' ? cents(0) : read(outText)
  const into = inText === '' ? cents(0) : read(inText)
  if (typeof out !== 'number') return out
  if (typeof into !== 'number') return into
  if (out !== 0 && into !== 0) return { refusal: 'The row has money both out and in: only one can be right' }
  return cents(Math.abs(into) - Math.abs(out))
}

/** The balance of the newest movement: of the last row, or of the first when the file runs backwards. */
const closingFrom = (
  rows: readonly CsvRow[],
  lines: readonly StatementLine[],
  mapping: ColumnMapping,
): Statement['closing'] => {
  const [first, last] = [lines[0], lines.at(-1)]
  if (mapping.balanceColumn === null || !first || !last) return null
  const newest = first.day > last.day ? first : last
  const row = rows.find((each) => each.fileLine === newest.fileLine)
  const balance = readAmount((row?.cells[mapping.balanceColumn] ?? '').trim(), mapping.decimalMark)
  return balance === null ? null : { balance, asOf: newest.day }
}

/** Counted here: the parser's own account of each record takes longer than its reading. Blank rows count, then go. */
const numbered = (records: readonly string[][]): CsvRow[] => {
  const rows: CsvRow[] = []
  let fileLine = 1
  for (const cells of records) {
    if (cells.some((cell) => cell.trim() !== '')) rows.push({ fileLine, cells })
    fileLine += 1
    for (const cell of cells) if (cell.includes('\n')) fileLine += cell.split('\n').length - 1
  }
  return rows
}

const csvMessage = (error: CsvError): string => {
  if (error.code === 'CSV_QUOTE_NOT_CLOSED') return 'A quotation mark is opened and never closed'
  if (error.code === 'CSV_MAX_RECORD_SIZE')
    return 'A row is longer than 100,000 characters: this is no bank’s CSV'
  return `The row cannot be read (${error.message})`
}

const shown = (text: string): string => (text.length > 40 ? `${text.slice(0, 40)}…` : text)
