// Taking back the last action: by the opposite action, which is logged like any other. What cannot be taken back says what to do instead.
import { and, desc, eq, notExists, sql } from 'drizzle-orm'
import { alias } from 'drizzle-orm/sqlite-core'
import type { Day } from '#calendar/day.ts'
import type { Month } from '#calendar/month.ts'
import { removeAttachment, restoreAttachment } from '#db/ledger/attachment-store.ts'
import { entriesOfCrossing, entryByNo, findEntry } from '#db/ledger/entry-reader.ts'
import { restoreReplaced } from '#db/ledger/ledger-bulk.ts'
import { voidEntry } from '#db/ledger/ledger-store.ts'
import { unskipOccurrence } from '#db/ledger/standing-store.ts'
import { type NoteKind, removeNote } from '#db/notebook/note-rows.ts'
import { reopenMonth } from '#db/reconcile/closing-store.ts'
import { reopenReconciliation } from '#db/reconcile/reconcile-store.ts'
import { takeBackImport } from '#db/statements/take-back.ts'
import { type Outcome, type Refusal, refuse } from '#ledger/problem.ts'
import { type Change, logChange } from './change-log.ts'
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
    .where(
      and(
        eq(changeLog.actor, actor),
        sql`${changeLog.kind} IN (${sql.raw(
          Object.keys(opposites)
            .map((kind) => `'${kind}'`)
            .join(', '),
        )})`,
        notExists(undone),
      ),
    )
    .orderBy(desc(changeLog.id))
    .limit(1)
    .get()
}

/** Takes back the change with this id, if it is still the actor's last one: pressing twice takes back one thing only. */
export const undoChange = (
  books: Books,
  act: Act,
  changeId: number,
  today: Day,
): Outcome<{ summary: string }> =>
  once(books, act, 'undo', { changeId }, () =>
    atomically<{ ok: true; result: { summary: string } } | Refusal>(books, () => {
      const change = lastUndoable(books, act.actor)
      if (!change || change.id !== changeId)
        return refuse({
          path: '',
          message: 'Something was done since. Open the page again to see what is last now',
        })
      const inner = { ...act, formId: `${act.formId}.undo` }
      const done = opposites[change.kind]!(books, inner, change, today)
      if (!done.ok) return done
      logChange(books, act, {
        kind: 'change.undone',
        subject: change.subject,
        sideId: change.sideId,
        summary: 'The last action was taken back',
        undoesId: change.id,
      })
      return { ok: true, result: { summary: change.summary } }
    }),
  )

type Opposite = (books: Books, act: Act, change: Change, today: Day) => { ok: true } | Refusal

const voidSubject: Opposite = (books, act, change, today) => voidEntry(books, act, change.subject, today)

const opposites: Record<string, Opposite> = {
  'entry.posted': voidSubject,
  'entry.corrected': (books, act, change) => {
    const before = findEntry(books, (change.details as { corrects: string }).corrects)
    const after = findEntry(books, change.subject)
    return before && after
      ? restoreReplaced(books, act, [[before.no, after.no]])
      : refuse({ path: '', message: 'There is no such entry. Open the page again' })
  },
  'entries.changed': (books, act, change) =>
    restoreReplaced(books, act, (change.details as { replaced: [number, number][] }).replaced),
  'opening.posted': voidSubject,
  'receipt.posted': voidSubject,
  'crossing.posted': (books, act, change, today) => {
    const [no] = entriesOfCrossing(books, change.subject)
    const entry = no === undefined ? undefined : entryByNo(books, no)
    return entry
      ? voidEntry(books, act, entry.id, today)
      : refuse({ path: '', message: 'There is no such crossing. Open the page again' })
  },
  'month.closed': (books, act, change) =>
    reopenMonth(books, act, change.subject, 'Taken back right after closing'),
  'reconciliation.finished': (books, act, change) =>
    reopenReconciliation(books, act, change.subject, 'Taken back right after finishing'),
  'standing.skipped': (books, act, change) => {
    unskipOccurrence(books, act, change.subject, (change.details as { month: Month }).month)
    return { ok: true }
  },
  'statement.imported': (books, act, change) => takeBackImport(books, act, change.subject),
  'note.written': (books, act, change) =>
    removeNote(books, act, (change.details as { kind: NoteKind }).kind, change.subject),
  'attachment.added': (books, act, change) => removeAttachment(books, act, change.subject),
  'attachment.removed': (books, act, change) => restoreAttachment(books, act, change.subject),
}
