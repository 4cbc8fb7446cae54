// Every attachment the books name must lie in the data folder with the content its name promises.
import type Database from 'better-sqlite3'

/** SHA-256 of the kept file with this hash, in hex, or null when it is not there. */
export type AttachmentReader = (contentHash: string) => string | null

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
        message: found === null ? 'The file is missing from the attachments folder' : 'The file was changed',
      },
    ]
  })
  return { count: hashes.length, findings }
}
