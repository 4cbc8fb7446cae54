// Restoring: the backup is opened, migrated and verified beside the books, compared with them, and only then put in their place by one rename.
import { copyFileSync, existsSync, linkSync, mkdirSync, rmSync, statSync } from 'node:fs'
import { basename, dirname, join } from 'node:path'
import type Database from 'better-sqlite3'
import { type FileProblem, fileProblem, restoreLatest } from '#db/file-problem.ts'
import { forgetHalf, halfOf } from '#db/half.ts'
import { receiptsOf } from '#db/ledger/attachment-files.ts'
import { type Books, openBooks } from '#db/open.ts'
import { firstBytes, headProblem } from '#db/open-reading.ts'
import { rename, takePlace, toDisk, ways } from '#db/platform.ts'
import { openSqlite } from '#db/sqlite.ts'
import { verifyBooks } from '#db/verify/verify.ts'
import { unpackAttachments } from './backup-file.ts'
import { type BooksComparison, compareBooks } from './compare-books.ts'
import { fillBooks, keepExportedAttachments, readExport } from './import-export.ts'
import { receiptsToRestore } from './restore-receipts.ts'
import { isSealed, unsealFile } from './sealed-backup.ts'

export interface RestoreOptions {
  /** The books file to put the backup in the place of. */
  file: string
  backups: string
  attachments: string
  now: Date
  passphrase?: string
}

export interface PreparedRestore {
  /** What would change; null when there are no books yet. */
  comparison: BooksComparison | null
  /** Receipts that the backup names and that are neither in it, nor beside it, nor here. */
  receiptsMissing: number
  /** True for a backup from before the chain of changes: nothing proves what it holds. */
  chainBegun: boolean
  /** Puts the backup in place. Returns where the books of before were kept, or null when there were none. */
  carryOut(): { ok: true; keptBefore: string | null } | { ok: false; problem: FileProblem }
  /** Forgets the prepared copy. */
  forget(): void
}

export type PrepareResult = { ok: true; prepared: PreparedRestore } | { ok: false; problem: FileProblem }

/** Gets a backup ready and says what would change. The books and the backup are both left as they are. */
export const prepareRestore = (backup: string, options: RestoreOptions): PrepareResult => {
  const candidate = halfOf(options.file)
  const receipts = receiptsToRestore(backup, options.attachments)
  const forget = () => {
    forgetHalf(candidate)
    receipts.forget()
  }
  const refuse = (problem: FileProblem): PrepareResult => {
    forget()
    const message = problem.message
      .replaceAll(candidate, backup)
      .replace(restoreLatest, 'Take another backup.')
    return { ok: false, problem: { ...problem, message } }
  }
  let books: Books | undefined
  try {
    mkdirSync(dirname(options.file), { recursive: true })
    forget()
    const laid = layOut(backup, candidate, receipts.staged, options)
    if (laid) return refuse(laid)
    const opened = openBooks(candidate, {
      now: options.now,
      mustExist: true,
      backupFolder: dirname(candidate),
    })
    if (!opened.ok) return refuse(opened.problem)
    books = opened.books
    if (books.backupBeforeMigrating) rmSync(books.backupBeforeMigrating, { force: true })
    const wrong = proveCandidate(books, backup, receipts.staged)
    if (wrong) {
      books.close()
      return refuse(wrong)
    }
    const comparison = existsSync(options.file) ? compareBooks(options.file, books) : null
    const named = receiptsOf(books.sqlite)
    // Everything into the one file: what is renamed must not lean on a log beside it.
    books.sqlite.pragma('wal_checkpoint(TRUNCATE)')
    books.sqlite.pragma('journal_mode = DELETE')
    books.close()
    const carryOut = () => {
      receipts.keep(named)
      const put = putInPlace(candidate, options)
      if (put.ok) receipts.forget()
      return put
    }
    const receiptsMissing = receipts.missing(named)
    const { chainBegun } = opened.books
    return { ok: true, prepared: { comparison, receiptsMissing, chainBegun, forget, carryOut } }
  } catch (error) {
    books?.close()
    forget()
    const problem = fileProblem(error, backup)
    if (!problem) throw error
    return refuse(problem)
  }
}

