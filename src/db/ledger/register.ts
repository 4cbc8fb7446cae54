// A page of an account's register: newest first or oldest first, by key and not by offset, with the running balance of every row.
import { and, asc, desc, eq, gte, lte, type SQL, sql } from 'drizzle-orm'
import type { Day } from '#calendar/day.ts'
import { isAmong } from '#db/among.ts'
import type { Books } from '#db/open.ts'
import { entries, postings } from '#db/schema.ts'
import { reconciliations, reconciliationTicks } from '#db/schema-statements.ts'
import type { EntrySource } from '#ledger/entry.ts'
import { type Cents, cents } from '#money/cents.ts'
import { balanceThrough } from './balances.ts'
import { type NamedLine, namedLinesOf } from './entry-reader.ts'
import { searchCondition, searchWords } from './register-search.ts'

export interface RegisterFilter {
  /** Words in payee, memo or line memo; the last one may be a beginning. */
  text?: string
  from?: Day
  to?: Day
  /** Of the amount without its sign. */
  minimumCents?: Cents
  maximumCents?: Cents
  enterpriseId?: string
  /** Entries that also post to this account. */
  otherAccountId?: number
  /** Only lines not yet ticked on a statement. */
  onlyUnreconciled?: boolean
  /** Leaves out what was taken back, and what takes it back. */
  withoutTakenBack?: boolean
  /** Only these lines. */
  postingIds?: readonly number[]
}

/** Where a page begins: just after (older than) or just before (newer than) a row. */
export interface RegisterKey {
  day: Day
  postingId: number
}

export interface RegisterQuery {
  accountId: number
  filter?: RegisterFilter
  olderThan?: RegisterKey
  newerThan?: RegisterKey
  /** Rows of a page, 50 when not given. */
  limit?: number
}

export interface RegisterRow extends RegisterKey {
  entryId: string
  entryNo: number
  payee: string
  memo: string
  lineMemo: string
  source: EntrySource
  /** In the ledger's sign: debits positive. */
  amountCents: Cents
  /** Balance of the account after this row, whatever the filter. */
  balanceCents: Cents
  enterpriseId: string | null
  crossingId: string | null
  /** The other accounts of the entry, largest amount first. */
  others: NamedLine[]
  isReversed: boolean
  reversesNo: number | null
  reconciled: 'no' | 'ticked' | 'finished'
  /** The day the bank's file has it on in this account, where it is another one: both halves of a crossing stand on one day. */
  bankDay: Day | null
}

export interface RegisterPage {
  /** Newest first. */
  rows: RegisterRow[]
  /** Give it back as `olderThan` for the next page; null at the end. */
  older: RegisterKey | null
  /** Give it back as `newerThan` for the page before; null at the beginning. */
  newer: RegisterKey | null
}

export const registerPage = (books: Books, query: RegisterQuery): RegisterPage => {
  const limit = query.limit ?? 50
  const backwards = query.newerThan !== undefined
  const found = rowsOf(books, query, limit + 1, backwards)
  const isMore = found.length > limit
  const kept = found.slice(0, limit)
  if (backwards) kept.reverse()
  const rows = withBalances(books, query, withOthers(books, query.accountId, kept))
  const keyOf = (row: RegisterRow | undefined) => row && { day: row.day, postingId: row.postingId }
  const first = keyOf(rows[0]) ?? null
  const last = keyOf(rows.at(-1)) ?? null
  return {
    rows,
    older: backwards || isMore ? last : null,
    newer: backwards ? (isMore ? first : null) : query.olderThan ? first : null,
  }
}

type FoundRow = Omit<RegisterRow, 'balanceCents' | 'others'>

