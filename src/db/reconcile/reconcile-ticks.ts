// Ticks that need no looking: lines the bank's own file named, and lines that cancel out because one takes the other back.
import { and, eq, gt, inArray, lte, ne, sql } from 'drizzle-orm'
import type { Day } from '#calendar/day.ts'
import { entryByNo, reversalOfEntry, standInFor } from '#db/ledger/entry-reader.ts'
import type { Books } from '#db/open.ts'
import { reconciliationTicks, statementLines } from '#db/schema-statements.ts'
import { pairLines } from '#ledger/reversal.ts'
import { cents } from '#money/cents.ts'
import type { Reconciliation } from './reconcile-reader.ts'

/** Lines the bank's file already named are as good as ticked by hand. `after`: only those of later days. */
export const tickStatementLines = (books: Books, open: Reconciliation, after?: Day): void => {
  const named = books.db
    .select({ postingId: statementLines.postingId })
    .from(statementLines)
    .leftJoin(reconciliationTicks, eq(reconciliationTicks.postingId, statementLines.postingId))
    .where(
      and(
        eq(statementLines.accountId, open.accountId),
        lte(statementLines.day, open.statementDay),
        after === undefined ? undefined : gt(statementLines.day, after),
        inArray(statementLines.state, ['posted', 'matched']),
        sql`${reconciliationTicks.postingId} IS NULL`,
        ne(statementLines.amountCents, cents(0)),
      ),
    )
    .all()
  for (const { postingId } of named) if (postingId !== null) tick(books, open, postingId)
}

/**
 * What an account held before its books began stands in the balance that its first statement begins with, whatever line it shows:
 * until a statement is finished, opening balances are as good as ticked. `after`: only those of later days.
 */
export const tickOpenings = (books: Books, open: Reconciliation, after?: Day): void => {
  const ids = books.sqlite
    .prepare(openingsText)
    .pluck()
    .all({ accountId: open.accountId, through: open.statementDay, after: after ?? '' }) as number[]
  for (const id of ids) tick(books, open, id)
}

const openingsText = `
  SELECT held.id FROM accounts AS own
  JOIN postings AS opening ON opening.account_id = own.id
  JOIN entries AS entry ON entry.no = opening.entry_no AND entry.reverses_no IS NULL
  JOIN postings AS held INDEXED BY postings_entry_line ON held.entry_no = entry.no AND held.account_id = @accountId
  WHERE own.system_role = 'opening_balances' AND held.day <= @through AND held.day > @after
    AND NOT EXISTS (SELECT 1 FROM entries AS back WHERE back.reverses_no = entry.no)
    AND NOT EXISTS (SELECT 1 FROM reconciliation_ticks AS ticked WHERE ticked.posting_id = held.id)
    AND NOT EXISTS (SELECT 1 FROM reconciliations AS before WHERE before.account_id = @accountId AND before.state = 'finished')
  GROUP BY held.id`

/**
 * Takes away ticks of lines after the statement's last day, unless a line of the bank's file names them until then, or they cancel
 * out with one of its days. Returns how many.
 */
export const untickAfter = (books: Books, open: Reconciliation): number =>
  books.sqlite.prepare(untickText).run({ id: open.id, day: open.statementDay }).changes

const untickText = `
  DELETE FROM reconciliation_ticks WHERE reconciliation_id = @id
    AND EXISTS (SELECT 1 FROM postings WHERE postings.id = posting_id AND postings.day > @day)
    AND NOT EXISTS (SELECT 1 FROM statement_lines AS line WHERE line.posting_id = reconciliation_ticks.posting_id AND line.day <= @day)
    AND NOT EXISTS (SELECT 1 FROM postings AS own
      JOIN entries AS entry ON entry.no = own.entry_no
      JOIN postings AS first ON first.entry_no IN (entry.reverses_no, entry.corrects_no)
        AND first.account_id = own.account_id AND abs(first.amount_cents) = abs(own.amount_cents) AND first.day <= @day
      JOIN reconciliation_ticks AS seen ON seen.posting_id = first.id
      WHERE own.id = reconciliation_ticks.posting_id)`

