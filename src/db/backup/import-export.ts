// Reads a one-file export into new books. Rows go in through the same guards as everyday work, so a tampered file is refused, not believed.
import { readFileSync } from 'node:fs'
import type Database from 'better-sqlite3'
import { z } from 'zod'
import { chainBegun } from '#db/chain/chain.ts'
import { type FileProblem, fileProblem } from '#db/file-problem.ts'
import { keepBytes } from '#db/ledger/attachment-files.ts'
import { migrationJournal, rowsWrittenSince } from '#db/open.ts'
import { exportedTables, exportFormat, exportVersion } from './export-format.ts'

const cell = z.union([z.string(), z.number(), z.null()])
const document = z.object({
  format: z.literal(exportFormat),
  version: z.number().int(),
  structure: z.number().int(),
  tables: z.array(z.object({ name: z.string(), columns: z.array(z.string()), rows: z.array(z.array(cell)) })),
  attachments: z.array(z.object({ hash: z.string().regex(/^[0-9a-f]{64}$/), base64: z.string() })),
})
export type ExportDocument = z.infer<typeof document>

export type ReadExportResult = { ok: true; document: ExportDocument } | { ok: false; problem: FileProblem }

/** Parses and checks the outside of an export: its format, version, tables and columns. */
export const readExport = (path: string): ReadExportResult => {
  const refuse = (kind: FileProblem['kind'], message: string): ReadExportResult => ({
    ok: false,
    problem: { kind, message },
  })
  let json: unknown
  try {
    json = JSON.parse(readFileSync(path, 'utf8'))
  } catch (error) {
    const problem = fileProblem(error, path)
    return problem
      ? { ok: false, problem }
      : refuse('damaged', `${path} is not whole: ${(error as Error).message}. Take another copy of it.`)
  }
  const parsed = document.safeParse(json)
  if (!parsed.success) {
    const issue = parsed.error.issues[0]!
    return refuse(
      'not-books',
      `${path} is not a Dooryard export (at ${issue.path.join('.') || 'its head'}: ${issue.message}). Choose another file.`,
    )
  }
  const newest = migrationJournal().at(-1)!.when
  if (parsed.data.version > exportVersion || parsed.data.structure > newest)
    return refuse('newer', `${path} was written by a newer Dooryard. Update this one to read it.`)
  const wrong = wrongTable(parsed.data, newest)
  if (wrong) return refuse('damaged', `${path} is not whole: ${wrong}. Take another copy of it.`)
  return { ok: true, document: parsed.data }
}

/** What is left out or stands there twice would be lost without a word. An export of an older structure has fewer tables. */
const wrongTable = ({ tables, structure }: ExportDocument, newest: number): string | null => {
  if (!migrationJournal().some(({ when }) => when === structure)) return 'no Dooryard had its structure'
  const names = new Set<string>()
  for (const { name } of tables) {
    if (names.has(name)) return `the table ${shown(name)} stands in it twice`
    if (!exportedTables.some((one) => one.name === name)) return `it has an unknown table ${shown(name)}`
    names.add(name)
  }
  const missing = structure === newest ? exportedTables.find(({ name }) => !names.has(name)) : undefined
  return missing ? `the table ${missing.name} is missing` : null
}

const shown = (name: string): string => JSON.stringify(name.slice(0, 40))

/** Fills new, empty books. One transaction: a row that a guard refuses leaves nothing behind. */
export const fillBooks = (
  sqlite: Database.Database,
  exported: ExportDocument,
  path: string,
): { ok: true } | { ok: false; problem: FileProblem } => {
  try {
    sqlite
      .transaction(() => {
        sqlite.pragma('defer_foreign_keys = ON')
        for (const { name } of exportedTables) {
          const table = exported.tables.find((one) => one.name === name)
          if (!table || name === 'reconciliation_ticks') continue
          if (name !== 'reconciliations') fillTable(sqlite, table)
          else
            fillReconciliations(
              sqlite,
              table,
              exported.tables.find((one) => one.name === 'reconciliation_ticks'),
            )
        }
        for (const statement of rowsWrittenSince(exported.structure)) sqlite.exec(statement)
        if (!exported.tables.some(({ name }) => name === 'chain_links')) announceBeginning(sqlite)
      })
      .immediate()
    return { ok: true }
  } catch (error) {
    if (!(error instanceof Error)) throw error
    const problem = fileProblem(error, path)
    if (problem) return { ok: false, problem }
    const isRefusal =
      error instanceof NotReadable || String((error as { code?: string }).code).startsWith('SQLITE_')
    if (!isRefusal && !(error instanceof TypeError) && !(error instanceof RangeError)) throw error
    return {
      ok: false,
      problem: {
        kind: 'damaged',
        message: `${path} was changed or is damaged: ${error.message}. Nothing was read in.`,
      },
    }
  }
}

