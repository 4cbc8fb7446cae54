// Batches: started, changed, ended; what happened to them; and the lines of the books that belong to each.
import { and, asc, desc, eq, isNull, or, sql } from 'drizzle-orm'
import type { Day } from '#calendar/day.ts'
import { isAmong } from '#db/among.ts'
import { logChange } from '#db/change-log.ts'
import { type Act, once } from '#db/once.ts'
import type { Books } from '#db/open.ts'
import { accounts, entries, postings } from '#db/schema.ts'
import { type BatchNoted, leastSizeOfBatch, mostOfBatch } from '#farm/notebook/batch-left.ts'
import type { AccountKind } from '#ledger/account.ts'
import { type FieldProblem, type Outcome, refuse } from '#ledger/problem.ts'
import type { Cents } from '#money/cents.ts'
import { writeNote, writtenBy } from './note-rows.ts'
import { batches, batchMarks, batchTies } from './schema-batches.ts'
import { goodsNotes } from './schema-notes.ts'

export type Batch = typeof batches.$inferSelect
export type BatchDraft = Omit<Batch, 'id' | 'createdAt' | 'revision'>

export const startBatch = (books: Books, act: Act, draft: BatchDraft): Outcome<{ batchId: string }> =>
  once(books, act, 'batch.start', draft, () => {
    const problems = batchProblems(books, draft)
    if (problems.length > 0) return refuse(...problems)
    books.db
      .insert(batches)
      .values({ ...draft, id: act.formId, createdAt: act.at })
      .run()
    logChange(books, act, {
      kind: 'batch.started',
      subject: act.formId,
      sideId: 'farm',
      summary: 'A batch was started',
    })
    return { ok: true, result: { batchId: act.formId } }
  })

/** `basedOn` is the revision the form was opened on: over a newer one nothing is written. */
export const changeBatch = (
  books: Books,
  act: Act,
  { id, basedOn, draft }: { id: string; basedOn: number; draft: BatchDraft },
): Outcome<{ batchId: string }> =>
  once(books, act, 'batch.change', { id, basedOn, draft }, () => {
    const before = findBatch(books, id)
    if (!before) return refuse({ path: '', message: 'There is no such batch. Open the list again' })
    if (before.revision !== basedOn)
      return refuse({
        path: '',
        message: 'The batch was changed meanwhile at another screen. Open it again, then enter this anew',
      })
    const problems = batchProblems(books, draft, id)
    if (problems.length > 0) return refuse(...problems)
    books.db
      .update(batches)
      .set({ ...draft, revision: basedOn + 1 })
      .where(eq(batches.id, id))
      .run()
    logChange(books, act, {
      kind: 'batch.changed',
      subject: id,
      sideId: 'farm',
      summary: 'A batch was changed',
      details: { before },
    })
    return { ok: true, result: { batchId: id } }
  })

const batchProblems = (books: Books, draft: BatchDraft, id = ''): FieldProblem[] => {
  const problems: FieldProblem[] = []
  if (!(draft.size > 0)) problems.push({ path: 'size', message: 'Enter how many it began with, like 150' })
  if (draft.endedDay !== null && draft.endedDay < draft.startedDay)
    problems.push({ path: 'endedDay', message: 'Choose a day on or after the start' })
  const least = id === '' ? 0 : leastSizeOfBatch(notedOf(books, id))
  if (draft.size > 0 && draft.size < least)
    problems.push({
      path: 'size',
      message: `${least} of it are noted as lost, sold or used. Enter no fewer, or take a note out first`,
    })
  if (listBatches(books).some((one) => one.id !== id && one.name === draft.name))
    problems.push({ path: 'name', message: 'Another batch has this name. Choose one that tells them apart' })
  return problems
}

/** The newest first. */
export const listBatches = (books: Books, { openOnly = false } = {}): Batch[] =>
  books.db
    .select()
    .from(batches)
    .where(openOnly ? isNull(batches.endedDay) : undefined)
    .orderBy(desc(batches.startedDay), asc(batches.name))
    .all()

