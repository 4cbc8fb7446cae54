// A line that takes the place of an earlier form of the same movement: what hung on the earlier one hangs on it, and back again.
import { eq } from 'drizzle-orm'
import { type Day, dayName } from '#calendar/day.ts'
import { voidEntry } from '#db/ledger/ledger-store.ts'
import type { Act } from '#db/once.ts'
import type { Books } from '#db/open.ts'
import { entries, postings } from '#db/schema.ts'
import { statementLines } from '#db/schema-statements.ts'
import { type Outcome, refuse } from '#ledger/problem.ts'
import { formatCents } from '#money/format.ts'

export type StoredLine = typeof statementLines.$inferSelect

export const storedLine = (books: Books, id: number): StoredLine | undefined =>
  books.db.select().from(statementLines).where(eq(statementLines.id, id)).get()

/** The line that this one corrects or may have come after, for a person to decide. */
export const earlierLine = (books: Books, lineId: number): StoredLine | undefined => {
  const line = storedLine(books, lineId)
  return line?.correctsId == null ? undefined : storedLine(books, line.correctsId)
}

/**
 * Sets the earlier line aside. What it was booked as stays and hangs on the new line, if the amount is the same; call it inside
 * a write, and only where nothing else is booked (see `settleCorrection`).
 */
export const takePlace = (books: Books, at: string, line: StoredLine, earlier: StoredLine): void => {
  const isDelete = line.correction === 'delete'
  const change = (id: number, values: Partial<StoredLine>) =>
    books.db.update(statementLines).set(values).where(eq(statementLines.id, id)).run()
  change(earlier.id, {
    state: 'ignored',
    postingId: null,
    note: isDelete ? 'The bank took it back' : `The bank sent it again on ${dayName(line.day)}`,
    sortedAt: at,
  })
  if (isDelete) change(line.id, { state: 'ignored', note: 'Reverses an earlier transaction', sortedAt: at })
  else if (earlier.postingId === null) change(line.id, { state: 'unsorted' })
  else
    change(line.id, {
      state: 'matched',
      postingId: earlier.postingId,
      ruleId: earlier.ruleId,
      sortedAt: at,
    })
}

/** A person's yes to a doubtful correction: an entry with another amount, or one the bank took back, is taken back first. */
export const settleCorrection = (books: Books, act: Act, lineId: number): Outcome<{ took: boolean }> => {
  const line = storedLine(books, lineId)
  const earlier = earlierLine(books, lineId)
  if (!line || !earlier)
    return refuse({
      path: '',
      message: 'The transaction it would replace is not there any more. Open the page again',
    })
  const isOther = line.correction === 'delete' || earlier.amountCents !== line.amountCents
  if (earlier.postingId !== null && isOther) {
    const back = voidEntry(books, act, entryIdOf(books, earlier.postingId), line.day)
    if (!back.ok) return back
  }
  takePlace(books, act.at, line, storedLine(books, earlier.id)!)
  return { ok: true, result: { took: true }, repeated: false }
}

/** The earlier line again as it was before `line` took its place; call it inside a write. */
export const giveBackPlace = (books: Books, line: StoredLine): void => {
  if (line.correctsId === null || storedLine(books, line.correctsId)?.state !== 'ignored') return
  const { state, postingId, ruleId, id } = line
  books.db
    .update(statementLines)
    .set({ state: 'ignored', postingId: null })
    .where(eq(statementLines.id, id))
    .run()
  books.db
    .update(statementLines)
    .set({
      state: postingId !== null && state === 'matched' ? 'matched' : 'unsorted',
      postingId: state === 'matched' ? postingId : null,
      ruleId: state === 'matched' ? ruleId : null,
      note: '',
      sortedAt: state === 'matched' ? line.sortedAt : null,
    })
    .where(eq(statementLines.id, line.correctsId))
    .run()
}

/** `Hollow Feed, Jan 12, 2025, −$23.40`. */
export const lineSaid = (line: Pick<StoredLine, 'payee' | 'memo' | 'day' | 'amountCents'>): string =>
  `${line.payee || line.memo || 'a transaction without text'}, ${dayName(line.day as Day)}, ${formatCents(line.amountCents)}`

const entryIdOf = (books: Books, postingId: number): string =>
  books.db
    .select({ id: entries.id })
    .from(entries)
    .innerJoin(postings, eq(postings.entryNo, entries.no))
    .where(eq(postings.id, postingId))
    .get()!.id
