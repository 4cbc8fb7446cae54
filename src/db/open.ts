// Opens a books file: settings first, then a backup and the pending migrations, then proof that every guard is still there.
import { existsSync, mkdirSync, readFileSync } from 'node:fs'
import { basename, dirname, join } from 'node:path'
import type Database from 'better-sqlite3'
import { type BetterSQLite3Database, drizzle } from 'drizzle-orm/better-sqlite3'
import { migrate } from 'drizzle-orm/better-sqlite3/migrator'
import { beginChain, followWrites } from './chain/chain.ts'
import { closeToOthers } from './data-place.ts'
import { type FileProblem, FileProblemError, fileProblem, restoreLatest } from './file-problem.ts'
import { forgetHalf, halfOf } from './half.ts'
import { rename, takePlace } from './platform.ts'
import { openSqlite } from './sqlite.ts'
import { type Standing, standingOf } from './standing.ts'

const migrationsFolder = join(import.meta.dirname, '../../drizzle')

/** An open books file. `db` for ordinary queries; `sqlite` for the few that must be prepared once. */
export interface Books {
  path: string
  db: BetterSQLite3Database
  sqlite: Database.Database
  standing: Standing
  /** Where the copy made before migrating lies, when there was one to make. */
  backupBeforeMigrating: string | null
  /** True when opening took the rows as they were found, as the first link of the chain of changes. */
  chainBegun: boolean
  close(): void
}

export type OpenResult = { ok: true; books: Books } | { ok: false; problem: FileProblem }

export interface OpenOptions {
  /** Names the copy made before migrating. */
  now: Date
  /** Where that copy goes; `backups` beside the file when not given. */
  backupFolder?: string
  /** Refuse to make a new file: for commands that read one. */
  mustExist?: boolean
}

/** Opens the file, making it when it is missing. `:memory:` gives books that are forgotten. Never throws for what a user can mend. */
export const openBooks = (path: string, options: OpenOptions): OpenResult => {
  let sqlite: Database.Database | undefined
  try {
    const isMemory = path === ':memory:'
    if (options.mustExist && !isMemory && !existsSync(path))
      return {
        ok: false,
        problem: {
          kind: 'missing',
          message: `There is no books file at ${path}. Check the place given with --data.`,
        },
      }
    if (!isMemory) {
      mkdirSync(dirname(path), { recursive: true, mode: 0o700 })
      for (const suffix of ['', '-wal', '-shm']) closeToOthers(path + suffix)
      keepLogWithoutFile(path, options.now)
    }
    sqlite = openSqlite(isMemory ? migratedBytes() : path)
    prepareConnection(sqlite)
    const newer = newerFileProblem(sqlite, path)
    if (newer) {
      sqlite.close()
      return { ok: false, problem: newer }
    }
    const backup = isMemory ? null : backUpBeforeMigrating(sqlite, path, options)
    migrateBooks(sqlite)
    const lost = lostStructureProblem(sqlite, path)
    if (lost) {
      sqlite.close()
      return { ok: false, problem: lost }
    }
    const chainBegun = beginChain(sqlite)
    followWrites(sqlite)
    const opened = sqlite
    return {
      ok: true,
      books: {
        path,
        db: drizzle(opened),
        sqlite: opened,
        standing: standingOf(opened, path),
        backupBeforeMigrating: backup,
        chainBegun,
        close: () => void opened.close(),
      },
    }
  } catch (error) {
    sqlite?.close()
    const problem = fileProblem(error, path)
    if (!problem) throw error
    return { ok: false, problem }
  }
}

/** SQLite throws away a log that it finds beside a new file; it may hold the last that was written before the file was lost. */
const keepLogWithoutFile = (path: string, now: Date): void => {
  if (existsSync(path) || !existsSync(`${path}-wal`)) return
  rename(`${path}-wal`, `${path}-left-${now.toISOString().replace(/[:.]/g, '-')}-wal`)
}

/** Books in memory begin from ones migrated once a process: that costs more than all else of opening them. */
const migratedBytes = (): Buffer => {
  if (!migrated) {
    const first = openSqlite(':memory:')
    migrateBooks(first)
    migrated = first.serialize()
    first.close()
  }
  return migrated
}
let migrated: Buffer | undefined

/** As `openBooks`, for callers that have nobody to tell: throws with the message. */
export const openBooksOrThrow = (path: string, options: OpenOptions): Books => {
  const result = openBooks(path, options)
  if (!result.ok) throw new FileProblemError(result.problem)
  return result.books
}

/** Money is on disk before it is acknowledged (FULL, which a Mac needs to be told twice), readers never wait for the writer (WAL), the schema runs no strange code. */
const prepareConnection = (sqlite: Database.Database): void => {
  sqlite.pragma('busy_timeout = 5000')
  sqlite.pragma('foreign_keys = ON')
  sqlite.pragma('recursive_triggers = ON')
  sqlite.pragma('trusted_schema = OFF')
  sqlite.pragma('journal_mode = WAL')
  sqlite.pragma('synchronous = FULL')
  sqlite.pragma('fullfsync = ON')
}

