// Copies of the books file: whole at one instant, proved by opening and verifying, in place only when proved. Daily ones are kept by a rule.
import {
  closeSync,
  existsSync,
  fsyncSync,
  mkdirSync,
  openSync,
  readdirSync,
  renameSync,
  rmSync,
} from 'node:fs'
import { basename, dirname, join } from 'node:path'
import { type Day, parseDay } from '#calendar/day.ts'
import { alreadyThere, type FileProblem, fileProblem } from '#db/file-problem.ts'
import type { Books } from '#db/open.ts'
import { openSqlite } from '#db/sqlite.ts'
import { type VerifyReport, verifyBooks } from '#db/verify/verify.ts'
import { daysToKeep } from './backup-rule.ts'

export type BackupResult =
  | { ok: true; path: string; report: VerifyReport }
  | { ok: false; problem: FileProblem }

/** Writes a proved copy to `target`, which must not be there yet. On any failure nothing is left at the target. */
export const backUpTo = (books: Pick<Books, 'sqlite'>, target: string): BackupResult => {
  const half = `${target}.half`
  try {
    if (existsSync(target)) return { ok: false, problem: alreadyThere(target) }
    mkdirSync(dirname(target), { recursive: true })
    rmSync(half, { force: true })
    books.sqlite.prepare('VACUUM INTO ?').run(half)
    const report = proveCopy(half)
    if (report.findings.length > 0) {
      rmSync(half, { force: true })
      const [first] = report.findings
      return {
        ok: false,
        problem: {
          kind: 'damaged',
          message: `The backup was not kept: verify found ${report.findings.length} errors, the first at ${first!.at}: ${first!.message}. Run “npm run dooryard -- verify”.`,
        },
      }
    }
    toDisk(half)
    renameSync(half, target)
    toDisk(dirname(target))
    return { ok: true, path: target, report }
  } catch (error) {
    removeQuietly(half)
    const problem = fileProblem(error, target)
    if (!problem) throw error
    return { ok: false, problem }
  }
}

/** The backup of the day, unless it was made already; then lets go of those the rule does not keep. */
export const backUpDaily = (books: Books, folder: string, today: Day): BackupResult | null => {
  const name = basename(books.path, '.sqlite')
  const target = join(folder, `${name}-${today}.sqlite`)
  if (existsSync(target)) return null
  const result = backUpTo(books, target)
  if (result.ok) letGo(folder, name)
  return result
}

export interface KeptBackup {
  path: string
  name: string
  /** The day of a daily one; null for those made before migrating or restoring. */
  day: Day | null
}

/** Backups in a folder, newest first by name within their kind. */
export const listBackups = (folder: string): KeptBackup[] => {
  if (!existsSync(folder)) return []
  return readdirSync(folder)
    .filter((file) => file.endsWith('.sqlite') || file.endsWith('.dooryard'))
    .sort()
    .reverse()
    .map((file) => ({
      path: join(folder, file),
      name: file,
      day: parseDay(/-(\d{4}-\d{2}-\d{2})\.sqlite$/.exec(file)?.[1] ?? ''),
    }))
}

const keptBeforeMigrating = 3

const letGo = (folder: string, name: string): void => {
  const own = listBackups(folder).filter((backup) => backup.name.startsWith(`${name}-`))
  const kept = daysToKeep(own.flatMap((backup) => backup.day ?? []))
  const migrations = own.filter((backup) => backup.name.startsWith(`${name}-before-migration-`))
  const gone = [
    ...own.filter((backup) => backup.day !== null && !kept.has(backup.day)),
    ...migrations.slice(keptBeforeMigrating),
  ]
  for (const backup of gone) rmSync(backup.path, { force: true })
}

/** Opens the copy by itself and verifies it, as a restore would. */
const proveCopy = (path: string): VerifyReport => {
  const copy = openSqlite(path, { readonly: true })
  try {
    copy.pragma('trusted_schema = OFF')
    return verifyBooks(copy)
  } finally {
    copy.close()
  }
}

/** Waits until a file or a folder's list of names is on disk. */
export const toDisk = (path: string): void => {
  const handle = openSync(path, 'r')
  try {
    fsyncSync(handle)
  } finally {
    closeSync(handle)
  }
}

const removeQuietly = (path: string): void => {
  try {
    rmSync(path, { force: true })
  } catch {
    // The folder itself cannot be written: then there is nothing of ours in it.
  }
}
