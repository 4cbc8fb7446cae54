// The path of a month: what is left of each step, and each step by one press where books and bank agree. A house of its own, by hand.

import { randomUUID } from 'node:crypto'
import { afterEach, beforeEach, expect, test } from 'vitest'
import { type Day, day } from '#calendar/day.ts'
import { month } from '#calendar/month.ts'
import { listAccounts } from '#db/ledger/account-store.ts'
import { balancesOn } from '#db/ledger/balances.ts'
import { standingClosing } from '#db/reconcile/closing-store.ts'
import { lastFinished } from '#db/reconcile/reconcile-reader.ts'
import { sortingDesk } from '#db/statements/sorting-desk.ts'
import { sortLines } from '#db/statements/sorting-store.ts'
import { importStatement } from '#db/statements/statement-store.ts'
import { startStanding } from '#db/transfers/standing-store.ts'
import { cents } from '#money/cents.ts'
import { statementFile } from '../db/statement-file.ts'
import { type FormFields, type TestApp, testApp } from './test-app.ts'

let app: TestApp
const idOf = (name: string) => listAccounts(app.books).find((one) => one.name === name)!.id
const act = () => ({ formId: randomUUID(), at: '2026-11-06T12:00:00.000Z', actor: 'test' })

/** A file of dollars by day and payee, that ends with a balance. */
const read = (account: string, closing: [string, number], lines: [string, string, number][]) => {
  const file = statementFile(
    lines.map(([on, payee, dollars], at) => ({
      bankNumber: `${on}-${at}`,
      day: day(on),
      amount: cents(dollars * 100),
      payee,
    })),
    {
      format: 'ofx',
      fileName: 'a.ofx',
      closing: { balance: cents(closing[1] * 100), asOf: day(closing[0]) },
    },
  )
  expect(importStatement(app.books, act(), idOf(account), file, day('2026-11-06')).ok).toBe(true)
}

const bookAll = (to: string) => {
  const sortings = sortingDesk(app.books).lines.map(({ line }) => ({
    lineId: line.id,
    kind: 'target' as const,
    target: { kind: 'account' as const, accountId: idOf(to), enterpriseId: null },
  }))
  expect(sortLines(app.books, act(), sortings).ok).toBe(true)
}

interface Path {
  month: number
  isOver: boolean
  openBefore: number[]
  sort: { sure: { id: number; payee: string }[]; moreSure: number; left: number; later: number }
  transfers: unknown[]
  reconcile: { name: string; state: string; apartCents: number }[]
  close: { isClosed: boolean; stops: { text: string }[] }[]
}
const path = async (of = ''): Promise<Path> => (await app.get(`/month.json${of}`)).json() as Promise<Path>

/** The fields of the form that goes to `action`, as a browser would send them. */
const filled = async (action: string, of = ''): Promise<FormFields> => {
  const html = await (await app.get(`/month${of}`)).text()
  const form = new RegExp(`<form [^>]*action="${action}"[^>]*>(.*?)</form>`, 's').exec(html)?.[1]
  if (form === undefined) throw new Error(`No form goes to ${action}`)
  const fields: Record<string, string | string[]> = {}
  for (const [tag] of form.matchAll(/<input [^>]*>/g)) {
    if (/type="checkbox"/.test(tag) && !/ checked/.test(tag)) continue
    const [, name] = / name="([^"]*)"/.exec(tag)!
    const [, value] = / value="([^"]*)"/.exec(tag)!
    fields[name!] = name!.endsWith('[]') ? [...((fields[name!] as string[]) ?? []), value!] : value!
  }
  return fields
}
const press = async (action: string, of = '') => app.post(action, await filled(action, of))

beforeEach(() => {
  app = testApp({ today: '2026-11-06' })
  app.openSides()
  read(
    'Household checking',
    ['2026-09-30', 860],
    [
      ['2026-09-02', 'ALDER CREAMERY', 1000],
      ['2026-09-04', 'TARN GROCER', -140],
    ],
  )
  bookAll('Groceries')
})
afterEach(() => app.close())

