// Writes everything in a books file as one JSON file, row by row: memory does not grow with the books.
import { closeSync, existsSync, openSync, readFileSync, writeSync } from 'node:fs'
import { dirname } from 'node:path'
import type Database from 'better-sqlite3'
import { alreadyThere, type FileProblem, fileProblem } from '#db/file-problem.ts'
import { makeWhole } from '#db/half.ts'
import { attachmentPath, receiptsOf } from '#db/ledger/attachment-files.ts'
import { migrationJournal } from '#db/open.ts'
import { folderProblem } from './backup.ts'
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
  try {
    if (existsSync(target)) return { ok: false, problem: alreadyThere(target) }
    const nowhere = folderProblem(target)
    if (nowhere) return { ok: false, problem: nowhere }
    makeWhole(dirname(options.attachments), target, (half) => {
      const handle = openSync(half, 'w', 0o600)
      try {
        const write = (text: string) => void writeSync(handle, text)
        sqlite.transaction(() => writeAll(sqlite, write, options)).deferred()
      } finally {
        closeSync(handle)
      }
    })
    return { ok: true, path: target }
  } catch (error) {
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
  receiptsOf(sqlite)
    .map(({ hash }) => ({ hash, path: attachmentPath(attachments, hash) }))
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