interface TakenBack {
  backId: number
  firstId: number
  backDay: Day
  firstNo: number
  firstDay: Day
  /** The reconciliation that has the first line ticked. */
  tickedIn: string | null
}

/**
 * An entry and the one that takes it back cancel out, and no statement shows either: both are ticked. When a statement had
 * the first already, the taking back cancels out with what stands in for it instead, if its account and amount are the same,
 * whatever their days: of a closed month both are dated later, and none of the account's money moved. Else a person has to
 * look. Only of these reversing entries, or of days later than `after`, when given.
 */
export const tickCancelledLines = (
  books: Books,
  open: Reconciliation,
  only: { reversalNos?: readonly number[]; after?: Day } = {},
): void => {
  for (const line of takenBackLines(books, open, only)) {
    const standIn = standInPosting(books, open, line)
    if (line.tickedIn === null) {
      if (line.firstDay > open.statementDay || isStillSeen(open, line, standIn)) continue
      tick(books, open, line.firstId)
      tick(books, open, line.backId)
      continue
    }
    if (standIn || (line.tickedIn === open.id && line.backDay <= open.statementDay))
      tick(books, open, line.backId)
    if (standIn?.tickedIn === null) tick(books, open, standIn.id)
  }
}

/** The statement shows the movement while the books have moved it past its last day: the first line stands for it until then. */
const isStillSeen = (open: Reconciliation, { backDay }: TakenBack, standIn: StandIn | undefined): boolean =>
  backDay > open.statementDay &&
  standIn !== undefined &&
  standIn.day > open.statementDay &&
  standIn.tickedIn === null

const takenBackLines = (
  books: Books,
  open: Reconciliation,
  { reversalNos, after }: { reversalNos?: readonly number[]; after?: Day },
): TakenBack[] =>
  books.sqlite
    .prepare(
      `SELECT back.id AS backId, back.day AS backDay, first.id AS firstId, first.entry_no AS firstNo, first.day AS firstDay,
         seen.reconciliation_id AS tickedIn
       FROM entries AS reversing
       CROSS JOIN postings AS back INDEXED BY postings_entry_line ON back.entry_no = reversing.no
       JOIN postings AS first INDEXED BY postings_entry_line ON first.entry_no = reversing.reverses_no AND first.line_no = back.line_no
       LEFT JOIN reconciliation_ticks AS seen ON seen.posting_id = first.id
       WHERE reversing.reverses_no > 0 AND back.account_id = @accountId AND first.account_id = @accountId
         AND min(back.day, first.day) <= @statementDay AND (@after IS NULL OR min(back.day, first.day) > @after)
         AND (@reversalNos IS NULL OR reversing.no IN (SELECT value FROM json_each(@reversalNos)))
         AND NOT EXISTS (SELECT 1 FROM reconciliation_ticks AS own WHERE own.posting_id = back.id)
       ORDER BY back.id`,
    )
    .all({
      accountId: open.accountId,
      statementDay: open.statementDay,
      after: after ?? null,
      reversalNos: reversalNos ? JSON.stringify(reversalNos) : null,
    }) as TakenBack[]

interface StandIn {
  id: number
  day: Day
  tickedIn: string | null
}

/** The line that stands today where `first` stood: its entry may have been corrected several times. */
const standInPosting = (
  books: Books,
  open: Reconciliation,
  { firstId, firstNo }: TakenBack,
): StandIn | undefined => {
  const first = entryByNo(books, firstNo)!
  let living = standInFor(books, firstNo)
  while (living && reversalOfEntry(books, living.no)) living = standInFor(books, living.no)
  if (!living) return undefined
  const place = pairLines(first.lines, living.lines).get(
    first.lines.findIndex((line) => line.postingId === firstId),
  )
  if (place === undefined) return undefined
  const id = living.lines[place]!.postingId
  const ticked = books.db
    .select()
    .from(reconciliationTicks)
    .where(eq(reconciliationTicks.postingId, id))
    .get()
  const tickedIn = ticked?.reconciliationId ?? null
  return tickedIn === null || tickedIn === open.id ? { id, day: living.day, tickedIn } : undefined
}

const tick = (books: Books, open: Reconciliation, postingId: number): void => {
  books.db.insert(reconciliationTicks).values({ postingId, reconciliationId: open.id }).run()
}