export const findBatch = (books: Books, id: string): Batch | undefined =>
  books.db.select().from(batches).where(eq(batches.id, id)).get()

export type BatchMark = typeof batchMarks.$inferSelect

export const writeMark = (
  books: Books,
  act: Act,
  mark: Omit<BatchMark, 'id' | 'recordedAt' | 'recordedBy'>,
): Outcome<{ id: string }> =>
  writeNote(books, act, 'mark', mark, () => {
    const batch = findBatch(books, mark.batchId)
    if (!batch) return [{ path: '', message: 'There is no such batch. Open the list again' }]
    const problems = tooManyOf(books, batch, mark)
    if (problems.length > 0) return problems
    books.db
      .insert(batchMarks)
      .values({ id: act.formId, ...mark, ...writtenBy(act) })
      .run()
    return []
  })

/** What is wrong with so many more of a batch, at the field of how many. */
export const tooManyOf = (books: Books, batch: Batch, note: BatchNoted): FieldProblem[] => {
  const most = mostOfBatch(batch.size, notedOf(books, batch.id), note)
  if (note.quantity <= most) return []
  const there = note.kind === 'weighed' || note.kind === 'processed' ? 'there' : 'left'
  return [
    {
      path: 'quantity',
      message: `Only ${most} of ${batch.size} ${batch.unit} are ${there}. Enter no more, or change the size of the batch`,
    },
  ]
}

const notedOf = (books: Books, batchId: string): BatchNoted[] => [
  ...books.db.select().from(batchMarks).where(eq(batchMarks.batchId, batchId)).all(),
  ...books.db.select().from(goodsNotes).where(eq(goodsNotes.batchId, batchId)).all(),
]

export const listMarks = (books: Books): BatchMark[] =>
  books.db.select().from(batchMarks).orderBy(asc(batchMarks.day), asc(batchMarks.recordedAt)).all()

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

/**
 * Sales and costs from a day on that belong to no batch and were not taken back: those of an enterprise, then the farm's that name
 * none. What may be meant.
 */
export const untiedLines = (books: Books, enterpriseId: string, from: Day, limit = 60): BatchLine[] =>
  books.db
    .select(lineColumns)
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
    .orderBy(sql`${postings.enterpriseId} IS NULL`, desc(postings.day), desc(postings.id))
    .limit(limit)
    .all()

/** Ties lines that were booked without their batch. Closed months are no hindrance: the books stay as they are. */
export const tieLines = (
  books: Books,
  act: Act,
  { batchId, postingIds }: { batchId: string; postingIds: readonly number[] },
): Outcome<{ tied: number }> =>
  once(books, act, 'batch.tie', { batchId, postingIds }, () => {
    const batch = findBatch(books, batchId)
    if (!batch) return refuse({ path: '', message: 'There is no such batch. Open the list again' })
    const mayBe = new Set(
      untiedLines(books, batch.enterpriseId, '0001-01-01' as Day, -1).map((line) => line.postingId),
    )
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
    books.db
      .delete(batchTies)
      .where(isAmong(batchTies.postingId, [postingId, ...counterparts(books, postingId)]))
      .run()
    logChange(books, act, {
      kind: 'batch.untied',
      subject: tied.batchId,
      sideId: 'farm',
      summary: 'A line of the books was taken out of a batch',
      details: { postingId },
    })
    return { ok: true, result: { postingId } }
  })

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

/** The enterprise of each batch named that is there. */
export const enterprisesOfBatches = (books: Books, ids: readonly string[]): Map<string, string> =>
  new Map(
    ids.length === 0
      ? []
      : books.db
          .select({ id: batches.id, enterpriseId: batches.enterpriseId })
          .from(batches)
          .where(isAmong(batches.id, ids))
          .all()
          .map(({ id, enterpriseId }) => [id, enterpriseId]),
  )
