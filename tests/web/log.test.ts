import { Hono } from 'hono'
import { expect, test } from 'vitest'
import { openBooksOrThrow } from '#db/open.ts'
import { createApp } from '#src/server.ts'
import { pageRooms } from '#web/pages/all-pages.ts'
import type { PageEnv } from '#web/server/context.ts'

const written: string[] = []
const keep = (fields: unknown, text: string) => void written.push(JSON.stringify(fields) + text)
const log = { info: keep, warn: keep, error: keep }
const breaking = {
  build: () =>
    new Hono<PageEnv>().get('/broken', () => {
      throw new Error('Mara Wren owes $1,234.56')
    }),
}
const house = () => {
  written.length = 0
  const now = new Date('2026-03-15T12:00:00')
  const books = openBooksOrThrow(':memory:', { now })
  return Object.assign(createApp({ books, clock: { now: () => now }, log }, [...pageRooms, breaking]), {
    books,
  })
}

test('the log holds method, route, status and time, and nothing that was typed', async () => {
  const app = house()
  await app.request('http://localhost/books/entries?side=farm&text=Mara+Wren')
  await app.request('http://localhost/start/who', {
    method: 'POST',
    headers: { origin: 'http://localhost' },
    body: new URLSearchParams({ farmName: 'Mara Wren', living: '4321' }),
  })
  expect(written.length).toBeGreaterThanOrEqual(2)
  expect(written.join()).toMatch(/"method":"GET","route":"[^"]*","status":303,"milliseconds":\d+/)
  expect(written.join()).not.toMatch(/Mara|Wren|4321/)
})

test('a page that breaks tells the visitor nothing of its insides', async () => {
  const app = house()
  const reply = await app.request('http://localhost/broken')
  expect(reply.status).toBe(500)
  const page = await reply.text()
  expect(page).toContain('Something broke')
  expect(page).not.toMatch(/Mara|1,234|log\.test|at Object/)
  expect(written.join()).toContain('a page broke')
  expect(written.join()).not.toMatch(/Mara|1,234/)
  expect(reply.headers.get('content-security-policy')).toContain("default-src 'none'")
})

test('a page whose books were closed while it was under way says so in a line, and nothing broke', async () => {
  const app = house()
  app.books.sqlite.close()
  const reply = await app.request('http://localhost/now')
  expect([reply.status, await reply.text()]).toEqual([
    503,
    'The books were closed meanwhile. Load the page again.\n',
  ])
  expect(written.join()).not.toContain('broke')
})
