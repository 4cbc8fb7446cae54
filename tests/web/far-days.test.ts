// Entries on days that nobody lives through, already in the file: every page opens, and they can be put right.
import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { expect, test } from 'vitest'
import { type Day, dayName } from '#calendar/day.ts'
import { listAccounts, listSides } from '#db/ledger/account-store.ts'
import { writeCrossing } from '#db/ledger/crossing-store.ts'
import { groundOf, writeParts } from '#db/ledger/ledger-writer.ts'
import { atomically } from '#db/once.ts'
import type { Books } from '#db/open.ts'
import { reopenMonth, standingClosing } from '#db/reconcile/closing-store.ts'
import { verifyBooks } from '#db/verify/verify.ts'
import { CENTS_MAX, cents } from '#money/cents.ts'
import { openSampleBooks } from '#sample/open-sample.ts'
import { createApp } from '#src/server.ts'
import { act, done, on } from '../db/fresh-books.ts'
import { drawnOf, fewOrAll } from '../fuzz/batches.ts'
import { copySample } from '../sample/built-sample.ts'
import { type FormFields, testApp } from './test-app.ts'

const origin = 'http://localhost'

/** One entry of each side and one crossing on the day, as the stores wrote them before days were asked about. */
const plant = (books: Books, day: string) =>
  atomically(books, () => {
    const accounts = listAccounts(books)
    const of = (side: string, kind: string) =>
      accounts.find((one) => one.sideId === side && one.kind === kind && one.crossingRole === null)!.id
    for (const side of ['farm', 'household']) {
      const lines = [
        { accountId: of(side, 'expense'), amountCents: cents(CENTS_MAX) },
        { accountId: of(side, 'asset'), amountCents: cents(-CENTS_MAX) },
      ]
      const entry = {
        id: `${side}-${day}`,
        sideId: side,
        day: on(day),
        payee: 'Far away',
        memo: '',
        source: 'form' as const,
        lines,
      }
      const written = writeParts(
        books,
        '2026-11-25T12:00:00Z',
        { crossings: [], entries: [entry] },
        // As files of before may hold them: since then nothing is taken before the opening balances.
        { ...groundOf(books), opensOn: () => null },
      )
      if (!written.ok) throw new Error(JSON.stringify(written.problems))
    }
    const crossing = {
      id: `crossing-${day}`,
      kind: 'draw' as const,
      day: on(day),
      amountCents: cents(1000),
      fromAccountId: of('farm', 'asset'),
      toAccountId: of('household', 'asset'),
      memo: '',
    }
    const crossed = writeCrossing(books, '2026-11-25T12:00:00Z', crossing, 'opening')
    if (!crossed.ok) throw new Error(JSON.stringify(crossed.problems))
    return { ok: true }
  })

const openMonths = (books: Books) => {
  for (const { id } of listSides(books))
    for (let closing = standingClosing(books, id); closing; closing = standingClosing(books, id))
      done(reopenMonth(books, act(), closing.id, 'a day was missed'))
}

const house = async () => {
  const folder = mkdtempSync(join(tmpdir(), 'dooryard-test-'))
  const now = new Date('2026-11-25T12:00:00Z')
  await copySample(folder)
  const books = await openSampleBooks(folder, now)
  const broken: unknown[] = []
  const log = { info: () => {}, warn: () => {}, error: (fields: unknown) => void broken.push(fields) }
  const app = createApp({ books, clock: { now: () => now }, isSample: true, log })
  return {
    books,
    broken,
    routes: app.routes,
    open: async (path: string) => app.request(new URL(path, origin).href),
    close: () => {
      books.close()
      rmSync(folder, { recursive: true, force: true })
    },
  }
}

