// kill -9 while statements are read in and sorted: what was acknowledged is there once, no statement and no line by half.
import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterAll, expect, test } from 'vitest'
import { openBooksOrThrow } from '#db/open.ts'
import { verifyBooks } from '#db/verify/verify.ts'
import { freshBooks } from '../db/fresh-books.ts'
import { fewOrAll } from '../fuzz/batches.ts'
import { randomKills, runAndKill } from './run-and-kill.ts'

const folder = mkdtempSync(join(tmpdir(), 'dooryard-imports-'))
afterAll(() => {
  rmSync(folder, { recursive: true, force: true })
})

const rounds = fewOrAll(6, 40)

test(`imports and sortings killed ${rounds} times are there whole and once, or not at all`, {
  timeout: 60_000 + 15_000 * rounds,
}, async () => {
  const path = join(folder, 'books.sqlite')
  freshBooks(path).close()
  const acknowledged: string[] = []
  let sortedLines = 0
  const kills = randomKills(1177, 100)
  for (let round = 0; round < rounds; round += 1) {
    const { milliseconds } = kills.next().value
    // After the first acknowledgement: each round has one.
    for (const line of await runAndKill('import-writer.ts', [path, `r${round}`], {
      afterLines: 2,
      milliseconds,
    })) {
      const [what, id, count] = line.split(' ')
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
  expect(acknowledged.length).toBeGreaterThanOrEqual(rounds)
  books.close()
})
