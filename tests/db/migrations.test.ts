// Released migrations never change, follow each other in time, and leave every row, CHECK and guard of a file with rows in place.
import { createHash } from 'node:crypto'
import { mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import Database from 'better-sqlite3'
import { drizzle } from 'drizzle-orm/better-sqlite3'
import { migrate } from 'drizzle-orm/better-sqlite3/migrator'
import { expect, test } from 'vitest'
import { day } from '#calendar/day.ts'
import { postEntry } from '#db/ledger/ledger-store.ts'
import { listHeads } from '#db/notebook/field-notes.ts'
import { migrationJournal, missingFromSchema, openBooks, openBooksOrThrow, schemaOf } from '#db/open.ts'
import { verifyBooks } from '#db/verify/verify.ts'
import { listHoldings } from '#db/year/holding-list.ts'
import { saveHolding } from '#db/year-store.ts'
import { cents } from '#money/cents.ts'
import { act, done, freshBooks } from './fresh-books.ts'
import { oldBooks } from './old-books.ts'

const folder = join(import.meta.dirname, '../../drizzle')
const sqlOf = (tag: string) => readFileSync(join(folder, `${tag}.sql`), 'utf8')

/** SHA-256 of each migration as it was released. A new one adds a line; a line never changes. */
const released: Record<string, string> = {
  '0000_books': 'fcac35579e2ef490fcc1038102c366c665f748204d00676ade6c8848f2a992a9',
  '0001_guards': 'f7e009cd5d4e77671c6a5a63083354f6d8d0b1ac7b614fa9eda4edb4e68ad093',
  '0002_account_kinds': '2ae0c87747ca306b8c44d9a2c5bd64c1e9e4b33c4036272e85c5dd0b89e8a0b4',
  '0003_chain': 'e084e2ba7ed6e70e7e75d702e96e9c456ba23b65e2b1847a0f197f711d252942',
  '0004_line_corrections': 'b84d9e0402dc852e35b91f729c3ead48c6d03acd084725f5ed524741e898356f',
  '0005_sorting_desk': '13df26489fd37ee68598a49671b0902a418428dd96b8d58e66b3c476df9d497f',
  '0006_notebook': 'f70bfb92f991589a64c404824386c8bbcec2ac71ce6411145c9f48f494938266',
  '0007_tax_years': '1febde773ddec11fa8269c11971b17a3bcfb1c3480fe26e2322368af99c6ca1f',
  '0008_other_bank_keys': '4db83eb637a62f35a6057db0f3233ca0b07aed97f4730f3964d9dd172932b2ca',
  '0009_property_loans': '50389918cddf8b1eb2d6ab5fede4e0dcafd4d98a796a8d375e42e8cb4c9cd8a1',
  '0010_kept_years': 'b4b8e0f737bf7ac4e3b65991fa67003c68cc86ad633c0f4f26247a2a65408192',
  '0011_depreciation_taken': '557a9063b516770711d2d6d7ffd539a2f37574ab3deb17bc7c4c4d0b83705c38',
  '0012_kept_heads': 'e27ee8f07fd032e2b909f8d5ef461fa7c8392265d1da7f08b9d5a8d79b0ce7a8',
  '0013_batch_ends': '91eb12f50671917942f079120ff3d4f14cf48ed1514d32df1759f8781a086a7c',
  '0014_barter': 'ad06a9dfef506a703d4976df2f6dce1ce7009651b7123ea7e25da834e061afc6',
  '0015_written_off_before': 'c104f1d2697c7e9baa38f5f42716ea95bb25fb3cbe959c8e8fe9e240af7e0af7',
  '0016_holding_parts': 'b7ccc7dda66ee56093a237cbf6057ac124bcccd6715022dc8a9f152d9e2f1123',
}

test('migrations follow each other in time, and none is skipped', () => {
  const journal = migrationJournal()
  const times = journal.map((entry) => entry.when)
  expect(times).toEqual([...new Set(times)].sort((a, b) => a - b))
  expect(
    readdirSync(folder)
      .filter((file) => file.endsWith('.sql'))
      .sort(),
  ).toEqual(journal.map((entry) => `${entry.tag}.sql`).sort())
})

test('what was released stays as it was, byte for byte', () => {
  for (const { tag } of migrationJournal())
    expect([tag, createHash('sha256').update(sqlOf(tag)).digest('hex')]).toEqual([tag, released[tag]])
})

test('the structure that every start looks for is what the migrations make', async () => {
  const sqlite = new Database(':memory:')
  migrate(drizzle(sqlite), { migrationsFolder: folder })
  const structure = Object.fromEntries([...schemaOf(sqlite)].sort(([a], [b]) => (a < b ? -1 : 1)))
  // After a new migration: npx vitest run --config tests/vitest.config.ts tests/db/migrations.test.ts -u
  await expect(`${JSON.stringify(structure, null, 2)}\n`).toMatchFileSnapshot(join(folder, 'structure.json'))
})

test('every table is STRICT and no migration drops one or cascades', () => {
  const sqlite = openBooksOrThrow(':memory:', { now: new Date(0) }).sqlite
  const loose = sqlite
    .prepare(
      "SELECT name FROM pragma_table_list WHERE schema = 'main' AND type = 'table' AND strict = 0 AND name NOT LIKE 'sqlite_%' AND name NOT LIKE '\\_\\_drizzle%' ESCAPE '\\' AND name NOT LIKE 'entry_search%'",
    )
    .pluck()
    .all()
  expect(loose).toEqual([])
  for (const { tag } of migrationJournal()) expect(sqlOf(tag)).not.toMatch(/DROP TABLE|ON DELETE cascade/i)
})

test('an entry and a crossing can be committed only with their seals: the tie is deferred to the commit', () => {
  const sql = sqlOf('0000_books')
  expect(sql).toMatch(/REFERENCES `sealed_entries`\(`entry_no`\) DEFERRABLE INITIALLY DEFERRED/)
  expect(sql).toMatch(/REFERENCES `sealed_crossings`\(`crossing_id`\) DEFERRABLE INITIALLY DEFERRED/)
})

test('a migration that writes rows has the chain of changes take them as they are', () => {
  for (const { tag } of migrationJournal().slice(3))
    if (/^\s*(UPDATE|INSERT INTO|DELETE FROM)\b/im.test(sqlOf(tag)))
      expect(sqlOf(tag), tag).toMatch(/'chain\.(begun|rows)'/)
})

const older = migrationJournal()
  .slice(0, -1)
  .map(({ tag }, index) => ({ tag, index }))

test.for(older)(
  'a file with rows from $tag is backed up, migrated and keeps every row and guard',
  ({ tag, index }) => {
    const place = mkdtempSync(join(tmpdir(), 'dooryard-test-'))
    try {
      const path = join(place, 'books.sqlite')
      oldBooks(path, index)
      const again = openBooksOrThrow(path, { now: new Date('2026-03-01T00:00:00Z') })
      const kept = new Database(again.backupBeforeMigrating!, { readonly: true })
      expect(again.backupBeforeMigrating).toMatch(/books-before-migration-2026-03-01T00-00-00-000Z\.sqlite$/)
      for (const sqlite of [kept, again.sqlite]) {
        const rows = (table: string) => sqlite.prepare(`SELECT count(*) FROM ${table}`).pluck().get()
        expect([tag, rows('sides'), rows('accounts'), rows('entries'), rows('postings')]).toEqual([
          tag,
          1,
          2,
          1,
          2,
        ])
      }
      expect(missingFromSchema(again.sqlite)).toEqual([])
      expect(again.sqlite.pragma('foreign_keys', { simple: true })).toBe(1)
      kept.close()
      again.close()
    } finally {
      rmSync(place, { recursive: true, force: true })
    }
  },
)

test('what the last return wrote off, known so far from the opening entry alone, stands with the thing after the migration', () => {
  const place = mkdtempSync(join(tmpdir(), 'dooryard-test-'))
  try {
    const path = join(place, 'books.sqlite')
    const books = freshBooks(path)
    const account = (name: string) => books.account('farm', name).id
    const line = (name: string, dollars: number, memo: string) => ({
      accountId: account(name),
      amountCents: cents(dollars * 100),
      memo,
    })
    const [first, second] = ['Baler', 'Rake'].map((name) =>
      done(
        saveHolding(books, act(`owned.thing.${name === 'Baler' ? 0 : 1}`), 'farm', {
          name,
          kind: 'equipment',
          quantity: 1,
          unit: '',
          raised: false,
          costCents: cents(900_000),
          acquiredDay: day('2022-05-01'),
          inServiceDay: null,
          accountId: account('Machinery and equipment'),
          depreciation: null,
          marketValueCents: null,
        }),
      ),
    )
    done(
      postEntry(books, act('owned.farm'), {
        sideId: 'farm',
        day: day('2026-01-01'),
        payee: '',
        memo: 'Opening balances: what is owned',
        source: 'opening',
        lines: [
          line('Machinery and equipment', 9000, 'Baler'),
          line('Depreciation taken', -4000, 'Depreciation taken on Baler'),
          line('Opening balances', -5000, ''),
        ],
      }),
    )
    books.close()
    // Back to the structure before, which had no such column.
    const before = new Database(path)
    before.exec('DROP TABLE holding_parts; ALTER TABLE holdings DROP COLUMN written_off_before')
    const { when } = migrationJournal().find(({ tag }) => tag === '0015_written_off_before')!
    before.prepare('DELETE FROM __drizzle_migrations WHERE created_at >= ?').run(when)
    before.close()
    const after = openBooksOrThrow(path, { now: new Date('2026-03-01T00:00:00Z') })
    const things = listHoldings(after, 'farm')
    expect(things.find(({ id }) => id === first!.holdingId)!.writtenOffBefore).toEqual({
      amountCents: 400_000,
      through: 2025,
    })
    expect(things.find(({ id }) => id === second!.holdingId)!.writtenOffBefore).toBeNull()
    expect(verifyBooks(after.sqlite).findings).toEqual([])
    after.close()
  } finally {
    rmSync(place, { recursive: true, force: true })
  }
})

test('notes of heads and of goods from before young could be kept to breed are kept, as young and as what they were', () => {
  const place = mkdtempSync(join(tmpdir(), 'dooryard-test-'))
  try {
    const path = join(place, 'books.sqlite')
    oldBooks(path, migrationJournal().findIndex(({ tag }) => tag === '0012_kept_heads') - 1)
    const before = new Database(path)
    before.exec(`
      INSERT INTO head_tallies (id, day, herd_id, kind, head_class, count, recorded_at)
        VALUES ('t1', '2026-01-10', 'ewes', 'counted', 'young', 4, 'x'), ('t2', '2026-01-10', 'ewes', 'counted', 'females', 9, 'x');
      INSERT INTO goods_notes (id, day, kind, what, herd_id, head_class, quantity, recorded_at)
        VALUES ('g1', '2026-01-11', 'kitchen', 'a lamb', 'ewes', 'young', 1, 'x'), ('g2', '2026-01-11', 'kitchen', 'beans', NULL, NULL, 3, 'x');`)
    before.close()
    const books = openBooksOrThrow(path, { now: new Date('2026-03-01T00:00:00Z') })
    expect(
      books.sqlite
        .prepare(
          'SELECT id, head_class, kept_to_breed FROM head_tallies UNION ALL SELECT id, head_class, kept_to_breed FROM goods_notes ORDER BY id',
        )
        .raw()
        .all(),
    ).toEqual([
      ['g1', 'young', 0],
      ['g2', null, 0],
      ['t1', 'young', 0],
      ['t2', 'females', 0],
    ])
    expect(listHeads(books, day('2026-02-01')).map(({ headClass, count }) => [headClass, count])).toEqual(
      expect.arrayContaining([
        ['young', 4],
        ['females', 9],
      ]),
    )
    const found = verifyBooks(books.sqlite).findings.map(({ check }) => check)
    expect(found.filter((check) => check === 'kept-to-breed-is-young' || check === 'structure')).toEqual([])
    books.close()
  } finally {
    rmSync(place, { recursive: true, force: true })
  }
})

test('a file of a newer Dooryard and a database of another program are refused untouched', () => {
  const place = mkdtempSync(join(tmpdir(), 'dooryard-test-'))
  try {
    const path = join(place, 'books.sqlite')
    const books = freshBooks(path)
    books.sqlite
      .prepare("INSERT INTO __drizzle_migrations (hash, created_at) VALUES ('x', ?)")
      .run(Date.parse('2099-01-01'))
    books.close()
    const before = readFileSync(path)
    expect(openBooks(path, { now: new Date(0) })).toMatchObject({ ok: false, problem: { kind: 'newer' } })
    expect(readFileSync(path).equals(before)).toBe(true)
    const other = new Database(join(place, 'other.sqlite'))
    other.exec('CREATE TABLE things (a)')
    other.close()
    expect(openBooks(join(place, 'other.sqlite'), { now: new Date(0) })).toMatchObject({
      ok: false,
      problem: { kind: 'not-books' },
    })
  } finally {
    rmSync(place, { recursive: true, force: true })
  }
})

test('a file that lost a guard is told as damaged, not opened', () => {
  const place = mkdtempSync(join(tmpdir(), 'dooryard-test-'))
  try {
    const path = join(place, 'books.sqlite')
    openBooksOrThrow(path, { now: new Date('2026-03-01T00:00:00Z') }).close()
    const raw = new Database(path)
    const trigger = raw.prepare("SELECT name FROM sqlite_schema WHERE type = 'trigger'").pluck().get()
    raw.exec(`DROP TRIGGER ${trigger}`)
    raw.close()
    const opened = openBooks(path, { now: new Date('2026-03-01T00:00:00Z') })
    expect(opened).toMatchObject({ ok: false, problem: { kind: 'damaged' } })
    expect(!opened.ok && opened.problem.message).toContain(String(trigger))
  } finally {
    rmSync(place, { recursive: true, force: true })
  }
})