/** Puts the export's attachments into the folder; a file that is not what its hash says is refused. */
export const keepExportedAttachments = (exported: ExportDocument, folder: string): FileProblem | null => {
  for (const { hash, base64 } of exported.attachments) {
    const bytes = Buffer.from(base64, 'base64')
    if (keepBytes(folder, bytes) !== hash)
      return {
        kind: 'damaged',
        message: `The attachment ${hash.slice(0, 12)}… in this export was changed. Nothing was restored.`,
      }
  }
  return null
}

/** An export from before the chain: opening the books then takes them as they are (`beginChain`), and the log says so. */
const announceBeginning = (sqlite: Database.Database): void => {
  sqlite
    .prepare(
      `INSERT INTO change_log (at, kind, summary) SELECT strftime('%Y-%m-%dT%H:%M:%fZ', 'now'), ?, ?
       WHERE NOT EXISTS (SELECT 1 FROM change_log WHERE kind = ?)`,
    )
    .run(
      chainBegun,
      'From here on every change is proved; what was there before was taken as it was found',
      chainBegun,
    )
}

class NotReadable extends Error {}

type Table = ExportDocument['tables'][number]

const fillTable = (sqlite: Database.Database, table: Table): void => {
  const known = sqlite.pragma(`table_info(${table.name})`) as { name: string }[]
  const unknown = table.columns.find((column) => !known.some((one) => one.name === column))
  if (table.columns.length === 0) throw new NotReadable(`${table.name} has no columns`)
  if (unknown !== undefined) throw new NotReadable(`${table.name} has an unknown column ${shown(unknown)}`)
  const insert = sqlite.prepare(
    `INSERT INTO ${table.name} (${table.columns.join(', ')}) VALUES (${table.columns.map(() => '?').join(', ')})`,
  )
  const prepare = rowsAsNew[table.name]
  for (const row of table.rows) {
    if (row.length !== table.columns.length)
      throw new NotReadable(
        `A row of ${table.name} has ${row.length} values instead of ${table.columns.length}`,
      )
    const values = Object.fromEntries(table.columns.map((column, index) => [column, row[index] ?? null]))
    const fresh = prepare ? prepare(values) : values
    insert.run(...table.columns.map((column) => fresh[column]))
    if (table.name === 'month_closings' && values.reopened_at !== null)
      sqlite
        .prepare('UPDATE month_closings SET reopened_at = ?, reopen_reason = ? WHERE id = ?')
        .run(values.reopened_at, values.reopen_reason, values.id)
  }
}

type Row = Record<string, string | number | null>

/** What the guards let in only step by step: reconciliations start open, months are closed before they are reopened. */
const rowsAsNew: Record<string, (row: Row) => Row> = {
  reconciliations: (row) => ({ ...row, state: 'open', finished_at: null }),
  month_closings: (row) => ({ ...row, reopened_at: null, reopen_reason: null }),
}

/** One after the other, as they were made: opened, ticked, finished. */
const fillReconciliations = (sqlite: Database.Database, table: Table, ticks: Table | undefined): void => {
  const at = (name: string, of = table) => of.columns.indexOf(name)
  const ids = new Set(table.rows.map((row) => row[at('id')]))
  const stray = ticks?.rows.find((tick) => !ids.has(tick[at('reconciliation_id', ticks)]))
  if (stray) throw new NotReadable('A row of reconciliation_ticks belongs to no reconciliation')
  const finish = sqlite.prepare("UPDATE reconciliations SET state = 'finished', finished_at = ? WHERE id = ?")
  for (const row of table.rows) {
    const id = row[at('id')] ?? null
    fillTable(sqlite, { ...table, rows: [row] })
    if (ticks)
      fillTable(sqlite, {
        ...ticks,
        rows: ticks.rows.filter((tick) => tick[at('reconciliation_id', ticks)] === id),
      })
    if (row[at('state')] === 'finished') finish.run(row[at('finished_at')], id)
  }
}
