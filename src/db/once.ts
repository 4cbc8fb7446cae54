// The doorway of every write: one immediate transaction, carried out once per form id, all or nothing.
import { createHash } from 'node:crypto'
import { eq } from 'drizzle-orm'
import { atOnce, type InTurns } from '#kept/in-turns.ts'
import { conflict, type Outcome, type Refusal } from '#ledger/problem.ts'
import { makeWay } from './apart/making-way.ts'
import { linkingWritten } from './chain/chain.ts'
import { countRollback } from './chain/rollbacks.ts'
import type { Books } from './open.ts'
import { submissions } from './schema-records.ts'

/** Who does what when: the form's own id, the instant and the browser or command it came from. */
export interface Act {
  formId: string
  /** ISO instant, from the edge's clock. */
  at: string
  actor: string
  /** It is a part of undoing another act, and told with that one. */
  isPart?: true
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
  work: () => Done<Result>,
): Outcome<Result> => atOnce(onceInTurns(books, act, kind, body, () => whole(work)))

/** The same with stops, for a connection of its own (`apart/write-apart.ts`): on a shared one others would write into its transaction. */
export const onceInTurns = <Result>(
  books: Books,
  act: Act,
  kind: string,
  body: unknown,
  work: () => InTurns<Done<Result>>,
): InTurns<Outcome<Result>> =>
  atomicallyInTurns(books, function* (): InTurns<Outcome<Result>> {
    if (act.formId.trim() === '') throw new Error(`A form without an id: ${kind}`)
    const bodyDigest = digestOf(body)
    const before = submissionOf(books, act.formId)
    if (before) {
      return before.kind === kind && before.bodyDigest === bodyDigest
        ? { ok: true, result: (before.result as { is: Result }).is, repeated: true }
        : conflict(
            'This form was sent before with other content, and that was saved. Open the page again to see it, then enter the change again.',
          )
    }
    const done = yield* work()
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

type Done<Result> = { ok: true; result: Result } | Refusal

// biome-ignore lint/correctness/useYield: work without a stop is done in one step.
function* whole<Result>(work: () => Result): InTurns<Result> {
  return work()
}

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
export const atomically = <Result extends { ok: boolean }>(books: Books, work: () => Result): Result =>
  atOnce(atomicallyInTurns(books, () => whole(work)))

/** The same with stops, for a connection of its own. */
export function* atomicallyInTurns<Result extends { ok: boolean }>(
  books: Books,
  work: () => InTurns<Result>,
): InTurns<Result> {
  if (books.sqlite.inTransaction) return yield* inTransaction(books, savepoint, work)
  books.standing.mustHold()
  makeWay(books)
  const result = yield* inTransaction(books, transaction, work)
  books.standing.settle()
  return result
}

interface Bounds {
  begin: string
  end: string
  undo: readonly string[]
  linking: (sqlite: Books['sqlite']) => InTurns<void>
}

const transaction: Bounds = {
  begin: 'BEGIN IMMEDIATE',
  end: 'COMMIT',
  undo: ['ROLLBACK'],
  linking: linkingWritten,
}
const savepoint: Bounds = {
  begin: 'SAVEPOINT part',
  end: 'RELEASE part',
  undo: ['ROLLBACK TO part', 'RELEASE part'],
  linking: function* () {},
}

function* inTransaction<Result extends { ok: boolean }>(
  books: Books,
  { begin, end, undo, linking }: Bounds,
  work: () => InTurns<Result>,
): InTurns<Result> {
  const { sqlite } = books
  const before = rowsWritten(books)
  const rollBack = () => {
    // SQLite may have done it by itself.
    if (sqlite.inTransaction) for (const text of undo) sqlite.prepare(text).run()
  }
  sqlite.prepare(begin).run()
  try {
    const result = yield* work()
    if (result.ok) {
      yield* linking(sqlite)
      sqlite.prepare(end).run()
      return result
    }
    const hadWritten = rowsWritten(books) !== before
    rollBack()
    if (hadWritten) countRollback(books)
    return result
  } catch (error) {
    rollBack()
    countRollback(books)
    throw error
  }
}

/** By this connection since it was opened, what was rolled back among them. */
const rowsWritten = (books: Books): number =>
  books.sqlite.prepare('SELECT total_changes()').pluck().get() as number

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
