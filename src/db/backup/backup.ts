// Copies of the books file: whole at one instant, proved by opening and verifying, in place only when proved.
import { existsSync, readdirSync, statSync } from 'node:fs'
import { basename, dirname, join } from 'node:path'
import { type Day, parseDay } from '#calendar/day.ts'
import { alreadyThere, type FileProblem, fileProblem } from '#db/file-problem.ts'
import { forgetHalf, halfOf } from '#db/half.ts'
import type { Books } from '#db/open.ts'
import { takePlace } from '#db/platform.ts'
import { openSqlite } from '#db/sqlite.ts'
import { type VerifyReport, verifyBooks } from '#db/verify/verify.ts'

export type BackupResult =
  | { ok: true; path: string; report: VerifyReport }
  | { ok: false; problem: FileProblem }

/** Writes a proved copy to `target`, which must not be there yet. On any failure nothing is left at the target. */
export const backUpTo = (books: Pick<Books, 'sqlite'>, target: string): BackupResult =>
  existsSync(target) ? { ok: false, problem: alreadyThere(target) } : copyProved(books, target)

/** The same over whatever is at `target`, whose place it takes only once it is proved. */
export const copyProved = (books: Pick<Books, 'sqlite'>, target: string): BackupResult => {
  const half = halfOf(target)
  try {
    const nowhere = folderProblem(target)
    if (nowhere) return { ok: false, problem: nowhere }
    books.sqlite.prepare('VACUUM INTO ?').run(half)
    const report = proveCopy(half)
    if (report.findings.length > 0) {
      const [first] = report.findings
      return {
        ok: false,
        problem: {
          kind: 'damaged',
          message: `The backup was not kept: verify found ${report.findings.length} errors, the first at ${first!.at}: ${first!.message}. Run “npm run dooryard -- verify”.`,
        },
      }
    }
    takePlace(half, target)
    return { ok: true, path: target, report }
  } catch (error) {
    const problem = fileProblem(error, target)
    if (!problem) throw error
    return { ok: false, problem }
  } finally {
    forgetHalf(half)
  }
}

/** A stick that is not there must not become a folder of its name on the disk that it was to protect from. */
export const folderProblem = (target: string): FileProblem | null =>
  statSync(dirname(target), { throwIfNoEntry: false })?.isDirectory()
    ? null
    : {
        kind: 'missing',
        message: `There is no folder ${dirname(target)}. Put the stick in or make the folder, then back up again; nothing was written.`,
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

/** Copies of this books file, of whatever kind. */
export const ownCopies = (booksPath: string, folder: string): KeptBackup[] => {
  const name = basename(booksPath, '.sqlite')
  const ours = /^(\d{4}-\d{2}-\d{2}|(before-migration|before-restore|open-at-stop)-[\dTZ-]+)\.sqlite$/
  return listBackups(folder).filter(
    (backup) => backup.name.startsWith(`${name}-`) && ours.test(backup.name.slice(name.length + 1)),
  )
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
