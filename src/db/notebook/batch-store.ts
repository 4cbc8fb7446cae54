// Batches: started, changed, ended, and what happened to them.
import { asc, desc, eq, isNull } from 'drizzle-orm'
import { dayName } from '#calendar/day.ts'
import { isAmong } from '#db/among.ts'
import { logChange } from '#db/change-log.ts'
import { type Act, once } from '#db/once.ts'
import type { Books } from '#db/open.ts'
import { type BatchNoted, leastSizeOfBatch, mostOfBatch } from '#farm/notebook/batch-left.ts'
import { isCountedByHead } from '#farm/notebook/whole-heads.ts'
import { type FieldProblem, type Outcome, refuse } from '#ledger/problem.ts'
import { type BatchRest, noRest, restProblems, wholeOnly, writeRest } from './batch-rest.ts'
import { writeNote, writtenBy } from './note-rows.ts'
import { type Batch, type BatchDraft, batches, batchMarks } from './schema-batches.ts'
import { goodsNotes } from './schema-notes.ts'

export const startBatch = (books: Books, act: Act, draft: BatchDraft): Outcome<{ batchId: string }> =>
  once(books, act, 'batch.start', draft, () => {
    const problems = batchProblems(books, draft)
    if (draft.endedDay !== null)
      problems.push({ path: 'endedDay', message: 'Start it first. As it ends, say what became of it' })
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
  {
    id,
    basedOn,
    draft,
    rest = noRest,
  }: { id: string; basedOn: number; draft: BatchDraft; rest?: BatchRest | undefined },
): Outcome<{ batchId: string }> =>
  once(books, act, 'batch.change', { id, basedOn, draft, rest }, () => {
    const before = findBatch(books, id)
    if (!before) return refuse({ path: '', message: 'There is no such batch. Open the list again' })
    if (before.revision !== basedOn)
      return refuse({
        path: '',
        message: 'The batch was changed meanwhile on another device. Open it again, then enter this again',
      })
    const problems = [...batchProblems(books, draft, id), ...restProblems(notedOf(books, id), draft, rest)]
    if (problems.length > 0) return refuse(...problems)
    books.db
      .update(batches)
      .set({ ...draft, kept: rest.kept, revision: basedOn + 1 })
      .where(eq(batches.id, id))
      .run()
    if (draft.endedDay !== null) writeRest(books, act, id, { ...draft, endedDay: draft.endedDay }, rest)
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
  if (isCountedByHead(draft.unit) && !Number.isInteger(draft.size))
    problems.push({ path: 'size', message: wholeOnly(draft.unit) })
  const noted = id === '' ? [] : notedOf(books, id)
  const days = noted.map(({ day }) => day).sort()
  if (days.length > 0 && days[0]! < draft.startedDay)
    problems.push({
      path: 'startedDay',
      message: `Something of it is noted on ${dayName(days[0]!)}. Choose that day or one before it`,
    })
  if (draft.endedDay !== null && days.length > 0 && days.at(-1)! > draft.endedDay)
    problems.push({
      path: 'endedDay',
      message: `Something of it is noted on ${dayName(days.at(-1)!)}. Choose that day or a later one`,
    })
  const least = leastSizeOfBatch(noted)
  if (draft.size > 0 && draft.size < least)
    problems.push({
      path: 'size',
      message: `${least} of it are noted as lost, sold or used. Enter no fewer, or take a note out first`,
    })
  if (listBatches(books).some((one) => one.id !== id && one.name === draft.name))
    problems.push({ path: 'name', message: 'Another batch has this name. Choose a different one' })
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
    const problems = noteProblems(books, batch, mark)
    if (problems.length > 0) return problems
    books.db
      .insert(batchMarks)
      .values({ id: act.formId, ...mark, ...writtenBy(act) })
      .run()
    return []
  })

/** What is wrong with so many more of a batch on that day, each at its field. */
export const noteProblems = (books: Books, batch: Batch, note: BatchNoted): FieldProblem[] => {
  if (note.day < batch.startedDay)
    return [
      {
        path: 'day',
        message: `The batch began on ${dayName(batch.startedDay)}. Choose that day or a later one`,
      },
    ]
  if (batch.endedDay !== null && note.day > batch.endedDay)
    return [
      {
        path: 'day',
        message: `The batch ended on ${dayName(batch.endedDay)}. Choose a day up to it, or change the batch first`,
      },
    ]
  if (isCountedByHead(batch.unit) && !Number.isInteger(note.quantity))
    return [{ path: 'quantity', message: wholeOnly(batch.unit) }]
  return tooManyOf(books, batch, note)
}

const tooManyOf = (books: Books, batch: Batch, note: BatchNoted): FieldProblem[] => {
  const most = mostOfBatch(batch.size - batch.kept, notedOf(books, batch.id), note)
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
