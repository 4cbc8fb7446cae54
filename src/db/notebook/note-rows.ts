// A note of the farm on its way into the file and out again: each is one row with its form's id, and can be taken back.
import { asc, eq } from 'drizzle-orm'
import type { Day } from '#calendar/day.ts'
import { lastDetailsOf, logChange } from '#db/change-log.ts'
import { type Act, once } from '#db/once.ts'
import type { Books } from '#db/open.ts'
import { type FieldProblem, type Outcome, type Refusal, refuse } from '#ledger/problem.ts'
import type { Cents } from '#money/cents.ts'
import { batchMarks } from './schema-batches.ts'
import {
  goodsEntries,
  goodsNotes,
  headTallies,
  marketDays,
  marketTakings,
  trips,
  workHours,
} from './schema-notes.ts'

/** What can be noted, each with the words of the log. */
const noteWords = {
  hours: 'Hours were written down',
  heads: 'A head count was written down',
  market: 'A market day was written down',
  trip: 'A trip was written down',
  goods: 'Goods that left the farm were written down',
  mark: 'Something about a batch was written down',
} as const
export type NoteKind = keyof typeof noteWords

export const isNoteKind = (text: string): text is NoteKind => Object.hasOwn(noteWords, text)

/** Who wrote it when: the end of every row of the notebook. */
export const writtenBy = (act: Act) => ({ recordedAt: act.at, recordedBy: act.actor })

/** One note under its form's id. `write` says what is wrong, or writes. */
export const writeNote = (
  books: Books,
  act: Act,
  kind: NoteKind,
  body: unknown,
  write: () => FieldProblem[],
): Outcome<{ id: string }> =>
  once(books, act, `note.${kind}`, body, () => {
    const problems = write()
    if (problems.length > 0) return refuse(...problems)
    logChange(books, act, {
      kind: 'note.written',
      subject: act.formId,
      sideId: 'farm',
      summary: noteWords[kind],
      details: { kind },
    })
    return { ok: true, result: { id: act.formId } }
  })

/** Takes a note out; the log keeps what it was. What was booked from it must be taken back first. */
export const removeNote = (books: Books, act: Act, kind: NoteKind, id: string): Outcome<{ id: string }> =>
  once(books, act, 'note.remove', { kind, id }, () => {
    const done = takeOut(books, kind, id)
    if (!done.ok) return done
    logChange(books, act, {
      kind: 'note.removed',
      subject: id,
      sideId: 'farm',
      summary: 'Something was removed from the farm’s notebook',
      details: { kind, before: done.before },
    })
    return { ok: true, result: { id } }
  })

const takeOut = (books: Books, kind: NoteKind, id: string): { ok: true; before: unknown } | Refusal => {
  const table = tables[kind]
  const before = books.db.select().from(table).where(eq(table.id, id)).get()
  if (!before) return refuse({ path: '', message: 'That is no longer in the notebook. Open the page again' })
  if (
    ('crossingId' in before && before.crossingId !== null) ||
    ('entryNo' in before && before.entryNo !== null) ||
    books.db.select().from(goodsEntries).where(eq(goodsEntries.goodsId, id)).get()
  )
    return refuse({
      path: '',
      message: 'It is in the books already. Reverse the entry there, then remove this',
    })
  const takings = kind === 'market' ? takingsOf(books, id) : []
  if (kind === 'market') books.db.delete(marketTakings).where(eq(marketTakings.marketDayId, id)).run()
  books.db.delete(table).where(eq(table.id, id)).run()
  return { ok: true, before: takings.length > 0 ? { ...before, takings } : before }
}

const takingsOf = (books: Books, marketDayId: string) =>
  books.db.select().from(marketTakings).where(eq(marketTakings.marketDayId, marketDayId)).all()

/** A row of the notebook as it is kept, by its kind; a market day with its takings. */
export type NoteRow =
  | {
      [Kind in Exclude<NoteKind, 'market'>]: { kind: Kind; row: (typeof tables)[Kind]['$inferSelect'] }
    }[Exclude<NoteKind, 'market'>]
  | {
      kind: 'market'
      row: typeof marketDays.$inferSelect & { takings: readonly { amountCents: Cents }[] }
    }

/** The note, or what the log keeps of one that was taken out. */
export const findNote = (books: Books, kind: NoteKind, id: string): NoteRow | undefined => {
  const table = tables[kind]
  const row = books.db.select().from(table).where(eq(table.id, id)).get() ?? removedNote(books, id)
  if (!row) return undefined
  const takings = 'takings' in row ? row.takings : kind === 'market' ? takingsOf(books, id) : []
  return { kind, row: kind === 'market' ? { ...row, takings } : row } as NoteRow
}

/** What was noted in the field on a day, each kind in the order of writing; a clock that runs is not noted yet. */
export const notesOfDay = (books: Books, day: Day): NoteRow[] =>
  fieldKinds.flatMap((kind) => {
    const table = tables[kind]
    return books.db
      .select({ id: table.id })
      .from(table)
      .where(eq(table.day, day))
      .orderBy(asc(table.recordedAt))
      .all()
      .map(({ id }) => findNote(books, kind, id)!)
      .filter((note) => note.kind !== 'hours' || note.row.minutes !== null)
  })

const fieldKinds = ['hours', 'heads', 'market', 'trip', 'goods'] as const

const removedNote = (books: Books, id: string): object | undefined =>
  (lastDetailsOf(books, 'note.removed', id) as { before: object } | undefined)?.before

const tables = {
  hours: workHours,
  heads: headTallies,
  market: marketDays,
  trip: trips,
  goods: goodsNotes,
  mark: batchMarks,
} as const
