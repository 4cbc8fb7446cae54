// Reads a file in and remembers how its columns are read, both or neither.

import type { Day } from '#calendar/day.ts'
import { type Act, atomically } from '#db/once.ts'
import type { Books } from '#db/open.ts'
import type { Outcome } from '#ledger/problem.ts'
import type { ColumnMapping } from '#ledger/statements/reading/column-mapping.ts'
import { rememberMapping } from './mapping-store.ts'
import { type ImportResult, importStatement, type StatementFile } from './statement-store.ts'

export interface FileToReadIn extends Omit<StatementFile, 'mappingId'> {
  /** The headings of a CSV and what its columns mean; null for OFX. */
  columns: { header: readonly string[]; mapping: ColumnMapping } | null
}

export const readIn = (
  books: Books,
  act: Act,
  accountId: number,
  { columns, ...file }: FileToReadIn,
  today: Day,
): Outcome<ImportResult> =>
  atomically<Outcome<ImportResult>>(books, () => {
    const mappingId = columns && rememberMapping(books, act, accountId, columns.header, columns.mapping)
    return importStatement(books, act, accountId, { ...file, mappingId }, today)
  })
