// kill -9 while statements are read in and sorted: what was acknowledged is there once, no statement and no line by half.
import { spawn } from 'node:child_process'
import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterAll, expect, test } from 'vitest'
import { openBooksOrThrow } from '#db/open.ts'
import { verifyBooks } from '#db/verify.ts'
import { freshBooks } from '../db/fresh-books.ts'

const folder = mkdtempSync(join(tmpdir(), 'dooryard-imports-'))
afterAll(() => {
  rmSync(folder, { recursive: true, force: true })
})

const runAndKill = async (path: string, run: string, milliseconds: number): Promise<string[]> => {
  const child = spawn(
    process.execPath,
    ['--import', 'tsx', join(import.meta.dirname, 'import-writer.ts'), path, run],
    { stdio: ['ignore', 'pipe', 'inherit'], cwd: join(import.meta.dirname, '../..') },
  )
  let said = ''
  let armed = false
  child.stdout.on('data', (chunk: Buffer) => {
    said += chunk.toString()
    // After the first acknowledgement, however slow the machine is.
    if (!armed && said.includes('read r')) {
      armed = true
      setTimeout(() => child.kill('SIGKILL'), milliseconds)
    }
  })
  await new Promise((resolve) => child.on('close', resolve))
  return said.split('\n').slice(0, -1)
}

const kills = 20

test('imports and sortings killed twenty times are there whole and once, or not at all', {
  timeout: 600_000,
}, async () => {
  const path = join(folder, 'books.sqlite')
  freshBooks(path).close()
  const acknowledged: string[] = []
  let sortedLines = 0
  let seed = 1177
  for (let round = 0; round < kills; round += 1) {
    seed = (seed * 48_271) % 2_147_483_647
    for (const line of await runAndKill(path, `r${round}`, seed % 150)) {
      const [what, id, count] = line.split(' ')
      if (what === 'ready') continue
      acknowledged.push(id!)
      if (what === 'sorted') sortedLines += Number(count)
    }
  }
  const books = openBooksOrThrow(path, { now: new Date(0) })
  const { sqlite } = books
  const ask = <Row>(query: string) => sqlite.prepare(query).all() as Row[]
  expect(verifyBooks(sqlite).findings).toEqual([])
  const submitted = new Set(ask<{ id: string }>('SELECT id FROM submissions').map((row) => row.id))
  expect(acknowledged.filter((id) => !submitted.has(id))).toEqual([])
  // A statement is there with all the lines it says it added, or not at all.
  expect(
    ask(`SELECT s.id FROM statements AS s WHERE s.new_line_count <>
           (SELECT count(*) FROM statement_lines WHERE statement_id = s.id)`),
  ).toEqual([])
  const numbers = ask<{ n: string }>('SELECT bank_id AS n FROM statement_lines ORDER BY id').map(
    (row) => row.n,
  )
  expect(new Set(numbers).size).toBe(numbers.length)
  // The files overlapped, so that the lines run on without a hole.
  expect([...numbers].sort((a, b) => Number(a.slice(1)) - Number(b.slice(1)))).toEqual(
    numbers.map((_, at) => `N${at}`),
  )
  const posted = sqlite
    .prepare("SELECT count(*) FROM statement_lines WHERE state = 'posted'")
    .pluck()
    .get() as number
  expect(posted).toBeGreaterThanOrEqual(sortedLines)
  const entries = sqlite
    .prepare("SELECT count(*) FROM entries WHERE source = 'statement' AND side_id = 'farm'")
    .pluck()
    .get()
  expect(entries).toBe(posted)
  expect(acknowledged.length).toBeGreaterThanOrEqual(kills)
  books.close()
})
