import {
  copyFileSync,
  existsSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  truncateSync,
  writeFileSync,
} from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import Database from 'better-sqlite3'
import fc from 'fast-check'
import { afterEach, beforeEach, expect, test } from 'vitest'
import { addDays, type Day } from '#calendar/day.ts'
import { backUpTo, listBackups } from '#db/backup/backup.ts'
import { backUpToFile } from '#db/backup/backup-file.ts'
import { daysToKeep } from '#db/backup/backup-rule.ts'
import { backUpDaily } from '#db/backup/daily-copy.ts'
import { exportBooks } from '#db/backup/export.ts'
import { derivedTables, exportedTables } from '#db/backup/export-format.ts'
import { prepareRestore } from '#db/backup/restore.ts'
import { type SealCost, sealFile, unsealFile } from '#db/backup/sealed-backup.ts'
import { endsInCopies } from '#db/chain/kept-ends.ts'
import { listAccounts } from '#db/ledger/account-store.ts'
import { attachmentPath, keepBytes } from '#db/ledger/attachment-files.ts'
import { balancesOn } from '#db/ledger/balances.ts'
import { postEntry } from '#db/ledger/ledger-store.ts'
import { type Books, openBooksOrThrow } from '#db/open.ts'
import { verifyBooks } from '#db/verify/verify.ts'
import { moneyOut } from '#ledger/simple-entry.ts'
import { cents } from '#money/cents.ts'
import { anyCommand, carryOut } from './commands.ts'
import { freshBooks, on, sealCost, type TestBooks, writeRows } from './fresh-books.ts'

let folder: string
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'dooryard-test-'))
})
afterEach(() => {
  rmSync(folder, { recursive: true, force: true })
})

const now = new Date('2026-02-01T08:00:00Z')
const placeIn = (name: string) => ({
  file: join(folder, name, 'books.sqlite'),
  backups: join(folder, name, 'backups'),
  attachments: join(folder, name, 'attachments'),
  now,
})

const busyBooks = (path: string): TestBooks => {
  const books = freshBooks(path)
  carryOut(books, listAccounts(books), fc.sample(anyCommand, { seed: 11, numRuns: 40 }))
  return books
}

let spent = 0
const spend = (books: Books, payee: string) => {
  spent += 1
  const id = (name: string) =>
    listAccounts(books).find((one) => one.sideId === 'farm' && one.name === name)!.id
  const head = { id: '', sideId: 'farm', day: on('2026-01-31'), payee, memo: '' }
  const lines = [{ accountId: id('Supplies'), amountCents: cents(1200) }]
  const act = { formId: `spend-${spent}`, at: now.toISOString(), actor: 'test' }
  expect(postEntry(books, act, moneyOut(head, id('Farm checking'), lines)).ok).toBe(true)
}

const everything = (books: Pick<TestBooks, 'sqlite'>) =>
  Object.fromEntries(
    exportedTables.map(({ name, orderedBy }) => [
      name,
      books.sqlite.prepare(`SELECT * FROM ${name} ORDER BY ${orderedBy}`).all(),
    ]),
  )

test('the 7/4/12 rule keeps a week of days, a month of weeks and a year of months', () => {
  const days = Array.from({ length: 400 }, (_, back) => addDays(on('2026-11-25'), -back))
  const kept = [...daysToKeep(days)].sort().reverse()
  expect(kept.slice(0, 7)).toEqual(days.slice(0, 7))
  expect(kept).toHaveLength(7 + 2 + 11)
  expect(kept.at(-1)).toBe('2025-12-31')
})

test('running the rule every day never lets go of what a later day would need', () => {
  let kept = new Set<Day>()
  for (let back = 400; back >= 0; back -= 1) kept = daysToKeep([...kept, addDays(on('2026-11-25'), -back)])
  const days = Array.from({ length: 401 }, (_, back) => addDays(on('2026-11-25'), -back))
  expect([...kept].sort()).toEqual([...daysToKeep(days)].sort())
})

test('one backup a day is made, verified and kept by the rule', () => {
  const books = busyBooks(placeIn('a').file)
  const { backups } = placeIn('a')
  for (let day = 0; day < 12; day += 1) {
    const today = addDays(on('2026-02-01'), day)
    expect(backUpDaily(books, backups, today)).toMatchObject({ ok: true })
    expect(backUpDaily(books, backups, today)).toBeNull()
  }
  expect(listBackups(backups).map((backup) => backup.day)).toEqual(
    [...daysToKeep(Array.from({ length: 12 }, (_, day) => addDays(on('2026-02-01'), day)))].sort().reverse(),
  )
  books.close()
})