/** Any of the three kinds of backup as a plain books file at `candidate`. */
const layOut = (
  backup: string,
  candidate: string,
  staged: string,
  options: RestoreOptions,
): FileProblem | null => {
  if (!existsSync(backup))
    return { kind: 'missing', message: `There is no backup at ${backup}. Check the name.` }
  if (!statSync(backup).isFile())
    return { kind: 'not-books', message: `${backup} is a folder. Name the backup file in it.` }
  const head = firstBytes(backup, 16)
  if (isSealed(head)) return layOutSealed(backup, candidate, options.passphrase)
  if (/^\s*\{/.test(head.toString('utf8'))) return layOutExport(backup, candidate, staged, options.now)
  const problem = headProblem(backup)
  if (problem) return problem
  copyWhole(backup, candidate)
  return null
}

const layOutSealed = (
  backup: string,
  candidate: string,
  passphrase: string | undefined,
): FileProblem | null => {
  if (passphrase === undefined)
    return {
      kind: 'wrong-passphrase',
      message: `${backup} is encrypted. Give its passphrase (on the command line with --passphrase-file).`,
    }
  return unsealFile(backup, candidate, passphrase) ?? headProblem(candidate)
}

const layOutExport = (backup: string, candidate: string, staged: string, now: Date): FileProblem | null => {
  const read = readExport(backup)
  if (!read.ok) return read.problem
  const opened = openBooks(candidate, { now })
  if (!opened.ok) return opened.problem
  try {
    const filled = fillBooks(opened.books.sqlite, read.document, backup)
    if (!filled.ok) return filled.problem
  } finally {
    opened.books.close()
  }
  return keepExportedAttachments(read.document, staged)
}

/** A backup that lies in the data folder may have its own log beside it: SQLite copies one whole instant. */
const copyWhole = (backup: string, candidate: string): void => {
  const source = openSqlite(backup, { readonly: true, fileMustExist: true })
  try {
    source.prepare('VACUUM INTO ?').run(candidate)
  } finally {
    source.close()
  }
}

const proveCandidate = (books: Books, backup: string, staged: string): FileProblem | null => {
  const unpacked = unpackAttachments(books.sqlite, staged)
  if (unpacked) return unpacked
  const [first, ...more] = verifyBooks(books.sqlite).findings
  return first
    ? {
        kind: 'damaged',
        message: `${backup} was not restored: verify found ${more.length + 1} errors in it, the first at ${first.at}: ${first.message}. Take another backup.`,
      }
    : null
}

const putInPlace = (
  candidate: string,
  { file, backups, now }: RestoreOptions,
): { ok: true; keptBefore: string | null } | { ok: false; problem: FileProblem } => {
  try {
    toDisk(candidate)
    const stamp = now.toISOString().replace(/[:.]/g, '-')
    const kept = join(backups, `${basename(file, '.sqlite')}-before-restore-${stamp}.sqlite`)
    if (!existsSync(file)) {
      keepLog(file, kept)
      takePlace(candidate, file)
      return { ok: true, keptBefore: null }
    }
    const taken = takeAlone(file)
    if (!taken.ok) return taken
    try {
      mkdirSync(backups, { recursive: true })
      keepBefore(taken.sqlite, file, kept)
      // Else the lock is held until the new file stands there, so that nobody opens the old one in between.
      if (!ways.replacesOpen) taken.sqlite?.close()
      takePlace(candidate, file)
      return { ok: true, keptBefore: kept }
    } finally {
      taken.sqlite?.close()
    }
  } catch (error) {
    const problem = fileProblem(error, file)
    if (!problem) throw error
    return { ok: false, problem }
  }
}

type Alone = { ok: true; sqlite: Database.Database | null } | { ok: false; problem: FileProblem }

/** Leaving WAL is possible only for the last one who has the file open: a running server is noticed, and the log is gone before the rename. */
const takeAlone = (file: string): Alone => {
  let sqlite: Database.Database | undefined
  try {
    sqlite = openSqlite(file, { timeout: 0 })
    const mode = sqlite.pragma('journal_mode = DELETE', { simple: true })
    if (mode === 'wal') throw Object.assign(new Error('in use'), { code: 'SQLITE_BUSY' })
    sqlite.exec('BEGIN EXCLUSIVE')
    return { ok: true, sqlite }
  } catch (error) {
    sqlite?.close()
    const problem = fileProblem(error, file)
    if (problem?.kind === 'damaged' || problem?.kind === 'not-books') return { ok: true, sqlite: null }
    if (problem?.kind === 'busy')
      return {
        ok: false,
        problem: {
          kind: 'busy',
          message: `${file} is open in a running Dooryard. Stop it, then restore again; nothing was changed.`,
        },
      }
    if (!problem) throw error
    return { ok: false, problem }
  }
}

/** The books of before stay in the backups, byte for byte; a damaged file with its log too. */
const keepBefore = (alone: Database.Database | null, file: string, kept: string): void => {
  try {
    // A second name for the same bytes; opening the file here would also let go of SQLite's lock on it.
    linkSync(file, kept)
  } catch {
    copyFileSync(file, kept)
  }
  if (!alone) keepLog(file, kept)
}

/** A log that outlived its file would be taken for the restored file's own. */
const keepLog = (file: string, kept: string): void => {
  for (const suffix of ['-wal', '-shm'])
    if (existsSync(file + suffix)) {
      mkdirSync(dirname(kept), { recursive: true })
      rename(file + suffix, kept + suffix)
    }
}
