// kill -9 while receipts are kept and copied: what was acknowledged is there with its content, nothing half made stays.
import { mkdtempSync, readdirSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterAll, expect, test } from 'vitest'
import { listBackups } from '#db/backup/backup.ts'
import { dataPlace } from '#db/data-place.ts'
import { tidyPlace } from '#db/half.ts'
import { readHash } from '#db/ledger/attachment-files.ts'
import { openBooksOrThrow } from '#db/open.ts'
import { verifyBooks } from '#db/verify/verify.ts'
import { freshBooks } from '../db/fresh-books.ts'
import { fewOrAll } from '../fuzz/batches.ts'
import { randomKills, runAndKill } from './run-and-kill.ts'

const folder = mkdtempSync(join(tmpdir(), 'dooryard-receipts-'))
afterAll(() => {
  rmSync(folder, { recursive: true, force: true })
})
const rounds = fewOrAll(5, 40)

test(`receipts killed ${rounds} times: those acknowledged are there, and in the copies, with their content`, {
  timeout: 60_000 + 10_000 * rounds,
}, async () => {
  const place = dataPlace({ data: join(folder, 'books'), env: {} })
  freshBooks(place.file).close()
  const kept = new Set<string>()
  const copied = new Set<string>()
  // Each life says `ready`, then `kept` and `copied` in turns: how far it comes past the lines that its kill waits for is up to the
  // machine, but those lines were said, so that what they acknowledge is counted to the last one.
  const waitedFor = { kept: 0, copied: 0 }
  const kills = randomKills(1501, 160, 5)
  for (let round = 0; round < rounds; round += 1) {
    const kill = kills.next().value
    waitedFor.kept += Math.floor(kill.afterLines / 2)
    waitedFor.copied += Math.floor((kill.afterLines - 1) / 2)
    for (const line of await runAndKill('receipt-writer.ts', [place.file, `r${round}`], kill)) {
      const [what, hash] = line.split(' ') as [string, string]
      ;(what === 'kept' ? kept : copied).add(hash)
    }
    tidyPlace(place)
    const names = readdirSync(place.folder, { recursive: true, encoding: 'utf8' })
    expect(names.filter((name) => name.includes('.half'))).toEqual([])
  }
  const beside = join(place.backups, 'attachments')
  expect([...kept].filter((hash) => readHash(place.attachments)(hash) !== hash)).toEqual([])
  expect([...copied].filter((hash) => readHash(beside)(hash) !== hash)).toEqual([])
  const books = openBooksOrThrow(place.file, { now: new Date(0) })
  expect(verifyBooks(books.sqlite, readHash(place.attachments)).findings).toEqual([])
  const named = books.sqlite.prepare('SELECT content_hash FROM attachments').pluck().all() as string[]
  expect(new Set(named).size).toBe(named.length)
  expect([...kept].filter((hash) => !named.includes(hash))).toEqual([])
  books.close()
  expect(waitedFor.copied).toBeGreaterThan(rounds / 5)
  expect(kept.size).toBeGreaterThanOrEqual(waitedFor.kept)
  expect(copied.size).toBeGreaterThanOrEqual(waitedFor.copied)
  expect(listBackups(place.backups).length).toBeGreaterThan(Math.min(5, rounds / 5))
})
