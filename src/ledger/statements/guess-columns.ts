// Guesses what a bank's CSV columns mean from their headings and contents. A guess is only ever shown, to be confirmed.
import { type AmountColumns, type ColumnMapping, type Delimiter, delimiters } from './column-mapping.ts'
import { type CsvRow, readRows } from './csv.ts'
import { type BrokenFile, brokenFile } from './statement.ts'
import { type DayOrder, type DecimalMark, dayOrders, readAmount, readDay } from './written-amount.ts'

export interface CsvSketch {
  ok: true
  delimiter: Delimiter
  /** The row of headings, empty texts when the file has none. */
  header: string[]
  /** First rows of the file, heading included. */
  rows: CsvRow[]
  columnCount: number
  guess: ColumnMapping
}

const sampleRows = 60

export const sketchCsv = (text: string): CsvSketch | BrokenFile => {
  const head = text.length > 60_000 ? text.slice(0, text.lastIndexOf('\n', 60_000) + 1) || text : text
  const delimiter = sniffDelimiter(head)
  const read = readRows(head, delimiter, sampleRows)
  if (!read.ok) return read
  if (read.rows.length === 0) return brokenFile(0, 'The file is empty')
  const columnCount = Math.max(...read.rows.map((row) => row.cells.length))
  if (columnCount < 2)
    return brokenFile(read.rows[0]!.fileLine, 'The file has only one column, so it is no list of movements')
  const firstMovement = read.rows.findIndex(
    ({ cells }) => cells.some(isDayInAnyOrder) && cells.some(isAmount),
  )
  const rowsToSkip = Math.max(0, firstMovement)
  const header = rowsToSkip > 0 ? read.rows[rowsToSkip - 1]!.cells : []
  return {
    ok: true,
    delimiter,
    header: Array.from({ length: columnCount }, (_, column) => (header[column] ?? '').trim()),
    rows: read.rows,
    columnCount,
    guess: guessMapping(delimiter, rowsToSkip, header, read.rows.slice(rowsToSkip), columnCount),
  }
}

/** The delimiter that cuts most rows into the same, largest number of cells. */
const sniffDelimiter = (text: string): Delimiter => {
  let best: { delimiter: Delimiter; score: number } = { delimiter: ',', score: 0 }
  for (const delimiter of delimiters) {
    const read = readRows(text, delimiter, sampleRows)
    if (!read.ok) continue
    const counts = new Map<number, number>()
    for (const { cells } of read.rows) counts.set(cells.length, (counts.get(cells.length) ?? 0) + 1)
    for (const [width, rows] of counts) {
      const score = width < 2 ? 0 : rows * rows * Math.min(width, 12)
      if (score > best.score) best = { delimiter, score }
    }
  }
  return best.delimiter
}

const headings = {
  day: /\b(post(ed|ing)?|transaction|booking|value|effective)?\s*date\b|^day$|^datum$/i,
  payee: /payee|description|name|merchant|details|particulars|counterparty/i,
  memo: /memo|note|reference|remark|category|type/i,
  amount: /amount|sum\b|value$/i,
  out: /debit|withdraw|money out|paid out|outgoing|charge|^out$/i,
  into: /credit|deposit|money in|paid in|incoming|^in$/i,
  balance: /balance/i,
  bankNumber: /^(transaction\s*)?(id|number|no\.?)$|fitid|unique|reference (id|number)/i,
  check: /che(ck|que)/i,
}

