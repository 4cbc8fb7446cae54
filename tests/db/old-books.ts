// A books file as an earlier Dooryard left it, with one entry in it.
import { cpSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import Database from 'better-sqlite3'
import { drizzle } from 'drizzle-orm/better-sqlite3'
import { migrate } from 'drizzle-orm/better-sqlite3/migrator'

const migrations = join(import.meta.dirname, '../../drizzle')

/** Migrated up to and including the migration at this place of the journal. */
export const oldBooks = (path: string, lastMigration: number): void => {
  const then = mkdtempSync(join(tmpdir(), 'dooryard-then-'))
  try {
    cpSync(migrations, then, { recursive: true })
    const journalPath = join(then, 'meta/_journal.json')
    const journal = JSON.parse(readFileSync(journalPath, 'utf8'))
    writeFileSync(
      journalPath,
      JSON.stringify({ ...journal, entries: journal.entries.slice(0, lastMigration + 1) }),
    )
    const sqlite = new Database(path)
    migrate(drizzle(sqlite), { migrationsFolder: then })
    sqlite
      .transaction(() =>
        sqlite.exec(`
          INSERT INTO sides (id, kind, name, created_at) VALUES ('farm', 'farm', 'Lantern Hollow', 'x');
          INSERT INTO accounts (id, side_id, number, name, kind, created_at) VALUES (1, 'farm', 1000, 'Checking', 'asset', 'x'), (2, 'farm', 5000, 'Seeds', 'expense', 'x');
          INSERT INTO entries (no, id, side_id, day, source, posted_at) VALUES (1, 'a', 'farm', '2026-01-10', 'form', 'x');
          INSERT INTO postings (entry_no, line_no, account_id, day, amount_cents) VALUES (1, 1, 1, '2026-01-10', -5), (1, 2, 2, '2026-01-10', 5);
          INSERT INTO sealed_entries VALUES (1);`),
      )
      .immediate()
    sqlite.close()
  } finally {
    rmSync(then, { recursive: true, force: true })
  }
}