test('the copy of the day is made anew once the books went on, and not before', () => {
  const place = placeIn('a')
  const books = busyBooks(place.file)
  const today = on('2026-02-01')
  const kept = () => {
    const copy = new Database(join(place.backups, 'books-2026-02-01.sqlite'), { readonly: true })
    const payees = copy.prepare('SELECT payee FROM entries ORDER BY no').pluck().all()
    copy.close()
    return payees
  }
  expect(backUpDaily(books, place.backups, today)).toMatchObject({ ok: true })
  const before = kept()
  spend(books, 'Fence posts')
  expect(backUpDaily(books, place.backups, today)).toMatchObject({ ok: true })
  expect(kept()).toEqual([...before, 'Fence posts'])
  expect(backUpDaily(books, place.backups, today)).toBeNull()
  // What cannot be proved takes the place of nothing.
  spend(books, 'Lime')
  books.sqlite.exec('DROP TRIGGER postings_delete; DELETE FROM postings WHERE id = 1')
  expect(backUpDaily(books, place.backups, today)).toMatchObject({ ok: false })
  expect(kept()).toEqual([...before, 'Fence posts'])
  expect(readdirSync(place.backups)).toEqual(['books-2026-02-01.sqlite'])
  books.close()
})

test('a copy that ends beyond the books stays as it is: it is what shows that they were set back', () => {
  const place = placeIn('a')
  const books = busyBooks(place.file)
  const early = join(folder, 'early.sqlite')
  books.sqlite.prepare('VACUUM INTO ?').run(early)
  spend(books, 'Fence posts')
  expect(backUpDaily(books, place.backups, on('2026-02-01'))).toMatchObject({ ok: true })
  books.close()
  for (const rest of ['', '-wal', '-shm']) rmSync(`${place.file}${rest}`, { force: true })
  copyFileSync(early, place.file)
  const setBack = openBooksOrThrow(place.file, { now })
  spend(setBack, 'Lime')
  expect(backUpDaily(setBack, place.backups, on('2026-02-01'))).toBeNull()
  expect(endsInCopies(place.file, place.backups)).toHaveLength(1)
  expect(backUpDaily(setBack, place.backups, on('2026-02-02'))).toMatchObject({ ok: true })
  setBack.close()
})

test('after a restore the day has a copy of the restored books: those of before are kept by themselves', () => {
  const place = placeIn('a')
  const books = busyBooks(place.file)
  const early = join(folder, 'early.sqlite')
  books.sqlite.prepare('VACUUM INTO ?').run(early)
  spend(books, 'Fence posts')
  expect(backUpDaily(books, place.backups, on('2026-02-01'))).toMatchObject({ ok: true })
  books.close()
  const prepared = prepareRestore(early, { ...place, now })
  if (!prepared.ok) throw new Error(prepared.problem.message)
  expect(prepared.prepared.carryOut()).toMatchObject({ ok: true })
  const restored = openBooksOrThrow(place.file, { now })
  expect(backUpDaily(restored, place.backups, on('2026-02-01'))).toMatchObject({ ok: true })
  restored.close()
})

test('a backup overwrites nothing and leaves nothing half behind', () => {
  const books = busyBooks(':memory:')
  const target = join(folder, 'copy.sqlite')
  writeFileSync(target, 'mine')
  expect(backUpTo(books, target)).toMatchObject({ ok: false, problem: { kind: 'exists' } })
  expect(readFileSync(target, 'utf8')).toBe('mine')
  books.sqlite.exec('DROP TRIGGER postings_delete; DELETE FROM postings WHERE id = 1')
  expect(backUpTo(books, join(folder, 'damaged.sqlite'))).toMatchObject({
    ok: false,
    problem: { kind: 'damaged' },
  })
  expect(readdirSync(folder)).toEqual(['copy.sqlite'])
})

const kinds = [
  ['a plain copy', 'copy.sqlite', undefined],
  ['an encrypted copy', 'copy.dooryard', 'six words that nobody else knows'],
  ['a JSON export', 'copy.json', undefined],
] as const

