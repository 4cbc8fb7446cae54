// One broken figure says so in its place, on the page and in the JSON, and the rest stands; the log hears of it, without amounts.
import { Hono } from 'hono'
import { expect, test, vi } from 'vitest'
import { openBooksOrThrow } from '#db/open.ts'
import { byPart } from '#kept/by-part.ts'
import { createApp } from '#src/server.ts'
import { Figure, Figures } from '#views/parts/figure.tsx'
import { Part } from '#views/parts/message.tsx'
import { answer, type PageContext } from '#web/forms/answer.tsx'
import { pageRooms } from '#web/pages/all-pages.ts'
import type { PageEnv } from '#web/server/context.ts'
import { testApp } from './test-app.ts'

interface Shown {
  sound: string
  broken: string
}
const figures = () =>
  byPart<Shown>({
    sound: () => 'eleven hens',
    broken: () => {
      throw new RangeError('Mara owes $1,234.56')
    },
  })

const Sound = ({ of }: { of: Shown }) => <p>{of.sound}</p>
const Broken = ({ of }: { of: Shown }) => <p>{of.broken}</p>
const Cell = ({ of }: { of: Shown }) => <td>{of.broken}</td>
const room = (page: (of: Shown) => ReturnType<typeof Sound>) => ({
  build: () =>
    new Hono<PageEnv>().get('/yard', (c) => {
      const of = figures()
      return answer(c as PageContext, { title: 'Yard', figures: of, page: () => page(of) })
    }),
})

const open = async (page: (of: Shown) => ReturnType<typeof Sound>, path = '/yard', told = true) => {
  const error = vi.fn()
  const log = { info: () => {}, warn: () => {}, error }
  const now = new Date('2026-03-15T12:00:00')
  const books = openBooksOrThrow(':memory:', { now })
  const options = { books, clock: { now: () => now }, log, ...(told ? { brokenParts: 'told' as const } : {}) }
  const reply = await createApp(options, [...pageRooms, room(page)]).request(`http://localhost${path}`)
  return { status: reply.status, text: await reply.text(), logged: error.mock.calls }
}
const count = (text: string, word: string) => text.split(word).length - 1

test('what breaks says so in its place; what stands beside it is shown', async () => {
  const { status, text, logged } = await open((of) => (
    <>
      <h1>Yard</h1>
      <Sound of={of} />
      <Figures>
        <Figure label="Hens" value={of.sound} />
        <Broken of={of} />
      </Figures>
      <section>
        <h2>Later</h2>
        <Part of={() => <Figure label="Owed" value={of.broken} />} />
        <Sound of={of} />
      </section>
    </>
  ))
  expect(status).toBe(200)
  expect(count(text, 'eleven hens')).toBe(3)
  expect(count(text, 'This could not be worked out')).toBe(2)
  expect(text).toMatch(/<h2>Later<\/h2><p class="notice broken-part"/)
  expect(text).toContain('</html>')
  expect(logged).toHaveLength(2)
  expect(logged[0]).toEqual([
    {
      route: '/yard',
      error: 'RangeError',
      at: expect.arrayContaining([expect.stringContaining('standing.test')]),
    },
    'a part of a page broke',
  ])
  expect(text + JSON.stringify(logged)).not.toMatch(/Mara|1,234/)
})

test('a table with a broken cell goes as a whole: without the cell it would say something else', async () => {
  const { text } = await open((of) => (
    <div>
      <table>
        <tr>
          <th>Hens</th>
          <Cell of={of} />
        </tr>
      </table>
      <Sound of={of} />
    </div>
  ))
  expect(text).not.toContain('<table')
  expect(text).toMatch(/<div><p class="notice broken-part"[^>]*>.*<\/p><p>eleven hens<\/p><\/div>/)
})

test('a page whose own frame breaks still has its way out', async () => {
  const { status, text } = await open((of) => <p>{of.broken}</p>)
  expect([status, count(text, 'This could not be worked out')]).toEqual([200, 1])
  expect(text).toContain('href="/settings"')
})

