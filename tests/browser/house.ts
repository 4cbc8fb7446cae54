// A running house and a browser in it, for the browser tests: every request, console error and policy violation is kept.
import { mkdtempSync, rmSync } from 'node:fs'
import type { Server } from 'node:http'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { createAdaptorServer } from '@hono/node-server'
import { type Browser, type BrowserContextOptions, chromium, type Page } from 'playwright-core'
import { type Books, openBooksOrThrow } from '#db/open.ts'
import { createApp } from '#src/server.ts'
import { copySample } from '../sample/built-sample.ts'
import { findChromium } from './find-chromium.mjs'

export const sampleToday = '2026-11-25T12:00:00'

export interface RunningHouse {
  base: string
  books: Books
  close(): Promise<void>
}

/** The sample farm in a file of this test's own, or empty books; `simulates` runs what stands behind Now. */
export async function openHouse(kind: 'sample' | 'empty', simulates = false): Promise<RunningHouse> {
  const folder = mkdtempSync(join(tmpdir(), 'dooryard-house-'))
  const now = new Date(sampleToday)
  const file = kind === 'sample' ? await copySample(folder) : join(folder, 'books.sqlite')
  const books = openBooksOrThrow(file, { now })
  const broken: unknown[] = []
  const log = { info: () => {}, warn: () => {}, error: (fields: unknown) => void broken.push(fields) }
  const app = createApp({ books, clock: { now: () => now }, log, isSample: kind === 'sample', simulates })
  const server = createAdaptorServer({ fetch: app.fetch }) as Server
  await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve))
  const { port } = server.address() as { port: number }
  return {
    base: `http://127.0.0.1:${port}`,
    books,
    async close() {
      server.closeAllConnections()
      await new Promise((resolve) => server.close(resolve))
      books.close()
      rmSync(folder, { recursive: true, force: true })
      if (broken.length > 0) throw new Error(`Pages broke: ${JSON.stringify(broken, null, 1)}`)
    },
  }
}

/** One for all files that share a process, since starting it takes as long as many a test; it ends with the process. */
export const launch = (): Promise<Browser> => {
  running ??= chromium.launch({
    executablePath: findChromium() ?? '',
    args: [
      '--no-sandbox',
      '--disable-gpu',
      '--disable-background-networking',
      '--disable-component-update',
      '--disable-sync',
      '--no-first-run',
    ],
  })
  return running
}
let running: Promise<Browser> | undefined

/** What a file opened in it: nothing of one file's pages is left for the next. */
export const closePages = async (browser: Browser): Promise<void> => {
  for (const context of browser.contexts()) await context.close()
}

export interface WatchedPage {
  page: Page
  /** Addresses asked for that are not this house's. */
  strayRequests: string[]
  /** Console errors, uncaught errors and policy violations. */
  complaints: string[]
}

export async function openPage(
  browser: Browser,
  base: string,
  options: BrowserContextOptions = {},
): Promise<WatchedPage> {
  const context = await browser.newContext({
    baseURL: base,
    viewport: { width: 1100, height: 800 },
    ...options,
  })
  // Where many share the machine a page takes its time; how long a whole test may take is for the test to say.
  context.setDefaultNavigationTimeout(90_000)
  const page = await context.newPage()
  const watched: WatchedPage = { page, strayRequests: [], complaints: [] }
  page.on('request', (request) => {
    if (!request.url().startsWith(`${base}/`)) watched.strayRequests.push(request.url())
  })
  page.on('console', (message) => {
    // A form answered with 422 is logged by the browser as a failed load; it is how mistakes come back.
    const expected = /status of 4(22|04)/.test(message.text())
    if (message.type() === 'error' && !expected) watched.complaints.push(`${page.url()}: ${message.text()}`)
  })
  page.on('pageerror', (error) => void watched.complaints.push(`${page.url()}: ${error.message}`))
  return watched
}
