// Books and statement that differ: the page says what would explain it, follows ticks that are not saved, and offers an opening balance.

import { randomUUID } from 'node:crypto'
import { afterEach, beforeEach, expect, test } from 'vitest'
import { postEntry } from '#db/ledger/ledger-store.ts'
import { sortingDesk } from '#db/statements/sorting-desk.ts'
import { sortLines } from '#db/statements/sorting-store.ts'
import { importStatement } from '#db/statements/statement-store.ts'
import { moneyOut } from '#ledger/simple-entry.ts'
import { cents } from '#money/cents.ts'
import { act, done, on, type TestBooks, withAccounts } from '../db/fresh-books.ts'
import { statementFile } from '../db/statement-file.ts'
import { type TestApp, testApp } from './test-app.ts'

let app: TestApp
let books: TestBooks
beforeEach(() => {
  app = testApp({ today: '2026-11-06' })
  app.openSides()
  books = withAccounts(app.books)
})
afterEach(() => app.close())

const id = (name: string) => books.account('farm', name).id

/** A file of 500.00 in and 42.50 out that ends with what it began with, and with that booked. */
const read = (began: number, booksAll = true) => {
  const lines = [
    ['2026-10-02', 50_000, 'MARKET'],
    ['2026-10-20', -4_250, 'HOLLOW FEED'],
  ] as const
  const file = statementFile(
    lines.map(([day, amount, payee], at) => ({
      bankNumber: `n${at}`,
      day: on(day),
      amount: cents(amount),
      payee,
    })),
    {
      format: 'ofx',
      fileName: 'a.ofx',
      bankAccount: '77',
      closing: { balance: cents(began + 45_750), asOf: on('2026-10-31') },
    },
  )
  done(importStatement(app.books, act(), id('Farm checking'), file, on('2026-11-06')))
  if (!booksAll) return
  const sortings = sortingDesk(app.books).lines.map(({ line }) => ({
    lineId: line.id,
    kind: 'target' as const,
    target: { kind: 'account' as const, accountId: id('Feed'), enterpriseId: null },
  }))
  done(sortLines(app.books, act(), sortings))
}

const spend = (day: string, payee: string, amount: number) => {
  const head = { id: '', sideId: 'farm', day: on(day), payee, memo: '' }
  const lines = [{ accountId: id('Feed'), amountCents: cents(amount) }]
  return done(postEntry(app.books, act(), moneyOut(head, id('Farm checking'), lines))).entryNo
}

interface Month {
  reconcile: { name: string; state: string; explanations: { kind: string; lines: { entryNo: number }[] }[] }[]
}
const ofMonth = async () => {
  const month = (await (await app.get('/month.json?month=2026-10')).json()) as Month
  return month.reconcile.find(({ name }) => name === 'Farm checking')!
}

test('typed by hand and read from the file too: the month names both, and the typed one as the one too many', async () => {
  read(0)
  const no = spend('2026-10-19', 'hollow feed', 4_250)
  const { state, explanations } = await ofMonth()
  expect(state).toBe('apart')
  expect(explanations.map(({ kind }) => kind)).toEqual(['twice', 'extra'])
  expect(explanations[0]!.lines[1]!.entryNo).toBe(no)
  const page = await (await app.get('/month?month=2026-10')).text()
  expect(page).toContain('once more: reverse it if it happened once')
})

test('what the file says was there before its first line is offered as the opening balance, once', async () => {
  read(150_000)
  expect((await ofMonth()).explanations.map(({ kind }) => kind)).toEqual(['opening'])
  const address = `/books/reconcile/opening/${id('Farm checking')}`
  const form = await (await app.get(address)).text()
  expect(form).toContain('value="2026-10-01"')
  expect(form).toContain('value="1500.00"')
  const fields = { formId: randomUUID(), day: '2026-10-01', balance: '1500.00' }
  expect((await app.post(address, { ...fields, balance: 'much' })).status).toBe(422)
  expect((await app.post(address, fields)).status).toBe(303)
  expect((await ofMonth()).state).toBe('agrees')
  // The same form again is the same success; another one finds that it is there.
  expect((await app.post(address, fields)).status).toBe(303)
  expect((await app.post(address, { ...fields, formId: randomUUID() })).status).toBe(422)
  expect((await ofMonth()).state).toBe('agrees')
})

