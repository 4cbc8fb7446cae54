// kill -9 at random points: what was acknowledged is there once, nothing is there by half, copies that were announced verify.
import { spawn } from 'node:child_process'
import { mkdtempSync, readdirSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import Database from 'better-sqlite3'
import { afterAll, expect, test } from 'vitest'
import { openBooksOrThrow } from '#db/open.ts'
import { verifyBooks } from '#db/verify.ts'
import { freshBooks } from '../db/fresh-books.ts'

const folder = mkdtempSync(join(tmpdir(), 'dooryard-faults-'))
afterAll(() => {
  rmSync(folder, { recursive: true, force: true })
})

/** Starts the writer, lets it live a while after it is ready, kills it hard; what it acknowledged. */
const runAndKill = async (path: string, run: string, milliseconds: number): Promise<string[]> => {
  const child = spawn(
    process.execPath,
    ['--import', 'tsx', join(import.meta.dirname, 'writer.ts'), path, run],
    {
      stdio: ['ignore', 'pipe', 'inherit'],
      cwd: join(import.meta.dirname, '../..'),
    },
  )
  let said = ''
  let armed = false
  child.stdout.on('data', (chunk: Buffer) => {
    said += chunk.toString()
    if (!armed && said.includes('ready')) {
      armed = true
      setTimeout(() => child.kill('SIGKILL'), milliseconds)
    }
  })
  await new Promise((resolve) => child.on('close', resolve))
  // Only whole lines were acknowledged.
  return said.split('\n').slice(0, -1)
}

test('a writer killed 50 times loses nothing it acknowledged and leaves nothing half', {
  timeout: 170_000,
}, async () => {
  const path = join(folder, 'books.sqlite')
  freshBooks(path).close()
  const acknowledged = new Set<string>()
  let seed = 4610
  for (let round = 0; round < 50; round += 1) {
    seed = (seed * 48_271) % 2_147_483_647
    const lines = await runAndKill(path, `r${round}`, seed % 120)
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
  expect(acknowledged.size).toBeGreaterThan(50)
  for (const file of readdirSync(folder).filter((name) => name.endsWith('.copy'))) rmSync(join(folder, file))
})
