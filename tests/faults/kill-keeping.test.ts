// kill -9 while months are closed, backups restored and old files migrated: each is there or not, never by half.
import { mkdirSync, mkdtempSync, readdirSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import Database from 'better-sqlite3'
import fc from 'fast-check'
import { afterAll, expect, test } from 'vitest'
import { backUpTo } from '#db/backup/backup.ts'
import { listAccounts } from '#db/ledger/account-store.ts'
import { openBooksOrThrow } from '#db/open.ts'
import { verifyBooks } from '#db/verify/verify.ts'
import { anyCommand, carryOut } from '../db/commands.ts'
import { freshBooks } from '../db/fresh-books.ts'
import { oldBooks } from '../db/old-books.ts'
import { fewOrAll } from '../fuzz/batches.ts'
import { randomKills, runAndKill } from './run-and-kill.ts'

const folder = mkdtempSync(join(tmpdir(), 'dooryard-faults-'))
afterAll(() => {
  rmSync(folder, { recursive: true, force: true })
})
const rounds = fewOrAll(5, 35)
const timeout = 60_000 + 15_000 * rounds
const now = new Date(0)

test('killed while closing and reopening: what was acknowledged is in the trace, once', {
  timeout,
}, async () => {
  const path = join(folder, 'closing.sqlite')
  freshBooks(path).close()
  const closed = new Set<string>()
  const reopened = new Set<string>()
  const kills = randomKills(11, 60)
  for (let round = 0; round < rounds; round += 1)
    for (const line of await runAndKill('keeper.ts', ['close', path, `r${round}`], kills.next().value)) {
      if (line.startsWith('closed ')) closed.add(line.slice(7))
      if (line.startsWith('reopened ')) reopened.add(line.slice(9))
    }
  const books = openBooksOrThrow(path, { now })
  expect(verifyBooks(books.sqlite).findings).toEqual([])
  const rows = books.sqlite.prepare('SELECT id, reopened_at AS reopenedAt FROM month_closings').all() as {
    id: string
    reopenedAt: string | null
  }[]
  const ids = new Set(rows.map((row) => row.id))
  expect([...closed].filter((id) => !ids.has(id))).toEqual([])
  const open = new Set(rows.filter((row) => row.reopenedAt === null).map((row) => row.id))
  expect([...reopened].filter((id) => open.has(id))).toEqual([])
  expect(open.size).toBeLessThanOrEqual(1)
  expect(closed.size).toBeGreaterThan(rounds / 6)
  books.close()
})

test('killed while restoring: the books are those of before or those of the backup, whole', {
  timeout,
}, async () => {
  const place = join(folder, 'restoring')
  mkdirSync(place)
  const path = join(place, 'books.sqlite')
  const books = freshBooks(path)
  expect(backUpTo(books, join(place, 'one.sqlite'))).toMatchObject({ ok: true })
  carryOut(books, listAccounts(books), fc.sample(anyCommand, { seed: 21, numRuns: 40 }))
  expect(backUpTo(books, join(place, 'two.sqlite'))).toMatchObject({ ok: true })
  const countOf = (file: string) => {
    const sqlite = new Database(file, { readonly: true })
    const count = sqlite.prepare('SELECT count(*) FROM postings').pluck().get()
    sqlite.close()
    return count
  }
  const either = [countOf(join(place, 'one.sqlite')), countOf(join(place, 'two.sqlite'))]
  books.close()
  let restored = 0
  const kills = randomKills(12, 250)
  for (let round = 0; round < rounds; round += 1) {
    const lines = await runAndKill('keeper.ts', ['restore', path, `r${round}`], kills.next().value)
    restored += lines.filter((line) => line.startsWith('restored')).length
    const again = openBooksOrThrow(path, { now, mustExist: true })
    expect(verifyBooks(again.sqlite).findings).toEqual([])
    again.close()
    expect(either).toContain(countOf(path))
  }
  expect(restored).toBeGreaterThan(rounds / 10)
  for (const kept of readdirSync(join(place, 'backups')).slice(0, 10))
    expect(either).toContain(countOf(join(place, 'backups', kept)))
})

test('killed while migrating: the file is of the old structure or of the new one, its rows all there', {
  timeout,
}, async () => {
  const path = join(folder, 'old.sqlite')
  oldBooks(path, 0)
  const kills = randomKills(13, 150)
  let seen = 0
  for (let round = 0; round < rounds; round += 1) {
    const lines = await runAndKill('keeper.ts', ['migrate', path, `r${round}`], kills.next().value)
    for (const file of lines.filter((line) => line.startsWith('migrating ')).map((line) => line.slice(10))) {
      const books = openBooksOrThrow(file, { now, mustExist: true })
      expect(books.sqlite.prepare('SELECT count(*) FROM postings').pluck().get()).toBe(2)
      books.close()
      seen += 1
    }
    for (const file of readdirSync(folder).filter((name) => name.startsWith('old.sqlite.')))
      rmSync(join(folder, file))
  }
  expect(seen).toBeGreaterThan(rounds / 6)
})
