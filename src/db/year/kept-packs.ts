// Year packs kept as they were when a year was closed, with a digest, and the amended copies after them.
import { createHash } from 'node:crypto'
import type Database from 'better-sqlite3'
import { asc, desc, eq } from 'drizzle-orm'
import { chainEnd, endInWords } from '#db/chain/chain.ts'
import { logChange } from '#db/change-log.ts'
import { type Act, once } from '#db/once.ts'
import type { Books } from '#db/open.ts'
import { keptPacks } from '#db/schema-year.ts'
import type { Finding } from '#db/verify/verify-check.ts'
import { type Outcome, refuse } from '#ledger/problem.ts'

export type KeptPack = typeof keptPacks.$inferSelect

/** Copies of a year, the newest first; none while the year was never closed. */
export const keptPacksOf = (books: Books, year: number): KeptPack[] =>
  books.db.select().from(keptPacks).where(eq(keptPacks.year, year)).orderBy(desc(keptPacks.copyNo)).all()

export const keptYears = (books: Books): number[] =>
  books.db
    .selectDistinct({ year: keptPacks.year })
    .from(keptPacks)
    .orderBy(asc(keptPacks.year))
    .all()
    .map(({ year }) => year)

export interface PackToKeep {
  year: number
  /** All sheets as JSON text. */
  sheets: string
  /** Why there is another copy; empty for the first. */
  note: string
  /** Number of the copy that the person saw, 0 when there was none. */
  over: number
}

/** Keeps the sheets as the year's next copy. Refused when another copy was kept since the form was opened. */
export const keepPack = (
  books: Books,
  act: Act,
  { year, sheets, note, over }: PackToKeep,
): Outcome<{ copyNo: number; digest: string }> =>
  once(books, act, 'year.keep', { year, note, over }, () => {
    const [newest] = keptPacksOf(books, year)
    if ((newest?.copyNo ?? 0) !== over)
      return refuse({
        path: '',
        message: `Copy ${newest?.copyNo} of ${year} was kept in the meantime. Open the page again to see it`,
      })
    if (over > 0 && note.trim() === '')
      return refuse({ path: 'note', message: 'Say why, for whoever holds both copies' })
    const copyNo = over + 1
    const digest = sheetsDigest(sheets)
    const end = chainEnd(books.sqlite)
    books.db
      .insert(keptPacks)
      .values({
        id: act.formId,
        year,
        copyNo,
        keptAt: act.at,
        actor: act.actor,
        sheets,
        digest,
        chainEnd: end ? endInWords(end) : '',
        note: note.trim(),
      })
      .run()
    logChange(books, act, {
      kind: over === 0 ? 'year.closed' : 'year.amended',
      subject: act.formId,
      summary: over === 0 ? `${year} was closed with its pack` : `An amended pack of ${year} was kept`,
      details: { year, copyNo, digest },
    })
    return { ok: true, result: { copyNo, digest } }
  })

/** SHA-256 in hex of the sheets’ text. */
export const sheetsDigest = (sheets: string): string => createHash('sha256').update(sheets).digest('hex')

/** For `verify`: every kept pack must still be what its digest says. */
export const keptPackFindings = (
  sqlite: Database.Database,
): { count: number; findings: Omit<Finding, 'check'>[] } => {
  const rows = sqlite.prepare('SELECT year, copy_no AS copyNo, sheets, digest FROM kept_packs').all() as Pick<
    KeptPack,
    'year' | 'copyNo' | 'sheets' | 'digest'
  >[]
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