const october = () =>
  read(
    'Household checking',
    ['2026-10-31', 530],
    [
      ['2026-10-03', 'TARN GROCER', -110],
      ['2026-10-17', 'TARN GROCER', -120],
      ['2026-10-20', 'POND SUPPLY 4471', -100],
    ],
  )

test('the last month is the one to do while it is open, and earlier open ones are named', async () => {
  october()
  expect(await path('?month=2026-09')).toMatchObject({
    month: '2026-09',
    openBefore: [],
    sort: { later: 3 },
  })
  expect(await path()).toMatchObject({ month: '2026-10', openBefore: ['2026-09'] })
  const html = await (await app.get('/month')).text()
  expect(html).toContain('October 2026 waits for 3 transactions, then it can be closed.')
  expect(html).toContain('href="/month?month=2026-09"')
})

test('what has its place already is booked by one press, just as it was shown; the rest is left to say', async () => {
  october()
  const of = '?month=2026-10'
  const before = await path(of)
  expect(before.sort.sure.map(({ payee }) => payee)).toEqual(['TARN GROCER', 'TARN GROCER'])
  expect(before.sort.left).toBe(1)
  const form = await filled('/month/sort', of)
  const reply = await app.post('/month/sort', form)
  expect(reply.headers.get('location')).toContain('/month?month=2026-10')
  expect(balancesOn(app.books).get(idOf('Groceries'))).toBe(-86_000 + 23_000)
  await app.post('/month/sort', form)
  expect(balancesOn(app.books).get(idOf('Groceries'))).toBe(-86_000 + 23_000)
  expect((await path(of)).sort).toMatchObject({ sure: [], left: 1 })
})

test('an account that agrees with its file is reconciled by one press; one that does not says by how much', async () => {
  october()
  const of = '?month=2026-10'
  const state = async () => (await path(of)).reconcile.find((one) => one.name === 'Household checking')
  expect(await state()).toMatchObject({ state: 'waits' })
  await press('/month/sort', of)
  bookAll('Household goods')
  expect(await state()).toMatchObject({ state: 'agrees', apartCents: 0 })
  expect((await press('/month/reconcile', of)).status).toBe(303)
  expect(lastFinished(app.books, idOf('Household checking'))).toMatchObject({
    statementDay: '2026-10-31',
    statementBalanceCents: 53_000,
    state: 'finished',
  })
  expect(await state()).toMatchObject({ state: 'done' })
})

test('a balance a file states and the books do not meet is not reconciled, and nothing is kept of the try', async () => {
  read('Household checking', ['2026-10-31', 700], [['2026-10-03', 'TARN GROCER', -110]])
  const of = '?month=2026-10'
  await press('/month/sort', of)
  expect((await path(of)).reconcile).toMatchObject([{ state: 'apart', apartCents: 5000 }])
  const html = await (await app.get(`/month${of}`)).text()
  expect(html).toContain('the books have $50.00 more than the file says')
  expect(html).not.toContain('action="/month/reconcile"')
  const account = idOf('Household checking')
  const reply = await app.post('/month/reconcile', {
    formId: randomUUID(),
    month: '2026-10',
    'agrees[]': [`${account}.2026-10-31.70000`],
  })
  expect(reply.status).toBe(422)
  expect(await reply.text()).toContain('Not done. Please')
  expect(lastFinished(app.books, account)).toBeUndefined()
  expect(app.books.sqlite.prepare('SELECT count(*) FROM reconciliations').pluck().get()).toBe(0)
})

