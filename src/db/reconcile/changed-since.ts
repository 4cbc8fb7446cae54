// Whether a finished reconciliation still holds: what came into its account since, dated in its days, that no statement has.
import type { Day } from '#calendar/day.ts'
import type { Books } from '#db/open.ts'
import { type Cents, cents, sumCents } from '#money/cents.ts'
import { lastFinished, type Reconciliation } from './reconcile-reader.ts'

export interface ChangedLine {
  entryNo: number
  day: Day
  payee: string
  memo: string
  /** In the ledger's sign, as all here. */
  amountCents: Cents
  reversesNo: number | null
}

export interface ChangedSince {
  /** How much more the books have than the statement: not zero. */
  cents: Cents
  lines: ChangedLine[]
}

/**
 * Lines that came after it was finished and are dated through its last day, unless a finished statement has them by now. An
 * entry that no statement has and the one that takes it back cancel out. Null while they come to nothing: the statement and
 * the books still meet.
 */
export const changedSince = (books: Books, reconciliation: Reconciliation): ChangedSince | null => {
  if (reconciliation.state !== 'finished') return null
  const { id, accountId, statementDay, finishedAt } = reconciliation
  const lines = books.sqlite
    .prepare(changedText)
    .all({ id, accountId, statementDay, finishedAt }) as ChangedLine[]
  const sum = sumCents(lines.map(({ amountCents }) => amountCents))
  return sum === 0 ? null : { cents: cents(sum), lines }
}

/**
 * An account's last finished reconciliation when it no longer holds. Earlier ones need no look: what came in before the last
 * one was finished was seen then.
 */
export const brokenReconciliation = (
  books: Books,
  accountId: number,
): { reconciliation: Reconciliation; changed: ChangedSince } | null => {
  const reconciliation = lastFinished(books, accountId)
  const changed = reconciliation ? changedSince(books, reconciliation) : null
  return reconciliation && changed ? { reconciliation, changed } : null
}

const onStatement = (postingId: string) =>
  `EXISTS (SELECT 1 FROM reconciliation_ticks AS seen JOIN reconciliations AS their ON their.id = seen.reconciliation_id
     WHERE seen.posting_id = ${postingId} AND their.state = 'finished')`

// No entry it has ticked can be newer than its finishing: only later ones have to be looked at.
const changedText = `
  SELECT entry.no AS entryNo, line.day, entry.payee, entry.memo, line.amount_cents AS amountCents, entry.reverses_no AS reversesNo
  FROM entries AS entry
  CROSS JOIN postings AS line INDEXED BY postings_entry_line ON line.entry_no = entry.no
  WHERE entry.no > (SELECT coalesce(max(ticked.entry_no), 0) FROM reconciliation_ticks AS tick
      JOIN postings AS ticked ON ticked.id = tick.posting_id WHERE tick.reconciliation_id = @id)
    AND entry.posted_at > @finishedAt AND line.account_id = @accountId AND line.day <= @statementDay
    AND NOT ${onStatement('line.id')}
    AND NOT EXISTS (SELECT 1 FROM entries AS back WHERE back.reverses_no = entry.no)
    AND (entry.reverses_no IS NULL OR EXISTS (SELECT 1 FROM postings AS first
      WHERE first.entry_no = entry.reverses_no AND first.line_no = line.line_no AND ${onStatement('first.id')}))
  ORDER BY line.day, line.id`
