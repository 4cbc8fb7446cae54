// kill -9 while backups are written: one that was acknowledged opens and holds everything, a half one is never taken for a whole.
import { existsSync, mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterAll, expect, test } from 'vitest'
import { listBackups } from '#db/backup/backup.ts'
import { backUpToFile } from '#db/backup/backup-file.ts'
import { prepareRestore } from '#db/backup/restore.ts'
import { openBooksOrThrow } from '#db/open.ts'
import { verifyBooks } from '#db/verify/verify.ts'
import { freshBooks } from '../db/fresh-books.ts'
import { randomKills, runAndKill } from './run-and-kill.ts'

const folder = mkdtempSync(join(tmpdir(), 'dooryard-backups-'))
afterAll(() => {
  rmSync(folder, { recursive: true, force: true })
})
const rounds = 40
const passphrase = 'six words that nobody knows'
const path = join(folder, 'books.sqlite')
const backups = join(folder, 'backups')
const attachments = join(folder, 'attachments')

/** Entries in a backup of any kind after a full restore into an empty place. */
const entriesIn = (backup: string): number => {
  const place = mkdtempSync(join(folder, 'restored-'))
  const file = join(place, 'books.sqlite')
  const options = { file, backups: join(place, 'b'), attachments: join(place, 'a'), now: new Date(0) }
  const result = prepareRestore(backup, backup.endsWith('.dooryard') ? { ...options, passphrase } : options)
  if (!result.ok) throw new Error(result.problem.message)
  expect(result.prepared.carryOut()).toMatchObject({ ok: true })
  const books = openBooksOrThrow(file, { now: new Date(0), mustExist: true })
  expect(verifyBooks(books.sqlite).findings).toEqual([])
  const count = books.sqlite.prepare('SELECT count(*) FROM entries').pluck().get() as number
  books.close()
  rmSync(place, { recursive: true })
  return count
}

test(`backups killed ${rounds} times: whole and acknowledged, or not taken for one`, {
  timeout: 600_000,
}, async () => {
  mkdirSync(backups)
  freshBooks(path).close()
  const kills = randomKills(29, 120)
  const acknowledged = new Map<string, number>()
  let halves = 0
  for (let round = 0; round < rounds; round += 1) {
    const kill = kills.next().value
    const isSealed = round % 10 === 9
    // Finding a key takes half a second: it is killed at any point of it, or while writing.
    const args = [path, `${round}`, ...(isSealed ? [passphrase] : [])]
    const lines = await runAndKill(
      'backup-writer.ts',
      args,
      isSealed ? { ...kill, milliseconds: kill.milliseconds * 4 } : kill,
    )
    for (const line of lines) {
      const [, file, count] = line.split(' ')
      acknowledged.set(file!, Number(count))
    }
    halves += readdirSync(backups).filter((name) => /\.(half|plain)/.test(name)).length
    // What is whole by its name is whole, acknowledged or not: the kill may have come between the two.
    const whole = listBackups(backups).map((one) => one.path)
    const exports = readdirSync(backups).filter((name) => name.endsWith('.json'))
    for (const file of [...whole, ...exports.map((name) => join(backups, name))]) {
      const said = acknowledged.get(file)
      const found = entriesIn(file)
      expect(found, file).toBeGreaterThan(0)
      if (said !== undefined) expect(found, file).toBe(said)
    }
    for (const file of acknowledged.keys())
      if (!/books-\d{4}/.test(file)) expect(existsSync(file), file).toBe(true)
    for (const name of readdirSync(backups)) if (!/\.(half|plain)/.test(name)) rmSync(join(backups, name))
    acknowledged.clear()
  }
  // A test whose kills never meet a backup in the making would prove nothing.
  expect(halves).toBeGreaterThan(rounds / 8)
  const books = openBooksOrThrow(path, { now: new Date(0), mustExist: true })
  expect(verifyBooks(books.sqlite).findings).toEqual([])
  const [left] = readdirSync(backups)
  const target = join(backups, left!.replace(/\.(half|plain).*$/, ''))
  expect(backUpToFile(books, target, { attachments })).toMatchObject({ ok: true })
  expect(readFileSync(target).subarray(0, 6).toString()).toBe('SQLite')
  books.close()
})
