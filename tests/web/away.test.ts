// The books file is moved, deleted, replaced, written over or damaged while it is open: writing stops in words, nothing is lost.
import {
  appendFileSync,
  closeSync,
  copyFileSync,
  existsSync,
  mkdirSync,
  openSync,
  readFileSync,
  renameSync,
  rmSync,
  statSync,
  truncateSync,
  writeFileSync,
  writeSync,
} from 'node:fs'
import { dirname, join } from 'node:path'
import { afterEach, beforeEach, expect, test } from 'vitest'
import { backUpTo } from '#db/backup/backup.ts'
import { listAccounts } from '#db/ledger/account-store.ts'
import { postEntry } from '#db/ledger/ledger-store.ts'
import { type Books, openBooksOrThrow } from '#db/open.ts'
import { verifyBooks } from '#db/verify/verify.ts'
import { moneyOut } from '#ledger/simple-entry.ts'
import { cents } from '#money/cents.ts'
import { freshBooks } from '../db/fresh-books.ts'
import { type TestApp, testApp } from './test-app.ts'

let app: TestApp
let folder: string
let path: string
let forms = 0
const formId = () => `00000000-0000-4000-8000-${String(++forms).padStart(12, '0')}`

beforeEach(() => {
  app = testApp({ today: '2026-03-15', onDisk: true })
  app.openSides()
  path = app.books.path
  folder = dirname(path)
  post(app.books, 'Country store')
})
afterEach(() => {
  mkdirSync(folder, { recursive: true })
  app.close()
})

const post = (books: Books, payee: string) => {
  const account = (name: string) =>
    listAccounts(books).find((one) => one.sideId === 'farm' && one.name === name)!.id
  const head = { id: '', sideId: 'farm', day: '2026-01-05' as never, payee, memo: '' }
  const lines = [{ accountId: account('Supplies'), amountCents: cents(3200) }]
  const act = { formId: formId(), at: '2026-03-15T12:00:00Z', actor: 'test' }
  return postEntry(books, act, moneyOut(head, account('Farm checking'), lines))
}
const payeesIn = (file: string) => {
  const books = openBooksOrThrow(file, { now: new Date(0), mustExist: true })
  expect(verifyBooks(books.sqlite).findings).toEqual([])
  const payees = books.sqlite.prepare('SELECT payee FROM entries ORDER BY no').pluck().all()
  books.close()
  return payees
}
const addAccount = () => app.post('/settings/accounts', { formId: formId(), name: 'Orchard' })
const otherBooks = () => {
  const other = join(folder, 'elsewhere', 'books.sqlite')
  freshBooks(other).close()
  return other
}

const ways: readonly [string, () => void, RegExp][] = [
  ['deleted', () => rmSync(path), /was moved or deleted while it is open here/],
  [
    'deleted with its log',
    () => {
      for (const suffix of ['', '-wal', '-shm']) rmSync(path + suffix)
    },
    /was moved or deleted/,
  ],
  ['moved', () => renameSync(path, `${path}.old`), /was moved or deleted/],
  ['gone with its folder', () => renameSync(folder, `${folder}-old`), /was moved or deleted/],
  ['replaced', () => renameSync(otherBooks(), path), /Another file was put at .*books\.sqlite/],
  ['without its log', () => rmSync(`${path}-wal`), /The log of .* was taken away/],
]

test.for(ways)(
  '%s: every page and form says so, nothing is called stored, all can be saved',
  async ([, take, says]) => {
    take()
    const page = await app.get('/now')
    expect(page.status).toBe(200)
    const text = await page.text()
    expect(text).toContain('Nothing is stored now')
    expect(text).toMatch(says)
    const refused = await addAccount()
    expect(refused.status).toBe(503)
    expect(await refused.text()).toMatch(says)
    expect(() => post(app.books, 'Lost')).toThrow(says)
    const sent = await app.post('/settings/backups/file', { formId: formId(), kind: 'plain' })
    const saved = `${folder}-saved.sqlite`
    writeFileSync(saved, Buffer.from(await sent.arrayBuffer()))
    expect(payeesIn(saved)).toEqual(['Country store'])
    rmSync(saved)
    rmSync(`${folder}-old`, { recursive: true, force: true })
  },
)

test('written over in place by an older copy: noticed before the next write', async () => {
  const copy = join(folder, 'copy.sqlite')
  backUpTo(app.books, copy)
  post(app.books, 'Mill')
  app.books.sqlite.pragma('wal_checkpoint(TRUNCATE)')
  post(app.books, 'Feed')
  copyFileSync(copy, path)
  expect((await addAccount()).status).toBe(503)
  expect(await (await app.get('/now')).text()).toMatch(/was (written over|moved)/)
})

test('put back as it was, writing goes on', async () => {
  renameSync(path, `${path}.old`)
  expect(() => post(app.books, 'Lost')).toThrow()
  renameSync(`${path}.old`, path)
  expect(post(app.books, 'Mill')).toMatchObject({ ok: true })
  app.books.close()
  expect(payeesIn(path)).toEqual(['Country store', 'Mill'])
})

test('another Dooryard that writes beside this one is no reason to stop', () => {
  const other = openBooksOrThrow(path, { now: new Date(0) })
  for (let turn = 0; turn < 5; turn += 1) {
    expect(post(other, 'Command')).toMatchObject({ ok: true })
    if (turn % 2) other.sqlite.pragma('wal_checkpoint(TRUNCATE)')
    expect(post(app.books, 'Page')).toMatchObject({ ok: true })
  }
  other.close()
  expect(post(app.books, 'Page')).toMatchObject({ ok: true })
})

test('closing does not touch the log of the file that was put in its place', () => {
  renameSync(otherBooks(), path)
  for (const suffix of ['-wal', '-shm']) rmSync(path + suffix)
  const other = openBooksOrThrow(path, { now: new Date(0) })
  post(other, 'In the other file')
  const log = statSync(`${path}-wal`).size
  app.books.close()
  expect(existsSync(`${path}-wal`) && statSync(`${path}-wal`).size).toBe(log)
  other.close()
  expect(payeesIn(path)).toEqual(['In the other file'])
})

test('damaged pages are found by looking through them; then nothing more is written, and the way back is said', async () => {
  expect(app.books.standing.checkPages('quick_check')).toBeNull()
  const index = app.books.sqlite
    .prepare("SELECT rootpage FROM sqlite_schema WHERE name = 'postings'")
    .pluck()
    .get() as number
  const { page_size: size } = (app.books.sqlite.pragma('page_size') as { page_size: number }[])[0]!
  app.books.sqlite.pragma('wal_checkpoint(TRUNCATE)')
  app.books.close()
  const handle = openSync(path, 'r+')
  writeSync(handle, Buffer.alloc(size, 0x5a), 0, size, (index - 1) * size)
  closeSync(handle)
  const books = openBooksOrThrow(path, { now: new Date(0) })
  expect(books.standing.checkPages('quick_check')).toMatchObject({
    kind: 'damaged',
    message: expect.stringMatching(/is damaged .*nothing more is written to it\. Restore the latest backup/),
  })
  expect(() => post(books, 'Onto damage')).toThrow(/is damaged/)
  books.close()
})

test('a log that was cut while it is open is no log of ours', () => {
  appendFileSync(`${path}-wal`, '')
  expect(app.books.standing.problem()).toBeNull()
  truncateSync(`${path}-wal`, 32)
  expect(app.books.standing.problem()?.message).toMatch(/was written over/)
  expect(readFileSync(`${path}-wal`).length).toBe(32)
})
