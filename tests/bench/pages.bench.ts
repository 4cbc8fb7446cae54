// Pages at a million postings against a hundred thousand, a register at its two ends, and the time from start to the first page.
import { execFileSync, spawn } from 'node:child_process'
import { once } from 'node:events'
import { cpSync, mkdtempSync, readFileSync, rmSync, symlinkSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { Hono } from 'hono'
import { savePlan } from '#db/plan-store.ts'
import { planVersion } from '#plan/plan.ts'
import { openSampleBooks } from '#sample/open-sample.ts'
import { createApp } from '#src/server.ts'
import { type Benches, type BenchRow, medianMilliseconds } from './bench.ts'
import { type BigBooks, bigBooks } from './big-books.ts'

const origin = 'http://localhost'
const root = join(import.meta.dirname, '../..')
const pageLimitMilliseconds = 60
const registerLimitMilliseconds = 12
/** A register is flat when ten times the postings, or its last page instead of its first, make it no slower than this. */
const flat = 1.5
const startLimitMilliseconds = { first: 2500, later: 600 }

export const benches: Benches = {
  'first-start': async () => [await veryFirstStart()],
  start: async () => [await startToFirstPage()],
  pages: pageRows,
}

async function pageRows(): Promise<BenchRow[]> {
  const floor = { what: 'an empty page', milliseconds: await medianMilliseconds(emptyPage(), 200) }
  const small = await measure(bigBooks(100_000))
  const large = await measure(bigBooks(1_000_000))
  return Object.entries(large).map(([page, milliseconds]) => {
    const times = milliseconds / small[page]!
    const isRegister = page.startsWith('A register')
    const limit = isRegister ? registerLimitMilliseconds : pageLimitMilliseconds
    const ends = milliseconds / large['A register, first page']!
    return {
      what: `${page}, 1,000,000 postings (${times.toFixed(2)}× of 100,000)`,
      milliseconds,
      floor,
      limit: `under ${limit} ms${isRegister ? `, and ${flat}× of 100,000 and of the first page` : ''}`,
      held: milliseconds < limit && (!isRegister || (times < flat && ends < flat)),
    }
  })
}

const emptyPage = () => {
  const app = new Hono().get('/', (c) => c.html('<!DOCTYPE html><title>x</title>'))
  return async () => (await app.request(`${origin}/`)).text()
}

/** Median time of each page, asked for as a browser would, the plan of the sample beside the big books. */
async function measure(books: BigBooks): Promise<Record<string, number>> {
  const document = JSON.parse(readFileSync(join(root, 'sample/plan.json'), 'utf8'))
  const act = { formId: 'plan', at: '2026-12-31T00:00:00Z', actor: 'bench' }
  savePlan(books, act, { planId: 'plan', basedOn: 0, name: 'Plan', schemaVersion: planVersion, document })
  const app = createApp({ books, clock: { now: () => new Date(`${books.lastDay}T12:00:00`) } })
  const times: Record<string, number> = {}
  for (const [page, path] of Object.entries({
    Now: '/now',
    Books: '/books',
    Crossings: '/crossings',
    'A register, first page': `/books/accounts/${books.busiestAccountId}`,
    'A register, last page': lastPageOf(books),
  })) {
    times[page] = await medianMilliseconds(async () => {
      const reply = await app.request(origin + path)
      if (reply.status !== 200) throw new Error(`${path} answered ${reply.status}`)
      await reply.text()
    })
  }
  books.remove()
  return times
}

/** The fifty oldest rows. */
const lastPageOf = (books: BigBooks): string => {
  const { day, id } = books.sqlite
    .prepare('SELECT day, id FROM postings WHERE account_id = ? ORDER BY day, id LIMIT 1 OFFSET 50')
    .get(books.busiestAccountId) as { day: string; id: number }
  return `/books/accounts/${books.busiestAccountId}?older=${day}.${id}`
}

const untilFirstPage = (folder: string, from = root, end: NodeJS.Signals = 'SIGKILL') =>
  untilSaid(
    ['src/start.mjs', 'serve', '--sample', '--port', '0', '--data', folder],
    async (address) => (await fetch(`${address}/now`)).text(),
    from,
    end,
  )

/** On a fresh copy of the house, installed as npm does it: the sample is made. Once each time, so the least of three. */
async function veryFirstStart(): Promise<BenchRow> {
  const taken: number[] = []
  for (let turn = 0; turn < 3; turn += 1) {
    const folder = mkdtempSync(join(tmpdir(), 'dooryard-first-'))
    for (const part of ['package.json', 'src', 'views', 'drizzle', 'sample'])
      cpSync(join(root, part), join(folder, part), { recursive: true })
    symlinkSync(join(root, 'node_modules'), join(folder, 'node_modules'))
    execFileSync('node', ['src/start/ready.mjs'], { cwd: folder })
    const begun = performance.now()
    await untilFirstPage(join(folder, 'data'), folder)
    taken.push(performance.now() - begun)
    rmSync(folder, { recursive: true, force: true })
  }
  const milliseconds = Math.min(...taken)
  return {
    what: 'The very first start to the first page: the sample is made',
    milliseconds,
    limit: `under ${startLimitMilliseconds.first} ms`,
    held: milliseconds < startLimitMilliseconds.first,
  }
}

/** From starting the command to the last byte of Now, with the sample built before. */
async function startToFirstPage(): Promise<BenchRow> {
  const folder = mkdtempSync(join(tmpdir(), 'dooryard-start-'))
  const built = await openSampleBooks(folder, new Date())
  built.close()
  const bare = await medianMilliseconds(
    () => untilSaid(['-e', 'console.log("open at http://x")'], () => {}),
    5,
    1,
  )
  // The start before it was stopped as people stop it: what V8 made is kept then.
  await untilFirstPage(folder, root, 'SIGTERM')
  const milliseconds = await medianMilliseconds(() => untilFirstPage(folder), 5, 1)
  rmSync(folder, { recursive: true, force: true })
  return {
    what: 'Start to the first page, sample',
    milliseconds,
    floor: { what: 'starting node', milliseconds: bare },
    limit: `under ${startLimitMilliseconds.later} ms`,
    held: milliseconds < startLimitMilliseconds.later,
  }
}

async function untilSaid(
  args: readonly string[],
  then: (address: string) => unknown,
  cwd = root,
  end: NodeJS.Signals = 'SIGKILL',
): Promise<void> {
  const child = spawn('node', args, { cwd, stdio: ['ignore', 'pipe', 'inherit'] })
  const address = await new Promise<string>((resolve, reject) => {
    let said = ''
    child.on('exit', (code) => reject(new Error(`It ended with ${code} before it was open`)))
    child.stdout.on('data', (text) => {
      said += text
      const match = /open at (http:\S+)/.exec(said)
      if (match) resolve(match[1]!)
    })
  })
  await then(address)
  child.removeAllListeners('exit')
  const ended = once(child, 'exit')
  child.kill(end)
  // Not waited for by what is measured.
  if (end !== 'SIGKILL') await ended
}