const guessMapping = (
  delimiter: Delimiter,
  rowsToSkip: number,
  header: readonly string[],
  rows: readonly CsvRow[],
  columnCount: number,
): ColumnMapping => {
  const column = (at: number): string[] => rows.map((row) => (row.cells[at] ?? '').trim())
  const all = Array.from({ length: columnCount }, (_, at) => at)
  const titled = (pattern: RegExp, among = all) => among.find((at) => pattern.test(header[at] ?? ''))
  const dayColumns = all.filter((at) => mostly(column(at), isDayInAnyOrder))
  const dayColumn = titled(headings.day, dayColumns) ?? dayColumns[0] ?? 0
  const moneyColumns = all.filter((at) => !dayColumns.includes(at) && mostly(column(at), isAmount))
  const balanceColumn = titled(headings.balance, moneyColumns) ?? null
  const checkNumberColumn = titled(headings.check) ?? null
  const bankNumberColumn = titled(headings.bankNumber) ?? null
  const amounts = moneyColumns.filter(
    (at) => ![balanceColumn, checkNumberColumn, bankNumberColumn].includes(at),
  )
  // A short file may hold money out only: its other column is empty, and known by its heading alone.
  const empty = all.filter((at) => column(at).every((text) => text === ''))
  const amount = guessAmount(header, amounts, empty, titled, column)
  const texts = all.filter(
    (at) => !dayColumns.includes(at) && !moneyColumns.includes(at) && at !== bankNumberColumn,
  )
  const payeeColumn = titled(headings.payee, texts) ?? longest(texts, column) ?? Math.min(1, columnCount - 1)
  return {
    delimiter,
    rowsToSkip,
    dayColumn,
    dayOrder: guessDayOrder(column(dayColumn)),
    amount,
    decimalMark: guessDecimalMark(amounts.flatMap(column)),
    payeeColumn,
    memoColumn:
      titled(
        headings.memo,
        texts.filter((at) => at !== payeeColumn),
      ) ?? null,
    bankNumberColumn,
    checkNumberColumn,
    balanceColumn,
  }
}

const guessAmount = (
  header: readonly string[],
  amounts: readonly number[],
  empty: readonly number[],
  titled: (pattern: RegExp, among?: number[]) => number | undefined,
  column: (at: number) => string[],
): AmountColumns => {
  const named = header.length > 0 ? [...amounts, ...empty] : []
  const outColumn = titled(headings.out, named)
  const inColumn = titled(
    headings.into,
    named.filter((at) => at !== outColumn),
  )
  if (outColumn !== undefined && inColumn !== undefined) return { kind: 'two-columns', outColumn, inColumn }
  const pair = fillingEachOther(amounts, column)
  if (pair) return { kind: 'two-columns', outColumn: pair[0], inColumn: pair[1] }
  return {
    kind: 'signed',
    column: titled(headings.amount, [...amounts]) ?? amounts[0] ?? 1,
    moneyOutIs: 'negative',
  }
}

/** Two columns of which every row fills one: money out and money in, most banks in this order. */
const fillingEachOther = (
  amounts: readonly number[],
  column: (at: number) => string[],
): [number, number] | null => {
  for (const [index, one] of amounts.entries()) {
    const first = column(one)
    for (const other of amounts.slice(index + 1)) {
      const second = column(other)
      const filled = (text: string) => text !== ''
      if (!first.every(filled) && first.every((text, row) => filled(text) !== filled(second[row]!)))
        return [one, other]
    }
  }
  return null
}

/** The only order in which every date is one; month first where all fit, as US banks write. */
const guessDayOrder = (texts: readonly string[]): DayOrder => {
  const preferred: DayOrder[] = ['month-day-year', 'day-month-year', 'year-month-day']
  const filled = texts.filter((text) => text !== '')
  return preferred.find((order) => filled.every((text) => readDay(text, order) !== null)) ?? 'month-day-year'
}

const guessDecimalMark = (texts: readonly string[]): DecimalMark => {
  const fits = (mark: DecimalMark) =>
    texts.filter((text) => text !== '' && readAmount(text, mark) !== null).length
  return fits(',') > fits('.') ? ',' : '.'
}

const isAmount = (text: string): boolean =>
  /\d/.test(text) && !isDayInAnyOrder(text) && readAmount(text) !== null

const isDayInAnyOrder = (text: string): boolean =>
  /\d/.test(text) &&
  !/^[-+]?[\d]{1,3}(,\d{3})*[.,]\d+$/.test(text) &&
  dayOrders.some((order) => readDay(text, order) !== null)

/** Half of the filled cells, and at least one. */
const mostly = (texts: readonly string[], test: (text: string) => boolean): boolean => {
  const filled = texts.filter((text) => text !== '')
  return filled.length > 0 && filled.filter(test).length * 2 > filled.length
}

const longest = (columns: readonly number[], column: (at: number) => string[]): number | undefined => {
  const length = (at: number) => column(at).join('').length
  return [...columns].sort((one, other) => length(other) - length(one) || one - other)[0]
}
