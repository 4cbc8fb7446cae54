// The backup one carries away: a proved copy with the attachments in it, plain or sealed under a passphrase, in one file.
import { copyFileSync, existsSync, readFileSync } from 'node:fs'
import { dirname, join } from 'node:path'
import type Database from 'better-sqlite3'
import { alreadyThere, type FileProblem, fileProblem } from '#db/file-problem.ts'
import { forgetHalf, halfOf, makeWhole } from '#db/half.ts'
import { attachmentPath, hashOf, keepBytes, receiptsOf } from '#db/ledger/attachment-files.ts'
import type { Books } from '#db/open.ts'
import { openSqlite } from '#db/sqlite.ts'
import { type BackupResult, backUpTo, folderProblem } from './backup.ts'
import { type SealCost, sealFile } from './sealed-backup.ts'

export interface BackupFileOptions {
  attachments: string
  /** Seals the file; without it the copy is plain SQLite. */
  passphrase?: string
  /** The full one unless given: tests seal often. The file says which it was. */
  sealCost?: SealCost
}

/**
 * Writes one file with everything. Nothing is left at the target when it fails, and nothing is ever overwritten. Until it is
 * whole it lies in the data folder, where the open books lie too; what is sealed is nowhere else in the clear.
 */
export const backUpToFile = (
  books: Pick<Books, 'sqlite'>,
  target: string,
  { attachments, passphrase, sealCost }: BackupFileOptions,
): BackupResult => {
  const folder = dirname(attachments)
  const clear = halfOf(join(folder, 'copy'))
  try {
    if (existsSync(target)) return { ok: false, problem: alreadyThere(target) }
    const nowhere = folderProblem(target)
    if (nowhere) return { ok: false, problem: nowhere }
    const copied = backUpTo(books, clear)
    if (!copied.ok)
      return {
        ok: false,
        problem: { ...copied.problem, message: copied.problem.message.replaceAll(clear, target) },
      }
    embedAttachments(clear, attachments)
    makeWhole(folder, target, (half) =>
      passphrase === undefined ? copyFileSync(clear, half) : sealFile(clear, half, passphrase, sealCost),
    )
    return { ...copied, path: target }
  } catch (error) {
    const problem = fileProblem(error, target)
    if (!problem) throw error
    return { ok: false, problem }
  } finally {
    forgetHalf(clear)
  }
}

const embedAttachments = (path: string, folder: string): void => {
  const copy = openSqlite(path)
  try {
    copy.pragma('trusted_schema = OFF')
    copy.pragma('synchronous = FULL')
    copy.transaction(() => {
      copy.exec(
        'CREATE TABLE attachment_files (hash TEXT PRIMARY KEY, bytes BLOB NOT NULL) STRICT, WITHOUT ROWID',
      )
      const add = copy.prepare('INSERT INTO attachment_files (hash, bytes) VALUES (?, ?)')
      for (const { hash } of receiptsOf(copy)) {
        const file = attachmentPath(folder, hash)
        if (existsSync(file)) add.run(hash, readFileSync(file))
      }
    })()
  } finally {
    copy.close()
  }
}

/** Takes attachments out of a backup into the folder, and their table out of the file. */
export const unpackAttachments = (sqlite: Database.Database, folder: string): FileProblem | null => {
  const has = sqlite.prepare("SELECT 1 FROM sqlite_schema WHERE name = 'attachment_files'").get()
  if (!has) return null
  const rows = sqlite.prepare('SELECT hash, bytes FROM attachment_files').iterate() as Iterable<{
    hash: string
    bytes: Buffer
  }>
  for (const { hash, bytes } of rows) {
    if (hashOf(bytes) !== hash)
      return {
        kind: 'damaged',
        message: `The attachment ${hash.slice(0, 12)}… in this backup was changed. Nothing was restored.`,
      }
    keepBytes(folder, bytes)
  }
  sqlite.exec('DROP TABLE attachment_files')
  return null
}