test.for(kinds)('%s carries everything over, attachments included', ([, name, passphrase]) => {
  const from = placeIn('a')
  const books = busyBooks(from.file)
  const receipt = Buffer.from('%PDF-1.4 a receipt for row cover')
  const hash = keepBytes(from.attachments, receipt)
  writeRows(
    books,
    `INSERT INTO attachments (id, entry_no, content_hash, file_name, media_type, byte_count, added_at) VALUES ('a', 1, '${hash}', 'r.pdf', 'application/pdf', 5, 'x')`,
  )
  const target = join(folder, name)
  const written = name.endsWith('.json')
    ? exportBooks(books.sqlite, target, from)
    : backUpToFile(books, target, passphrase ? { ...from, passphrase, sealCost } : from)
  expect(written).toMatchObject({ ok: true })
  const to = placeIn('b')
  const result = prepareRestore(target, passphrase ? { ...to, passphrase } : to)
  if (!result.ok) throw new Error(result.problem.message)
  expect(result.prepared.comparison).toBeNull()
  expect(result.prepared.carryOut()).toMatchObject({ ok: true, keptBefore: null })
  const restored = openBooksOrThrow(to.file, { now })
  expect(everything(restored)).toEqual(everything(books))
  expect([...balancesOn(restored)]).toEqual([...balancesOn(books)])
  expect(verifyBooks(restored.sqlite).findings).toEqual([])
  expect(readFileSync(attachmentPath(to.attachments, hash))).toEqual(receipt)
  restored.close()
  books.close()
})

test('a restore says what would change, changes nothing until told, and keeps the books of before', () => {
  const place = placeIn('a')
  const books = busyBooks(place.file)
  const target = join(folder, 'copy.sqlite')
  expect(backUpToFile(books, target, place)).toMatchObject({ ok: true })
  const before = everything(books)
  const more = fc.sample(anyCommand, { seed: 12, numRuns: 20 })
  carryOut(books, listAccounts(books), more)
  const after = everything(books)
  books.close()
  const result = prepareRestore(target, place)
  if (!result.ok) throw new Error(result.problem.message)
  const { comparison } = result.prepared
  if (!comparison?.readable) throw new Error('not compared')
  const gone = comparison.tables
    .filter((row) => row.what.startsWith('entries'))
    .reduce((sum, row) => sum + row.gone, 0)
  expect(gone).toBe(after.entries!.length - before.entries!.length)
  const still = openBooksOrThrow(place.file, { now })
  expect(everything(still)).toEqual(after)
  expect(result.prepared.carryOut()).toMatchObject({ ok: false, problem: { kind: 'busy' } })
  expect(everything(still)).toEqual(after)
  still.close()
  const done = result.prepared.carryOut()
  if (!done.ok) throw new Error(done.problem.message)
  const [restored, kept] = [
    openBooksOrThrow(place.file, { now }),
    openBooksOrThrow(done.keptBefore!, { now }),
  ]
  expect(everything(restored)).toEqual(before)
  expect(everything(kept)).toEqual(after)
  restored.close()
  kept.close()
})

test('a wrong passphrase, a cut file, a changed byte and a file of another kind are refused, the books untouched', () => {
  const place = placeIn('a')
  const books = busyBooks(place.file)
  const state = everything(books)
  const sealed = join(folder, 'copy.dooryard')
  backUpToFile(books, sealed, { ...place, passphrase: 'six words that nobody knows', sealCost })
  const plain = join(folder, 'copy.sqlite')
  backUpToFile(books, plain, place)
  const refusal = (path: string, passphrase?: string) => {
    const result = prepareRestore(path, passphrase ? { ...place, passphrase } : place)
    if (result.ok) throw new Error(`${path} was accepted`)
    return result.problem.kind
  }
  expect(refusal(sealed)).toBe('wrong-passphrase')
  expect(refusal(sealed, 'another passphrase')).toBe('wrong-passphrase')
  const bytes = readFileSync(sealed)
  bytes[bytes.length >> 1]! ^= 1
  writeFileSync(join(folder, 'changed.dooryard'), bytes)
  expect(refusal(join(folder, 'changed.dooryard'), 'six words that nobody knows')).toBe('wrong-passphrase')
  writeFileSync(join(folder, 'cut.dooryard'), bytes.subarray(0, 30))
  expect(refusal(join(folder, 'cut.dooryard'), 'six words that nobody knows')).toBe('wrong-passphrase')
  truncateSync(plain, 20_000)
  expect(refusal(plain)).toBe('damaged')
  writeFileSync(join(folder, 'notes.txt'), 'Dear diary')
  expect(refusal(join(folder, 'notes.txt'))).toBe('not-books')
  writeFileSync(join(folder, 'notes.json'), '{"format": "other"}')
  expect(refusal(join(folder, 'notes.json'))).toBe('not-books')
  writeFileSync(join(folder, 'cut.json'), '{"format": "dooryard-bo')
  expect(refusal(join(folder, 'cut.json'))).toBe('damaged')
  expect(refusal(join(folder, 'nowhere.sqlite'))).toBe('missing')
  expect(refusal(folder)).toBe('not-books')
  expect(everything(books)).toEqual(state)
  expect(existsSync(`${place.file}.restoring`)).toBe(false)
  books.close()
})

