// Year packs kept as they were when a year was closed, each with a digest of its text.
import { createHash } from 'node:crypto'
import type Database from 'better-sqlite3'
import type { Finding } from '#db/verify/verify-check.ts'

/** For `verify`: every kept pack must still be what its digest says. */
export const keptPackFindings = (
  sqlite: Database.Database,
): { count: number; findings: Omit<Finding, 'check'>[] } => {
  const rows = sqlite.prepare('SELECT year, copy_no AS copyNo, sheets, digest FROM kept_packs').all() as {
    year: number
    copyNo: number
    sheets: string
    digest: string
  }[]
  return {
    count: rows.length,
    findings: rows
      .filter(({ sheets, digest }) => sheetsDigest(sheets) !== digest)
      .map(({ year, copyNo }) => ({
        at: `year pack ${year}, copy ${copyNo}`,
        message: 'It is not what its digest says it was when it was kept',
      })),
  }
}

/** SHA-256 in hex of the sheets’ text. */
const sheetsDigest = (sheets: string): string => createHash('sha256').update(sheets).digest('hex')
