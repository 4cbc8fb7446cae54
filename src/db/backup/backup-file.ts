// The backup one carries away: a proved copy with the attachments in it, plain or sealed under a passphrase, in one file.
import { existsSync, readFileSync, renameSync, rmSync, writeFileSync } from 'node:fs'
import type Database from 'better-sqlite3'
import { alreadyThere, type FileProblem, fileProblem } from '#db/file-problem.ts'
import { attachmentPath, hashOf, keepBytes } from '#db/ledger/attachment-files.ts'
import type { Books } from '#db/open.ts'
import { openSqlite } from '#db/sqlite.ts'
import { type BackupResult, backUpTo, toDisk } from './backup.ts'
import { seal } from './sealed-backup.ts'

export interface BackupFileOptions {
  attachments: string
  /** Seals the file; without it the copy is plain SQLite. */
  passphrase?: string
}

/** Writes one file with everything. Nothing is left at the target when it fails, and nothing is ever overwritten. */
export const backUpToFile = (
  books: Pick<Books, 'sqlite'>,
  target: string,
  options: BackupFileOptions,
): BackupResult => {
  if (existsSync(target)) return { ok: false, problem: alreadyThere(target) }
  const plain = `${target}.plain`
  const forget = () => {
    for (const suffix of ['', '-journal', '-wal', '-shm']) rmSync(plain + suffix, { force: true })
  }
  try {
    forget()
    const copied = backUpTo(books, plain)
    if (!copied.ok)
      return {
        ok: false,
        problem: { ...copied.problem, message: copied.problem.message.replaceAll(plain, target) },
      }
    embedAttachments(plain, options.attachments)
    if (options.passphrase === undefined) renameSync(plain, target)
    else {
      writeFileSync(`${target}.half`, seal(readFileSync(plain), options.passphrase), {
        flush: true,
        mode: 0o600,
      })
      renameSync(`${target}.half`, target)
    }
    toDisk(target)
    return { ...copied, path: target }
  } catch (error) {
    rmSync(`${target}.half`, { force: true })
    const problem = fileProblem(error, target)
    if (!problem) throw error
    return { ok: false, problem }
  } finally {
    forget()
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
      const hashes = copy.prepare('SELECT DISTINCT content_hash FROM attachments').pluck().all() as string[]
      for (const hash of hashes) {
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
