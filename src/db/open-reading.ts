// Opens a books file only to look at it: the file is never written. A file of an older Dooryard is looked at in a migrated copy.
import { closeSync, existsSync, mkdtempSync, openSync, readSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import type Database from 'better-sqlite3'
import { type FileProblem, fileProblem } from './file-problem.ts'
import { isOlderFile, newerFileProblem, openBooks } from './open.ts'
import { openSqlite } from './sqlite.ts'

export interface ReadingBooks {
  sqlite: Database.Database
  /** True for a file from before the chain of changes: the one link there is was made in the copy. */
  chainBegun: boolean
  close(): void
}

export type OpenReadingResult = { ok: true; reading: ReadingBooks } | { ok: false; problem: FileProblem }

export const openForReading = (path: string, now: Date, temporaryFolder = tmpdir()): OpenReadingResult => {
  let sqlite: Database.Database | undefined
  try {
    const problem = headProblem(path)
    if (problem) return { ok: false, problem }
    sqlite = openSqlite(path, { readonly: true, fileMustExist: true })
    sqlite.pragma('trusted_schema = OFF')
    const newer = newerFileProblem(sqlite, path)
    if (newer) {
      sqlite.close()
      return { ok: false, problem: newer }
    }
    const opened = sqlite
    if (!isOlderFile(opened))
      return { ok: true, reading: { sqlite: opened, chainBegun: false, close: () => void opened.close() } }
    return openMigratedCopy(opened, path, now, temporaryFolder)
  } catch (error) {
    sqlite?.close()
    const problem = fileProblem(error, path)
    if (!problem) throw error
    return { ok: false, problem }
  }
}

const openMigratedCopy = (
  source: Database.Database,
  path: string,
  now: Date,
  temporaryFolder: string,
): OpenReadingResult => {
  const folder = mkdtempSync(join(temporaryFolder, 'dooryard-'))
  const forget = () => rmSync(folder, { recursive: true, force: true })
  try {
    const copy = join(folder, 'copy.sqlite')
    source.prepare('VACUUM INTO ?').run(copy)
    const opened = openBooks(copy, { now, mustExist: true })
    if (!opened.ok) {
      forget()
      return {
        ok: false,
        problem: { ...opened.problem, message: opened.problem.message.replaceAll(copy, path) },
      }
    }
    const { books } = opened
    const close = () => {
      books.close()
      forget()
    }
    return { ok: true, reading: { sqlite: books.sqlite, chainBegun: books.chainBegun, close } }
  } catch (error) {
    forget()
    throw error
  } finally {
    source.close()
  }
}

/** Missing, empty or not a database at all: said before SQLite is asked. */
export const headProblem = (path: string): FileProblem | null => {
  if (!existsSync(path)) return { kind: 'missing', message: `There is no file at ${path}. Check the name.` }
  return firstBytes(path, 16).toString('latin1') === 'SQLite format 3\0'
    ? null
    : { kind: 'not-books', message: `${path} is not a books file. Choose another file.` }
}

export const firstBytes = (path: string, count: number): Buffer => {
  const handle = openSync(path, 'r')
  try {
    const bytes = Buffer.alloc(count)
    return bytes.subarray(0, readSync(handle, bytes, 0, count, 0))
  } finally {
    closeSync(handle)
  }
}
