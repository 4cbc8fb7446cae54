// What would change if other books took the place of these: what would be gone, what would come back.
import type Database from 'better-sqlite3'
import { type FileProblem, fileProblem } from '#db/file-problem.ts'
import type { Books } from '#db/open.ts'
import { openSqlite, SqliteError } from '#db/sqlite.ts'

export interface ComparedTable {
  what: string
  /** Of what it is told: things that are there or not; entries that only take others back; transactions as they are sorted. */
  kind: 'things' | 'reversing' | 'sorted'
  /** In the present books and not in the other ones: gone after restoring. */
  gone: number
  /** In the other ones and not here: there after restoring. */
  added: number
}

export type BooksComparison =
  | { readable: true; tables: ComparedTable[]; lastChangeNow: string | null; lastChangeThen: string | null }
  /** The present file cannot be read, which may be why it is being restored. */
  | { readable: false; problem: FileProblem }

interface Compared {
  what: string
  table: string
  key: string
  where?: string
  kind?: ComparedTable['kind']
}

const lineKey = "account_id || '/' || line_key"

/** What takes an entry back is told apart: without it more stands, not less. */
const entriesOf = (whose: string, where: string): Compared[] => [
  {
    what: `entries of ${whose}`,
    table: 'entries',
    key: 'id',
    where: `${where} AND +reverses_no IS NULL`,
  },
  {
    what: `of ${whose}`,
    table: 'entries',
    key: 'id',
    where: `${where} AND reverses_no IS NOT NULL`,
    kind: 'reversing',
  },
]

const compared: readonly Compared[] = [
  ...entriesOf('the farm', "side_id = 'farm'"),
  ...entriesOf('the household', "side_id = 'household'"),
  ...entriesOf('side ventures', "side_id NOT IN ('farm', 'household')"),
  { what: 'crossings', table: 'crossings', key: 'id' },
  { what: 'accounts', table: 'accounts', key: "side_id || '/' || name" },
  { what: 'transactions', table: 'statement_lines', key: lineKey },
  {
    what: 'transactions',
    table: 'statement_lines',
    key: lineKey,
    where: "state IN ('posted', 'matched', 'ignored')",
    kind: 'sorted',
  },
  { what: 'closed months', table: 'month_closings', key: 'id', where: 'reopened_at IS NULL' },
  { what: 'finished reconciliations', table: 'reconciliations', key: 'id', where: "state = 'finished'" },
  {
    what: 'saved plan revisions',
    table: 'plan_revisions',
    key: "plan_id || '/' || revision_no || '/' || document",
  },
  { what: 'settings', table: 'settings', key: "key || '/' || value" },
  { what: 'attachments', table: 'attachments', key: 'id' },
  { what: 'standing transfers', table: 'standing_transfers', key: 'id' },
  { what: 'sorting rules', table: 'sorting_rules', key: 'id', where: 'archived_at IS NULL' },
  { what: 'things of the inventory', table: 'holdings', key: 'id' },
  { what: 'sold parts of things', table: 'holding_parts', key: "id || '/' || quantity" },
  { what: 'market values', table: 'market_values', key: "account_id || '/' || day || '/' || amount_cents" },
  {
    what: 'market values of things',
    table: 'holding_values',
    key: "holding_id || '/' || day || '/' || amount_cents",
  },
  { what: 'kept year packs', table: 'kept_packs', key: 'id' },
  { what: 'amounts of a year’s end', table: 'accrual_adjustments', key: 'id' },
  // Whatever was done stands in the log: what no line above tells is told by this one.
  { what: 'changes in the log', table: 'change_log', key: "id || '/' || at || '/' || kind" },
]

/** Compares by identity, table by table; `then` is the opened and migrated backup. */
export const compareBooks = (presentPath: string, then: Pick<Books, 'sqlite'>): BooksComparison => {
  let present: Database.Database | undefined
  try {
    present = openSqlite(presentPath, { readonly: true, fileMustExist: true })
    const here = present
    return {
      readable: true,
      tables: compared.map((row) => compareTable(here, then.sqlite, row)),
      lastChangeNow: lastChange(here),
      lastChangeThen: lastChange(then.sqlite),
    }
  } catch (error) {
    const problem = fileProblem(error, presentPath)
    if (!problem && !(error instanceof SqliteError)) throw error
    return {
      readable: false,
      problem: problem ?? {
        kind: 'damaged',
        message: `${presentPath} cannot be read (${(error as Error).message}).`,
      },
    }
  } finally {
    present?.close()
  }
}

const compareTable = (
  present: Database.Database,
  then: Database.Database,
  { what, table, key, where, kind = 'things' }: Compared,
): ComparedTable => {
  const all = `SELECT ${key} FROM ${table}`
  const sql = where ? `${all} WHERE ${where}` : all
  const now = new Set(keysOf(present, table, sql))
  const other = new Set(keysOf(then, table, sql))
  // A transaction that only one of the two has is told as a thing; sorted otherwise it must be in both.
  const inBoth =
    kind === 'sorted'
      ? commonOf(keysOf(present, table, all), keysOf(then, table, all))
      : new Set([...now, ...other])
  const notIn = (from: Set<unknown>, there: Set<unknown>) =>
    [...from].filter((one) => !there.has(one) && inBoth.has(one)).length
  return { what, kind, gone: notIn(now, other), added: notIn(other, now) }
}

const commonOf = (some: readonly unknown[], others: readonly unknown[]): Set<unknown> => {
  const there = new Set(others)
  return new Set(some.filter((one) => there.has(one)))
}

/** A table that an older file does not have yet is empty. */
const keysOf = (sqlite: Database.Database, table: string, sql: string): unknown[] =>
  sqlite.prepare('SELECT 1 FROM sqlite_schema WHERE name = ?').get(table)
    ? sqlite.prepare(sql).pluck().all()
    : []

const lastChange = (sqlite: Database.Database): string | null =>
  sqlite.prepare("SELECT 1 FROM sqlite_schema WHERE name = 'change_log'").get()
    ? ((sqlite.prepare('SELECT at FROM change_log ORDER BY id DESC LIMIT 1').pluck().get() as
        | string
        | undefined) ?? null)
    : null
