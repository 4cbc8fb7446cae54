// A first look at a bank's CSV: what divides its columns, where its headings stand, and what the columns may mean.

import { type BrokenFile, brokenFile } from '../statement.ts'
import type { ColumnMapping, Delimiter } from './column-mapping.ts'
import { delimiters } from './column-mapping.ts'
import { headerAbove, readRows } from './csv.ts'
import type { CsvRow } from './csv-row.ts'
import { type GuessDoubt, guessColumns } from './guess-columns.ts'
import { isAmount, isDayInAnyOrder } from './titled-columns.ts'

export interface CsvSketch {
  ok: true
  delimiter: Delimiter
  /** The row of headings, empty texts when the file has none. */
  header: string[]
  /** First rows of the file, heading included. */
  rows: CsvRow[]
  columnCount: number
  guess: ColumnMapping
  /** Where two readings fit: to be asked, unless a person has said what the columns mean. */
  doubts: GuessDoubt[]
  /** The dates tell their order by themselves. */
  isDayOrderWritten: boolean
}

const sampleRows = 60

export const sketchCsv = (text: string): CsvSketch | BrokenFile => {
  const head = text.length > 60_000 ? text.slice(0, text.lastIndexOf('\n', 60_000) + 1) || text : text
  const delimiter = sniffDelimiter(head)
  const read = readRows(head, delimiter, sampleRows)
  if (!read.ok) return read
  const { rows } = read
  if (rows.length === 0) return brokenFile(0, 'The file is empty')
  const columnCount = Math.max(...rows.map((row) => row.cells.length))
  if (columnCount < 2)
    return brokenFile(rows[0]!.fileLine, 'The file has only one column, so it is no list of transactions')
  const isMovement = rows.map(({ cells }) => cells.some(isDayInAnyOrder) && cells.some(isAmount))
  const headerAt = headerAbove(rows, isMovement.indexOf(true), (index) => !rows[index]!.cells.some(isFigure))
  const header = rows[headerAt]?.cells ?? []
  const movements = rows.filter((_, index) => index > headerAt && isMovement[index])
  const below = movements.length > 0 ? movements : rows.slice(headerAt + 1)
  return {
    ok: true,
    delimiter,
    header: Array.from({ length: columnCount }, (_, column) => (header[column] ?? '').trim()),
    rows,
    columnCount,
    ...guessColumns(delimiter, header, below, columnCount),
  }
}

const isFigure = (cell: string): boolean => isAmount(cell.trim()) || isDayInAnyOrder(cell.trim())

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
