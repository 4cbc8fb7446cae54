// Where things lie on disk: whose they are, what a killed process leaves, where copies go and what they hold.
import { spawnSync } from 'node:child_process'
import { randomUUID } from 'node:crypto'
import {
  chmodSync,
  existsSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  statSync,
  writeFileSync,
} from 'node:fs'
import { tmpdir } from 'node:os'
import { dirname, join } from 'node:path'
import { afterEach, beforeEach, expect, test } from 'vitest'
import { addDays } from '#calendar/day.ts'
import { backUpToFile } from '#db/backup/backup-file.ts'
import { backUpDaily } from '#db/backup/daily-copy.ts'
import { exportBooks } from '#db/backup/export.ts'
import { prepareRestore } from '#db/backup/restore.ts'
import { dataPlace } from '#db/data-place.ts'
import { halfOf, tidyPlace } from '#db/half.ts'
import { listAccounts } from '#db/ledger/account-store.ts'
import { attachmentPath } from '#db/ledger/attachment-files.ts'
import { addAttachment, removeAttachment } from '#db/ledger/attachment-store.ts'
import { postEntry } from '#db/ledger/ledger-store.ts'
import { openBooksOrThrow } from '#db/open.ts'
import { moneyOut } from '#ledger/simple-entry.ts'
import { cents } from '#money/cents.ts'
import { freshBooks, on, sealCost, type TestBooks } from './fresh-books.ts'

let folder: string
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'dooryard-test-'))
})
afterEach(() => {
  rmSync(folder, { recursive: true, force: true })
})

const now = new Date('2026-02-01T08:00:00Z')
const placeOf = (data: string) => dataPlace({ data: join(folder, data), env: {} })
const everyFile = (at: string): string[] =>
  readdirSync(at, { withFileTypes: true }).flatMap((one) =>
    one.isDirectory() ? everyFile(join(at, one.name)) : [join(at, one.name)],
  )
const modeOf = (path: string) => (statSync(path).mode & 0o777).toString(8)

/** A receipt on an entry of its own, kept as the page keeps it. */
const withReceipt = (books: TestBooks, text: string): string => {
  const act = { formId: randomUUID(), at: '2026-01-05T12:00:00Z', actor: 'test' }
  const account = (name: string) =>
    listAccounts(books).find((one) => one.sideId === 'farm' && one.name === name)!.id
  const head = { id: '', sideId: 'farm', day: on('2026-01-05'), payee: 'Country store', memo: '' }
  const lines = [{ accountId: account('Supplies'), amountCents: cents(3200) }]
  const posted = postEntry(books, act, moneyOut(head, account('Farm checking'), lines))
  if (!posted.ok) throw new Error(JSON.stringify(posted))
  const bytes = Buffer.from(text)
  const added = addAttachment(
    books,
    { ...act, formId: randomUUID() },
    join(dirname(books.path), 'attachments'),
    {
      entryId: posted.result.entryId,
      fileName: 'receipt.pdf',
      bytes,
    },
  )
  if (!added.ok) throw new Error(JSON.stringify(added))
  return added.result.contentHash
}

test('--data takes a folder or a file: what is there says which, what is not yet goes by its name', () => {
  mkdirSync(join(folder, 'farm.db'))
  writeFileSync(join(folder, 'ledger'), '')
  expect(placeOf('farm.db').file).toBe(join(folder, 'farm.db', 'books.sqlite'))
  expect(placeOf('ledger').file).toBe(join(folder, 'ledger'))
  expect(placeOf('x.db')).toMatchObject({ file: join(folder, 'x.db'), folder })
  expect(placeOf('x.sqlite3').file).toBe(join(folder, 'x.sqlite3'))
  expect(placeOf('year 2026').file).toBe(join(folder, 'year 2026', 'books.sqlite'))
})

test('only the own copies of a file are let go, not those of a file with a longer name', () => {
  const place = placeOf('a')
  const books = freshBooks(place.file)
  mkdirSync(place.backups)
  const others = ['books-old-2024-06-03.sqlite', 'books-old-before-migration-2024-01-01T00-00-00-000Z.sqlite']
  const mine = Array.from({ length: 9 }, (_, day) => `books-2024-0${day + 1}-03.sqlite`)
  const kept = ['books-2024-02-03.sqlite.txt', 'books-before-restore-2024-01-01T00-00-00-000Z.sqlite']
  for (const name of [...others, ...mine, ...kept]) writeFileSync(join(place.backups, name), name)
  for (let day = 0; day < 8; day += 1)
    expect(backUpDaily(books, place.backups, addDays(on('2026-02-01'), day * 40))).toMatchObject({ ok: true })
  const left = readdirSync(place.backups)
  expect(left).toEqual(expect.arrayContaining([...others, ...kept]))
  expect(mine.filter((name) => left.includes(name)).length).toBeLessThan(9)
  books.close()
})

