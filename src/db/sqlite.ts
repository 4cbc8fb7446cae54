// The one doorway to better-sqlite3, which keeps every native object of it alive and prepares each text once.
//
// Compiled for Node 24.19 or later, better-sqlite3 12 ends the process when V8 frees one of its statements outside of any script
// (`RemoveEnvironmentCleanupHook … (env) != nullptr`); 13 mends that, but does not run on Node 20. So native statements are never
// freed here: `prepare` gives a light one, which borrows the native statement of its text each time it is run.
import Database from 'better-sqlite3'

type Native = Database.Statement

/**
 * As `new Database(path, options)`, with statements that can do what the house and drizzle ask of them. Bytes of a file in place of
 * its path are opened in memory.
 */
export const openSqlite = (path: string | Buffer, options?: Database.Options): Database.Database => {
  const sqlite = new Database(path, options)
  keptForGood.add(sqlite)
  const shelf = new StatementShelf(sqlite.prepare.bind(sqlite) as (sql: string) => Native)
  const prepare = (sql: string): Database.Statement =>
    new LightStatement(shelf, sql) as unknown as Database.Statement
  return Object.assign(sqlite, { prepare, pragma: pragmaThrough(prepare) })
}

export const SqliteError = Database.SqliteError

const keptForGood = new Set<object>()

/** Native statements by their text; more than one only while a text is run within a run of itself. */
class StatementShelf {
  readonly #idle = new Map<string, Native[]>()
  readonly #prepareNative: (sql: string) => Native
  constructor(prepareNative: (sql: string) => Native) {
    this.#prepareNative = prepareNative
  }

  take(sql: string): Native {
    const waiting = this.#idle.get(sql)?.pop()
    if (waiting) return waiting
    const native = this.#prepareNative(sql)
    keptForGood.add(native)
    return native
  }

  putBack(native: Native): void {
    const waiting = this.#idle.get(native.source)
    if (waiting) waiting.push(native)
    else this.#idle.set(native.source, [native])
  }
}

type Shape = 'objects' | 'arrays' | 'first-columns'

class LightStatement {
  readonly source: string
  readonly reader: boolean
  readonly #shelf: StatementShelf
  #shape: Shape = 'objects'

  /** Throws at once for a text that SQLite does not take. */
  constructor(shelf: StatementShelf, sql: string) {
    this.#shelf = shelf
    const native = shelf.take(sql)
    this.source = native.source
    this.reader = native.reader
    shelf.putBack(native)
  }

  run(...values: unknown[]): Database.RunResult {
    return this.#withNative((native) => native.run(...values))
  }
  get(...values: unknown[]): unknown {
    return this.#withNative((native) => native.get(...values))
  }
  all(...values: unknown[]): unknown[] {
    return this.#withNative((native) => native.all(...values))
  }
  columns(): Database.ColumnDefinition[] {
    return this.#withNative((native) => native.columns())
  }

  *iterate(...values: unknown[]): Generator<unknown> {
    const native = this.#borrow()
    const rows = native.iterate(...values)
    keptForGood.add(rows)
    try {
      yield* rows
    } finally {
      this.#shelf.putBack(native)
    }
  }

  raw(wanted = true): this {
    this.#shape = wanted ? 'arrays' : 'objects'
    return this
  }
  pluck(wanted = true): this {
    this.#shape = wanted ? 'first-columns' : 'objects'
    return this
  }

  #withNative<Result>(use: (native: Native) => Result): Result {
    const native = this.#borrow()
    try {
      return use(native)
    } finally {
      this.#shelf.putBack(native)
    }
  }

  #borrow(): Native {
    const native = this.#shelf.take(this.source)
    if (!this.reader) return native
    if (this.#shape === 'first-columns') return native.pluck(true)
    return native.pluck(false).raw(this.#shape === 'arrays')
  }
}

/** `pragma` of the library prepares a statement of its own, out of our sight. */
const pragmaThrough =
  (prepare: (sql: string) => Database.Statement) =>
  (source: string, options: Database.PragmaOptions = {}): unknown => {
    const statement = prepare(`PRAGMA ${source}`)
    if (!statement.reader) {
      statement.run()
      return options.simple ? undefined : []
    }
    return options.simple ? statement.pluck().get() : statement.all()
  }
