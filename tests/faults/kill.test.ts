// kill -9 at random points: what was acknowledged is there once, nothing is there by half, copies that were announced verify.
import { mkdtempSync, readdirSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import Database from 'better-sqlite3'
import { afterAll, expect, test } from 'vitest'
import { openBooksOrThrow } from '#db/open.ts'
import { verifyBooks } from '#db/verify/verify.ts'
import { freshBooks } from '../db/fresh-books.ts'
import { fewOrAll } from '../fuzz/batches.ts'
import { randomKills, runAndKill } from './run-and-kill.ts'

const folder = mkdtempSync(join(tmpdir(), 'dooryard-faults-'))
afterAll(() => {
  rmSync(folder, { recursive: true, force: true })
})

const rounds = fewOrAll(10, 60)

test(`a writer killed ${rounds} times loses nothing it acknowledged and leaves nothing half`, {
  timeout: 60_000 + 10_000 * rounds,
}, async () => {
  const path = join(folder, 'books.sqlite')
  freshBooks(path).close()
  const acknowledged = new Set<string>()
  const kills = randomKills(4610, 90)
  for (let round = 0; round < rounds; round += 1) {
    const lines = await runAndKill('writer.ts', [path, `r${round}`], kills.next().value)
    for (const line of lines) if (line.startsWith('done ')) acknowledged.add(line.slice(5))
    for (const line of lines.filter((one) => one.startsWith('copy '))) {
      const copy = new Database(line.slice(5), { readonly: true })
      expect(verifyBooks(copy).findings).toEqual([])
      copy.close()
    }
    if (round % 10 === 9) {
      const books = openBooksOrThrow(path, { now: new Date(0) })
      expect(verifyBooks(books.sqlite).findings).toEqual([])
      const ids = books.sqlite
        .prepare("SELECT id FROM submissions WHERE kind <> 'side.add'")
        .pluck()
        .all() as string[]
      const lost = [...acknowledged].filter((id) => !ids.includes(id))
      expect(lost).toEqual([])
      const twice = books.sqlite
        .prepare('SELECT count(*) FROM (SELECT id FROM entries GROUP BY id HAVING count(*) > 1)')
        .pluck()
        .get()
      expect(twice).toBe(0)
      const posted = books.sqlite
        .prepare("SELECT count(*) FROM entries WHERE source = 'form'")
        .pluck()
        .get() as number
      const crossed = books.sqlite
        .prepare("SELECT count(*) FROM entries WHERE source = 'crossing'")
        .pluck()
        .get() as number
      expect(posted + crossed / 2).toBe(ids.length)
      books.close()
    }
  }
  expect(acknowledged.size).toBeGreaterThan(fewOrAll(rounds / 3, rounds))
  for (const file of readdirSync(folder).filter((name) => name.endsWith('.copy'))) rmSync(join(folder, file))
})
