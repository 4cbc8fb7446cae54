// Posting, voiding and correcting entries. An entry that is part of a crossing is taken back with all its halves, never alone.
import { type Day, monthOfDay } from '#calendar/day.ts'
import { logChange } from '#db/change-log.ts'
import { waitAgain } from '#db/notebook/settle-notes.ts'
import { type Act, once } from '#db/once.ts'
import type { Books } from '#db/open.ts'
import { carryTies, freeStatementLines, freeTakenBack, settleTicks } from '#db/statements/line-links.ts'
import { closedMonthProblem, type DraftLine, type EntryDraft, type EntryGround } from '#ledger/entry.ts'
import { conflict, type Outcome, type Refusal, refuse } from '#ledger/problem.ts'
import { type PostedEntry, pairLines, reverse } from '#ledger/reversal.ts'
import { findEntry, reversalOfEntry, wholeOf } from './entry-reader.ts'
import { closedThrough, groundOf, type WrittenEntry, writeParts } from './ledger-writer.ts'

/** An entry as the form has it: its id is the form's. */
export type NewEntry = Omit<EntryDraft, 'id'>

export interface Posted {
  entryId: string
  entryNo: number
}

/** Posts one entry on one side. Problems carry the path of their field. */
export const postEntry = (books: Books, act: Act, draft: NewEntry): Outcome<Posted> =>
  once(books, act, 'entry.post', draft, () => {
    const written = writeParts(books, act.at, { crossings: [], entries: [{ ...draft, id: act.formId }] })
    if (!written.ok) return refuse(...written.problems)
    const [entry] = written.entries
    logChange(books, act, {
      kind: draft.source === 'opening' ? 'opening.posted' : 'entry.posted',
      subject: entry!.id,
      sideId: draft.sideId,
      summary: draft.source === 'opening' ? 'Opening balances were entered' : 'An entry was recorded',
    })
    return { ok: true, result: { entryId: entry!.id, entryNo: entry!.no } }
  })

/**
 * Takes an entry back by a reversing entry, with every other half of its crossings. Dated on the original's day while that
 * month is open on all sides concerned, else on `day`. `part`: of a larger taking back, whose lines are no one's to look at anew.
 */
export const voidEntry = (
  books: Books,
  act: Act,
  entryId: string,
  day: Day,
  part: 'alone' | 'part' = 'alone',
): Outcome<Voided> =>
  once(books, act, 'entry.void', { entryId, day }, () => {
    const done = writeVoid(books, act, entryId, day, part)
    if (!done.ok) return done
    logChange(books, act, {
      kind: 'entry.voided',
      subject: entryId,
      sideId: done.sideId,
      summary: 'An entry was reversed',
    })
    return done
  })

export interface Voided {
  entryIds: string[]
  /** Lines of the bank that are skipped with it, by their ids. */
  skippedLines: number[]
}

/** The same without a word in the log. Call it inside a write. */
export const writeVoid = (
  books: Books,
  act: Act,
  entryId: string,
  day: Day,
  part: 'alone' | 'part' = 'alone',
): { ok: true; sideId: string; result: Voided } | Refusal => {
  const written = writeReversal(books, act, entryId, day)
  if (!written.ok) return written
  const entryNos = written.originals.map((entry) => entry.no)
  if (part === 'part') freeStatementLines(books, entryNos)
  const skippedLines = freeTakenBack(books, act.at, entryNos)
  waitAgain(books, {
    entryNos,
    crossingIds: written.originals.flatMap(({ lines }) =>
      lines.flatMap(({ crossingId }) => crossingId ?? []),
    ),
  })
  settleTicks(
    books,
    written.entries.map((entry) => entry.no),
  )
  return {
    ok: true,
    sideId: written.originals[0]!.sideId,
    result: { entryIds: written.entries.map((entry) => entry.id), skippedLines },
  }
}

/** Takes an entry back and posts another in its place. An entry with a crossing is voided and recorded anew instead. */
export const correctEntry = (
  books: Books,
  act: Act,
  entryId: string,
  draft: NewEntry,
): Outcome<Posted & { reversalIds: string[]; freedLines: number }> =>
  once(books, act, 'entry.correct', { entryId, draft }, () => {
    const corrected = writeCorrection(books, act, entryId, draft)
    if (!corrected.ok) return corrected
    const { entry, reversals, freedLines } = corrected
    logChange(books, act, {
      kind: 'entry.corrected',
      subject: entry.id,
      sideId: draft.sideId,
      summary: 'An entry was corrected',
      details: { corrects: entryId },
    })
    const reversalIds = reversals.map((reversal) => reversal.id)
    return { ok: true, result: { entryId: entry.id, entryNo: entry.no, reversalIds, freedLines } }
  })