const migrateBooks = (sqlite: Database.Database): void => {
  if (pendingMigrations(sqlite) > 0) {
    // A rebuilt parent table would take its children along while foreign keys are on, and migrate() runs inside a transaction.
    sqlite.pragma('foreign_keys = OFF')
    migrate(drizzle(sqlite), { migrationsFolder })
    const broken = sqlite.pragma('foreign_key_check') as unknown[]
    if (broken.length > 0)
      throw new Error(`Rows without their parent after migrating: ${JSON.stringify(broken.slice(0, 5))}`)
    sqlite.pragma('foreign_keys = ON')
  }
}

/** A file whose guards are gone must not be written: it could take in what the guards refuse. */
const lostStructureProblem = (sqlite: Database.Database, path: string): FileProblem | null => {
  const lost = missingFromSchema(sqlite)
  if (lost.length === 0) return null
  const message = `${path} has lost parts of its structure (${lost.join(', ')}). It was not opened. ${restoreLatest}`
  return { kind: 'damaged', message }
}

const backUpBeforeMigrating = (
  sqlite: Database.Database,
  path: string,
  options: OpenOptions,
): string | null => {
  if (pendingMigrations(sqlite) === 0 || appliedMigration(sqlite) === null) return null
  const folder = options.backupFolder ?? join(dirname(path), 'backups')
  mkdirSync(folder, { recursive: true })
  const stamp = options.now.toISOString().replace(/[:.]/g, '-')
  const target = join(folder, `${basename(path, '.sqlite')}-before-migration-${stamp}.sqlite`)
  const half = halfOf(target)
  try {
    sqlite.prepare('VACUUM INTO ?').run(half)
    takePlace(half, target)
  } finally {
    forgetHalf(half)
  }
  return target
}

interface JournalEntry {
  when: number
  tag: string
}

export const migrationJournal = (): JournalEntry[] =>
  (
    JSON.parse(readFileSync(join(migrationsFolder, 'meta/_journal.json'), 'utf8')) as {
      entries: JournalEntry[]
    }
  ).entries

/** What the migrations after one wrote into rows, statement by statement: rows that an export of that time holds need it too. */
export const rowsWrittenSince = (structure: number): string[] =>
  migrationJournal()
    .filter(({ when }) => when > structure)
    .flatMap(({ tag }) =>
      readFileSync(join(migrationsFolder, `${tag}.sql`), 'utf8').split('--> statement-breakpoint'),
    )
    .filter((statement) => /^(\s|--.*\n)*(UPDATE|INSERT INTO) /.test(statement))

const appliedMigration = (sqlite: Database.Database): number | null => {
  const table = sqlite.prepare("SELECT 1 FROM sqlite_schema WHERE name = '__drizzle_migrations'").get()
  if (!table) return null
  return sqlite.prepare('SELECT max(created_at) FROM __drizzle_migrations').pluck().get() as number | null
}

const pendingMigrations = (sqlite: Database.Database): number => {
  const applied = appliedMigration(sqlite)
  return migrationJournal().filter((entry) => applied === null || entry.when > applied).length
}

/** A file that a newer Dooryard wrote, or that is no books file: refused before anything is touched. */
export const newerFileProblem = (sqlite: Database.Database, path: string): FileProblem | null => {
  const applied = appliedMigration(sqlite)
  const known = migrationJournal().at(-1)!.when
  if (applied !== null && applied > known)
    return {
      kind: 'newer',
      message: `${path} was written by a newer Dooryard. Update this one to open it; the file was not touched.`,
    }
  const tables = sqlite
    .prepare("SELECT count(*) FROM sqlite_schema WHERE type = 'table'")
    .pluck()
    .get() as number
  if (applied === null && tables > 0)
    return {
      kind: 'not-books',
      message: `${path} is a database of another program. Choose another place with --data.`,
    }
  return null
}

/** True when migrations are waiting for this file. */
export const isOlderFile = (sqlite: Database.Database): boolean => pendingMigrations(sqlite) > 0

/** Names of tables, indices and triggers that differ from those a new file has: a lost trigger, a table that is no longer STRICT. */
export const missingFromSchema = (sqlite: Database.Database): string[] => {
  const present = schemaOf(sqlite)
  return [...expectedSchema()].filter(([name, text]) => present.get(name) !== text).map(([name]) => name)
}

/** Written down rather than made by migrating an empty file: every start asks. A test holds it to what the migrations make. */
let expected: Map<string, string> | undefined
const expectedSchema = (): Map<string, string> => {
  expected ??= new Map(
    Object.entries(
      JSON.parse(readFileSync(join(migrationsFolder, 'structure.json'), 'utf8')) as Record<string, string>,
    ),
  )
  return expected
}

/** Each table, index and trigger of a file, like `table entries`, with its SQL. */
export const schemaOf = (sqlite: Database.Database): Map<string, string> =>
  new Map(
    (
      sqlite
        .prepare("SELECT type || ' ' || name AS name, sql FROM sqlite_schema WHERE sql IS NOT NULL")
        .all() as {
        name: string
        sql: string
      }[]
    ).map((row) => [row.name, row.sql]),
  )
