// The log of every change: written beside each change in its transaction, read for notices and for the history page.
import { and, desc, eq, gt, min, ne } from 'drizzle-orm'
import { rollbacksOf } from './chain/rollbacks.ts'
import type { Act } from './once.ts'
import type { Books } from './open.ts'
import { prepared } from './prepared.ts'
import { changeLog } from './schema-records.ts'

export type Change = typeof changeLog.$inferSelect

export interface ChangeNote {
  /** What was done, like `entry.posted`. */
  kind: string
  subject: string
  /** One sentence without amounts or names: it is shown as a notice in the other browser. */
  summary: string
  sideId?: string | null
  details?: unknown
  undoesId?: number
}

/** Adds a row; call it inside the transaction of the change. Returns the row's id. */
export const logChange = (
  books: Books,
  act: Pick<Act, 'at' | 'actor' | 'isPart'>,
  note: ChangeNote,
): number =>
  books.db
    .insert(changeLog)
    .values({
      at: act.at,
      actor: act.actor,
      kind: note.kind,
      subject: note.subject,
      summary: note.summary,
      sideId: note.sideId ?? null,
      details: act.isPart ? { ...(note.details as object | undefined), part: true } : (note.details ?? {}),
      undoesId: note.undoesId ?? null,
    })
    .returning({ id: changeLog.id })
    .get().id

/** When the books were begun. */
export const firstChangeAt = (books: Books): string | null =>
  books.db
    .select({ at: min(changeLog.at) })
    .from(changeLog)
    .get()?.at ?? null

/** The newest change of a subject. */
export const lastChangeOf = (books: Books, subject: string): Change | undefined =>
  books.db
    .select()
    .from(changeLog)
    .where(eq(changeLog.subject, subject))
    .orderBy(desc(changeLog.id))
    .limit(1)
    .get()

/** The details of the newest change of a kind of a subject: what the log keeps of what the tables have no more. */
export const lastDetailsOf = (books: Books, kind: string, subject: string): unknown =>
  books.db
    .select({ details: changeLog.details })
    .from(changeLog)
    .where(and(eq(changeLog.subject, subject), eq(changeLog.kind, kind)))
    .orderBy(desc(changeLog.id))
    .limit(1)
    .get()?.details

export const findChange = (books: Books, id: number): Change | undefined =>
  books.db.select().from(changeLog).where(eq(changeLog.id, id)).get()

export const latestChangeId = (books: Books): number =>
  prepared(books, 'latest change', () =>
    books.sqlite.prepare('SELECT coalesce(max(id), 0) FROM change_log').pluck(),
  ).get() as number

/** How the books stand: another text after every change, and never one that was seen before. */
export const standingOf = (books: Books): string => `${latestChangeId(books)} ${rollbacksOf(books)}`

/** Changes after an id, oldest first, without those of one actor: what the other person did meanwhile. */
export const changesSince = (books: Books, id: number, exceptActor = '', limit = 50): Change[] =>
  books.db
    .select()
    .from(changeLog)
    .where(and(gt(changeLog.id, id), exceptActor === '' ? undefined : ne(changeLog.actor, exceptActor)))
    .orderBy(changeLog.id)
    .limit(limit)
    .all()
