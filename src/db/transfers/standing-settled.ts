// Which months of a standing transfer are settled: told from what stands in the books, since a month once posted stays in the file as posted.
import { desc, eq } from 'drizzle-orm'
import type { Month } from '#calendar/month.ts'
import type { Books } from '#db/open.ts'
import { changeLog } from '#db/schema-records.ts'

export type MonthState = 'posted' | 'skipped' | 'reversed'

/**
 * `taken back`: posted, and reversed since with nothing in its place, so that it is due again for a person. A month that was
 * posted more than once stands if any of its crossings does; each has the id of the first with a number after it.
 */
export const monthStates = (books: Books, standingId: string): Map<Month, MonthState> => {
  const rows = books.sqlite.prepare(statesQuery).all({ standingId }) as Row[]
  return new Map(
    rows.map(({ month, state, stands }) => {
      if (state === 'skipped' || stands === 1) return [month, state]
      return [month, isSkippedSince(books, standingId, month) ? 'skipped' : 'reversed']
    }),
  )
}

interface Row {
  month: Month
  state: 'posted' | 'skipped'
  stands: 0 | 1
}

/** An entry that was reversed is followed to the one that corrects it. */
const statesQuery = `
  WITH RECURSIVE booked(month, no) AS (
    SELECT occurrence.month, posting.entry_no
    FROM standing_occurrences AS occurrence
    JOIN crossings ON crossings.id = occurrence.crossing_id
      OR (crossings.id > occurrence.crossing_id || '.' AND crossings.id < occurrence.crossing_id || '/')
    JOIN postings AS posting ON posting.crossing_id = crossings.id
    WHERE occurrence.standing_id = @standingId
    UNION
    SELECT booked.month, corrected.no FROM booked JOIN entries AS corrected ON corrected.corrects_no = booked.no
  )
  SELECT occurrence.month, occurrence.state, EXISTS (
    SELECT 1 FROM booked WHERE booked.month = occurrence.month
      AND NOT EXISTS (SELECT 1 FROM entries AS back WHERE back.reverses_no = booked.no)
  ) AS stands
  FROM standing_occurrences AS occurrence WHERE occurrence.standing_id = @standingId`

/** A month that was posted keeps its row: that it was let pass after it was taken back, its last word in the log says. */
const isSkippedSince = (books: Books, standingId: string, month: Month): boolean =>
  books.db
    .select({ kind: changeLog.kind, details: changeLog.details })
    .from(changeLog)
    .where(eq(changeLog.subject, standingId))
    .orderBy(desc(changeLog.id))
    .all()
    .find(
      ({ kind, details }) =>
        (kind === 'standing.skipped' || kind === 'standing.unskipped') &&
        (details as { month?: number } | null)?.month === month,
    )?.kind === 'standing.skipped'

/** The id of a month's next crossing. */
export const nextCrossingId = (books: Books, standingId: string, month: Month): string => {
  const first = `${standingId}.${month}`
  const used = books.sqlite
    .prepare(
      `SELECT count(*) FROM crossings WHERE id = @first OR (id > @first || '.' AND id < @first || '/')`,
    )
    .pluck()
    .get({ first }) as number
  return used === 0 ? first : `${first}.${used + 1}`
}
