// Crossings and mixed receipts: recorded once, posted on every side they touch in one transaction, read back with their halves.
import { and, desc, eq, gte, lt, lte, or, type SQL, sql } from 'drizzle-orm'
import type { Day } from '#calendar/day.ts'
import { isAmong } from '#db/among.ts'
import { logChange } from '#db/change-log.ts'
import { type Act, once } from '#db/once.ts'
import type { Books } from '#db/open.ts'
import { accounts, crossings, entries, postings } from '#db/schema.ts'
import type { SideId } from '#ledger/account.ts'
import { buildCrossing, type CrossingDraft, type CrossingRecord } from '#ledger/crossing.ts'
import type { CrossingKind } from '#ledger/crossing-kind.ts'
import type { EntrySource } from '#ledger/entry.ts'
import { type MixedReceiptDraft, splitReceipt } from '#ledger/mixed-receipt.ts'
import { type Outcome, refuse } from '#ledger/problem.ts'
import { crossingAccountId } from './account-store.ts'
import { crossingRecord } from './entry-reader.ts'
import { groundOf, type WrittenEntry, writeParts } from './ledger-writer.ts'

/** A crossing as the form has it: its id is the form's. */
export type NewCrossing = Omit<CrossingDraft, 'id'>

export interface PostedCrossing {
  crossingId: string
  entryIds: string[]
}

export const postCrossing = (books: Books, act: Act, draft: NewCrossing): Outcome<PostedCrossing> =>
  once(books, act, 'crossing.post', draft, () => {
    const written = writeCrossing(books, act.at, { ...draft, id: act.formId })
    if (!written.ok) return refuse(...written.problems)
    logChange(books, act, {
      kind: 'crossing.posted',
      subject: act.formId,
      summary: 'A crossing was recorded',
      details: { kind: draft.kind },
    })
    return {
      ok: true,
      result: { crossingId: act.formId, entryIds: written.entries.map((entry) => entry.id) },
    }
  })

/** Both halves of a crossing, for callers that are inside a write already: standing transfers, sorted statement lines. */
export const writeCrossing = (
  books: Books,
  at: string,
  draft: CrossingDraft,
  source: EntrySource = 'crossing',
): { ok: true; entries: WrittenEntry[] } | { ok: false; problems: { path: string; message: string }[] } => {
  const ground = groundOf(books)
  const built = buildCrossing(
    draft,
    ground,
    (side, other, role) => crossingAccountId(books, at, side, other, role),
    source,
  )
  return built.ok ? writeParts(books, at, built, ground) : built
}

export type NewReceipt = Omit<MixedReceiptDraft, 'id'>

/** One purchase for several sides. Lines of one side only make a plain entry. */
export const postReceipt = (
  books: Books,
  act: Act,
  draft: NewReceipt,
): Outcome<{ entryIds: string[]; crossingIds: string[] }> =>
  once(books, act, 'receipt.post', draft, () => {
    const ground = groundOf(books)
    const split = splitReceipt({ ...draft, id: act.formId }, ground, (side, other, role) =>
      crossingAccountId(books, act.at, side, other, role),
    )
    if (!split.ok) return refuse(...split.problems)
    const written = writeParts(books, act.at, split, ground)
    if (!written.ok) return refuse(...written.problems)
    logChange(books, act, {
      kind: 'receipt.posted',
      subject: `${act.formId}.1`,
      summary: 'A mixed receipt was entered',
      details: { crossings: split.crossings.map((crossing) => crossing.id) },
    })
    return {
      ok: true,
      result: {
        entryIds: written.entries.map((entry) => entry.id),
        crossingIds: split.crossings.map((crossing) => crossing.id),
      },
    }
  })

export interface CrossingHalf {
  entryId: string
  sideId: SideId
  /** The account at the other end of this half: the bank account, or what was bought. */
  accountId: number
  accountName: string
}

