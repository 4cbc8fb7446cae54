// A house with nothing in it: each page leads to the start, or says what is missing and leads on by one filled button.
import { afterEach, beforeEach, expect, test } from 'vitest'
import { navigation, roomsOf } from '#web/forms/navigation.ts'
import { type TestApp, testApp } from './test-app.ts'

let app: TestApp
beforeEach(() => {
  app = testApp()
})
afterEach(() => app.close())

const rooms = [
  ...new Set(navigation.flatMap(({ path }) => [path, ...roomsOf(path).map((room) => room.path as string)])),
]

/** Forms that would offer no account yet. */
const forms = [
  '/books/entry?side=household',
  '/books/receipt',
  '/crossings/new?kind=draw',
  '/crossings/standing/new',
  '/year-pack/pay',
  '/year-pack/schedule-f',
]

test('what writes the books leads to the start while there are none', async () => {
  const written = rooms.filter((path) => /^\/(now|month|books|crossings)/.test(path))
  expect(written.length).toBeGreaterThan(12)
  for (const path of [...written, ...forms]) {
    const reply = await app.get(path)
    expect([reply.status, reply.headers.get('location')], path).toEqual([
      expect.toSatisfy((status) => status === 302 || status === 303),
      '/start',
    ])
  }
})

test('every other page is there, with one filled button at most', async () => {
  const others = rooms.filter((path) => !/^\/(now|month|books|crossings)/.test(path))
  expect(others.length).toBeGreaterThan(25)
  for (const path of others) {
    const reply = await app.get(path)
    expect(reply.status, path).toBe(200)
    const page = await reply.text()
    const filled = page.match(/class="button"/g) ?? []
    // The notebook's forms are folds, of which one is open at a time.
    if (path !== '/farm/notebook') expect(filled.length, path).toBeLessThanOrEqual(1)
    expect(page.slice(page.indexOf('<main')), path).not.toMatch(/NaN|undefined|Infinity/)
  }
})

test('figures are answered as JSON all the same', async () => {
  expect((await app.get('/books.json')).status).toBe(200)
  expect((await app.get('/crossings.json')).status).toBe(200)
})

test('without a plan Health offers no dollars to choose, and the year pack begins with who its people are', async () => {
  expect(await (await app.get('/cover')).text()).not.toContain('action="/dollars"')
  const pack = await (await app.get('/year-pack')).text()
  expect(pack).toContain('href="/start/who"')
  expect(pack).not.toContain('Record an entry</a>')
})

test('books without a plan: Now has no dollars to choose, and the month says that there is no plan, not that it cannot be read', async () => {
  app.openSides()
  expect(await (await app.get('/now')).text()).not.toContain('action="/dollars"')
  const month = await (await app.get('/month?review=yes')).text()
  expect(month).toContain('There is no plan yet. With one, this shows')
  expect(month).not.toContain('cannot be read')
})
