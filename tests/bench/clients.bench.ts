// Twenty clients at once on 200,000 postings, while chance is worked out beside them: the slowest answers, and the memory of the server.
import { spawn } from 'node:child_process'
import { randomUUID } from 'node:crypto'
import { readFileSync, rmSync } from 'node:fs'
import { dirname, join } from 'node:path'
import type { Readable } from 'node:stream'
import { listAccounts } from '#db/ledger/account-store.ts'
import { savePlan } from '#db/plan-store.ts'
import { planVersion } from '#plan/plan.ts'
import type { Benches, BenchRow } from './bench.ts'
import { bigBooks } from './big-books.ts'

const clients = 20
const seconds = 60
const limitOfHalf = 150
const limitMilliseconds = 1000
const limitMegabytes = 400
const root = join(import.meta.dirname, '../..')

export const benches: Benches = { clients: run }

async function run(): Promise<BenchRow[]> {
  const house = layOut()
  const args = ['src/start.mjs', 'serve', '--port', '0', '--data', house.folder]
  const server = spawn(process.execPath, args, { cwd: root, stdio: ['ignore', 'pipe', 'inherit'] })
  try {
    const address = await addressSaid(server.stdout)
    const floor = await percentilesOf(address, house, () => '/assets/mark.svg', 5)
    // Read once, as two people do in the first minute of an evening.
    for (const page of house.pages) await asked(address, page)
    const stop = chanceBeside(address)
    const pageOf = (turn: number) => house.pages[turn % house.pages.length]!
    const before = threadMilliseconds(server.pid!)
    const taken = await percentilesOf(address, house, pageOf, seconds).finally(stop)
    const thread = threadMilliseconds(server.pid!) - before
    const megabytes = largestMegabytes(server.pid!)
    return [
      {
        what: `${clients} clients, ${taken.count} answers of ${(thread / taken.count).toFixed(1)} ms each on a thread that had ${Math.round(thread / seconds / 10)} % of a core, 50 in 100 within`,
        milliseconds: taken.half,
        floor: { what: 'a picture of a kilobyte', milliseconds: floor.half },
        limit: `under ${limitOfHalf} ms`,
        held: taken.half < limitOfHalf,
      },
      {
        what: `99 in 100 within; largest memory ${megabytes} MB`,
        milliseconds: taken.most,
        floor: { what: 'a picture of a kilobyte', milliseconds: floor.most },
        limit: `under ${limitMilliseconds} ms and ${limitMegabytes} MB`,
        held: taken.most < limitMilliseconds && megabytes < limitMegabytes,
      },
    ]
  } finally {
    server.kill('SIGTERM')
    await new Promise((resolve) => server.once('exit', resolve))
    rmSync(house.folder, { recursive: true, force: true })
  }
}

interface House {
  folder: string
  pages: readonly string[]
  entry: Readonly<Record<string, string>>
}

function layOut(): House {
  const books = bigBooks(200_000)
  const document = JSON.parse(readFileSync(join(root, 'sample/plan.json'), 'utf8'))
  const act = { formId: 'plan', at: '2026-11-01T00:00:00Z', actor: 'bench' }
  savePlan(books, act, { planId: 'plan', basedOn: 0, name: 'Plan', schemaVersion: planVersion, document })
  const id = (name: string) => String(listAccounts(books).find((one) => one.name === name)!.id)
  const register = `/books/accounts/${books.busiestAccountId}`
  const accounts = { moneyAccount: id('Farm checking'), 'lines.0.account': id('Feed') }
  books.close()
  return {
    folder: dirname(books.path),
    pages: [
      ...['/now', '/books', '/books/entries?side=farm', register, `${register}?text=seed`, '/crossings'],
      ...['/runway', '/runway/actual', '/farm', '/cover', '/slower-years', '/year-pack', '/settings'],
      ...['/settings/accounts', '/books/entry?side=farm&kind=out', '/books/sorting', '/books/statements'],
    ],
    entry: {
      ...{ side: 'farm', kind: 'out', day: `${books.lastDay.slice(0, 7)}-05`, payee: 'Feed store', memo: '' },
      ...accounts,
      'lines.0.amount': '12.34',
      'lines.0.memo': '',
      'sureAnother[]': `${books.lastDay.slice(0, 7)}-05 Feed store `,
    },
  }
}

