// Search in an account's register. A word rare in the account is looked up and its entries sorted; a common one is met soon enough
// by walking the register in growing stretches and asking the index about each stretch. Either way a page does not read the whole
// history, but for a word that was common once and does not occur in the last 25,000 lines: then all its entries are looked up.
import { and, asc, desc, eq, type SQL, sql } from 'drizzle-orm'
import { isAmong } from '#db/among.ts'
import type { Books } from '#db/open.ts'
import { postings } from '#db/schema.ts'

/**
 * Typed words as a full-text question: each word must be in payee or memos, the last one may be a beginning, and the entry
 * must post to the account when one is given. `among` names the texts that are searched. Nothing typed can break the query.
 */
export const searchWords = (typed: string, accountId?: number, among = 'payee memo lines'): string | null => {
  const words = typed.normalize('NFKC').match(/[\p{L}\p{N}]+/gu) ?? []
  if (words.length === 0) return null
  const quoted = words.map((word, index) => `"${word}"${index === words.length - 1 ? '*' : ''}`).join(' AND ')
  const inText = `{${among}} : (${quoted})`
  return accountId === undefined ? inText : `${inText} AND accounts : "a${accountId}"`
}

export interface SearchedStretch {
  accountId: number
  words: string
  /** All other conditions of the page, its key included. */
  conditions: readonly SQL[]
  oldestFirst: boolean
  limit: number
}

const rareUpTo = 1000
const firstStretch = 400
const stretches = 6

/**
 * The postings of the account on the page, or all that match when they are few. Few are looked up by their ids and sorted: with
 * the account as it is, SQLite would rather walk its whole register for the order and find few or none.
 */
export const searchCondition = (books: Books, search: SearchedStretch): SQL => {
  const few = books.sqlite.prepare('SELECT rowid FROM entry_search WHERE entry_search MATCH ? LIMIT ?')
  const found = few.pluck().all(search.words, rareUpTo + 1) as number[]
  const ofAccount = eq(postings.accountId, search.accountId)
  const ofAccountLater = sql`+${postings.accountId} = ${search.accountId}`
  if (found.length <= rareUpTo) return sql`${ofAccountLater} AND ${isAmong(postings.entryNo, found)}`
  const ids = walk(books, search)
  return ids === null
    ? sql`${ofAccount} AND ${lookedUp(search)}`
    : sql`${ofAccountLater} AND ${isAmong(postings.id, ids)}`
}

const lookedUp = ({ words, accountId }: SearchedStretch): SQL =>
  sql`${postings.id} IN (SELECT line.id FROM entry_search CROSS JOIN postings AS line ON line.entry_no = entry_search.rowid
    WHERE entry_search MATCH ${words} AND line.account_id = ${accountId})`

/** Ids of the page's postings, or null when the stretches ran out before the page was full. */
const walk = (books: Books, search: SearchedStretch): number[] | null => {
  const ids: number[] = []
  const matching = books.sqlite
    .prepare('SELECT rowid FROM entry_search WHERE entry_search MATCH ? AND rowid BETWEEN ? AND ?')
    .pluck()
  const direction = search.oldestFirst ? asc : desc
  let key: { day: string; id: number } | null = null
  for (let step = 0; step < stretches; step += 1) {
    const size = firstStretch * 2 ** step
    const rows: { id: number; day: string; entryNo: number }[] = books.db
      .select({ id: postings.id, day: postings.day, entryNo: postings.entryNo })
      .from(postings)
      .where(
        and(
          eq(postings.accountId, search.accountId),
          ...search.conditions,
          ...beyond(key, search.oldestFirst),
        ),
      )
      .orderBy(direction(postings.day), direction(postings.id))
      .limit(size)
      .all()
    const numbers = rows.map((row) => row.entryNo)
    const hits = new Set(
      rows.length === 0 ? [] : matching.all(search.words, smallest(numbers), largest(numbers)),
    )
    for (const row of rows) if (hits.has(row.entryNo)) ids.push(row.id)
    if (ids.length >= search.limit || rows.length < size) return ids.slice(0, search.limit)
    key = rows.at(-1)!
  }
  return null
}

const beyond = (key: { day: string; id: number } | null, oldestFirst: boolean): SQL[] => {
  if (key === null) return []
  return [
    oldestFirst
      ? sql`(${postings.day}, ${postings.id}) > (${key.day}, ${key.id})`
      : sql`(${postings.day}, ${postings.id}) < (${key.day}, ${key.id})`,
  ]
}

const smallest = (numbers: readonly number[]) => numbers.reduce((a, b) => Math.min(a, b))
const largest = (numbers: readonly number[]) => numbers.reduce((a, b) => Math.max(a, b))