test('of years of lines one press books the first three hundred, and the others come after them', async () => {
  const lines = Array.from({ length: 303 }, (_, at): [string, string, number] => [
    `2026-10-${String(1 + (at % 30)).padStart(2, '0')}`,
    'TARN GROCER',
    -1 - at,
  ])
  read('Household checking', ['2026-10-31', 0], lines)
  expect((await path()).sort).toMatchObject({ sure: { length: 300 }, moreSure: 3, left: 0 })
  const html = await (await app.get('/month')).text()
  expect(html).toContain('October 2026 waits for 303 transactions')
  expect(html).toContain('3 more come after these.')
  expect((await press('/month/sort')).status).toBe(303)
  expect((await path()).sort).toMatchObject({ sure: { length: 3 }, moreSure: 0, left: 0 })
})

test('a form that is refused comes back with its month and with its boxes as they were checked', async () => {
  october()
  const { sort } = await path('?month=2026-11')
  const [first, second] = (await filled('/month/sort', '?month=2026-11'))['sure[]'] as string[]
  const boxOf = (html: string, value: string) =>
    html.match(/<input [^>]*>/g)!.find((tag) => tag.includes(`"${value}"`))!
  const post = async (ticked: string[]) =>
    app.post('/month/sort', { formId: randomUUID(), month: '2026-11', 'sure[]': ticked })
  const none = await post([])
  expect(none.status).toBe(422)
  const html = await none.text()
  expect(html).toContain('Check what is to be booked')
  expect(html).toContain('November 2026 waits for 3 transactions')
  for (const value of [first!, second!]) expect(boxOf(html, value)).not.toContain(' checked')
  // One box that says nothing readable keeps all of them from being booked.
  const odd = await post([first!, '7'])
  expect(odd.status).toBe(422)
  const again = await odd.text()
  expect(boxOf(again, first!)).toContain(' checked')
  expect(boxOf(again, second!)).not.toContain(' checked')
  expect((await path('?month=2026-11')).sort.sure).toHaveLength(sort.sure.length)
})

test('all sides close together by one press once nothing stops it, earlier months with them', async () => {
  october()
  const of = '?month=2026-10'
  expect((await path(of)).close).toMatchObject([{ isClosed: false, stops: [{}] }])
  const early = await app.post('/month/close', { formId: randomUUID(), month: '2026-10' })
  expect(early.status).toBe(422)
  await press('/month/sort', of)
  bookAll('Household goods')
  expect((await press('/month/close', of)).status).toBe(303)
  expect(standingClosing(app.books, 'household')?.month).toBe(month(2026, 10))
  expect((await path(of)).close).toMatchObject([{ isClosed: true }])
  expect(await (await app.get(`/month${of}`)).text()).toContain('October 2026 is closed.')
  // Nothing of October is left, so the path is November's.
  expect(await path()).toMatchObject({ month: '2026-11', isOver: false })
})

test('transfers that are due are recorded here, one by one or all together, and lead back here', async () => {
  october()
  const standing = {
    name: 'Draw',
    kind: 'draw' as const,
    fromAccountId: idOf('Farm checking'),
    toAccountId: idOf('Household checking'),
    amountCents: cents(40_000),
    dayOfMonth: 5,
    firstMonth: month(2026, 10),
    lastMonth: null,
    posting: 'confirm' as const,
    memo: '',
  }
  const started = startStanding(app.books, act(), standing)
  expect(started.ok).toBe(true)
  expect((await path()).transfers).toHaveLength(2)
  // Of October 5 and November 5: the later one keeps October from nothing, and neither does either keep September.
  const answer = async (of: string) =>
    /<p class="answer">([^<]*)</.exec(await (await app.get(`/month${of}`)).text())![1]
  expect(await answer('?month=2026-10')).toBe(
    'October 2026 waits for 3 transactions and 1 transfer, then it can be closed.',
  )
  expect(await answer('?month=2026-09')).toBe(
    'September 2026 can be closed; not reconciled yet: Household checking.',
  )
  expect(await (await app.get('/month?month=2026-09')).text()).toContain(
    'none through September 2026, 2 due since',
  )
  expect(await (await app.get('/month?month=2026-10')).text()).toContain('1 due, 1 more since')
  const reply = await press('/crossings/standing/catch-up')
  expect(reply.headers.get('location')).toMatch(/^\/month/)
  expect((await path()).transfers).toEqual([])
})