export interface ListedCrossing extends CrossingRecord {
  postedAt: string
  reversesId: string | null
  /** The crossing that takes this one back. */
  reversedById: string | null
  halves: CrossingHalf[]
}

export interface CrossingFilter {
  kind?: CrossingKind
  /** Either end. */
  sideId?: SideId
  from?: Day
  to?: Day
  /** The last row of the page before. */
  before?: { day: Day; id: string }
  limit?: number
}

/** The history, newest first, by pages. */
export const listCrossings = (books: Books, filter: CrossingFilter = {}): ListedCrossing[] => {
  const conditions: (SQL | undefined)[] = [
    filter.kind === undefined ? undefined : eq(crossings.kind, filter.kind),
    filter.sideId === undefined
      ? undefined
      : or(eq(crossings.fromSideId, filter.sideId), eq(crossings.toSideId, filter.sideId)),
    filter.from === undefined ? undefined : gte(crossings.day, filter.from),
    filter.to === undefined ? undefined : lte(crossings.day, filter.to),
    filter.before === undefined
      ? undefined
      : or(
          lt(crossings.day, filter.before.day),
          and(eq(crossings.day, filter.before.day), lt(crossings.id, filter.before.id)),
        ),
  ]
  const rows = books.db
    .select()
    .from(crossings)
    .where(and(...conditions))
    .orderBy(desc(crossings.day), desc(crossings.id))
    .limit(filter.limit ?? 50)
    .all()
  return withHalves(books, rows)
}

export const findCrossing = (books: Books, id: string): ListedCrossing | undefined =>
  withHalves(books, books.db.select().from(crossings).where(eq(crossings.id, id)).all())[0]

const withHalves = (books: Books, rows: (typeof crossings.$inferSelect)[]): ListedCrossing[] => {
  if (rows.length === 0) return []
  const ids = rows.map((row) => row.id)
  const back = books.db
    .select({ id: crossings.id, reversesId: crossings.reversesId })
    .from(crossings)
    .where(isAmong(crossings.reversesId, ids))
    .all()
  const backOf = new Map(back.map((row) => [row.reversesId, row.id]))
  const other = sql`(SELECT id FROM postings AS other WHERE other.entry_no = ${postings.entryNo} AND other.crossing_id IS NOT ${postings.crossingId} ORDER BY other.amount_cents <> -${postings.amountCents}, abs(other.amount_cents) DESC, other.line_no LIMIT 1)`
  const halves = books.db
    .select({
      crossingId: postings.crossingId,
      entryId: entries.id,
      sideId: entries.sideId,
      otherPostingId: sql<number>`${other}`,
    })
    .from(postings)
    .innerJoin(entries, eq(entries.no, postings.entryNo))
    .where(isAmong(postings.crossingId, ids))
    .all()
  const ends = new Map(
    books.db
      .select({ postingId: postings.id, accountId: accounts.id, accountName: accounts.name })
      .from(postings)
      .innerJoin(accounts, eq(accounts.id, postings.accountId))
      .where(
        isAmong(
          postings.id,
          halves.map((half) => half.otherPostingId),
        ),
      )
      .all()
      .map((end) => [end.postingId, end]),
  )
  const halvesOf = new Map<string | null, typeof halves>()
  for (const half of halves) {
    const beside = halvesOf.get(half.crossingId)
    if (beside) beside.push(half)
    else halvesOf.set(half.crossingId, [half])
  }
  return rows.map((row) => ({
    ...crossingRecord(row),
    postedAt: row.postedAt,
    reversesId: row.reversesId,
    reversedById: backOf.get(row.id) ?? null,
    halves: (halvesOf.get(row.id) ?? []).map((half) => ({
      entryId: half.entryId,
      sideId: half.sideId,
      accountId: ends.get(half.otherPostingId)!.accountId,
      accountName: ends.get(half.otherPostingId)!.accountName,
    })),
  }))
}
