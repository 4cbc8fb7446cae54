// The copy that is kept of each day: made anew as the day goes on, whenever the books have, and let go by the rule.
import { existsSync, mkdirSync, rmSync } from 'node:fs'
import { basename, dirname, join } from 'node:path'
import type { Day } from '#calendar/day.ts'
import { chainEnd, hasLink } from '#db/chain/chain.ts'
import { endsInCopies, fromCopy } from '#db/chain/kept-ends.ts'
import { placeBeside } from '#db/data-place.ts'
import { type FileProblem, fileProblem } from '#db/file-problem.ts'
import { attachmentPath, copyBytes, receiptsMissing, receiptsOf } from '#db/ledger/attachment-files.ts'
import type { Books } from '#db/open.ts'
import { type BackupResult, copyProved, listBackups } from './backup.ts'
import { daysToKeep } from './backup-rule.ts'

/**
 * The backup of the day, made anew when the books have gone on since; then lets go of those the rule does not keep. The receipts
 * that the books name lie with the copies, each once however many copies there are.
 */
export const backUpDaily = (books: Books, folder: string, today: Day): BackupResult | null => {
  const target = copyOfDay(books, folder, today)
  try {
    mkdirSync(folder, { recursive: true })
    const made = isUpToDate(books, target) ? null : copyProved(books, target)
    if (made && !made.ok) return made
    if (made) letGo(folder, basename(books.path, '.sqlite'))
    const lacking = keepReceipts(books, placeBeside(books.path).attachments, placeBeside(target).attachments)
    return lacking ? { ok: false, problem: lacking } : made
  } catch (error) {
    const problem = fileProblem(error, target)
    if (!problem) throw error
    return { ok: false, problem }
  }
}

const copyOfDay = (books: Books, folder: string, today: Day): string =>
  join(folder, `${basename(books.path, '.sqlite')}-${today}.sqlite`)

/**
 * Whether a copy holds all that the books do. One whose end the books do not have stays as well, unless a restore put that away: books
 * that were set back are found by it, and it may be all that is left of what was cut off.
 */
const isUpToDate = (books: Books, copy: string): boolean => {
  if (!existsSync(copy)) return false
  const named = fromCopy(basename(copy))
  const own = endsInCopies(books.path, dirname(copy)).find(({ from }) => from === named) ?? null
  const end = chainEnd(books.sqlite)
  if (own === null || end === null) return own === end
  return own.digest === end.digest || !hasLink(books.sqlite, own)
}

/** Before a copy of the day the whole file is looked through: a copy of damaged pages would be none, and takes no other's place. */
export const keepCopyOfDay = (books: Books, folder: string, today: Day): FileProblem | null => {
  const damage = isUpToDate(books, copyOfDay(books, folder, today))
    ? null
    : books.standing.checkPages('integrity_check')
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
