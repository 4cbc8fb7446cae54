// Copies of the books file: whole at one instant, proved by opening and verifying, in place only when proved. Daily ones are kept by a rule.
import { existsSync, mkdirSync, readdirSync, rmSync, statSync } from 'node:fs'
import { basename, dirname, join } from 'node:path'
import { type Day, parseDay } from '#calendar/day.ts'
import { placeBeside } from '#db/data-place.ts'
import { alreadyThere, type FileProblem, fileProblem } from '#db/file-problem.ts'
import { forgetHalf, halfOf } from '#db/half.ts'
import { attachmentPath, copyBytes, receiptsMissing, receiptsOf } from '#db/ledger/attachment-files.ts'
import type { Books } from '#db/open.ts'
import { takePlace } from '#db/platform.ts'
import { openSqlite } from '#db/sqlite.ts'
import { type VerifyReport, verifyBooks } from '#db/verify/verify.ts'
import { daysToKeep } from './backup-rule.ts'

export type BackupResult =
  | { ok: true; path: string; report: VerifyReport }
  | { ok: false; problem: FileProblem }

/** Writes a proved copy to `target`, which must not be there yet. On any failure nothing is left at the target. */
export const backUpTo = (books: Pick<Books, 'sqlite'>, target: string): BackupResult => {
  const half = halfOf(target)
  try {
    if (existsSync(target)) return { ok: false, problem: alreadyThere(target) }
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

/**
 * The backup of the day, unless it was made already; then lets go of those the rule does not keep. The receipts that the books
 * name lie with the copies, each once however many copies there are.
 */
export const backUpDaily = (books: Books, folder: string, today: Day): BackupResult | null => {
  const name = basename(books.path, '.sqlite')
  const target = join(folder, `${name}-${today}.sqlite`)
  try {
    mkdirSync(folder, { recursive: true })
    const made = existsSync(target) ? null : backUpTo(books, target)
    if (made && !made.ok) return made
    if (made) letGo(folder, name)
    const lacking = keepReceipts(books, placeBeside(books.path).attachments, placeBeside(target).attachments)
    return lacking ? { ok: false, problem: lacking } : made
  } catch (error) {
    const problem = fileProblem(error, target)
    if (!problem) throw error
    return { ok: false, problem }
  }
}

/** Before the first copy of a day the whole file is looked through: a copy of damaged pages would be none. */
export const keepCopyOfDay = (books: Books, folder: string, today: Day): FileProblem | null => {
  const isMade = existsSync(join(folder, `${basename(books.path, '.sqlite')}-${today}.sqlite`))
  const damage = isMade ? null : books.standing.checkPages('integrity_check')
  if (damage) return damage
  const made = backUpDaily(books, folder, today)
  return made && !made.ok ? made.problem : null
}

/** Copies by content, not by a second name for the same bytes: what spoils the one leaves the other as it was. */
const keepReceipts = (books: Books, from: string, to: string): FileProblem | null => {
  const lacking = receiptsOf(books.sqlite).filter(
    ({ hash }) => !existsSync(attachmentPath(to, hash)) && !copyBytes(from, to, hash),
  )
  const count = lacking.filter((receipt) => receipt.isShown).length
  return count === 0 ? null : receiptsMissing(count, from)
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

const keptBeforeMigrating = 3

/** Only this file's own copies, by their whole name: `books-old-2026-06-03.sqlite` is another's. */
const letGo = (folder: string, name: string): void => {
  const named = (rest: RegExp) =>
    listBackups(folder).filter(
      (backup) => backup.name.startsWith(`${name}-`) && rest.test(backup.name.slice(name.length + 1)),
    )
  const daily = named(/^\d{4}-\d{2}-\d{2}\.sqlite$/)
  const kept = daysToKeep(daily.flatMap((backup) => backup.day ?? []))
  const gone = [
    ...daily.filter((backup) => backup.day !== null && !kept.has(backup.day)),
    ...named(/^before-migration-[\dTZ-]+\.sqlite$/).slice(keptBeforeMigrating),
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
