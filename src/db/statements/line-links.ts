// What hangs on a posted entry, when it is taken back or another is posted in its place: statement lines, receipts, ticks, market days.
import { and, asc, eq, ne } from 'drizzle-orm'
import { isAmong } from '#db/among.ts'
import { goodsEntries, marketDays } from '#db/notebook/schema-notes.ts'
import type { Books } from '#db/open.ts'
import { openReconciliation } from '#db/reconcile/reconcile-reader.ts'
import { tickCancelledLines } from '#db/reconcile/reconcile-ticks.ts'
import { entries, postings } from '#db/schema.ts'
import { attachments } from '#db/schema-records.ts'
import { statementLines } from '#db/schema-statements.ts'
import { carryTaxSaid } from '#db/tax/tax-moves.ts'
import { pairLines } from '#ledger/reversal.ts'
import {
  correctedNote,
  happenedOnceNote,
  isHeldAgainst,
  takenBackNote,
} from '#ledger/statements/corrected-line.ts'
import { textOfLine } from '#ledger/statements/statement.ts'
import { type Cents, sumCents } from '#money/cents.ts'

/** Lines that stood for entries now taken back wait to be sorted again. */
export const freeStatementLines = (books: Books, entryNos: readonly number[]): void => {
  for (const line of linesOf(books, entryNos)) free(books, line.id, { state: 'unsorted' })
}

/**
 * Of entries that a person took back one by one. What a file without numbers of the bank has twice on one day, and what stays booked
 * once, happened once: it is set aside, to be taken up again. The others wait for a tick of a person. Returns the lines set aside.
 */
export const freeTakenBack = (books: Books, at: string, entryNos: readonly number[]): number[] =>
  linesOf(books, entryNos).flatMap((line) => {
    const isTwin = hasBookedTwin(books, line, entryNos)
    free(
      books,
      line.id,
      isTwin
        ? { state: 'ignored', note: happenedOnceNote, sortedAt: at }
        : { state: 'unsorted', note: takenBackNote },
    )
    return isTwin ? [line.id] : []
  })

/** The bank itself numbers the two: both happened. */
const isNumberedApart = (one: { bankId: string | null }, other: { bankId: string | null }): boolean =>
  one.bankId !== null && other.bankId !== null && one.bankId !== other.bankId

/** Whether another line of the same day, amount and text, not of another number of the bank, is booked, by an entry that stays. */
const hasBookedTwin = (
  books: Books,
  line: ReturnType<typeof linesOf>[number],
  without: readonly number[],
): boolean => {
  const own = books.db.select().from(statementLines).where(eq(statementLines.id, line.id)).get()!
  return books.db
    .select({ line: statementLines, entryNo: postings.entryNo })
    .from(statementLines)
    .innerJoin(postings, eq(postings.id, statementLines.postingId))
    .where(
      and(
        eq(statementLines.accountId, own.accountId),
        eq(statementLines.day, own.day),
        eq(statementLines.amountCents, own.amountCents),
        ne(statementLines.id, own.id),
      ),
    )
    .all()
    .some(
      (other) =>
        !without.includes(other.entryNo) &&
        textOfLine(other.line) === textOfLine(own) &&
        !isNumberedApart(own, other.line),
    )
}

/**
 * What hung on a corrected entry hangs on the one that stands in for it: its receipts, and the statement lines whose account
 * and amount are still there. The other lines come back as doubtful, since the books may have them by the entry that stands in:
 * returns how many.
 */
