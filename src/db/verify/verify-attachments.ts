// Every attachment the books name must be kept with them, with the content its name promises.
import type Database from 'better-sqlite3'
import { hashOf, readHash } from '#db/ledger/attachment-files.ts'

/** SHA-256 of the kept file with this hash, in hex, or null when it is not there. */
export type AttachmentReader = (contentHash: string) => string | null

/** The receipts that belong to a books file: those in it, as in a backup one carries away, else those in the folder beside it. */
export const receiptsOfFile = (sqlite: Database.Database, folder: string): AttachmentReader => {
  const isInside = sqlite.prepare("SELECT 1 FROM sqlite_schema WHERE name = 'attachment_files'").get()
  if (!isInside) return readHash(folder)
  const bytesOf = sqlite.prepare('SELECT bytes FROM attachment_files WHERE hash = ?').pluck()
  return (hash) => {
    const bytes = bytesOf.get(hash) as Buffer | undefined
    return bytes ? hashOf(bytes) : null
  }
}

export const attachmentFindings = (
  sqlite: Database.Database,
  read: AttachmentReader,
): { count: number; findings: { at: string; message: string }[] } => {
  const hashes = sqlite.prepare('SELECT DISTINCT content_hash FROM attachments').pluck().all() as string[]
  const findings = hashes.flatMap((hash) => {
    const found = read(hash)
    if (found === hash) return []
    return [
      {
        at: `attachment ${hash.slice(0, 12)}…`,
        message: found === null ? 'The file is missing' : 'The file was changed',
      },
    ]
  })
  return { count: hashes.length, findings }
}
