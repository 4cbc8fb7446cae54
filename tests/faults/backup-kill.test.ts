// kill -9 while backups are written: one that was acknowledged opens and holds everything, a half one is never taken for a whole.
import { existsSync, mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, statSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterAll, expect, test } from 'vitest'
import { prepareRestore } from '#db/backup/restore.ts'
import { dataPlace } from '#db/data-place.ts'
import { tidyPlace } from '#db/half.ts'
import { openBooksOrThrow } from '#db/open.ts'
import { verifyBooks } from '#db/verify/verify.ts'
import { freshBooks } from '../db/fresh-books.ts'
import { fewOrAll } from '../fuzz/batches.ts'
import { randomKills, runAndKill } from './run-and-kill.ts'

const folder = mkdtempSync(join(tmpdir(), 'dooryard-backups-'))
afterAll(() => {
  rmSync(folder, { recursive: true, force: true })
})
const rounds = fewOrAll(8, 50)
const passphrase = 'six words that nobody knows'
const place = dataPlace({ data: join(folder, 'books'), env: {} })
const stick = join(place.folder, 'stick')

const half = /\.half(-journal)?$/
const namesAt = (at: string) => readdirSync(at).map((name) => join(at, name))
const isClear = (path: string) => readFileSync(path).includes('Seed house')

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

test(`backups killed ${rounds} times: whole and acknowledged, or not taken for one, and nothing left in the clear`, {
  timeout: 15_000 * rounds,
}, async () => {
  for (const at of [place.folder, place.backups, stick]) mkdirSync(at)
  freshBooks(place.file).close()
  const kills = randomKills(29, 120)
  const acknowledged = new Map<string, number>()
  let halves = 0
  for (let round = 0; round < rounds; round += 1) {
    const kill = kills.next().value
    const isSealed = round % 4 === 3
    // Finding a key takes half a second: it is killed at any point of it, or while writing.
    const args = [place.file, `${round}`, ...(isSealed ? [passphrase] : [])]
    const lines = await runAndKill(
      'backup-writer.ts',
      args,
      isSealed ? { ...kill, milliseconds: kill.milliseconds * 4 } : kill,
    )
    for (const line of lines) {
      const [, file, count] = line.split(' ')
      acknowledged.set(file!, Number(count))
    }
    if (isSealed) expect(namesAt(stick).filter(isClear)).toEqual([])
    const left = [place.folder, place.backups, stick].flatMap(namesAt).filter((path) => half.test(path))
    if (left.length > 0) halves += 1
    tidyPlace(place)
    expect(left.filter((path) => existsSync(path))).toEqual([])
    // What is whole by its name is whole, acknowledged or not: the kill may have come between the two.
    const whole = [...namesAt(place.backups), ...namesAt(stick)].filter((path) => statSync(path).isFile())
    for (const file of whole) {
      const said = acknowledged.get(file)
      const found = entriesIn(file)
      expect(found, file).toBeGreaterThan(0)
      if (said !== undefined) expect(found, file).toBe(said)
    }
    for (const file of acknowledged.keys())
      if (!/books-\d{4}/.test(file)) expect(existsSync(file), file).toBe(true)
    for (const file of whole) rmSync(file)
    acknowledged.clear()
  }
  // A test whose kills never meet a backup in the making would prove nothing.
  expect(halves).toBeGreaterThan(rounds / 8)
  const books = openBooksOrThrow(place.file, { now: new Date(0), mustExist: true })
  expect(verifyBooks(books.sqlite).findings).toEqual([])
  books.close()
})