/** Each client asks again as soon as it is answered; every tenth time it records an entry. */
async function percentilesOf(
  address: string,
  { entry }: House,
  pageOf: (turn: number) => string,
  forSeconds: number,
): Promise<{ count: number; half: number; most: number }> {
  const taken: number[] = []
  let until = performance.now() + forSeconds * 1000
  const visit = async (client: number) => {
    for (let turn = client * 7; performance.now() < until; turn += 1) {
      const begun = performance.now()
      const page = pageOf(turn)
      if (turn % 10 === 9 && !page.startsWith('/assets/')) await sent(address, '/books/entry', entry)
      else await asked(address, page)
      taken.push(performance.now() - begun)
    }
  }
  // One that breaks ends the visit of all, and nobody asks any more when the server is stopped.
  const visits = Array.from({ length: clients }, (_, client) =>
    visit(client).catch((broke) => {
      until = 0
      throw broke
    }),
  )
  const broken = (await Promise.allSettled(visits)).find((one) => one.status === 'rejected')
  if (broken) throw broken.reason
  const sorted = taken.sort((a, b) => a - b)
  const at = (share: number) => sorted[Math.floor(share * (sorted.length - 1))]!
  return { count: sorted.length, half: at(0.5), most: at(0.99) }
}

/** One run of chance after another until it is stopped. */
function chanceBeside(address: string): () => Promise<void> {
  let isWanted = true
  const running = (async () => {
    for (let seed = 1; isWanted; seed += 1) {
      await sent(address, '/runway/chance', { paths: '2000', seed: String(seed), from: 'chance' })
      await new Promise((resolve) => setTimeout(resolve, 3000))
    }
  })()
  return () => {
    isWanted = false
    return running
  }
}

async function asked(address: string, path: string): Promise<void> {
  const reply = await fetch(address + path)
  await reply.text()
  if (reply.status !== 200) throw new Error(`${path} answered ${reply.status}`)
}

async function sent(address: string, path: string, fields: Readonly<Record<string, string>>): Promise<void> {
  const body = new URLSearchParams({ formId: randomUUID(), ...fields })
  const reply = await fetch(address + path, {
    method: 'POST',
    body,
    headers: { origin: address },
    redirect: 'manual',
  })
  const text = await reply.text()
  if (reply.status !== 303) throw new Error(`${path} answered ${reply.status}: ${text.slice(0, 2000)}`)
}

const addressSaid = (output: Readable): Promise<string> =>
  new Promise((resolve, reject) => {
    let said = ''
    output.on('data', (piece) => {
      said += String(piece)
      const address = /open at (http:\S+)/.exec(said)?.[1]
      if (address && said.includes('Stop with')) resolve(address)
    })
    output.once('end', () => reject(new Error(`The server ended: ${said}`)))
  })

/** Processor time of the thread that makes the pages: a machine that others use gives it a part of a core only (Linux). */
const threadMilliseconds = (pid: number): number => {
  const stat = readFileSync(`/proc/${pid}/task/${pid}/stat`, 'utf8')
  const [user, system] = stat
    .slice(stat.lastIndexOf(')') + 2)
    .split(' ')
    .slice(11, 13)
    .map(Number) as [number, number]
  return (user + system) * 10
}

/** Of the whole process, workers and all, since its start (Linux). */
const largestMegabytes = (pid: number): number =>
  Math.round(Number(/VmHWM:\s+(\d+)/.exec(readFileSync(`/proc/${pid}/status`, 'utf8'))?.[1]) / 1024)
