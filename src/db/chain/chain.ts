// The chain of changes: whatever an act wrote, its transaction ends with a link that names each row with its digest and rests on the link before.
//
// What was written is noticed by temporary triggers of the writing connection, which live in its memory only. So no store can forget to
// tell, and a hand that writes past the program leaves rows behind that no link knows.
import { hash } from 'node:crypto'
import type Database from 'better-sqlite3'
import { type InTurns, turnSize } from '#kept/in-turns.ts'
import { keyExpression, type ProvedTable, provedTables, type RowDigests, rowDigests } from './proved-rows.ts'

export interface ChainEnd {
  no: number
  digest: string
}

/** What a link says of a row that was taken away. */
export const takenAway = '-'

/** One line of a link: table, key and digest of a row. */
const writtenLine = (table: string, key: string, digest: string): string => `${table}\t${key}\t${digest}`

/** In hex, since people copy it from paper. */
export const linkDigest = (no: number, before: string, written: string): string =>
  hash('sha256', JSON.stringify([no, before, written]), 'hex')

/** The end of a chain for paper: its number and the first sixteen letters of its digest, like `41: 3fa9 0c2b 77de 1a40`. */
export const endInWords = ({ no, digest }: ChainEnd): string =>
  `${no}: ${digest.slice(0, 16).match(/.{4}/g)!.join(' ')}`

/** What `endInWords` wrote, or the whole digest, read again; null for anything else: fewer letters would prove too little. */
export const parseEnd = (text: string): ChainEnd | null => {
  const [, no, digest] = /^(\d{1,15}):([0-9a-f]{16,64})$/i.exec(text.replaceAll(/\s/g, '')) ?? []
  return no === undefined || digest === undefined ? null : { no: Number(no), digest: digest.toLowerCase() }
}

/** From here on the connection notices what it writes. */
export const followWrites = (sqlite: Database.Database): void => {
  sqlite.pragma('temp_store = MEMORY')
  sqlite.exec('CREATE TEMP TABLE touched (what TEXT NOT NULL, key TEXT NOT NULL)')
  for (const table of provedTables) {
    const key = keyExpression(sqlite, table)
    for (const [verb, row] of [
      ['INSERT', 'NEW.'],
      ['UPDATE', 'NEW.'],
      ['DELETE', 'OLD.'],
    ] as const)
      sqlite.exec(
        `CREATE TEMP TRIGGER touched_${table}_${verb} AFTER ${verb} ON main.${table}
         BEGIN INSERT INTO touched VALUES ('${table}', ${key(row)}); END`,
      )
  }
}

/** The link of what was written since the last one, each row once; for the end of a transaction, with stops where that was much. */
export function* linkingWritten(sqlite: Database.Database): InTurns<void> {
  const digests = digestsOf(sqlite)
  const lines = new Map<string, string>()
  const slice = sqlite.prepare(
    `SELECT rowid AS no, what, key FROM temp.touched WHERE rowid > ? ORDER BY rowid LIMIT ${turnSize}`,
  )
  for (let after = 0; ; ) {
    const touched = slice.all(after) as { no: number; what: ProvedTable; key: string }[]
    for (const { what, key } of touched) {
      const name = `${what}\t${key}`
      if (!lines.has(name)) lines.set(name, writtenLine(what, key, digests(what).of(key) ?? takenAway))
    }
    if (touched.length < turnSize) break
    after = touched.at(-1)!.no
    yield
  }
  if (lines.size === 0) return
  if (lines.size > turnSize) yield
  addLink(sqlite, [...lines.values()])
  sqlite.prepare('DELETE FROM temp.touched').run()
  if (lines.size > turnSize) yield
}

/** Kind of the change that says the books were taken as they were found: a file from before the chain, or from an older export. */
export const chainBegun = 'chain.begun'

/** Kind of the change that says a migration wrote certain rows: `details.rows` has the table and key of each. All others stay proved. */
const chainRows = 'chain.rows'

/**
 * Takes what migrations wrote into one link: certain rows, or every row of a file from before the chain. The changes that say so are
 * the newest of the log and in no link yet; the migrations wrote them, so that a kill between the two does no harm. True when every
 * row was taken now, as it was found.
 */
export const beginChain = (sqlite: Database.Database): boolean => {
  if (unlinkedOfMigrations(sqlite).length === 0) return false
  return sqlite
    .transaction(() => {
      const changes = unlinkedOfMigrations(sqlite)
      if (changes.length === 0) return false
      const digests = digestsOf(sqlite)
      const isBegun = changes.some(({ kind }) => kind === chainBegun)
      const every = () =>
        provedTables.flatMap((table) =>
          Array.from(digests(table).all(), ({ key, digest }) => writtenLine(table, key, digest)),
        )
      const named = () =>
        changes
          .flatMap(({ id, details }) => [
            ...(JSON.parse(details) as { rows: [ProvedTable, unknown[]][] }).rows,
            ['change_log', [id]] as const,
          ])
          .map(([table, key]) => {
            const text = JSON.stringify(key)
            return writtenLine(table, text, digests(table).of(text) ?? takenAway)
          })
      addLink(sqlite, isBegun ? every() : [...new Set(named())])
      return isBegun
    })
    .immediate()
}

interface MigrationChange {
  id: number
  kind: string
  details: string
}

/** At the end of the log, where migrations write them, and in no link. */
const unlinkedOfMigrations = (sqlite: Database.Database): MigrationChange[] =>
  (
    sqlite
      .prepare(
        `SELECT id, kind, details FROM change_log
         WHERE id > coalesce((SELECT max(id) FROM change_log WHERE kind NOT IN (?, ?)), 0)`,
      )
      .all(chainBegun, chainRows) as MigrationChange[]
  ).filter(({ id }) => !isLinked(sqlite, id))

/** The newest links first, since what is asked about stands at the end of the log. */
const isLinked = (sqlite: Database.Database, changeId: number): boolean =>
  sqlite
    .prepare('SELECT 1 FROM chain_links WHERE instr(written, ?) > 0 ORDER BY no DESC LIMIT 1')
    .get(`change_log\t[${changeId}]\t`) !== undefined

export const hasLink = (sqlite: Database.Database, { no, digest }: ChainEnd): boolean =>
  sqlite.prepare('SELECT 1 FROM chain_links WHERE no = ? AND digest = ?').get(no, digest) !== undefined

/** The newest link, which stands for everything written up to it; null before the first act. */
export const chainEnd = (sqlite: Database.Database): ChainEnd | null =>
  (sqlite.prepare('SELECT no, digest FROM chain_links ORDER BY no DESC LIMIT 1').get() as
    | ChainEnd
    | undefined) ?? null

const addLink = (sqlite: Database.Database, lines: readonly string[]): void => {
  const before = chainEnd(sqlite)
  const no = (before?.no ?? 0) + 1
  const written = lines.join('\n')
  sqlite
    .prepare('INSERT INTO chain_links (no, written, digest) VALUES (?, ?, ?)')
    .run(no, written, linkDigest(no, before?.digest ?? '', written))
}

/** Readers by table, kept with the connection. */
const kept = new WeakMap<Database.Database, Map<ProvedTable, RowDigests>>()

const digestsOf = (sqlite: Database.Database): ((table: ProvedTable) => RowDigests) => {
  const known = kept.get(sqlite) ?? new Map<ProvedTable, RowDigests>()
  kept.set(sqlite, known)
  return (table) => {
    const found = known.get(table) ?? rowDigests(sqlite, table)
    known.set(table, found)
    return found
  }
}