/** `freedLines`: statement lines that the new entry does not stand for. */
type Corrected = { ok: true; entry: WrittenEntry; reversals: WrittenEntry[]; freedLines: number } | Refusal

/**
 * Takes an entry back and posts another in its place, under the act's form id; receipts, statement lines and ticks follow.
 * Call it inside a write.
 */
export const writeCorrection = (
  books: Books,
  act: Act,
  entryId: string,
  draft: NewEntry,
  ground: EntryGround = groundOf(books),
): Corrected => {
  const original = findEntry(books, entryId)
  if (original?.lines.some((line) => line.crossingId !== null))
    return refuse({
      path: '',
      message:
        'This entry is half of a crossing. Take the crossing back, then record it again as it should be',
    })
  const reversed = writeReversal(books, act, entryId, draft.day, ground)
  if (!reversed.ok) return reversed
  const written = writeParts(
    books,
    act.at,
    {
      crossings: [],
      entries: [{ ...draft, lines: withBatches(original!, draft), id: act.formId, correctsNo: original!.no }],
    },
    ground,
  )
  if (!written.ok) return refuse(...written.problems)
  const entry = written.entries[0]!
  const freedLines = carryTies(books, original!.no, entry.no)
  settleTicks(
    books,
    reversed.entries.map((reversal) => reversal.no),
  )
  return { ok: true, entry, reversals: reversed.entries, freedLines }
}

/** A form that does not speak of batches leaves each line in its batch, as far as account and amount are still there. */
const withBatches = (original: PostedEntry, draft: NewEntry): readonly DraftLine[] => {
  const placeOf = new Map(
    [...pairLines(original.lines, draft.lines)].map(([before, after]) => [after, before]),
  )
  return draft.lines.map((line, index) => {
    const before = placeOf.get(index)
    return line.batchId === undefined && before !== undefined
      ? { ...line, batchId: original.lines[before]!.batchId }
      : line
  })
}

type Reversed = { ok: true; day: Day; entries: WrittenEntry[]; originals: PostedEntry[] } | Refusal

/** Writes the reversal of an entry and all that hangs on it; call it inside a write. */
export const writeReversal = (
  books: Books,
  act: Act,
  entryId: string,
  day: Day,
  ground: EntryGround = groundOf(books),
): Reversed => {
  const found = findEntry(books, entryId)
  if (!found) return refuse({ path: '', message: 'There is no such entry. Open the register again' })
  if (found.source === 'reversal')
    return refuse({
      path: '',
      message: 'This entry itself reverses another one. Record the right entry again instead',
    })
  if (reversalOfEntry(books, found.no))
    return conflict('This entry was reversed already. Open the register again to see by which one.')
  const whole = wholeOf(books, found)
  const chosen = dayOfReversal(books, whole.entries, day)
  const closed = whole.entries.flatMap((entry) => {
    const through = closedThrough(books, entry.sideId)
    return through !== null && monthOfDay(chosen) <= through ? [closedMonthProblem(through)] : []
  })
  if (closed.length > 0) return refuse(closed[0]!)
  const written = writeParts(
    books,
    act.at,
    reverse(`${act.formId}.r`, chosen, whole.entries, whole.crossings),
    groundOfReversal(ground),
  )
  if (!written.ok) return refuse(...written.problems)
  return { ok: true, day: chosen, entries: written.entries, originals: whole.entries }
}

/** What was posted to an account since put away can still be taken back. */
const groundOfReversal = (ground: EntryGround): EntryGround => ({
  ...ground,
  account(id) {
    const account = ground.account(id)
    return account && { ...account, archivedAt: null }
  },
})

const dayOfReversal = (books: Books, entries: readonly PostedEntry[], later: Day): Day => {
  const original = entries[0]!.day
  const isOpen = entries.every((entry) => {
    const through = closedThrough(books, entry.sideId)
    return through === null || monthOfDay(original) > through
  })
  return isOpen ? original : later
}
