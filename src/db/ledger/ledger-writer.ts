// Writes balanced entries and crossings in the order the guards expect: crossing, entries with their lines, seals. Call it inside a transaction.
import { type Day, firstDayOf, monthOfDay } from '#calendar/day.ts'
import { addMonths, type Month } from '#calendar/month.ts'
import { writeTie } from '#db/notebook/batch-lines.ts'
import { enterprisesOfBatches } from '#db/notebook/batch-store.ts'
import type { Books } from '#db/open.ts'
import { repaymentProblems } from '#db/transfers/repaid-loans.ts'
import type { Account, SideId } from '#ledger/account.ts'
import type { CrossingRecord } from '#ledger/crossing.ts'
import { balanceEntry, type EntryDraft, type EntryGround } from '#ledger/entry.ts'
import type { FieldProblem } from '#ledger/problem.ts'
import { findAccount, listAccounts } from './account-store.ts'
import { openingDayOfSide } from './opening-day.ts'

export interface WrittenEntry {
  id: string
  no: number
  /** One per line, in the order of the draft's lines. */
  postingIds: number[]
}

type Draft = EntryDraft & { reversesNo?: number; correctsNo?: number | null }
type Crossing = CrossingRecord & { reversesId?: string }

export interface LedgerParts {
  crossings: readonly Crossing[]
  entries: readonly Draft[]
}

/** Checks every entry, then writes all. Problems mean that nothing was written; a guard that refuses is a bug and throws. */
export const writeParts = (
  books: Books,
  postedAt: string,
  parts: LedgerParts,
  ground: EntryGround = groundOf(books),
): { ok: true; entries: WrittenEntry[] } | { ok: false; problems: FieldProblem[] } => {
  const problems = parts.entries.flatMap((draft) => {
    const checked = balanceEntry(draft, ground)
    return checked.ok ? [] : checked.problems
  })
  const enterprises = enterprisesOfBatches(books, batchesNamed(parts.entries))
  problems.push(...batchProblems(parts.entries, enterprises), ...repaymentProblems(books, parts.crossings))
  if (problems.length > 0) return { ok: false, problems: withoutRepeats(problems) }
  for (const crossing of parts.crossings) insertCrossing(books, crossing, postedAt)
  const entries = parts.entries.map((draft) =>
    insertEntry(books, withEnterprises(draft, enterprises), postedAt),
  )
  for (const crossing of parts.crossings) sealCrossing(books, crossing)
  return { ok: true, entries }
}

/** A batch that a line names must be there, and is the farm's. */
const batchProblems = (entries: readonly Draft[], enterprises: ReadonlyMap<string, string>): FieldProblem[] =>
  entries.flatMap(({ lines, sideId }) =>
    lines.flatMap(({ batchId }, index) =>
      batchId && (sideId !== 'farm' || !enterprises.has(batchId))
        ? [{ path: `lines.${index}.batch`, message: 'Choose a batch from the list' }]
        : [],
    ),
  )

const batchesNamed = (entries: readonly Draft[]): string[] =>
  entries.flatMap(({ lines }) => lines.flatMap(({ batchId }) => batchId || []))

/** What belongs to a batch belongs to its enterprise, where no other is named. */
const withEnterprises = (draft: Draft, enterprises: ReadonlyMap<string, string>): Draft => ({
  ...draft,
  lines: draft.lines.map((line) =>
    line.batchId && !line.enterpriseId
      ? { ...line, enterpriseId: enterprises.get(line.batchId) ?? null }
      : line,
  ),
})

/** Accounts and closed months as they stand. Accounts made later are found too. */
export const groundOf = (books: Books): EntryGround => {
  const accounts = new Map<number, Account>(
    listAccounts(books, { withArchived: true }).map((account) => [account.id, account]),
  )
  const closed = new Map<SideId, Month | null>()
  const opened = new Map<SideId, Day | null>()
  return {
    account(id) {
      const known = accounts.get(id)
      if (known) return known
      const found = findAccount(books, id)
      if (found) accounts.set(id, found)
      return found
    },
    closedThrough(side) {
      if (!closed.has(side)) closed.set(side, closedThrough(books, side))
      return closed.get(side)!
    },
    opensOn(side) {
      if (!opened.has(side)) opened.set(side, openingDayOfSide(books, side))
      return opened.get(side)!
    },
  }
}

/** The last month that is shut on a side, or null. */
export const closedThrough = (books: Books, sideId: SideId): Month | null =>
  books.sqlite
    .prepare('SELECT max(month) FROM month_closings WHERE side_id = ? AND reopened_at IS NULL')
    .pluck()
    .get(sideId) as Month | null

/** The first day on which all of the sides can be written to, for a day that is shut on one of them; null where it is shut on none. */
export const firstOpenDay = (books: Books, sideIds: readonly SideId[], day: Day): Day | null => {
  const shut = Math.max(...sideIds.map((id) => closedThrough(books, id) ?? 0))
  return monthOfDay(day) <= shut ? firstDayOf(addMonths(shut as Month, 1)) : null
}

const insertCrossing = (books: Books, crossing: Crossing, postedAt: string): void => {
  books.sqlite
    .prepare(
      `INSERT INTO crossings (id, kind, day, amount_cents, from_side_id, to_side_id, memo, quantity, unit, unit_price_cents, reverses_id, posted_at)
       VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?)`,
    )
    .run(
      crossing.id,
      crossing.kind,
      crossing.day,
      crossing.amountCents,
      crossing.fromSideId,
      crossing.toSideId,
      crossing.memo,
      crossing.goods?.quantity ?? null,
      crossing.goods?.unit ?? null,
      crossing.goods?.unitPriceCents ?? null,
      crossing.reversesId ?? null,
      postedAt,
    )
}

const sealCrossing = (books: Books, crossing: Crossing): void => {
  books.sqlite.prepare('INSERT INTO sealed_crossings (crossing_id) VALUES (?)').run(crossing.id)
}

const insertEntry = (books: Books, draft: Draft, postedAt: string): WrittenEntry => {
  const no = Number(
    books.sqlite
      .prepare(
        `INSERT INTO entries (id, side_id, day, payee, memo, source, posted_at, reverses_no, corrects_no)
         VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?)`,
      )
      .run(
        draft.id,
        draft.sideId,
        draft.day,
        draft.payee,
        draft.memo,
        draft.source,
        postedAt,
        draft.reversesNo ?? null,
        draft.correctsNo ?? null,
      ).lastInsertRowid,
  )
  const posting = books.sqlite.prepare(
    `INSERT INTO postings (entry_no, line_no, account_id, day, amount_cents, memo, enterprise_id, crossing_id)
     VALUES (?, ?, ?, ?, ?, ?, ?, ?)`,
  )
  const postingIds = draft.lines.map((line, index) =>
    Number(
      posting.run(
        no,
        index + 1,
        line.accountId,
        draft.day,
        line.amountCents,
        line.memo ?? '',
        line.enterpriseId ?? null,
        line.crossingId ?? null,
      ).lastInsertRowid,
    ),
  )
  for (const [index, { batchId }] of draft.lines.entries())
    if (batchId) writeTie(books, postedAt, postingIds[index]!, batchId)
  books.sqlite.prepare('INSERT INTO sealed_entries (entry_no) VALUES (?)').run(no)
  return { id: draft.id, no, postingIds }
}

const withoutRepeats = (problems: readonly FieldProblem[]): FieldProblem[] =>
  problems.filter(
    (problem, index) =>
      problems.findIndex((other) => other.path === problem.path && other.message === problem.message) ===
      index,
  )
