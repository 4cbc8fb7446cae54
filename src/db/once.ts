// The doorway of every write: one immediate transaction, carried out once per form id, all or nothing.
import { createHash } from 'node:crypto'
import { eq } from 'drizzle-orm'
import { conflict, type Outcome, type Refusal } from '#ledger/problem.ts'
import { linkWritten } from './chain/chain.ts'
import { countRollback } from './chain/rollbacks.ts'
import type { Books } from './open.ts'
import { submissions } from './schema-records.ts'

/** Who does what when: the form's own id, the instant and the browser or command it came from. */
export interface Act {
  formId: string
  /** ISO instant, from the edge's clock. */
  at: string
  actor: string
}

/**
 * Carries out `work` once for the act's form id. The identical body again is the same success with the first result;
 * another body under the same id is a conflict. A refusal leaves nothing behind. The result must be plain JSON.
 */
export const once = <Result>(
  books: Books,
  act: Act,
  kind: string,
  body: unknown,
  work: () => { ok: true; result: Result } | Refusal,
): Outcome<Result> =>
  atomically(books, () => {
    if (act.formId.trim() === '') throw new Error(`A form without an id: ${kind}`)
    const bodyDigest = digestOf(body)
    const before = submissionOf(books, act.formId)
    if (before) {
      return before.kind === kind && before.bodyDigest === bodyDigest
        ? { ok: true, result: (before.result as { is: Result }).is, repeated: true }
        : conflict(
            'This form was sent before with other content, and that was saved. Open the page again to see it, then enter the change anew.',
          )
    }
    const done = work()
    if (!done.ok) return done
    books.db
      .insert(submissions)
      .values({
        id: act.formId,
        kind,
        bodyDigest,
        // In an object, because the JSON value null would be stored as no value.
        result: { is: done.result },
        at: act.at,
      })
      .run()
    return { ok: true, result: done.result, repeated: false }
  })

/** What this form came to when the identical body was carried out before: for answering it again before anything else is looked at. */
export const carriedOutBefore = <Result>(
  books: Books,
  formId: string,
  kind: string,
  body: unknown,
): { result: Result } | null => {
  const before = submissionOf(books, formId)
  return before?.kind === kind && before.bodyDigest === digestOf(body)
    ? { result: (before.result as { is: Result }).is }
    : null
}

/** Whether a form of this id was carried out, with this content or another: then `once` knows what to say. */
export const wasCarriedOut = (books: Books, formId: string): boolean =>
  submissionOf(books, formId) !== undefined

const submissionOf = (books: Books, formId: string) =>
  books.db.select().from(submissions).where(eq(submissions.id, formId)).get()

/**
 * One immediate transaction, which ends with its link of the chain; a value with `ok: false` rolls it back and comes through. Inside
 * another one it is a savepoint, and the other one makes the link. Nothing is written, and nothing is called written, unless the books
 * still are the file at their path.
 */
export const atomically = <Result extends { ok: boolean }>(books: Books, work: () => Result): Result => {
  if (books.sqlite.inTransaction) return inTransaction(books, work, () => {})
  books.standing.mustHold()
  const result = inTransaction(books, work, () => linkWritten(books.sqlite))
  books.standing.settle()
  return result
}

const inTransaction = <Result extends { ok: boolean }>(
  books: Books,
  work: () => Result,
  atTheEnd: () => void,
): Result => {
  const before = rowsWritten(books)
  try {
    const run = books.sqlite.transaction(() => {
      const result = work()
      if (!result.ok) throw new RolledBack(result, rowsWritten(books) !== before)
      atTheEnd()
      return result
    })
    return run.immediate()
  } catch (error) {
    const isRefusal = error instanceof RolledBack
    if (!isRefusal || error.hadWritten) countRollback(books)
    if (isRefusal) return error.result as Result
    throw error
  }
}

/** By this connection since it was opened, what was rolled back among them. */
const rowsWritten = (books: Books): number =>
  books.sqlite.prepare('SELECT total_changes()').pluck().get() as number

class RolledBack extends Error {
  readonly result: unknown
  readonly hadWritten: boolean
  constructor(result: unknown, hadWritten: boolean) {
    super('rolled back')
    this.result = result
    this.hadWritten = hadWritten
  }
}

/** SHA-256 of the body as JSON with sorted keys, so that the order of fields does not matter. */
export const digestOf = (body: unknown): string =>
  createHash('sha256')
    .update(JSON.stringify(sorted(body)))
    .digest('hex')

const sorted = (value: unknown): unknown => {
  if (Array.isArray(value)) return value.map(sorted)
  if (value === null || typeof value !== 'object') return value
  return Object.fromEntries(
    Object.entries(value)
      .filter(([, inner]) => inner !== undefined)
      .sort(([a], [b]) => (a < b ? -1 : 1))
      .map(([key, inner]) => [key, sorted(inner)]),
  )
}