test('a backup goes only where a folder is: an unplugged stick becomes no folder', () => {
  const place = placeOf('a')
  const books = freshBooks(place.file)
  const nowhere = join(folder, 'stick')
  for (const made of [
    backUpToFile(books, join(nowhere, 'copy.sqlite'), place),
    backUpToFile(books, join(nowhere, 'copy.dooryard'), {
      ...place,
      passphrase: 'six words of ours',
      sealCost,
    }),
    exportBooks(books.sqlite, join(nowhere, 'copy.json'), { ...place, now }),
  ]) {
    expect(made).toMatchObject({ ok: false, problem: { kind: 'missing' } })
    expect(made.ok ? '' : made.problem.message).toMatch(/There is no folder .*stick\. Put the stick in/)
  }
  expect(existsSync(nowhere)).toBe(false)
  books.close()
})

test('daily copies hold the receipts: one that is lost or spoiled comes back with the copy', () => {
  const place = placeOf('a')
  const books = freshBooks(place.file)
  const [lost, spoiled] = ['%PDF-1.4 row cover', '%PDF-1.4 lime'].map((text) => withReceipt(books, text)) as [
    string,
    string,
  ]
  expect(backUpDaily(books, place.backups, on('2026-02-01'))).toMatchObject({ ok: true })
  const late = withReceipt(books, '%PDF-1.4 twine')
  expect(backUpDaily(books, place.backups, on('2026-02-01'))).toMatchObject({ ok: true })
  const beside = join(place.backups, 'attachments')
  expect(existsSync(attachmentPath(beside, late))).toBe(true)
  books.close()
  rmSync(attachmentPath(place.attachments, lost))
  writeFileSync(attachmentPath(place.attachments, spoiled), 'x')
  const prepared = prepareRestore(join(place.backups, 'books-2026-02-01.sqlite'), { ...place, now })
  if (!prepared.ok) throw new Error(prepared.problem.message)
  expect(prepared.prepared.receiptsMissing).toBe(0)
  expect(existsSync(attachmentPath(place.attachments, lost))).toBe(false)
  expect(prepared.prepared.carryOut()).toMatchObject({ ok: true })
  expect(readFileSync(attachmentPath(place.attachments, lost), 'utf8')).toBe('%PDF-1.4 row cover')
  expect(readFileSync(attachmentPath(place.attachments, spoiled), 'utf8')).toBe('%PDF-1.4 lime')
})

test('a daily copy that lacks a receipt says so, whether or not the copy itself was made', () => {
  const place = placeOf('a')
  const books = freshBooks(place.file)
  const hash = withReceipt(books, '%PDF-1.4 row cover')
  rmSync(attachmentPath(place.attachments, hash))
  for (let hour = 0; hour < 2; hour += 1)
    expect(backUpDaily(books, place.backups, on('2026-02-01'))).toMatchObject({
      ok: false,
      problem: {
        message: expect.stringMatching(/A receipt that the books name is missing in .*attachments/),
      },
    })
  expect(existsSync(join(place.backups, 'books-2026-02-01.sqlite'))).toBe(true)
  const id = books.sqlite.prepare('SELECT id FROM attachments').pluck().get() as string
  removeAttachment(books, { formId: randomUUID(), at: '2026-02-02T12:00:00Z', actor: 'test' }, id)
  expect(backUpDaily(books, place.backups, on('2026-02-01'))).toMatchObject({ ok: true })
  expect(backUpDaily(books, place.backups, on('2026-02-01'))).toBeNull()
  books.close()
})

test.for(['copy.sqlite', 'copy.dooryard', 'copy.json'])(
  'the receipts of %s are put among the kept ones only when the restore is carried out',
  (name) => {
    const from = placeOf('a')
    const books = freshBooks(from.file)
    const hash = withReceipt(books, '%PDF-1.4 row cover')
    const passphrase = 'six words of ours'
    const target = join(folder, name)
    const made = name.endsWith('.json')
      ? exportBooks(books.sqlite, target, { ...from, now })
      : backUpToFile(books, target, name.endsWith('.dooryard') ? { ...from, passphrase, sealCost } : from)
    expect(made).toMatchObject({ ok: true })
    books.close()
    const to = placeOf('b')
    const prepared = prepareRestore(target, { ...to, now, passphrase })
    if (!prepared.ok) throw new Error(prepared.problem.message)
    expect(existsSync(to.attachments)).toBe(false)
    prepared.prepared.forget()
    expect(readdirSync(to.folder)).toEqual([])
    const again = prepareRestore(target, { ...to, now, passphrase })
    if (!again.ok) throw new Error(again.problem.message)
    expect(again.prepared.carryOut()).toMatchObject({ ok: true })
    expect(readFileSync(attachmentPath(to.attachments, hash), 'utf8')).toBe('%PDF-1.4 row cover')
    expect(readdirSync(to.folder).sort()).toEqual(['attachments', 'books.sqlite'])
  },
)