test('the JSON names what is broken and holds the rest', async () => {
  const { status, text } = await open((of) => <Sound of={of} />, '/yard.json')
  expect([status, JSON.parse(text)]).toEqual([200, { sound: 'eleven hens', broken: ['broken'] }])
})

test('an app that was not built to tell breaks as a whole, as tests need it', async () => {
  const { status, logged } = await open((of) => <Broken of={of} />, '/yard', false)
  expect([status, logged[0]?.[1]]).toEqual([500, 'a page broke'])
})

test('a part that breaks before anything of it is made is answered as a part, under the id it was asked for by', async () => {
  const error = vi.fn()
  const now = new Date('2026-03-15T12:00:00')
  const books = openBooksOrThrow(':memory:', { now })
  const yard = {
    build: () =>
      new Hono<PageEnv>().get('/yard', () => {
        throw new RangeError('Mara owes $1,234.56')
      }),
  }
  const app = createApp(
    { books, clock: { now: () => now }, log: { info: () => {}, warn: () => {}, error } },
    [...pageRooms, yard],
  )
  const asks = (path: string, headers: Record<string, string>) =>
    app.request(`http://localhost${path}`, { headers })
  const part = { 'HX-Request': 'true', 'HX-Request-Type': 'partial', 'HX-Target': 'div#hens' }
  const broken = await asks('/yard', part)
  const text = await broken.text()
  expect(broken.status).toBe(500)
  expect(text).toMatch(/^<div id="hens"><p class="notice broken-part" role="alert">[^<]*<\/p><\/div>$/)
  expect(error.mock.calls[0]?.[1]).toBe('a page broke')
  const gone = await (await asks('/no-such-part', part)).text()
  expect(gone).toContain('<div id="hens">')
  expect(gone).toContain('There is no page at this address')
  for (const one of [text, gone]) expect(one).not.toMatch(/<nav|<html|<head|1,234/)
  // The page itself, and what replaces all of a page, keep their way out.
  for (const headers of [{}, { ...part, 'HX-Request-Type': 'full' }] as Record<string, string>[])
    expect(await (await asks('/yard', headers)).text()).toContain('href="/settings"')
  books.close()
})

test('a disk that says no is told as such, not as a broken part', async () => {
  const { status, text } = await open(() => {
    throw Object.assign(new Error('disk'), { code: 'SQLITE_CORRUPT' })
  })
  expect(status).toBe(503)
  expect(text).toContain('is damaged')
})

test('Now stands without what is due when the standing transfers cannot be read, and says so where they would be', async () => {
  const error = vi.fn()
  const house = () => {
    const app = testApp({
      today: '2026-05-20',
      brokenParts: 'told',
      log: { info: () => {}, warn: () => {}, error },
    })
    app.openSides()
    app.savePlan({
      startMonth: '2026-06',
      household: { living: [{ id: 'living', name: 'Living', perMonth: 2000 }] },
      savings: { accounts: [{ id: 'cash', name: 'Cash', kind: 'cash', balance: 90_000 }] },
    })
    return app
  }
  const sound = house()
  const whole = await (await sound.get('/now')).text()
  sound.close()
  expect(whole).toMatch(/As planned[\s\S]*Spendable savings[\s\S]*<h2 id="due-title">Due<\/h2>/)
  expect(error).not.toHaveBeenCalled()
  // In a house of its own: what is due is kept until the books change, and a lost table is no change of theirs.
  const app = house()
  app.books.sqlite.exec('PRAGMA foreign_keys = OFF; DROP TABLE standing_transfers')
  const reply = await app.get('/now')
  const page = await reply.text()
  expect(reply.status).toBe(200)
  expect(reply.status).toBe(200)
  expect(page).toMatch(/As planned[\s\S]*Spendable savings/)
  expect(page).not.toContain('id="due-title"')
  expect(count(page, 'This could not be worked out')).toBe(error.mock.calls.length)
  const figures = (await (await app.get('/now.json')).json()) as { broken: string[]; spendable: object }
  expect(figures.broken).toContain('due')
  expect(figures.spendable).toEqual(expect.objectContaining({ cents: 0 }))
  app.close()
})
