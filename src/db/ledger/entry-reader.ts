// Reads posted entries back: one with its lines, and the whole it belongs to when crossings tie several sides together.
import { asc, eq, type SQL } from 'drizzle-orm'
import { isAmong } from '#db/among.ts'
import { batchTies } from '#db/notebook/schema-batches.ts'
import type { Books } from '#db/open.ts'
import { accounts, crossings, entries, postings } from '#db/schema.ts'
import type { CrossingRecord } from '#ledger/crossing.ts'
import type { EntrySource } from '#ledger/entry.ts'
import type { PostedEntry } from '#ledger/reversal.ts'
import type { Cents } from '#money/cents.ts'

export interface EntryRecord extends PostedEntry {
  source: EntrySource
  postedAt: string
  reversesNo: number | null
  correctsNo: number | null
  lines: readonly EntryLine[]
}

export type EntryLine = PostedEntry['lines'][number] & { postingId: number; lineNo: number }

export const findEntry = (books: Books, id: string): EntryRecord | undefined =>
  oneEntry(books, eq(entries.id, id))

export const entryByNo = (books: Books, no: number): EntryRecord | undefined =>
  oneEntry(books, eq(entries.no, no))

export const entryOfPosting = (books: Books, postingId: number): EntryRecord => {
  const { no } = books.db
    .select({ no: postings.entryNo })
    .from(postings)
    .where(eq(postings.id, postingId))
    .get()!
  return entryByNo(books, no)!
}

/** The entry that takes this one back, if there is one. */
export const reversalOfEntry = (books: Books, no: number): EntryRecord | undefined =>
  oneEntry(books, eq(entries.reversesNo, no))

/** The entry that stands in for this one after it was corrected, if there is one. */
export const standInFor = (books: Books, no: number): EntryRecord | undefined =>
  oneEntry(books, eq(entries.correctsNo, no))

const oneEntry = (books: Books, condition: SQL): EntryRecord | undefined => {
  const row = books.db.select().from(entries).where(condition).get()
  return row && withLines(books, row)
}

export interface NamedLine {
  accountId: number
  name: string
  amountCents: Cents
  crossingId: string | null
}

/** Lines with the names of their accounts, in their order, by entry: for lists of entries. */
export const namedLinesOf = (books: Books, entryNos: readonly number[]): Map<number, NamedLine[]> => {
  const byEntry = new Map<number, NamedLine[]>()
  if (entryNos.length === 0) return byEntry
  const lines = books.db
    .select({
      entryNo: postings.entryNo,
      accountId: postings.accountId,
      name: accounts.name,
      amountCents: postings.amountCents,
      crossingId: postings.crossingId,
    })
    .from(postings)
    .innerJoin(accounts, eq(accounts.id, postings.accountId))
    .where(isAmong(postings.entryNo, entryNos))
    .orderBy(postings.entryNo, postings.lineNo)
    .all()
  for (const { entryNo, ...line } of lines) {
    const known = byEntry.get(entryNo)
    if (known) known.push(line)
    else byEntry.set(entryNo, [line])
  }
  return byEntry
}

/** An entry with all entries it shares crossings with, directly or through another one: what must be taken back together. */
export const wholeOf = (
  books: Books,
  first: EntryRecord,
): { entries: EntryRecord[]; crossings: CrossingRecord[] } => {
  const found = new Map([[first.no, first]])
  const crossingIds = new Set<string>()
  const waiting = [first]
  for (let entry = waiting.pop(); entry; entry = waiting.pop()) {
    for (const line of entry.lines) {
      if (line.crossingId === null || crossingIds.has(line.crossingId)) continue
      crossingIds.add(line.crossingId)
      for (const no of entriesOfCrossing(books, line.crossingId)) {
        if (found.has(no)) continue
        const other = entryByNo(books, no)!
        found.set(no, other)
        waiting.push(other)
      }
    }
  }
  return { entries: [...found.values()], crossings: crossingRecords(books, [...crossingIds]) }
}

export const entriesOfCrossing = (books: Books, crossingId: string): number[] =>
  books.db
    .selectDistinct({ no: postings.entryNo })
    .from(postings)
    .where(eq(postings.crossingId, crossingId))
    .all()
    .map((row) => row.no)

const crossingRecords = (books: Books, ids: readonly string[]): CrossingRecord[] =>
  ids.length === 0
    ? []
    : books.db.select().from(crossings).where(isAmong(crossings.id, ids)).all().map(crossingRecord)

export const crossingRecord = (row: typeof crossings.$inferSelect): CrossingRecord => ({
  id: row.id,
  kind: row.kind,
  day: row.day,
  amountCents: row.amountCents,
  fromSideId: row.fromSideId,
  toSideId: row.toSideId,
  memo: row.memo,
  goods:
    row.quantity === null || row.unitPriceCents === null
      ? null
      : { quantity: row.quantity, unit: row.unit ?? '', unitPriceCents: row.unitPriceCents },
})

const withLines = (books: Books, row: typeof entries.$inferSelect): EntryRecord => ({
  no: row.no,
  id: row.id,
  sideId: row.sideId,
  day: row.day,
  payee: row.payee,
  memo: row.memo,
  source: row.source,
  postedAt: row.postedAt,
  reversesNo: row.reversesNo,
  correctsNo: row.correctsNo,
  lines: books.db
    .select({
      postingId: postings.id,
      lineNo: postings.lineNo,
      accountId: postings.accountId,
      amountCents: postings.amountCents,
      memo: postings.memo,
      enterpriseId: postings.enterpriseId,
      batchId: batchTies.batchId,
      crossingId: postings.crossingId,
    })
    .from(postings)
    .leftJoin(batchTies, eq(batchTies.postingId, postings.id))
    .where(eq(postings.entryNo, row.no))
    .orderBy(asc(postings.lineNo))
    .all(),
})