test('a log that outlived its file is not taken for that of the restored one', () => {
  const place = placeOf('a')
  const books = freshBooks(place.file)
  const target = join(folder, 'copy.sqlite')
  expect(backUpToFile(books, target, place)).toMatchObject({ ok: true })
  books.sqlite.exec("UPDATE sides SET name = 'Elsewhere' WHERE id = 'farm'")
  const log = readFileSync(`${place.file}-wal`)
  books.close()
  rmSync(place.file)
  writeFileSync(`${place.file}-wal`, log)
  const prepared = prepareRestore(target, { ...place, now })
  if (!prepared.ok) throw new Error(prepared.problem.message)
  expect(prepared.prepared.carryOut()).toMatchObject({ ok: true })
  const restored = openBooksOrThrow(place.file, { now })
  const name = restored.sqlite.prepare("SELECT name FROM sides WHERE id = 'farm'").pluck().get()
  expect(name).not.toBe('Elsewhere')
  restored.close()
  expect(readdirSync(place.backups)).toEqual([expect.stringMatching(/^books-before-restore-.*-wal$/)])
})

test('a log that outlived its file is set aside, not thrown away, when new books are begun', () => {
  const place = placeOf('a')
  const books = freshBooks(place.file)
  const log = readFileSync(`${place.file}-wal`)
  books.close()
  rmSync(place.file)
  writeFileSync(`${place.file}-wal`, log)
  openBooksOrThrow(place.file, { now }).close()
  const left = readdirSync(place.folder).filter((name) => name.includes('-left-'))
  expect(left).toEqual(['books.sqlite-left-2026-02-01T08-00-00-000Z-wal'])
  expect(readFileSync(join(place.folder, left[0]!)).equals(log)).toBe(true)
})

test('what a killed process left half made is tidied, wherever it was; what is being made now is not', () => {
  const place = placeOf('a')
  const stick = join(folder, 'stick')
  for (const at of [place.folder, place.backups, join(place.attachments, 'ab'), stick])
    mkdirSync(at, { recursive: true })
  const ended = spawnSync(process.execPath, ['-e', '']).pid
  const left = (path: string) => `${path}.${ended}-0123abcd.half`
  const hash = 'ab'.repeat(32)
  const gone = [
    left(join(place.folder, 'copy')),
    `${left(join(place.folder, 'copy'))}-journal`,
    left(place.file),
    left(join(place.backups, 'books-2026-02-01.sqlite')),
    left(join(place.attachments, 'ab', hash)),
    left(join(stick, 'copy.dooryard')),
    // As an older Dooryard left them.
    `${place.file}.restoring`,
    `${place.file}.restoring-wal`,
    join(place.backups, 'books-2026-02-01.sqlite.half'),
    join(place.attachments, 'ab', `${hash}.half`),
    // By an earlier process of the same number.
    join(place.folder, `copy.${process.pid}-0123abcd.half`),
  ]
  const stays = [
    halfOf(join(place.folder, 'copy')),
    join(place.folder, `copy.${process.ppid}-0123abcd.half`),
    join(stick, 'mine.half'),
    `${place.file}.restoring notes`,
    join(place.backups, 'books-old-2026-02-01.sqlite.half'),
    join(place.folder, 'second.half'),
    place.file,
  ]
  for (const path of [...gone, ...stays]) writeFileSync(path, 'x')
  writeFileSync(left(join(place.folder, 'note-1')), left(join(stick, 'copy.dooryard')))
  tidyPlace(place)
  expect(gone.filter((path) => existsSync(path))).toEqual([])
  expect(stays.filter((path) => !existsSync(path))).toEqual([])
  expect(readdirSync(place.folder).filter((name) => name.startsWith('note'))).toEqual([])
})

test('what is written is for this user only, and what lay open before is closed', () => {
  const place = placeOf('a')
  const command = (...args: string[]) => {
    const run = spawnSync(process.execPath, ['src/start.mjs', ...args], { encoding: 'utf8' })
    expect(run.stderr).toBe('')
  }
  freshBooks(place.file).close()
  chmodSync(place.file, 0o644)
  mkdirSync(place.backups, { mode: 0o755 })
  const copy = join(folder, 'copy.sqlite')
  command('backup', copy, '--data', place.folder)
  expect(modeOf(copy)).toBe('600')
  expect(modeOf(place.backups)).toBe('700')
  const to = placeOf('b')
  command('restore', copy, '--yes', '--data', to.folder)
  expect(modeOf(to.folder)).toBe('700')
  const files = [...everyFile(to.folder), ...everyFile(join(folder, 'a'))]
  expect(files.length).toBeGreaterThan(1)
  expect(files.filter((file) => modeOf(file) !== '600')).toEqual([])
})
