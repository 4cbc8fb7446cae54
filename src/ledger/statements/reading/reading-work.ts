// What a worker does with a bank file: plain data in and out. Many lines go out as text in slices, so that whoever takes them in need
// not do it in one go.
import type { InTurns } from '#kept/in-turns.ts'
import type { ReadStatements, Statement, StatementLine } from '#ledger/statements/statement.ts'
import type { ColumnMapping } from './column-mapping.ts'
import { readCsv } from './csv.ts'
import { fitGuess, type OpenedFile, openBankFile } from './read-file.ts'

/** A statement without its lines, and these as JSON lists. */
export interface Sliced {
  statement: Omit<Statement, 'lines'>
  slices: string[]
}

type Opened = Exclude<OpenedFile, { format: 'ofx' }>

export const openInSlices = (bytes: Uint8Array): Opened | { ok: true; format: 'ofx'; sliced: Sliced[] } => {
  const opened = openBankFile(bytes)
  return opened.ok && opened.format === 'ofx'
    ? { ok: true, format: 'ofx', sliced: opened.statements.map(slicedOf) }
    : opened
}

export const readCsvInSlices = (order: {
  text: string
  mapping: ColumnMapping
}): Exclude<ReadStatements, { ok: true }> | { ok: true; sliced: Sliced[] } => {
  const read = readCsv(order.text, order.mapping)
  return read.ok ? { ok: true, sliced: read.statements.map(slicedOf) } : read
}

const sliceSize = 2000

const slicedOf = ({ lines, ...statement }: Statement): Sliced => ({
  statement,
  slices: Array.from({ length: Math.ceil(lines.length / sliceSize) }, (_, at) =>
    JSON.stringify(lines.slice(at * sliceSize, (at + 1) * sliceSize)),
  ),
})

export function* unsliced(sliced: readonly Sliced[]): InTurns<Statement[]> {
  const statements: Statement[] = []
  for (const { statement, slices } of sliced) {
    const lines: StatementLine[] = []
    for (const slice of slices) {
      for (const line of JSON.parse(slice) as StatementLine[]) lines.push(line)
      yield
    }
    statements.push({ ...statement, lines })
  }
  return statements
}

export const fitGuessIn = (order: {
  text: string
  guess: ColumnMapping
  account: Parameters<typeof fitGuess>[2]
  bankAccount: string
}) => fitGuess(order.text, order.guess, order.account, order.bankAccount)
