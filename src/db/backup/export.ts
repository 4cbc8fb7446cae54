// Writes everything in a books file as one JSON file, row by row: memory does not grow with the books.
import {
  closeSync,
  existsSync,
  fsyncSync,
  openSync,
  readFileSync,
  renameSync,
  rmSync,
  writeSync,
} from 'node:fs'
import type Database from 'better-sqlite3'
import { alreadyThere, type FileProblem, fileProblem } from '#db/file-problem.ts'
import { attachmentPath } from '#db/ledger/attachment-files.ts'
import { migrationJournal } from '#db/open.ts'
import {
  type ExportedTable,
  exportAbout,
  exportedTables,
  exportFormat,
  exportVersion,
} from './export-format.ts'

export type ExportResult = { ok: true; path: string } | { ok: false; problem: FileProblem }

/** One instant of the books and every attachment they name. Nothing is left at the target when it fails. */
export const exportBooks = (
  sqlite: Database.Database,
  target: string,
  options: { now: Date; attachments: string },
): ExportResult => {
  if (existsSync(target)) return { ok: false, problem: alreadyThere(target) }
  const half = `${target}.half`
  let handle: number | undefined
  try {
    handle = openSync(half, 'w', 0o600)
    const out = handle
    const write = (text: string) => void writeSync(out, text)
    sqlite.transaction(() => writeAll(sqlite, write, options)).deferred()
    fsyncSync(handle)
    closeSync(handle)
    handle = undefined
    renameSync(half, target)
    return { ok: true, path: target }
  } catch (error) {
    if (handle !== undefined) closeSync(handle)
    rmSync(half, { force: true })
    const problem = fileProblem(error, target)
    if (!problem) throw error
    return { ok: false, problem }
  }
}

const writeAll = (
  sqlite: Database.Database,
  write: (text: string) => void,
  { now, attachments }: { now: Date; attachments: string },
): void => {
  const head = {
    format: exportFormat,
    version: exportVersion,
    structure: migrationJournal().at(-1)!.when,
    exportedAt: now.toISOString(),
    about: exportAbout,
  }
  write(`${JSON.stringify(head, null, 1).slice(0, -2)},\n "tables": [`)
  exportedTables.forEach((table, index) => {
    write(index === 0 ? '\n' : ',\n')
    writeTable(sqlite, table, write)
  })
  write('\n ],\n "attachments": [')
  const hashes = sqlite.prepare('SELECT DISTINCT content_hash FROM attachments').pluck().all() as string[]
  hashes
    .map((hash) => ({ hash, path: attachmentPath(attachments, hash) }))
    .filter(({ path }) => existsSync(path))
    .forEach(({ hash, path }, index) => {
      const line = JSON.stringify({ hash, base64: readFileSync(path).toString('base64') })
      write(`${index === 0 ? '\n' : ',\n'}  ${line}`)
    })
  write('\n ]\n}\n')
}

const batch = 500

const writeTable = (sqlite: Database.Database, table: ExportedTable, write: (text: string) => void): void => {
  const select = sqlite.prepare(`SELECT * FROM ${table.name} ORDER BY ${table.orderedBy}`).raw()
  const columns = select.columns().map((column) => column.name)
  const head = JSON.stringify({ name: table.name, about: table.about, columns }).slice(0, -1)
  write(`  ${head}, "rows": [`)
  let waiting: string[] = []
  let first = true
  const flush = () => {
    if (waiting.length === 0) return
    write(`${first ? '\n' : ',\n'}${waiting.join(',\n')}`)
    first = false
    waiting = []
  }
  for (const row of select.iterate()) {
    waiting.push(`   ${JSON.stringify(row)}`)
    if (waiting.length >= batch) flush()
  }
  flush()
  write(first ? ']}' : '\n  ]}')
}