export const carryTies = (books: Books, originalNo: number, replacementNo: number): number => {
  const before = postingsOf(books, originalNo)
  const after = postingsOf(books, replacementNo)
  const pairs = pairLines(before, after)
  let freed = 0
  for (const line of linesOf(books, [originalNo])) {
    const place = pairs.get(before.findIndex((posting) => posting.id === line.postingId))
    if (place === undefined) {
      free(books, line.id, { state: 'doubtful', note: noteOf(books, line, replacementNo, after) })
      freed += 1
    } else
      books.db
        .update(statementLines)
        .set({ postingId: after[place]!.id })
        .where(eq(statementLines.id, line.id))
        .run()
  }
  carryDoubts(books, originalNo, replacementNo, after)
  carryTaxSaid(books, originalNo, replacementNo)
  books.db.update(marketDays).set({ entryNo: replacementNo }).where(eq(marketDays.entryNo, originalNo)).run()
  books.db
    .update(goodsEntries)
    .set({ entryNo: replacementNo })
    .where(eq(goodsEntries.entryNo, originalNo))
    .run()
  books.db
    .update(attachments)
    .set({ entryNo: replacementNo })
    .where(eq(attachments.entryNo, originalNo))
    .run()
  return freed
}

/** A line freed by an earlier correction is tied again where the entry is corrected back; else it says what the entry is now. */
const carryDoubts = (
  books: Books,
  originalNo: number,
  replacementNo: number,
  after: ReturnType<typeof postingsOf>,
): void => {
  const accountIds = [...new Set(after.map(({ accountId }) => accountId))]
  const doubtful = books.db
    .select()
    .from(statementLines)
    .where(and(eq(statementLines.state, 'doubtful'), isAmong(statementLines.accountId, accountIds)))
    .all()
  const taken = new Set(linesOf(books, [replacementNo]).map(({ postingId }) => postingId))
  for (const line of doubtful.filter(({ note }) => isHeldAgainst(note, originalNo))) {
    const place = after.find(
      ({ id, accountId, amountCents }) =>
        !taken.has(id) && accountId === line.accountId && amountCents === line.amountCents,
    )
    if (place) taken.add(place.id)
    books.db
      .update(statementLines)
      .set(
        place
          ? { state: 'matched', postingId: place.id, note: '' }
          : { note: noteOf(books, line, replacementNo, after) },
      )
      .where(eq(statementLines.id, line.id))
      .run()
  }
}

/** In reconciliations under way, what was just taken back cancels out without anyone having to look for it. */
export const settleTicks = (books: Books, reversalNos: readonly number[]): void => {
  const accountIds = books.db
    .selectDistinct({ id: postings.accountId })
    .from(postings)
    .where(isAmong(postings.entryNo, reversalNos))
    .all()
  for (const { id } of accountIds) {
    const open = openReconciliation(books, id)
    if (open) tickCancelledLines(books, open, { reversalNos })
  }
}

const free = (
  books: Books,
  lineId: number,
  becomes: Partial<Pick<typeof statementLines.$inferSelect, 'state' | 'note' | 'sortedAt'>>,
): void => {
  books.db
    .update(statementLines)
    .set({ postingId: null, sortedAt: null, ...becomes })
    .where(eq(statementLines.id, lineId))
    .run()
}

const noteOf = (
  books: Books,
  line: { accountId: number; amountCents: Cents; payee: string },
  entryNo: number,
  after: ReturnType<typeof postingsOf>,
): string => {
  const { day } = books.db.select({ day: entries.day }).from(entries).where(eq(entries.no, entryNo)).get()!
  const there = after.filter(({ accountId }) => accountId === line.accountId)
  const amount = there.length === 0 ? null : sumCents(there.map(({ amountCents }) => amountCents))
  return correctedNote({ amount: line.amountCents, payee: line.payee, now: { entryNo, day, amount } })
}

const linesOf = (books: Books, entryNos: readonly number[]) =>
  books.db
    .select({
      id: statementLines.id,
      postingId: statementLines.postingId,
      accountId: statementLines.accountId,
      amountCents: statementLines.amountCents,
      payee: entries.payee,
    })
    .from(statementLines)
    .innerJoin(postings, eq(postings.id, statementLines.postingId))
    .innerJoin(entries, eq(entries.no, postings.entryNo))
    .where(isAmong(postings.entryNo, entryNos))
    .all()

const postingsOf = (books: Books, entryNo: number) =>
  books.db
    .select({ id: postings.id, accountId: postings.accountId, amountCents: postings.amountCents })
    .from(postings)
    .where(eq(postings.entryNo, entryNo))
    .orderBy(asc(postings.lineNo))
    .all()
