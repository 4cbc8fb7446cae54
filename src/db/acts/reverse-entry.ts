// Reversing an entry as an act of its own, and undoing that: it is booked once more, and what hung on it hangs on it again.
import { and, eq, isNotNull } from 'drizzle-orm'
import { type Day, monthOfDay } from '#calendar/day.ts'
import { isAmong } from '#db/among.ts'
import { type Change, logChange } from '#db/change-log.ts'
import { entryOfPosting, findEntry, reversalOfEntry, standInFor, wholeOf } from '#db/ledger/entry-reader.ts'
import { type Voided, writeVoid } from '#db/ledger/ledger-store.ts'
import { closedThrough, writeParts } from '#db/ledger/ledger-writer.ts'
import { goodsEntries, goodsNotes, marketDays } from '#db/notebook/schema-notes.ts'
import { type Act, once } from '#db/once.ts'
import type { Books } from '#db/open.ts'
import { postings } from '#db/schema.ts'
import { statementLines } from '#db/schema-statements.ts'
import { carryTies } from '#db/statements/line-links.ts'
import { type Outcome, type Refusal, refuse } from '#ledger/problem.ts'
import { onceMore } from './put-instead.ts'

/** As `voidEntry`, with what hung on it kept in the log, so that it can be undone. */
export const reverseEntry = (books: Books, act: Act, entryId: string, day: Day): Outcome<Voided> =>
  once(books, act, 'entry.reverse', { entryId, day }, () => {
    const hung = hangingOn(books, entryId)
    const done = writeVoid(books, act, entryId, day)
    if (!done.ok) return done
    logChange(books, act, {
      kind: 'entry.reversed',
      subject: entryId,
      sideId: done.sideId,
      summary: 'An entry was reversed',
      details: hung,
    })
    return done
  })

/** All or nothing, on its own day, or on that of the reversal where its own is closed: the two then cancel. Call it inside a write. What was sorted or settled otherwise since is refused by name. */
export const undoReversal = (books: Books, act: Act, change: Change): { ok: true } | Refusal => {
  const entry = findEntry(books, change.subject)
  if (!entry || standInFor(books, entry.no)) return changedSince
  const { lines, goods, bartered, markets } = change.details as unknown as Hanging
  const held = linesFreed(books, lines)
  if (!held.ok) return held
  const whole = wholeOf(books, entry)
  const isClosed = whole.entries.some(
    ({ sideId, day }) => monthOfDay(day) <= (closedThrough(books, sideId) ?? 0),
  )
  const again = onceMore(
    books,
    act.formId,
    entry,
    isClosed ? reversalOfEntry(books, entry.no)?.day : undefined,
  )
  const written = writeParts(books, act.at, {
    crossings: again.crossings,
    entries: again.entries.map((one, at) => ({ ...one, correctsNo: whole.entries[at]!.no })),
  })
  if (!written.ok) return refuse(...written.problems)
  for (const { id, ...was } of lines)
    books.db.update(statementLines).set(was).where(eq(statementLines.id, id)).run()
  const crossingNow = new Map(whole.crossings.map(({ id }, at) => [id, again.crossings[at]!.id]))
  for (const { id, crossingId, settledAt } of goods)
    books.db
      .update(goodsNotes)
      .set({ state: 'booked', crossingId: crossingNow.get(crossingId)!, settledAt })
      .where(and(eq(goodsNotes.id, id), eq(goodsNotes.state, 'waiting')))
      .run()
  for (const { id, state, entryNo, settledAt } of bartered) {
    const again = books.db
      .update(goodsNotes)
      .set({ state, settledAt })
      .where(and(eq(goodsNotes.id, id), eq(goodsNotes.state, 'waiting')))
      .run()
    if (again.changes > 0) books.db.insert(goodsEntries).values({ goodsId: id, entryNo }).run()
  }
  for (const { id, entryNo, settledAt } of markets)
    books.db.update(marketDays).set({ entryNo, settledAt }).where(eq(marketDays.id, id)).run()
  for (const [at, { no }] of whole.entries.entries()) carryTies(books, no, written.entries[at]!.no)
  return { ok: true }
}

const changedSince = refuse({
  path: '',
  message: 'It was corrected since. Open its entry to see what the books have now',
})

/** What a reversal unties: lines of the bank, goods and market days of the notebook. */
type Hanging = ReturnType<typeof hangingOn>

const hangingOn = (books: Books, entryId: string) => {
  const first = findEntry(books, entryId)
  const whole = first ? wholeOf(books, first) : { entries: [], crossings: [] }
  const nos = whole.entries.map(({ no }) => no)
  const crossingIds = whole.crossings.map(({ id }) => id)
  const { id, state, postingId, ruleId, note, sortedAt } = statementLines
  return {
    lines: books.db
      .select({ id, state, postingId, ruleId, note, sortedAt })
      .from(statementLines)
      .innerJoin(postings, eq(postings.id, postingId))
      .where(isAmong(postings.entryNo, nos))
      .all(),
    goods: books.db
      .select({ id: goodsNotes.id, crossingId: goodsNotes.crossingId, settledAt: goodsNotes.settledAt })
      .from(goodsNotes)
      .where(and(isNotNull(goodsNotes.crossingId), isAmong(goodsNotes.crossingId, crossingIds)))
      .all() as { id: string; crossingId: string; settledAt: string | null }[],
    bartered: books.db
      .select({
        id: goodsNotes.id,
        state: goodsNotes.state,
        entryNo: goodsEntries.entryNo,
        settledAt: goodsNotes.settledAt,
      })
      .from(goodsEntries)
      .innerJoin(goodsNotes, eq(goodsNotes.id, goodsEntries.goodsId))
      .where(isAmong(goodsEntries.entryNo, nos))
      .all(),
    markets: books.db
      .select({ id: marketDays.id, entryNo: marketDays.entryNo, settledAt: marketDays.settledAt })
      .from(marketDays)
      .where(isAmong(marketDays.entryNo, nos))
      .all(),
  }
}

/** Whether each of the bank's lines is still as the reversal left it. */
const linesFreed = (books: Books, lines: Hanging['lines']): { ok: true } | Refusal => {
  const now = books.db
    .select()
    .from(statementLines)
    .where(
      isAmong(
        statementLines.id,
        lines.map(({ id }) => id),
      ),
    )
    .all()
  const booked = now.find(({ postingId }) => postingId !== null)
  if (booked)
    return refuse({
      path: '',
      message: `“${booked.payee}” was sorted again since, by entry ${entryOfPosting(books, booked.postingId!).no}. Undo that first`,
    })
  return now.length === lines.length
    ? { ok: true }
    : refuse({ path: '', message: 'The statement it came with was undone since. Read that in again instead' })
}
