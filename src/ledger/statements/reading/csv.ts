// Reads a bank's CSV by a column mapping. A row that cannot be read refuses the whole file, with its line and why.
import {
  type BrokenFile,
  brokenFile,
  type ReadStatements,
  type Statement,
  type StatementLine,
  type StatementRemark,
} from '../statement.ts'
import type { ColumnMapping } from './column-mapping.ts'
import { longRowWords } from './csv-bounds.ts'
import { cutRows } from './csv-cells.ts'
import { type CsvRow, type ReadRow, readRow } from './csv-row.ts'

/** All rows that are not blank. `limit` reads only the first rows, for the mapping form. */
export const readRows = (
  text: string,
  delimiter: string,
  limit?: number,
): { ok: true; rows: CsvRow[] } | BrokenFile => {
  // Blank rows are rows here: four times as many are looked at for those that say something.
  const cut = cutRows(
    text.startsWith('\ufeff') ? text.slice(1) : text,
    delimiter,
    limit === undefined ? undefined : 4 * limit,
  )
  return cut.ok
    ? { ok: true, rows: numbered(cut.rows).slice(0, limit) }
    : brokenFile(cut.line, whyNotCut[cut.why])
}

/**
 * One statement for each account that the rows name, lines in file order: some banks write the newest first. The header is found by what stands under it, so that a
 * bank may write more or fewer rows above it; a row that reads as a movement is one, wherever it stands, and what is left out
 * is said row by row.
 */
export const readCsv = (text: string, mapping: ColumnMapping): ReadStatements => {
  const read = readRows(text, mapping.delimiter)
  if (!read.ok) return read
  const rows = read.rows.map((row) => ({ row, is: readRow(row, mapping) }))
  const header = headerAbove(
    read.rows,
    rows.findIndex(({ is }) => is.kind === 'movement' || is.kind === 'nothing'),
    (index) => rows[index]!.is.kind === 'text',
  )
  if (rows.length <= header + 1) return brokenFile(0, 'The file holds no rows below its header')
  const accounts = accountsApart(mapping)
  const swallowed = swallowedIn(text, mapping)
  for (const [index, { row, is }] of rows.entries()) {
    if (index === header) continue
    const lost = swallowed(row)
    if (lost !== null) return brokenFile(row.fileLine, lost)
    // Above the header a bank writes names, periods and balances of its own.
    if (is.kind === 'broken' && (index > header || is.isDated)) return brokenFile(row.fileLine, is.message)
    if (is.kind === 'movement') accounts.add(row, is.line, is.remark)
    else accounts.remark(row, leftOut(is, index < header))
  }
  const statements = accounts.statements()
  return statements.length > mostAccounts
    ? brokenFile(
        0,
        `Column ${mapping.accountColumn! + 1} names ${statements.length} accounts: it hardly says which account a row is of`,
      )
    : { ok: true, statements }
}

/**
 * Why a row hides other transactions: a quotation mark that is not closed runs on to the next one, lines further down, and what lies
 * between would be lost in the text of one movement. Null for a text that merely goes over several lines.
 */
const swallowedIn = (text: string, mapping: ColumnMapping) => {
  let lines: readonly string[] | null = null
  return ({ fileLine, cells }: CsvRow): string | null => {
    if (!cells.some((cell) => cell.includes('\n'))) return null
    const more = cells.reduce((count, cell) => count + cell.split('\n').length - 1, 0)
    lines ??= text.split('\n')
    for (let at = fileLine + 1; at <= fileLine + more; at += 1) {
      const alone = cutRows(lines[at - 1] ?? '', mapping.delimiter, 1)
      const own = alone.ok ? alone.rows[0] : lines[at - 1]?.replaceAll('"', '').split(mapping.delimiter)
      if (own && readRow({ fileLine: at, cells: own }, mapping).kind === 'movement')
        return `A quotation mark is opened here and not closed in its line: line ${at}, a transaction of its own, would be lost in it. Close the mark or take it out, and choose the file again`
    }
    return null
  }
}

/** More than a household has at one bank. */
const mostAccounts = 40

/** The rows by the account they name; what is left out stands with its account, or with the first one. */
const accountsApart = ({ accountColumn }: ColumnMapping) => {
  const lines = new Map<string, StatementLine[]>()
  const remarks: { account: string; remark: StatementRemark }[] = []
  const accountOf = ({ cells }: CsvRow): string =>
    accountColumn === null ? '' : (cells[accountColumn] ?? '').trim().replace(/\s+/g, ' ').slice(0, 100)
  return {
    add(row: CsvRow, line: StatementLine, remark: StatementRemark | null) {
      const account = accountOf(row)
      const own = lines.get(account)
      if (own) own.push(line)
      else lines.set(account, [line])
      if (remark) remarks.push({ account, remark })
    },
    remark(row: CsvRow, message: string) {
      remarks.push({ account: accountOf(row), remark: { fileLine: row.fileLine, message } })
    },
    statements(): Statement[] {
      const parts = lines.size > 0 ? [...lines] : [['', []] as const]
      return parts.map(([bankAccount, own], at) => ({
        bankAccount,
        kind: 'bank',
        currency: '',
        closing: closingFrom(own),
        lines: [...own],
        remarks: remarks
          .filter(({ account }) => account === bankAccount || (at === 0 && !lines.has(account)))
          .map(({ remark }) => remark),
      }))
    },
  }
}

/**
 * The row of headings above the first movement, or −1: the nearest that is words alone, of two cells or more. Without any
 * movement it is the first such row, so that what stands under it is refused by its line.
 */
export const headerAbove = (
  rows: readonly CsvRow[],
  firstMovement: number,
  isText: (index: number) => boolean,
): number => {
  const isHeader = (row: CsvRow, index: number) =>
    isText(index) && row.cells.filter((cell) => cell.trim() !== '').length >= 2
  if (firstMovement < 0) return rows.findIndex(isHeader)
  for (let index = firstMovement - 1; index >= 0; index -= 1) if (isHeader(rows[index]!, index)) return index
  return -1
}

const leftOut = (row: Exclude<ReadRow, { kind: 'movement' }>, isAbove: boolean): string => {
  if (row.kind === 'nothing') return row.message
  if (isAbove) return 'Above the headings. Left out'
  return row.kind === 'total'
    ? 'A total or a balance without a date. Left out'
    : 'No date and no amount. Left out'
}

/** The balance of the newest movement: of the last row, or of the first when the file runs backwards. */
const closingFrom = (lines: readonly StatementLine[]): Statement['closing'] => {
  const [first, last] = [lines[0], lines.at(-1)]
  if (!first || !last) return null
  const newest = first.day > last.day ? first : last
  return newest.balance === undefined ? null : { balance: newest.balance, asOf: newest.day }
}

/** Blank rows count, then go. */
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

const whyNotCut = {
  'open-quote': 'A quotation mark is opened and never closed',
  'long-row': longRowWords,
}