test('while ticking, what would explain the difference follows the ticks before they are saved', async () => {
  read(0)
  spend('2026-10-19', 'Vet', 2_715)
  const account = String(id('Farm checking'))
  const started = await app.post('/books/reconcile', {
    formId: randomUUID(),
    account,
    statementDay: '2026-10-31',
    balance: '457.50',
    note: '',
  })
  const address = started.headers.get('location')!
  interface Ticking {
    differenceCents: number
    explanations: { kind: string; lines: { payee: string }[] }[]
    lines: { postingId: number; payee: string; ticked: boolean }[]
  }
  const { lines, differenceCents } = (await (await app.get(`${address}.json`)).json()) as Ticking
  expect(differenceCents).toBe(0)
  const all = lines.map(({ postingId }) => String(postingId))
  const withAll = await (await app.post(`${address}/apart`, { 'ticked[]': all })).text()
  expect(withAll).toContain('was entered by hand, and no file of the bank has it')
  const feed = lines.find(({ payee }) => payee === 'HOLLOW FEED')!
  const market = lines.find(({ payee }) => payee === 'MARKET')!
  const without = await (
    await app.post(`${address}/apart`, { 'ticked[]': [String(market.postingId)] })
  ).text()
  expect(without).toContain('HOLLOW FEED, Oct 20, 2026')
  expect(without).toContain('not checked')
  // Nothing of it was saved.
  const after = (await (await app.get(`${address}.json`)).json()) as Ticking
  expect(after.lines.find(({ postingId }) => postingId === feed.postingId)!.ticked).toBe(true)
})

test('what a file without numbers of the bank has twice is reversed where it happened once: its line is skipped, and brought back it wants a check', async () => {
  const twice = [0, 1].map(() => ({ day: on('2026-10-20'), amount: cents(-4250), payee: 'HOLLOW FEED' }))
  const once = { day: on('2026-10-22'), amount: cents(-900), payee: 'HOLLOW FEED' }
  const file = statementFile([...twice, once])
  done(importStatement(app.books, act(), id('Farm checking'), file, on('2026-11-06')))
  const sortings = sortingDesk(app.books).lines.map(({ line }) => ({
    lineId: line.id,
    kind: 'target' as const,
    target: { kind: 'account' as const, accountId: id('Feed'), enterpriseId: null },
  }))
  done(sortLines(app.books, act(), sortings))
  const entries = app.books.sqlite.prepare('SELECT no FROM entries ORDER BY no').pluck().all() as number[]
  const takeBack = async (no: number) => {
    const formId = randomUUID()
    const reply = await app.post(`/books/entries/${no}/void`, { formId })
    expect(reply.status).toBe(303)
    // Sent twice it is the same.
    expect((await app.post(`/books/entries/${no}/void`, { formId })).status).toBe(303)
    return await (await app.get(reply.headers.get('location')!)).text()
  }
  const ofSort = async () =>
    (
      (await (await app.get('/month.json?month=2026-10')).json()) as {
        sort: { sure: unknown[]; left: number }
      }
    ).sort
  const said = await takeBack(entries[1]!)
  expect(said).toContain('its line is skipped: it happened once')
  expect(sortingDesk(app.books).waiting).toBe(0)
  expect((await ofSort()).sure).toEqual([])
  expect(await (await app.get('/books/sorting/set-aside')).text()).toContain('once more')
  // Later its own page says it too.
  expect(await (await app.get(`/books/entries/${entries[1]}`)).text()).toContain('It happened twice')
  const action = /action="(\/books\/sorting\/set-aside\/\d+)"/.exec(said)![1]!
  expect((await app.post(action, { formId: randomUUID() })).status).toBe(303)
  expect(await ofSort()).toMatchObject({ sure: [], left: 1 })
  expect(await (await app.get(`/books/entries/${entries[1]}`)).text()).not.toContain('It happened twice')
  // Of what the bank has once the line waits, and the month books it by no press either.
  expect(await takeBack(entries[2]!)).not.toContain('is skipped')
  expect(await ofSort()).toMatchObject({ sure: [], left: 2 })
  const desk = await (await app.get('/books/sorting')).text()
  expect(desk).toContain('Its booking was reversed')
})

test('two alike of different numbers of the bank both happened: with one reversed, its line waits again', async () => {
  const twice = [0, 1].map((at) => ({
    bankNumber: `n${at}`,
    day: on('2026-10-08'),
    amount: cents(-3500),
    payee: 'LICENSE',
  }))
  const file = statementFile(twice, { format: 'ofx', fileName: 'a.ofx', bankAccount: '77' })
  done(importStatement(app.books, act(), id('Farm checking'), file, on('2026-11-06')))
  const target = { kind: 'account' as const, accountId: id('Feed'), enterpriseId: null }
  const sortings = sortingDesk(app.books).lines.map(({ line }) => ({
    lineId: line.id,
    kind: 'target' as const,
    target,
  }))
  done(sortLines(app.books, act(), sortings))
  const reply = await app.post('/books/entries/2/void', { formId: randomUUID() })
  expect(await (await app.get(reply.headers.get('location')!)).text()).not.toContain('it happened once')
  expect(sortingDesk(app.books).waiting).toBe(1)
})
