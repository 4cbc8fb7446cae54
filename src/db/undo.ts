// Taking back the last action: by the opposite action, which is logged like any other. What cannot be taken back says what to do instead.
import { and, desc, eq, inArray, isNotNull, lt, notExists, or, sql } from 'drizzle-orm'
import { alias } from 'drizzle-orm/sqlite-core'
import type { Day } from '#calendar/day.ts'
import type { Month } from '#calendar/month.ts'
import { loneKinds } from '#db/acts/lone-kinds.ts'
import { onceMore, putInstead } from '#db/acts/put-instead.ts'
import { undoReversal } from '#db/acts/reverse-entry.ts'
import { removeAttachment, restoreAttachment } from '#db/ledger/attachment-store.ts'
import { type EntryRecord, entriesOfCrossing, entryByNo, findEntry } from '#db/ledger/entry-reader.ts'
import { restoreReplaced } from '#db/ledger/ledger-bulk.ts'
import { voidEntry } from '#db/ledger/ledger-store.ts'
import { tieAgain, untieAgain } from '#db/notebook/batch-lines.ts'
import { type NoteKind, removeNote } from '#db/notebook/note-rows.ts'
import { dayWaitsAgain } from '#db/notebook/settle-market.ts'
import { goodsWaitAgain } from '#db/notebook/settle-notes.ts'
import { reopenMonth } from '#db/reconcile/closing-store.ts'
import { reopenReconciliation } from '#db/reconcile/reconcile-store.ts'
import { takeBackTogether } from '#db/statements/read-together.ts'
import { takeBackImport } from '#db/statements/take-back.ts'
import { undoSorting } from '#db/statements/undo-sorting.ts'
import { unskipOccurrence } from '#db/transfers/standing-store.ts'
import { type Outcome, type Refusal, refuse, withoutDay } from '#ledger/problem.ts'
import { type Change, findChange, logChange } from './change-log.ts'
import { type Act, atomically, once } from './once.ts'
import type { Books } from './open.ts'
import { changeLog } from './schema-records.ts'

/** The newest change of an actor that was not taken back and is not itself a taking back. */
export const lastUndoable = (books: Books, actor: string): Change | undefined => {
  const back = alias(changeLog, 'back')
  const undone = books.db.select({ one: sql`1` }).from(back).where(eq(back.undoesId, changeLog.id))
  return books.db
    .select()
    .from(changeLog)
    .where(and(eq(changeLog.actor, actor), isOfAct, notExists(undone)))
    .orderBy(desc(changeLog.id))
    .limit(1)
    .get()
}

export type ShownAct = Change & { isTakenBack: boolean; hasOpposite: boolean }

/** What was done and can be taken back, newest first by its clock, and what was; `withLone`: what has no opposite act too. */
export const listActs = (
  books: Books,
  { limit = 200, before, withLone = false }: { limit?: number; before?: number; withLone?: boolean } = {},
): ShownAct[] => {
  const from = before === undefined ? undefined : findChange(books, before)
  const older =
    from && or(lt(changeLog.at, from.at), and(eq(changeLog.at, from.at), lt(changeLog.id, from.id)))
  const acts = books.db
    .select()
    .from(changeLog)
    .where(and(withLone ? or(isOfAct, isLone) : isOfAct, older))
    .orderBy(desc(changeLog.at), desc(changeLog.id))
    .limit(limit)
    .all()
  const undone = new Set(
    books.db
      .select({ id: changeLog.undoesId })
      .from(changeLog)
      .where(isNotNull(changeLog.undoesId))
      .all()
      .map(({ id }) => id),
  )
  // A part of one act, like a line that an import's taking back reversed, is told by its act.
  return acts.map((act) => ({ ...act, isTakenBack: undone.has(act.id), hasOpposite: act.kind in opposites }))
}

/** Takes back the change with this id: pressing twice takes back one thing only. Its month must be open on all sides concerned. */
export const undoChange = (
  books: Books,
  act: Act,
  changeId: number,
  today: Day,
): Outcome<{ summary: string }> =>
  once(books, act, 'undo', { changeId }, () =>
    atomically<{ ok: true; result: { summary: string } } | Refusal>(books, () => {
      const change = findChange(books, changeId)
      const opposite = change && opposites[change.kind]
      if (!change || !opposite || isUndone(books, changeId))
        return refuse({
          path: '',
          message: 'Something was done since. Open the page again to see what is last now',
        })
      const inner: Act = { ...act, formId: `${act.formId}.undo`, isPart: true }
      const done = opposite(books, inner, change, today)
      if (!done.ok) return { ...done, problems: done.problems.map(withoutDay) }
      logChange(books, act, {
        kind: 'change.undone',
        subject: change.subject,
        sideId: change.sideId,
        summary: `Undone: ${change.summary.charAt(0).toLowerCase()}${change.summary.slice(1)}`,
        undoesId: change.id,
      })
      return { ok: true, result: { summary: change.summary } }
    }),
  )

