// Takes an entry back with all halves of its crossings and posts others in its place, which may cross the line anew.
import type { Day } from '#calendar/day.ts'
import { type EntryRecord, wholeOf } from '#db/ledger/entry-reader.ts'
import { writeReversal } from '#db/ledger/ledger-store.ts'
import { groundOf, type LedgerParts, type WrittenEntry, writeParts } from '#db/ledger/ledger-writer.ts'
import type { Act } from '#db/once.ts'
import type { Books } from '#db/open.ts'
import { carryTies, freeStatementLines, settleTicks } from '#db/statements/line-links.ts'
import type { EntryGround } from '#ledger/entry.ts'
import { type Refusal, refuse } from '#ledger/problem.ts'
import type { PostedEntry } from '#ledger/reversal.ts'

/** `freedLines`: statement lines that nothing stands for now; they are doubtful or wait again. */
export type PutInstead = { ok: true; entries: WrittenEntry[]; freedLines: number } | Refusal

/**
 * Each new entry stands in for the one of its side; receipts, statement lines and ticks follow it. On the original's day while
 * that is open, else on `later`. Call it inside a write.
 */
export const putInstead = (
  books: Books,
  act: Act,
  entryId: string,
  later: Day,
  make: (day: Day) => ({ ok: true } & LedgerParts) | Refusal,
  ground: EntryGround = groundOf(books),
): PutInstead => {
  const reversed = writeReversal(books, act, entryId, later, ground)
  if (!reversed.ok) return reversed
  const made = make(reversed.day)
  if (!made.ok) return made
  const standsFor = new Map<string, PostedEntry>()
  const entries = made.entries.map((entry) => {
    const original = reversed.originals.find(({ sideId }) => sideId === entry.sideId)
    if (!original || standsFor.has(entry.sideId)) return entry
    standsFor.set(entry.sideId, original)
    return { ...entry, correctsNo: original.no }
  })
  const written = writeParts(books, act.at, { crossings: made.crossings, entries }, ground)
  if (!written.ok) return refuse(...written.problems)
  let freedLines = 0
  for (const original of reversed.originals) {
    const place = entries.findIndex((entry) => 'correctsNo' in entry && entry.correctsNo === original.no)
    if (place >= 0) freedLines += carryTies(books, original.no, written.entries[place]!.no)
    else freeStatementLines(books, [original.no])
  }
  settleTicks(
    books,
    reversed.entries.map(({ no }) => no),
  )
  return { ok: true, entries: written.entries, freedLines }
}

/** An entry with all halves of its crossings, to be posted once more under new ids made from `id`; on its own day when no other is given. */
export const onceMore = (
  books: Books,
  id: string,
  entry: EntryRecord,
  on?: Day,
): { ok: true } & LedgerParts => {
  const whole = wholeOf(books, entry)
  const crossingId = new Map(whole.crossings.map((crossing, index) => [crossing.id, `${id}.c${index + 1}`]))
  return {
    ok: true,
    crossings: whole.crossings.map((crossing) => ({
      ...crossing,
      id: crossingId.get(crossing.id)!,
      day: on ?? crossing.day,
    })),
    entries: whole.entries.map(({ sideId, day, payee, memo, source, lines }, index) => ({
      id: `${id}.${index + 1}`,
      sideId,
      day: on ?? day,
      payee,
      memo,
      source,
      lines: lines.map((line) => ({
        ...line,
        crossingId: line.crossingId === null ? null : crossingId.get(line.crossingId)!,
      })),
    })),
  }
}
