// The lines of the books that belong to a batch: tied while they are entered or sorted, or later, and let go again.
import { and, asc, desc, eq, isNull, or, sql } from 'drizzle-orm'
import { addDays, type Day } from '#calendar/day.ts'
import { isAmong } from '#db/among.ts'
import { type Change, logChange } from '#db/change-log.ts'
import { type Act, once } from '#db/once.ts'
import type { Books } from '#db/open.ts'
import { accounts, entries, postings } from '#db/schema.ts'
import type { AccountKind } from '#ledger/account.ts'
import { type Outcome, type Refusal, refuse } from '#ledger/problem.ts'
import type { Cents } from '#money/cents.ts'
import { findBatch } from './batch-store.ts'
import { type Batch, batchTies } from './schema-batches.ts'

/** A line of the books, with the batch it belongs to. */
export interface BatchLine {
  postingId: number
  batchId: string | null
  entryNo: number
  day: Day
  payee: string
  memo: string
  accountName: string
  accountKind: AccountKind
  /** Line of the account's form, `22` for hired labor; null where it has none. */
  scheduleLine: string | null
  /** As the line was booked; a batch can have one that names no enterprise. */
  enterpriseId: string | null
  /** Debits positive. */
  amountCents: Cents
}

const lineColumns = {
  postingId: postings.id,
  batchId: batchTies.batchId,
  entryNo: entries.no,
  day: postings.day,
  payee: entries.payee,
  memo: sql<string>`coalesce(nullif(${postings.memo}, ''), ${entries.memo})`,
  accountName: accounts.name,
  accountKind: accounts.kind,
  scheduleLine: accounts.scheduleLine,
  enterpriseId: postings.enterpriseId,
  amountCents: postings.amountCents,
}

/** Every line that belongs to a batch, oldest first. What was taken back cancels out by itself. */
export const tiedLines = (books: Books): BatchLine[] =>
  books.db
    .select(lineColumns)
    .from(batchTies)
    .innerJoin(postings, eq(postings.id, batchTies.postingId))
    .innerJoin(entries, eq(entries.no, postings.entryNo))
    .innerJoin(accounts, eq(accounts.id, postings.accountId))
    .orderBy(asc(postings.day), asc(postings.id))
    .all()

/** Seed and chicks are often paid for a season ahead (common practice). */
const paidAheadDays = 90

/** What may be meant: sales and costs of a batch's days that belong to no batch. */
export interface UntiedLines {
  /** Those of its enterprise, then the farm's that name none; each nearest to its first day first. */
  lines: BatchLine[]
  /** How many there are, and how many of them stand before these. */
  count: number
  before: number
  /** What `before` is on the pages of those nearer to its first day and farther from it; null where there are none. */
  nearer: number | null
  farther: number | null
}

const untiedPage = 60

export const untiedLines = (
  books: Books,
  { enterpriseId, startedDay }: Pick<Batch, 'enterpriseId' | 'startedDay'>,
  before: number,
): UntiedLines => {
  const found = untied(books, enterpriseId, addDays(startedDay, -paidAheadDays))
    .orderBy(
      sql`${postings.enterpriseId} IS NULL`,
      sql`abs(julianday(${postings.day}) - julianday(${startedDay}))`,
      desc(postings.id),
    )
    .limit(untiedPage)
    .offset(before)
    .all()
  const count = found[0]?.count ?? 0
  return {
    lines: found.map(plainLine),
    count,
    before,
    nearer: before > 0 ? Math.max(0, before - untiedPage) : null,
    farther: before + found.length < count ? before + untiedPage : null,
  }
}

/** All of them from a day on, newest first. */
export const allUntiedLines = (books: Books, enterpriseId: string, from: Day): BatchLine[] =>
  untied(books, enterpriseId, from)
    .orderBy(sql`${postings.enterpriseId} IS NULL`, desc(postings.day), desc(postings.id))
    .all()
    .map(plainLine)

const plainLine = ({ count: _, ...line }: BatchLine & { count: number }): BatchLine => line

/** Sales and costs from a day on that belong to no batch and were not taken back, of an enterprise or of the farm's that name none. */
const untied = (books: Books, enterpriseId: string, from: Day) =>
  books.db
    .select({ ...lineColumns, count: sql<number>`count(*) OVER ()` })
    .from(postings)
    .innerJoin(entries, eq(entries.no, postings.entryNo))
    .innerJoin(accounts, eq(accounts.id, postings.accountId))
    .leftJoin(batchTies, eq(batchTies.postingId, postings.id))
    .where(
      and(
        or(
          eq(postings.enterpriseId, enterpriseId),
          sql`${postings.enterpriseId} IS NULL AND ${entries.sideId} = 'farm'
            AND ${accounts.systemRole} IS NULL AND ${accounts.crossingRole} IS NULL`,
        ),
        sql`${postings.day} >= ${from}`,
        isNull(batchTies.batchId),
        sql`${accounts.kind} IN ('income', 'expense')`,
        isNull(entries.reversesNo),
        sql`NOT EXISTS (SELECT 1 FROM entries AS back WHERE back.reverses_no = ${entries.no})`,
      ),
    )

