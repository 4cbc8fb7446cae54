// Changing many posted entries in one act: looked at first, then all of them taken back and posted anew, or none.

import { isAmong } from '#db/among.ts'
import { logChange } from '#db/change-log.ts'
import { type Act, once } from '#db/once.ts'
import type { Books } from '#db/open.ts'
import { reconciledDays } from '#db/reconcile/reconcile-reader.ts'
import { postings } from '#db/schema.ts'
import { statementLines } from '#db/schema-statements.ts'
import type { Account } from '#ledger/account.ts'
import { type BulkChange, type BulkFate, changeProblems, fateOf } from '#ledger/bulk-change.ts'
import type { EntryGround } from '#ledger/entry.ts'
import { conflict, type Outcome, type Refusal, refuse } from '#ledger/problem.ts'
import { type EntryRecord, entryByNo, reversalOfEntry } from './entry-reader.ts'
import { type NewEntry, writeCorrection } from './ledger-store.ts'
import { groundOf } from './ledger-writer.ts'

/** More lines than this at a time are refused: a person is to look at what will be booked. */
export const mostLinesAtOnce = 200

export interface BulkRequest {
  /** The register in which the lines were chosen. */
  accountId: number
  postingIds: readonly number[]
  change: BulkChange
}

export interface PlannedChange {
  entry: EntryRecord
  /** The chosen lines of the entry, in this register. */
  postingIds: number[]
  fate: BulkFate
}

/** What would become of each entry, newest first, as the books stand; nothing is written. */
export const planChange = (
  books: Books,
  request: BulkRequest,
  ground: EntryGround = groundOf(books),
): { ok: true; planned: PlannedChange[] } | Refusal => {
  const register = ground.account(request.accountId)
  if (!register) return refuse({ path: '', message: 'There is no such account. Open the register again' })
  const problems = changeProblems(request.change, register, ground)
  const chosen = chosenEntries(books, request)
  if (!chosen.ok) problems.push(...chosen.problems)
  if (problems.length > 0 || !chosen.ok) return refuse(...problems)
  return { ok: true, planned: plan(books, register, request.change, chosen.entries, ground) }
}

/** Takes the entries of the chosen lines back and posts them anew. If one of them cannot be, none is: look again first. */
export const changeEntries = (
  books: Books,
  act: Act,
  request: BulkRequest,
): Outcome<{ entryNos: number[] }> => {
  const body = { ...request, postingIds: [...request.postingIds].sort((a, b) => a - b) }
  return once(books, act, 'entries.change', body, () => {
    const ground = groundOf(books)
    const looked = planChange(books, request, ground)
    if (!looked.ok) return looked
    const replaced: [number, number][] = []
    for (const { entry, fate } of looked.planned.reverse()) {
      if (!fate.ok)
        return conflict(
          `Nothing was changed: since you looked, entry ${entry.no} must stay as it is. ${fate.why}.`,
        )
      const part = { ...act, formId: `${act.formId}.${replaced.length + 1}` }
      const written = writeCorrection(books, part, entry.id, fate.replacement, ground)
      if (!written.ok) return written
      replaced.push([entry.no, written.entry.no])
    }
    logChange(books, act, {
      kind: 'entries.changed',
      subject: act.formId,
      sideId: ground.account(request.accountId)!.sideId,
      summary: 'Several entries were changed',
      details: { accountId: request.accountId, change: request.change, replaced },
    })
    return { ok: true, result: { entryNos: replaced.map(([, no]) => no) } }
  })
}

/** Puts entries back as they were before they were corrected: pairs of numbers, the first one and what stands in for it. */
export const restoreReplaced = (
  books: Books,
  act: Act,
  replaced: readonly (readonly [number, number])[],
): { ok: true } | Refusal => {
  const ground = groundOf(books)
  for (const [index, [beforeNo, afterNo]] of [...replaced].reverse().entries()) {
    const before = entryByNo(books, beforeNo)
    const after = entryByNo(books, afterNo)
    if (!before || !after)
      return refuse({ path: '', message: 'There is no such entry. Open the register again' })
    const part = { ...act, formId: `${act.formId}.${index + 1}` }
    const written = writeCorrection(books, part, after.id, draftOf(before), ground)
    if (!written.ok) return written
  }
  return { ok: true }
}

const draftOf = ({ sideId, day, payee, memo, source, lines }: EntryRecord): NewEntry => ({
  sideId,
  day,
  payee,
  memo,
  source,
  lines,
})

const chosenEntries = (
  books: Books,
  { accountId, postingIds }: BulkRequest,
): { ok: true; entries: Map<number, number[]> } | Refusal => {
  const ids = [...new Set(postingIds)]
  if (ids.length === 0) return refuse({ path: 'lines', message: 'Check the lines to change' })
  if (ids.length > mostLinesAtOnce)
    return refuse({
      path: 'lines',
      message: `Change at most ${mostLinesAtOnce} lines at a time. Find fewer, by days for one`,
    })
  const rows = books.db
    .select({ id: postings.id, entryNo: postings.entryNo, accountId: postings.accountId })
    .from(postings)
    .where(isAmong(postings.id, ids))
    .all()
  if (rows.length < ids.length || rows.some((row) => row.accountId !== accountId))
    return refuse({ path: 'lines', message: 'A line is not of this account. Open the register again' })
  const entries = new Map<number, number[]>()
  for (const { id, entryNo } of rows) entries.set(entryNo, [...(entries.get(entryNo) ?? []), id])
  return { ok: true, entries }
}

const plan = (
  books: Books,
  register: Account,
  change: BulkChange,
  chosen: ReadonlyMap<number, number[]>,
  ground: EntryGround,
): PlannedChange[] => {
  const entries = [...chosen.keys()].map((no) => entryByNo(books, no)!)
  const allIds = entries.flatMap((entry) => entry.lines.map((line) => line.postingId))
  const reconciledOn = reconciledDays(books, allIds)
  const namedByBank = namedPostings(books, allIds)
  return entries
    .sort((a, b) => (a.day === b.day ? b.no - a.no : a.day < b.day ? 1 : -1))
    .map((entry) => {
      const postingIds = chosen.get(entry.no)!
      const facts = {
        entry,
        registerAccountId: register.id,
        chosen: new Set(postingIds),
        reversedByNo: reversalOfEntry(books, entry.no)?.no ?? null,
        reconciledOn,
        namedByBank,
      }
      return { entry, postingIds, fate: fateOf(facts, change, ground) }
    })
}

const namedPostings = (books: Books, postingIds: readonly number[]): Set<number> =>
  new Set(
    books.db
      .select({ postingId: statementLines.postingId })
      .from(statementLines)
      .where(isAmong(statementLines.postingId, postingIds))
      .all()
      .flatMap(({ postingId }) => (postingId === null ? [] : [postingId])),
  )
