import { existsSync, mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import fc from 'fast-check'
import { afterAll, expect, test } from 'vitest'
import { backUpToFile } from '#db/backup/backup-file.ts'
import { exportedTables } from '#db/backup/export-format.ts'
import { type ExportDocument, fillBooks, readExport } from '#db/backup/import-export.ts'
import { prepareRestore } from '#db/backup/restore.ts'
import { unsealFile } from '#db/backup/sealed-backup.ts'
import { openBooksOrThrow } from '#db/open.ts'
import { verifyBooks } from '#db/verify/verify.ts'
import { bentBytes, bentExports, quicklySealed, smallExport } from './backup-inputs.ts'
import { assertFuzz, fuzzRuns } from './batches.ts'
import { begin, expectQuick, expectSmall, fuzzTimeout } from './limits.ts'
import { smallBooks } from './small-books.ts'

const folder = mkdtempSync(join(tmpdir(), 'dooryard-fuzz-'))
const small = smallExport(join(folder, 'export'))
afterAll(() => {
  rmSync(folder, { recursive: true, force: true })
})

test('bent exports are refused with a reason, or every row of theirs is read in and everything holds', {
  timeout: fuzzTimeout,
}, async () => {
  const { sqlite } = openBooksOrThrow(':memory:', { now: new Date(0) })
  const file = join(folder, 'bent.json')
  const met = { unread: 0, unfilled: 0, unproved: 0 }
  const look = (exported: ExportDocument) => {
    const filled = fillBooks(sqlite, exported, file)
    if (!filled.ok) {
      met.unfilled += 1
      expect(filled.problem.message).toMatch(/bent\.json was changed or is damaged: .+ Nothing was read in\./)
    } else if (verifyBooks(sqlite).findings.length > 0) met.unproved += 1
    else {
      for (const { name } of exportedTables) {
        const tables = exported.tables.filter((one) => one.name === name)
        expect(tables.length, name).toBe(1)
        expect(sqlite.prepare(`SELECT count(*) FROM ${name}`).pluck().get(), name).toBe(
          tables[0]!.rows.length,
        )
      }
    }
  }
  await assertFuzz(
    fc.property(bentExports(small), (text) => {
      const begun = begin()
      writeFileSync(file, text)
      const read = readExport(file)
      if (read.ok) {
        // One set of new books for all of them: what was filled in is taken back.
        sqlite.exec('BEGIN')
        try {
          look(read.document)
        } finally {
          sqlite.exec('ROLLBACK')
        }
      } else {
        met.unread += 1
        expect(read.problem.message).toMatch(/bent\.json (is not|was written by)/)
      }
      expectQuick(begun)
    }),
  )
  for (const count of Object.values(met)) expect(count).toBeGreaterThan(fuzzRuns() / 20)
  expectSmall()
})

test('a bent backup of any kind leaves the books untouched and nothing beside them, or is restored whole', {
  timeout: fuzzTimeout,
}, async () => {
  const place = {
    file: join(folder, 'restoring/books.sqlite'),
    backups: join(folder, 'restoring/backups'),
    attachments: join(folder, 'restoring/attachments'),
  }
  mkdirSync(place.attachments, { recursive: true })
  const books = smallBooks(place.file, place.attachments)
  const copy = join(folder, 'copy.sqlite')
  expect(backUpToFile(books, copy, place)).toMatchObject({ ok: true })
  // As a restore takes it over: without its log, so that it can be compared byte for byte.
  books.sqlite.pragma('journal_mode = DELETE')
  books.close()
  const original = readFileSync(place.file)
  const plain = readFileSync(copy)
  const input = fc.oneof(
    bentExports(small).map((text) => Buffer.from(text)),
    bentBytes(plain),
    bentBytes(quicklySealed(plain, 'six words')),
    bentBytes(plain).map((bytes) => quicklySealed(bytes, 'six words')),
  )
  const backup = join(folder, 'bent.backup')
  let count = 0
  let restored = 0
  await assertFuzz(
    fc.property(
      input,
      fc.constantFrom('six words', 'six words', 'seven words', undefined),
      (bytes, passphrase) => {
        const begun = begin()
        writeFileSync(place.file, original)
        writeFileSync(backup, bytes)
        const now = new Date(count++)
        const result = prepareRestore(backup, { ...place, now, ...(passphrase ? { passphrase } : {}) })
        expect(readFileSync(place.file).equals(original)).toBe(true)
        expect(readFileSync(backup).equals(bytes)).toBe(true)
        if (result.ok) {
          const done = result.prepared.carryOut()
          if (!done.ok) throw new Error(done.problem.message)
          restored += 1
          expect(readFileSync(done.keptBefore!).equals(original)).toBe(true)
          const now = openBooksOrThrow(place.file, { now: new Date(0), mustExist: true })
          expect(verifyBooks(now.sqlite).findings).toEqual([])
          now.close()
          rmSync(done.keptBefore!)
        } else expect(result.problem.message).toMatch(/.{20,}\.$/)
        expect(readdirSync(join(folder, 'restoring')).sort()).toEqual(
          ['attachments', 'backups', 'books.sqlite'].filter((one) =>
            existsSync(join(folder, 'restoring', one)),
          ),
        )
        expectQuick(begun)
      },
    ),
    0.1,
  )
  expect(restored).toBeGreaterThan(fuzzRuns(0.1) / 20)
  expectSmall()
})

test('a sealed backup whose head asks for gigabytes is refused at once', () => {
  const sealed = quicklySealed(Buffer.from('SQLite format 3'), 'six words')
  for (const [at, value] of [
    [8, 20],
    [8, 19],
    [9, 16],
    [9, 255],
    [10, 4],
    [8, 0],
    [10, 0],
  ] as const) {
    const forged = Buffer.from(sealed)
    forged[at] = value
    const begun = begin()
    const { rss } = process.memoryUsage()
    writeFileSync(join(folder, 'a.dooryard'), forged)
    expect(unsealFile(join(folder, 'a.dooryard'), join(folder, 'opened'), 'six words')).toMatchObject({
      kind: 'wrong-passphrase',
      message: expect.stringContaining('damaged at its head'),
    })
    expectQuick(begun)
    expect(process.memoryUsage().rss - rss).toBeLessThan(64 * 1024 * 1024)
  }
})

/** Found by the fuzz: each was read in without what it left out. */
const tampered: [string, (document: ExportDocument) => void, RegExp][] = [
  [
    'a table left out',
    (document) =>
      Object.assign(document, { tables: document.tables.filter((one) => one.name !== 'settings') }),
    /the table settings is missing/,
  ],
  [
    'a table twice',
    (document) => document.tables.push(document.tables.find((one) => one.name === 'postings')!),
    /the table "postings" stands in it twice/,
  ],
  [
    'a table of another name',
    (document) => Object.assign(document.tables[1]!, { name: 'konten' }),
    /an unknown table "konten"/,
  ],
  [
    'a structure of no release',
    (document) => Object.assign(document, { structure: -1, tables: document.tables.slice(1) }),
    /no Dooryard had its structure/,
  ],
  [
    'a tick of no reconciliation',
    (document) =>
      document.tables.find((one) => one.name === 'reconciliation_ticks')!.rows.push([1, 'no-such']),
    /reconciliation_ticks belongs to no reconciliation/,
  ],
]

test.for(tampered)('an export with %s is refused by its name', ([, change, message]) => {
  const document = structuredClone(small)
  change(document)
  const file = join(folder, 'tampered.json')
  writeFileSync(file, JSON.stringify(document))
  const read = readExport(file)
  const { sqlite } = openBooksOrThrow(':memory:', { now: new Date(0) })
  const result = read.ok ? fillBooks(sqlite, read.document, file) : read
  expect(result).toMatchObject({
    ok: false,
    problem: { kind: 'damaged', message: expect.stringMatching(message) },
  })
})
