// The newest entries of a side, and a search over all sides: for the Books page and its search.
import { and, desc, eq, gte, lte, type SQL, sql } from 'drizzle-orm'
import type { Day } from '#calendar/day.ts'
import type { Books } from '#db/open.ts'
import { entries } from '#db/schema.ts'
import type { SideId } from '#ledger/account.ts'
import type { EntrySource } from '#ledger/entry.ts'
import type { Cents } from '#money/cents.ts'
import { listSides } from './account-store.ts'
import { type NamedLine, namedLinesOf } from './entry-reader.ts'
import { searchWords } from './register-search.ts'

export interface ListedEntry {
  entryId: string
  entryNo: number
  sideId: SideId
  day: Day
  payee: string
  memo: string
  source: EntrySource
  isReversed: boolean
  reversesNo: number | null
  receipts: number
  lines: NamedLine[]
}

export interface EntryQuery {
  sideId?: SideId
  /** Words in payee or notes; the last one may be a beginning. */
  text?: string
  /** Words in the payee alone. */
  payee?: string
  from?: Day
  to?: Day
  /** One line of the entry has this account and an amount, without its sign, within these. */
  accountId?: number
  minimumCents?: Cents
  maximumCents?: Cents
  /** Leaves out what was taken back, and what takes it back. */
  withoutTakenBack?: boolean
  withReceipt?: boolean
  /** The last row of the page before. */
  before?: { day: Day; entryNo: number }
  limit?: number
}

type FoundEntry = Omit<ListedEntry, 'lines'>

/** Newest first, of one side or of all of them together. */
export const latestEntries = (books: Books, query: EntryQuery = {}): ListedEntry[] => {
  if (query.sideId !== undefined) return withLines(books, ofSide(books, query.sideId, query))
  // Each side has its own index by day, so all of them are read and merged.
  const merged = listSides(books, { withArchived: true })
    .flatMap((side) => ofSide(books, side.id, query))
    .sort((a, b) => (a.day === b.day ? b.entryNo - a.entryNo : a.day < b.day ? 1 : -1))
    .slice(0, query.limit ?? 20)
  return withLines(books, merged)
}

const ofSide = (books: Books, sideId: SideId, query: EntryQuery): FoundEntry[] => {
  const conditions = [eq(entries.sideId, sideId), ...conditionsOf(query)]
  const rows = books.db
    .select({
      entryId: entries.id,
      entryNo: entries.no,
      sideId: entries.sideId,
      day: entries.day,
      payee: entries.payee,
      memo: entries.memo,
      source: entries.source,
      // Spelled out: from one table only, the column would lose its table's name and mean the inner one.
      isReversed: sql<number>`EXISTS (SELECT 1 FROM entries AS back WHERE back.reverses_no = entries.no)`,
      reversesNo: entries.reversesNo,
      receipts: sql<number>`(SELECT count(*) FROM attachments WHERE attachments.entry_no = entries.no AND removed_at IS NULL)`,
    })
    .from(entries)
    .where(and(...conditions))
    .orderBy(desc(entries.day), desc(entries.no))
    .limit(query.limit ?? 20)
    .all()
  return rows.map((row) => ({ ...row, isReversed: row.isReversed === 1 }))
}

const conditionsOf = (query: EntryQuery): SQL[] => {
  const { from, to, before } = query
  return [
    ...[searchWords(query.text ?? ''), searchWords(query.payee ?? '', undefined, 'payee')].flatMap((words) =>
      words === null
        ? []
        : sql`entries.no IN (SELECT rowid FROM entry_search WHERE entry_search MATCH ${words})`,
    ),
    ...(from ? [gte(entries.day, from)] : []),
    ...(to ? [lte(entries.day, to)] : []),
    ...lineCondition(query),
    ...(query.withoutTakenBack
      ? [
          sql`entries.reverses_no IS NULL AND NOT EXISTS (SELECT 1 FROM entries AS back WHERE back.reverses_no = entries.no)`,
        ]
      : []),
    ...(query.withReceipt
      ? [sql`entries.no IN (SELECT entry_no FROM attachments WHERE removed_at IS NULL)`]
      : []),
    ...(before ? [sql`(${entries.day}, ${entries.no}) < (${before.day}, ${before.entryNo})`] : []),
  ]
}

/** Of one line, so that 80 dollars on Feed is not an entry of 80 dollars that has 5 on Feed. */
const lineCondition = ({ accountId, minimumCents, maximumCents }: EntryQuery): SQL[] => {
  const of = [
    ...(accountId === undefined ? [] : [sql`line.account_id = ${accountId}`]),
    ...(minimumCents === undefined ? [] : [sql`abs(line.amount_cents) >= ${minimumCents}`]),
    ...(maximumCents === undefined ? [] : [sql`abs(line.amount_cents) <= ${maximumCents}`]),
  ]
  return of.length === 0
    ? []
    : [sql`entries.no IN (SELECT line.entry_no FROM postings AS line WHERE ${sql.join(of, sql` AND `)})`]
}

const withLines = (books: Books, rows: FoundEntry[]): ListedEntry[] => {
  const lines = namedLinesOf(
    books,
    rows.map((row) => row.entryNo),
  )
  return rows.map((row) => ({ ...row, lines: lines.get(row.entryNo) ?? [] }))
}
