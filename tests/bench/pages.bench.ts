// Pages at a million postings against ten thousand, and the time from start to the first page, against an empty page.
import { spawn } from 'node:child_process'
import { mkdtempSync, readFileSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { Hono } from 'hono'
import { savePlan } from '#db/plan-store.ts'
import { planVersion } from '#plan/plan.ts'
import { openSampleBooks } from '#sample/open-sample.ts'
import { createApp } from '#src/server.ts'
import { type BenchRow, medianMilliseconds } from './bench.ts'
import { type BigBooks, bigBooks } from './big-books.ts'

export const name = 'pages: Now, Books, Crossings and a register at 10,000 and 1,000,000 postings; start'

const origin = 'http://localhost'
const root = join(import.meta.dirname, '../..')
const pageLimitMilliseconds = 60
const startLimitMilliseconds = 1500

export async function run(): Promise<BenchRow[]> {
  // First, while the disk is quiet and this process small: the big books leave both busy.
  const start = await startToFirstPage()
  const floor = { what: 'an empty page', milliseconds: await medianMilliseconds(emptyPage(), 200) }
  const small = await measure(bigBooks(10_000))
  const large = await measure(bigBooks(1_000_000))
  const rows = Object.entries(large).map(([page, milliseconds]) => ({
    what: `${page}, 1,000,000 postings (${(milliseconds / small[page]!).toFixed(2)}× of 10,000)`,
    milliseconds,
    floor,
    limit: `under ${pageLimitMilliseconds} ms`,
    held: milliseconds < pageLimitMilliseconds,
  }))
  return [start, ...rows]
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
    'A register': `/books/accounts/${books.busiestAccountId}`,
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
  const milliseconds = await medianMilliseconds(
    () =>
      untilSaid(['src/start.mjs', 'serve', '--sample', '--port', '0', '--data', folder], async (address) =>
        (await fetch(`${address}/now`)).text(),
      ),
    5,
    1,
  )
  rmSync(folder, { recursive: true, force: true })
  return {
    what: 'Start to the first page, sample',
    milliseconds,
    floor: { what: 'starting node', milliseconds: bare },
    limit: `under ${startLimitMilliseconds} ms`,
    held: milliseconds < startLimitMilliseconds,
  }
}

async function untilSaid(
  args: readonly string[],
  then: (address: string) => unknown,
  env: Readonly<Record<string, string>> = {},
): Promise<void> {
  const child = spawn('node', args, {
    cwd: root,
    stdio: ['ignore', 'pipe', 'inherit'],
    env: { ...process.env, ...env },
  })
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
  child.kill('SIGKILL')
}
