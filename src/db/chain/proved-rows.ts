// What the chain of changes proves: every row of these tables, told by its key and a digest of what it holds.
import { hash } from 'node:crypto'
import type Database from 'better-sqlite3'

/** Tables whose rows are proved one by one; an entry is proved together with its postings. Seals and sums are recomputed by `verify`. */
export const provedTables = [
  'sides',
  'accounts',
  'crossings',
  'entries',
  'standing_transfers',
  'standing_occurrences',
  'statement_mappings',
  'statements',
  'other_bank_keys',
  'sorting_rules',
  'statement_lines',
  'reconciliations',
  'reconciliation_ticks',
  'month_closings',
  'attachments',
  'market_values',
  'holdings',
  'holding_values',
  'holding_parts',
  'kept_packs',
  'accrual_adjustments',
  'batches',
  'batch_ties',
  'batch_marks',
  'work_hours',
  'head_tallies',
  'market_days',
  'market_takings',
  'trips',
  'goods_notes',
  'goods_entries',
  'posting_tax',
  'payees',
  'plans',
  'plan_revisions',
  'settings',
  'runway_history',
  'submissions',
  'change_log',
] as const
export type ProvedTable = (typeof provedTables)[number]

/** Tables that are not proved by themselves, each with what holds them instead. */
export const provedOtherwise: Readonly<Record<string, string>> = {
  postings: 'with their entry',
  sealed_entries: 'every entry needs its seal',
  sealed_crossings: 'every crossing needs its seal',
  chain_links: 'the chain itself',
  line_choices: 'nothing hangs on them: what is chosen and not booked yet',
}

/** A table's rows as digests. A key is the JSON list of the values of its primary key. */
export interface RowDigests {
  /** The digest of one row, or null when there is none. */
  of(key: string): string | null
  all(): Iterable<{ key: string; digest: string }>
}

export const rowDigests = (sqlite: Database.Database, table: ProvedTable): RowDigests => {
  const columns = columnsOf(sqlite, table)
  const keys = keyColumns(columns)
  const select = `SELECT ${keyOf(keys)}, ${columns.map(({ name }) => name).join(', ')} FROM ${table}`
  const one = sqlite.prepare(`${select} WHERE ${keys.map((name) => `${name} = ?`).join(' AND ')}`).raw()
  const all = sqlite.prepare(`${select} ORDER BY ${keys.join(', ')}`).raw()
  const lines = table === 'entries' ? linesOfEntries(sqlite, columns) : () => ''
  const digestOf = (row: readonly unknown[]) => sha256(textOf(columns, row.slice(1)) + lines(row))
  return {
    of(key) {
      const row = one.get(...(JSON.parse(key) as unknown[])) as unknown[] | undefined
      return row ? digestOf(row) : null
    },
    *all() {
      for (const row of all.iterate() as Iterable<unknown[]>)
        yield { key: row[0] as string, digest: digestOf(row) }
    },
  }
}

/** The expressions for a row's key; `row` is `NEW.` or `OLD.` in a trigger. */
export const keyExpression = (sqlite: Database.Database, table: ProvedTable): ((row: string) => string) => {
  const keys = keyColumns(columnsOf(sqlite, table))
  return (row) => keyOf(keys.map((name) => row + name))
}

const sha256 = (text: string): string => hash('sha256', text, 'base64url')

interface Column {
  name: string
  /** Place in the primary key from 1, or 0. */
  key: number
  default: unknown
}

/** By name, so that a table laid out anew keeps its digests. */
const columnsOf = (sqlite: Database.Database, table: string): Column[] =>
  (
    sqlite
      .prepare('SELECT name, pk AS key, dflt_value AS "default" FROM pragma_table_info(?) ORDER BY name')
      .all(table) as { name: string; key: number; default: string | null }[]
  ).map((column) => ({ ...column, default: valueOfDefault(column.default) }))

/** A declared default: a number, or a text in single quotes. */
const valueOfDefault = (declared: string | null): unknown => {
  if (declared === null) return null
  return declared.startsWith("'") ? declared.slice(1, -1).replaceAll("''", "'") : Number(declared)
}

const keyColumns = (columns: readonly Column[]): string[] =>
  columns
    .filter(({ key }) => key > 0)
    .sort((a, b) => a.key - b.key)
    .map(({ name }) => name)

const keyOf = (names: readonly string[]): string => `json_array(${names.join(', ')})`

/** What is as a new column would be counts for nothing: a column added later leaves the digests of earlier rows as they are. */
const textOf = (columns: readonly Column[], values: readonly unknown[]): string =>
  JSON.stringify(
    columns.flatMap(({ name, default: usual }, place) => {
      const value = values[place]
      return value === null || value === usual ? [] : [name, value]
    }),
  )

const linesOfEntries = (
  sqlite: Database.Database,
  entryColumns: readonly Column[],
): ((entry: readonly unknown[]) => string) => {
  const columns = columnsOf(sqlite, 'postings')
  const select = sqlite
    .prepare(
      `SELECT ${columns.map(({ name }) => name).join(', ')} FROM postings WHERE entry_no = ? ORDER BY line_no`,
    )
    .raw()
  const no = 1 + entryColumns.findIndex(({ key }) => key > 0)
  return (entry) => (select.all(entry[no]) as unknown[][]).map((line) => textOf(columns, line)).join('')
}