test('an export whose amounts were changed is refused by the guards, whatever is changed', () => {
  const place = placeIn('a')
  const books = busyBooks(place.file)
  const target = join(folder, 'copy.json')
  exportBooks(books.sqlite, target, place)
  books.close()
  const exported = JSON.parse(readFileSync(target, 'utf8'))
  const refusedWith = (
    change: (
      tables: Record<string, { columns: string[]; rows: unknown[][] }>,
      whole: typeof exported,
    ) => void,
  ) => {
    const copy = structuredClone(exported)
    change(Object.fromEntries(copy.tables.map((table: { name: string }) => [table.name, table])), copy)
    writeFileSync(join(folder, 'changed.json'), JSON.stringify(copy))
    const result = prepareRestore(join(folder, 'changed.json'), placeIn('b'))
    return result.ok ? 'accepted' : result.problem.kind
  }
  const amountAt = exported.tables
    .find((table: { name: string }) => table.name === 'postings')
    .columns.indexOf('amount_cents')
  expect(refusedWith(() => {})).toBe('accepted')
  expect(
    refusedWith((tables) => {
      ;(tables.postings!.rows[0]![amountAt] as number) += 1
    }),
  ).toBe('damaged')
  expect(
    refusedWith((tables) => {
      tables.postings!.rows[0]![amountAt] = '12'
    }),
  ).toBe('damaged')
  expect(
    refusedWith((tables) => {
      tables.postings!.rows.pop()
    }),
  ).toBe('damaged')
  expect(
    refusedWith((tables) => {
      tables.sealed_entries!.rows.pop()
    }),
  ).toBe('damaged')
  expect(
    refusedWith((tables) => {
      tables.crossings!.rows = []
    }),
  ).toBe('damaged')
  expect(
    refusedWith((tables) => {
      tables.sides!.columns[0] = 'id"; DROP TABLE sides; --'
    }),
  ).toBe('damaged')
  expect(
    refusedWith((tables) => {
      tables.sides!.rows[0]!.pop()
    }),
  ).toBe('damaged')
  expect(
    refusedWith((_, whole) => {
      whole.version = 99
    }),
  ).toBe('newer')
  expect(
    refusedWith((_, whole) => {
      whole.structure += 1e12
    }),
  ).toBe('newer')
})

test('what was sealed opens with the passphrase only, and two seals of the same bytes differ', () => {
  const plain = join(folder, 'plain')
  // More than one piece, so that the seam is met.
  writeFileSync(plain, Buffer.alloc(9_000_000, 'the whole farm '))
  const sealed = (name: string, cost?: SealCost) => {
    sealFile(plain, join(folder, name), 'passphrase one', cost)
    return readFileSync(join(folder, name))
  }
  const [one, two] = [sealed('one'), sealed('two', sealCost)]
  expect([...one.subarray(8, 11)]).toEqual([17, 8, 1])
  expect(one.equals(two)).toBe(false)
  const back = join(folder, 'back')
  expect(unsealFile(join(folder, 'one'), back, 'passphrase one')).toBeNull()
  expect(readFileSync(back).equals(readFileSync(plain))).toBe(true)
  rmSync(back)
  expect(unsealFile(join(folder, 'two'), back, 'passphrase two')).toMatchObject({ kind: 'wrong-passphrase' })
  one[8] = 63
  writeFileSync(join(folder, 'greedy'), one)
  expect(unsealFile(join(folder, 'greedy'), back, 'passphrase one')).toMatchObject({
    message: expect.stringContaining('head'),
  })
  expect(existsSync(back)).toBe(false)
})

test('the export leaves no table of the file out', () => {
  const books = freshBooks()
  const tables = books.sqlite
    .prepare(
      "SELECT name FROM sqlite_schema WHERE type = 'table' AND name NOT LIKE 'sqlite_%' AND name NOT LIKE '\\_\\_drizzle%' ESCAPE '\\' AND name NOT LIKE 'entry_search_%'",
    )
    .pluck()
    .all() as string[]
  expect(tables.sort()).toEqual([...exportedTables.map((table) => table.name), ...derivedTables].sort())
})