const rowsOf = (books: Books, query: RegisterQuery, limit: number, backwards: boolean): FoundRow[] => {
  const direction = backwards ? asc : desc
  const conditions = [...keyConditions(query), ...filterConditions(query.filter ?? {})]
  const words = searchWords(query.filter?.text ?? '', query.accountId)
  const { accountId } = query
  const ofAccount =
    words === null
      ? eq(postings.accountId, accountId)
      : searchCondition(books, { accountId, words, conditions, oldestFirst: backwards, limit })
  const rows = books.db
    .select({
      postingId: postings.id,
      day: postings.day,
      entryId: entries.id,
      entryNo: entries.no,
      payee: entries.payee,
      memo: entries.memo,
      lineMemo: postings.memo,
      source: entries.source,
      amountCents: postings.amountCents,
      enterpriseId: postings.enterpriseId,
      crossingId: postings.crossingId,
      isReversed: sql<number>`EXISTS (SELECT 1 FROM entries AS back WHERE back.reverses_no = ${entries.no})`,
      reversesNo: entries.reversesNo,
      reconciled: sql<
        RegisterRow['reconciled']
      >`coalesce((SELECT CASE ${reconciliations.state} WHEN 'finished' THEN 'finished' ELSE 'ticked' END
        FROM ${reconciliationTicks} JOIN ${reconciliations} ON ${reconciliations.id} = ${reconciliationTicks.reconciliationId}
        WHERE ${reconciliationTicks.postingId} = ${postings.id}), 'no')`,
      bankDay: sql<
        RegisterRow['bankDay']
      >`(SELECT line.day FROM statement_lines AS line WHERE line.posting_id = ${postings.id} AND line.day <> ${postings.day})`,
    })
    .from(postings)
    .innerJoin(entries, eq(entries.no, postings.entryNo))
    .where(and(ofAccount, ...conditions))
    .orderBy(direction(postings.day), direction(postings.id))
    .limit(limit)
    .all()
  return rows.map((row) => ({ ...row, isReversed: row.isReversed === 1 }))
}

const keyConditions = ({ olderThan, newerThan }: RegisterQuery): SQL[] => [
  ...(olderThan ? [sql`(${postings.day}, ${postings.id}) < (${olderThan.day}, ${olderThan.postingId})`] : []),
  ...(newerThan ? [sql`(${postings.day}, ${postings.id}) > (${newerThan.day}, ${newerThan.postingId})`] : []),
]

const filterConditions = (filter: RegisterFilter): SQL[] => {
  const conditions: SQL[] = []
  if (filter.from) conditions.push(gte(postings.day, filter.from))
  if (filter.to) conditions.push(lte(postings.day, filter.to))
  if (filter.minimumCents !== undefined)
    conditions.push(sql`abs(${postings.amountCents}) >= ${filter.minimumCents}`)
  if (filter.maximumCents !== undefined)
    conditions.push(sql`abs(${postings.amountCents}) <= ${filter.maximumCents}`)
  if (filter.enterpriseId) conditions.push(eq(postings.enterpriseId, filter.enterpriseId))
  if (filter.otherAccountId !== undefined)
    conditions.push(
      sql`EXISTS (SELECT 1 FROM postings AS other WHERE other.entry_no = ${postings.entryNo} AND other.account_id = ${filter.otherAccountId})`,
    )
  if (filter.onlyUnreconciled)
    conditions.push(
      sql`NOT EXISTS (SELECT 1 FROM ${reconciliationTicks} WHERE ${reconciliationTicks.postingId} = ${postings.id})`,
    )
  if (filter.withoutTakenBack)
    conditions.push(
      sql`NOT EXISTS (SELECT 1 FROM entries AS own WHERE own.no = ${postings.entryNo} AND own.reverses_no IS NOT NULL)`,
      sql`NOT EXISTS (SELECT 1 FROM entries AS back WHERE back.reverses_no = ${postings.entryNo})`,
    )
  if (filter.postingIds) conditions.push(isAmong(postings.id, filter.postingIds))
  return conditions
}

/** Without a filter one balance is looked up and the rest follow by adding; with one, rows lie apart and each is looked up. */
const withBalances = (
  books: Books,
  query: RegisterQuery,
  rows: Omit<RegisterRow, 'balanceCents'>[],
): RegisterRow[] => {
  const { text = '', ...other } = query.filter ?? {}
  const isFiltered = searchWords(text) !== null || filterConditions(other).length > 0
  let after: Cents | null = null
  let amount = 0
  return rows.map((row) => {
    const balanceCents: Cents =
      isFiltered || after === null
        ? balanceThrough(books, query.accountId, row.day, row.postingId)
        : cents(after - amount)
    after = balanceCents
    amount = row.amountCents
    return { ...row, balanceCents }
  })
}

const withOthers = (
  books: Books,
  accountId: number,
  rows: FoundRow[],
): Omit<RegisterRow, 'balanceCents'>[] => {
  const lines = namedLinesOf(
    books,
    rows.map((row) => row.entryNo),
  )
  return rows.map((row) => ({
    ...row,
    others: (lines.get(row.entryNo) ?? [])
      .filter((line) => line.accountId !== accountId)
      .sort((a, b) => Math.abs(b.amountCents) - Math.abs(a.amountCents)),
  }))
}