test('what the last month changed comes after the page and stays with the month that is shown; the figures hold it', async () => {
  october()
  const html = await (await app.get('/month?month=2026-10')).text()
  expect(html).toContain('href="/month?month=2026-10&amp;review=yes#since"')
  // An earlier month is not told what a later one changed, but where that stands.
  const earlier = await (await app.get('/month?month=2026-09')).text()
  expect(earlier).not.toContain('review=yes')
  expect(earlier).toContain('<a href="/month?month=2026-10">October 2026</a>')
  expect(await path()).toMatchObject({ reviewWaits: false, review: { status: 'none' } })
})

test('a house without books is led to the start, and a month to come is this one', async () => {
  const empty = testApp({ today: '2026-11-06' })
  expect((await empty.get('/month')).headers.get('location')).toBe('/start')
  empty.close()
  expect(await path('?month=2030-01')).toMatchObject({ month: '2026-10' })
})

test('on no day a path is asked about a day that the books do not have', async () => {
  const bare = testApp({ today: '2026-11-06' as Day })
  bare.openSides()
  const html = await (await bare.get('/month')).text()
  expect(html).toContain('No bank file has been read yet. Begin with the files of November 2026.')
  expect(html).not.toContain('action="/month/')
  bare.close()
})

test('the month to do is the last one that is over, or the earliest that something waits in', async () => {
  app.close()
  app = testApp({ today: '2026-11-06' })
  app.openSides()
  expect((await path()).month).toBe('2026-11')
  read('Household checking', ['2026-08-31', 100], [['2026-08-04', 'TARN GROCER', -20]])
  expect((await path()).month).toBe('2026-08')
})

test('draws that came by the bank’s files are told apart from those to record, and settled by one press', async () => {
  const started = startStanding(app.books, act(), {
    name: 'Draw',
    kind: 'draw',
    fromAccountId: idOf('Farm checking'),
    toAccountId: idOf('Household checking'),
    amountCents: cents(50_000),
    dayOfMonth: 3,
    firstMonth: month(2026, 8),
    lastMonth: null,
    posting: 'confirm',
    memo: '',
  })
  expect(started.ok).toBe(true)
  const days = ['2026-08-03', '2026-09-04']
  read(
    'Farm checking',
    ['2026-09-30', -1000],
    days.map((on) => [on, 'TO HOUSE', -500]),
  )
  const sortings = sortingDesk(app.books)
    .lines.filter(({ line }) => line.payee === 'TO HOUSE')
    .map(({ line }) => ({
      lineId: line.id,
      kind: 'target' as const,
      target: {
        kind: 'crossing' as const,
        crossingKind: 'draw' as const,
        otherAccountId: idOf('Household checking'),
      },
    }))
  expect(sortings).toHaveLength(2)
  expect(sortLines(app.books, act(), sortings).ok).toBe(true)
  const before = balancesOn(app.books).get(idOf('Household checking'))!
  const came = () => balancesOn(app.books).get(idOf('Household checking'))! - before
  const html = await (await app.get('/month')).text()
  expect(html).toContain('The books have one like it on Sep 4, 2026: is it this one?')
  expect(html).toContain('Yes, these 2 are in the books')
  expect(html).toContain('Record all 2')
  const together = (which: string) =>
    app.post('/crossings/standing/catch-up', { formId: randomUUID(), which, back: 'month' })
  await together('in the books')
  expect([(await path()).transfers.length, came()]).toEqual([2, 0])
  await together('due')
  expect([(await path()).transfers.length, came()]).toEqual([0, 100_000])
})