const isUndone = (books: Books, changeId: number): boolean =>
  books.db.select({ id: changeLog.id }).from(changeLog).where(eq(changeLog.undoesId, changeId)).get() !==
  undefined

type Opposite = (books: Books, act: Act, change: Change, today: Day) => { ok: true } | Refusal

const gone = refuse({ path: '', message: 'There is no such entry. Open the page again' })

/** On its own day or not at all: of a month that was closed since, nothing is taken back by a press. */
const voidSubject: Opposite = (books, act, change) => {
  const entry = findEntry(books, change.subject)
  return entry ? voidEntry(books, act, entry.id, entry.day) : gone
}

const voidCrossing: Opposite = (books, act, change) => {
  const [no] = entriesOfCrossing(books, change.subject)
  const entry = no === undefined ? undefined : entryByNo(books, no)
  return entry ? voidEntry(books, act, entry.id, entry.day) : gone
}

/** Puts `before` in the place of what stands in for it, with all halves of its crossings. */
const putBack = (
  books: Books,
  act: Act,
  before: EntryRecord | undefined,
  after: EntryRecord | undefined,
): { ok: true } | Refusal => {
  if (!before || !after) return gone
  const crosses = [before, after].some(({ lines }) => lines.some(({ crossingId }) => crossingId !== null))
  return crosses
    ? putInstead(books, act, after.id, after.day, () => onceMore(books, act.formId, before))
    : restoreReplaced(books, act, [[before.no, after.no]])
}

const waitsAgain = (isWaiting: boolean): { ok: true } | Refusal =>
  isWaiting
    ? { ok: true }
    : refuse({ path: '', message: 'It was settled otherwise since, or removed. Open the notebook to see it' })

const opposites: Record<string, Opposite> = {
  'entry.posted': voidSubject,
  'entry.corrected': (books, act, change) =>
    putBack(
      books,
      act,
      findEntry(books, (change.details as { corrects: string }).corrects),
      findEntry(books, change.subject),
    ),
  'entry.reversed': undoReversal,
  'commingling.crossed-over': (books, act, change) => {
    const after = findEntry(books, change.subject)
    const before = after?.correctsNo ? entryByNo(books, after.correctsNo) : undefined
    return putBack(books, act, before, after)
  },
  'lines.sorted': undoSorting,
  'entries.changed': (books, act, change) =>
    restoreReplaced(books, act, (change.details as { replaced: [number, number][] }).replaced),
  'opening.posted': voidSubject,
  'receipt.posted': voidSubject,
  'crossing.posted': voidCrossing,
  'standing.posted': voidCrossing,
  'month.closed': (books, act, change) =>
    reopenMonth(books, act, change.subject, 'Undone right after closing'),
  'reconciliation.finished': (books, act, change) =>
    reopenReconciliation(books, act, change.subject, 'Undone right after finishing'),
  'standing.skipped': (books, act, change) => {
    unskipOccurrence(books, act, change.subject, (change.details as { month: Month }).month)
    return { ok: true }
  },
  'statement.imported': (books, act, change) => takeBackImport(books, act, change.subject),
  'statements.imported': (books, act, change) =>
    takeBackTogether(books, act, (change.details as { statements: string[] }).statements),
  'note.written': (books, act, change) =>
    removeNote(books, act, (change.details as { kind: NoteKind }).kind, change.subject),
  'market-day.settled': (books, _act, change) => waitsAgain(dayWaitsAgain(books, change.subject)),
  'goods.set-aside': (books, _act, change) => waitsAgain(goodsWaitAgain(books, change.subject)),
  'batch.tied': (books, _act, change) => untieAgain(books, change),
  'batch.untied': tieAgain,
  'attachment.added': (books, act, change) => removeAttachment(books, act, change.subject),
  'attachment.removed': (books, act, change) => restoreAttachment(books, act, change.subject),
}

const isOfAct = sql`${changeLog.kind} IN (${sql.raw(
  Object.keys(opposites)
    .map((kind) => `'${kind}'`)
    .join(', '),
)})`

/** Of such a kind, and no part of undoing another. */
const isLone = and(
  inArray(changeLog.kind, [...loneKinds]),
  sql`json_extract(${changeLog.details}, '$.part') IS NULL`,
)