/** Pages that need no id, and those that the links of them lead to, one of each shape; in the test command of each page one link by the day. */
const everyPage = async (of: Awaited<ReturnType<typeof house>>, extra: readonly string[]) => {
  const waiting = [
    ...extra,
    ...of.routes.filter(({ method, path }) => method === 'GET' && !/[:*]/.test(path)).map(({ path }) => path),
  ]
  const seen = new Set<string>()
  const answered: [string, number][] = []
  while (waiting.length > 0) {
    const path = waiting.shift()!
    const shape = extra.includes(path) ? path : path.replace(/\d+/g, '0').replace(/notice=[\w-]+/, '')
    if (seen.has(shape)) continue
    seen.add(shape)
    const reply = await of.open(path)
    answered.push([path, reply.status])
    if (!(reply.headers.get('content-type') ?? '').includes('text/html')) continue
    const text = await reply.text()
    expect(/\bNaN\b|\bundefined\b|\bInfinity\b/.exec(text)?.[0], path).toBeUndefined()
    const linked = [...text.matchAll(/<a [^>]*href="(\/[^"#]*)/g)]
    for (const [, href] of drawnOf(linked, 1)) waiting.push(href!.replaceAll('&amp;', '&'))
  }
  return answered
}

test('a day before 1980 or more than a year ahead needs a yes at its field, and without script it gets it', async () => {
  const app = testApp({ today: '2026-03-15' })
  app.openSides()
  const account = (name: string) =>
    String(listAccounts(app.books).find((one) => one.sideId === 'farm' && one.name === name)!.id)
  const send = (day: string, over: FormFields = {}) =>
    app.post('/books/entry', {
      formId: crypto.randomUUID(),
      side: 'farm',
      kind: 'out',
      day,
      payee: 'Seed house',
      memo: '',
      moneyAccount: account('Farm checking'),
      'lines.0.account': account('Feed'),
      'lines.0.amount': '120.50',
      ...over,
    })
  for (const day of ['1980-01-01', '2027-03-15']) expect([day, (await send(day)).status]).toEqual([day, 303])
  for (const day of ['1979-12-31', '2027-03-16', '2031-03-15', '0001-01-01', '9999-12-31']) {
    const asked = await send(day)
    expect([day, asked.status]).toEqual([day, 422])
    const page = await asked.text()
    expect(page).toContain(`${dayName(day as Day)} is far from today.`)
    expect(page).toMatch(/<a href="#f-day">/)
    expect(page).toContain('value="120.50"')
    expect(page).toMatch(
      new RegExp(`<input type="checkbox" id="f-day-sure" name="sureDays\\[\\]" value="${day}"/?>`),
    )
    expect((await send(day, { 'sureDays[]': '2026-03-15' })).status).toBe(422)
    expect([day, (await send(day, { 'sureDays[]': day })).status]).toEqual([day, 303])
  }
  // Each of them can be put right: dated anew, or taken back.
  const far = app.books.sqlite
    .prepare("SELECT no FROM entries WHERE day IN ('9999-12-31', '0001-01-01')")
    .pluck()
    .all()
  const [first, second] = far as [number, number]
  const corrected = await app.post(`/books/entries/${first}/correct`, {
    formId: crypto.randomUUID(),
    side: 'farm',
    kind: 'out',
    day: '2026-03-01',
    payee: 'Seed house',
    memo: '',
    moneyAccount: account('Farm checking'),
    'lines.0.account': account('Feed'),
    'lines.0.amount': '120.50',
  })
  expect(corrected.status).toBe(303)
  expect((await app.post(`/books/entries/${second}/void`, { formId: crypto.randomUUID() })).status).toBe(303)
  expect(verifyBooks(app.books.sqlite).findings).toEqual([])
  app.close()
})

const farDays = ['0001-01-01', '1000-06-15', '9999-12-31']

test('every page opens with entries of the years 1, 1000 and 9999 in the file', {
  timeout: 300_000,
}, async () => {
  const one = await house()
  openMonths(one.books)
  for (const day of farDays) plant(one.books, day)
  const entries = one.books.sqlite
    .prepare("SELECT no FROM entries WHERE payee = 'Far away'")
    .pluck()
    .all() as number[]
  const touched = one.books.sqlite
    .prepare(
      "SELECT DISTINCT account_id FROM postings JOIN entries ON no = entry_no WHERE payee = 'Far away'",
    )
    .pluck()
    .all() as number[]
  const pages = await everyPage(one, [
    ...farDays.flatMap((day) => [
      `/year-pack?year=${day.slice(0, 4)}`,
      `/year-pack?year=${day.slice(0, 4)}&basis=accrual`,
      `/year-pack/inputs?year=${day.slice(0, 4)}`,
      `/books/close?month=${day.slice(0, 7)}`,
    ]),
    ...entries.flatMap((no) => [`/books/entries/${no}`, `/books/entries/${no}/correct`]),
    ...touched.map((id) => `/books/accounts/${id}`),
  ])
  expect(pages.length).toBeGreaterThan(fewOrAll(100, 150))
  expect([pages.filter(([, status]) => status >= 500), one.broken]).toEqual([[], []])
  one.close()
})