/** Ties lines that were booked without their batch. Closed months are no hindrance: the books stay as they are. */
export const tieLines = (
  books: Books,
  act: Act,
  { batchId, postingIds }: { batchId: string; postingIds: readonly number[] },
): Outcome<{ tied: number }> =>
  once(books, act, 'batch.tie', { batchId, postingIds }, () => {
    const batch = findBatch(books, batchId)
    if (!batch) return refuse({ path: '', message: 'There is no such batch. Open the list again' })
    const open = allUntiedLines(books, batch.enterpriseId, '0001-01-01' as Day)
    const mayBe = new Set(open.map(({ postingId }) => postingId))
    const strange = postingIds.find((id) => !mayBe.has(id))
    if (strange !== undefined)
      return refuse({ path: '', message: 'One of the lines belongs to a batch already. Open the page again' })
    for (const postingId of postingIds) writeTie(books, act.at, postingId, batchId)
    logChange(books, act, {
      kind: 'batch.tied',
      subject: batchId,
      sideId: 'farm',
      summary: 'Lines of the books were tied to a batch',
      details: { postingIds },
    })
    return { ok: true, result: { tied: postingIds.length } }
  })

/** The line stays in the books and belongs to no batch any more. */
export const untieLine = (books: Books, act: Act, postingId: number): Outcome<{ postingId: number }> =>
  once(books, act, 'batch.untie', { postingId }, () => {
    const tied = books.db.select().from(batchTies).where(eq(batchTies.postingId, postingId)).get()
    if (!tied) return refuse({ path: '', message: 'That line belongs to no batch. Open the page again' })
    letGo(books, tied.batchId, [postingId])
    logChange(books, act, {
      kind: 'batch.untied',
      subject: tied.batchId,
      sideId: 'farm',
      summary: 'A line of the books was removed from a batch',
      details: { postingId },
    })
    return { ok: true, result: { postingId } }
  })

/** Those of them that belong to the batch still, each with what cancels it; how many. */
const letGo = (books: Books, batchId: string, postingIds: readonly number[]): number => {
  const gone = books.db
    .delete(batchTies)
    .where(and(eq(batchTies.batchId, batchId), isAmong(batchTies.postingId, postingIds)))
    .returning({ postingId: batchTies.postingId })
    .all()
  const others = gone.flatMap(({ postingId }) => counterparts(books, postingId))
  books.db
    .delete(batchTies)
    .where(and(eq(batchTies.batchId, batchId), isAmong(batchTies.postingId, others)))
    .run()
  return gone.length
}

const tiedOtherwise = refuse({
  path: '',
  message: 'The lines were tied or untied otherwise since. Open the batch to see them',
})

/** The opposite of `tieLines`; call it inside a write. */
export const untieAgain = (books: Books, change: Change): { ok: true } | Refusal => {
  const { postingIds } = change.details as { postingIds: readonly number[] }
  return letGo(books, change.subject, postingIds) > 0 ? { ok: true } : tiedOtherwise
}

/** The opposite of `untieLine`; call it inside a write. */
export const tieAgain = (books: Books, act: Act, change: Change): { ok: true } | Refusal => {
  const { postingId } = change.details as { postingId: number }
  const all = [postingId, ...counterparts(books, postingId)]
  const isTied = books.db.select().from(batchTies).where(isAmong(batchTies.postingId, all)).get()
  if (isTied || !findBatch(books, change.subject)) return tiedOtherwise
  for (const one of all) writeTie(books, act.at, one, change.subject)
  return { ok: true }
}

/** The same line of the entry that takes this one back, or that this one takes back. */
const counterparts = (books: Books, postingId: number): number[] =>
  books.sqlite
    .prepare(
      `SELECT other.id FROM postings AS line JOIN entries ON entries.no = line.entry_no
       JOIN entries AS against ON against.reverses_no = entries.no OR against.no = entries.reverses_no
       JOIN postings AS other ON other.entry_no = against.no AND other.line_no = line.line_no
       WHERE line.id = ?`,
    )
    .pluck()
    .all(postingId) as number[]

/** Call it inside a write: the ledger's writer does, for lines that name their batch. */
export const writeTie = (books: Books, at: string, postingId: number, batchId: string): void => {
  books.db.insert(batchTies).values({ postingId, batchId, tiedAt: at }).run()
}
