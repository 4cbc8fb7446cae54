// The newest entries of a side, and a search over all sides: for the Books page.
import { and, desc, eq, type SQL, sql } from 'drizzle-orm'
import type { Day } from '#calendar/day.ts'
import type { Books } from '#db/open.ts'
import { entries } from '#db/schema.ts'
import type { SideId } from '#ledger/account.ts'
import type { EntrySource } from '#ledger/entry.ts'
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
  lines: NamedLine[]
}

export interface EntryQuery {
  sideId?: SideId
  text?: string
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
  const words = searchWords(query.text ?? '')
  const conditions: (SQL | undefined)[] = [
    eq(entries.sideId, sideId),
    words === null
      ? undefined
      : sql`entries.no IN (SELECT rowid FROM entry_search WHERE entry_search MATCH ${words})`,
    query.before === undefined
      ? undefined
      : sql`(${entries.day}, ${entries.no}) < (${query.before.day}, ${query.before.entryNo})`,
  ]
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
    })
    .from(entries)
    .where(and(...conditions))
    .orderBy(desc(entries.day), desc(entries.no))
    .limit(query.limit ?? 20)
    .all()
  return rows.map((row) => ({ ...row, isReversed: row.isReversed === 1 }))
}

const withLines = (books: Books, rows: FoundEntry[]): ListedEntry[] => {
  const lines = namedLinesOf(
    books,
    rows.map((row) => row.entryNo),
  )
  return rows.map((row) => ({ ...row, lines: lines.get(row.entryNo) ?? [] }))
}
