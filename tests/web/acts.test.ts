// Acts of the month are taken back from one list: sorting with what it taught, corrections over the line, standing transfers.

import { randomUUID } from 'node:crypto'
import { afterEach, beforeEach, expect, test } from 'vitest'
import { day } from '#calendar/day.ts'
import { listAccounts } from '#db/ledger/account-store.ts'
import { balancesOn } from '#db/ledger/balances.ts'
import { postCrossing } from '#db/ledger/crossing-store.ts'
import { sortingDesk } from '#db/statements/sorting-desk.ts'
import { listRules } from '#db/statements/sorting-rule-store.ts'
import { sortLines } from '#db/statements/sorting-store.ts'
import { importStatement } from '#db/statements/statement-store.ts'
import { listActs } from '#db/undo.ts'
import { verifyBooks } from '#db/verify/verify.ts'
import { cents } from '#money/cents.ts'
import { planVersion } from '#plan/plan.ts'
import { statementFile } from '../db/statement-file.ts'
import { type TestApp, testApp } from './test-app.ts'

let app: TestApp
beforeEach(() => {
  app = testApp()
  app.openSides()
})
afterEach(() => {
  app.close()
})

const id = (name: string) => listAccounts(app.books).find((one) => one.name === name)!.id
const balance = (name: string) => balancesOn(app.books).get(id(name)) ?? 0
const act = () => ({ formId: randomUUID(), at: '2026-03-01T00:00:00.000Z', actor: 'test' })

const read = (account: string, lines: readonly [on: string, amount: number, payee: string][]) => {
  const file = statementFile(
    lines.map(([on, amount, payee]) => ({ day: day(on), amount: cents(amount), payee })),
  )
  expect(importStatement(app.books, act(), id(account), file, day('2026-03-15')).ok).toBe(true)
}
const waiting = () => sortingDesk(app.books).lines.map(({ line }) => line)
const to = (name: string) =>
  ({ kind: 'target', target: { kind: 'account', accountId: id(name), enterpriseId: null } }) as const

const takeBack = async (kind: string) => {
  const change = listActs(app.books).find((one) => one.kind === kind && !one.isTakenBack)!
  return app.post(`/undo/${change.id}`, { formId: randomUUID(), from: 'acts' })
}
const said = async (reply: Response) => (await app.get(reply.headers.get('location')!)).text()
const sound = () => expect(verifyBooks(app.books.sqlite).findings).toEqual([])

test('a booking of the desk is reversed whole: entries, halves of transfers, skipped ones, and what it taught', async () => {
  read('Farm checking', [
    ['2026-02-01', -1000, 'HOLLOW MILL'],
    ['2026-02-02', -50_000, 'TRANSFER TO HOUSEHOLD CHECKING'],
    ['2026-02-03', -700, 'ODD ONE'],
  ])
  read('Household checking', [['2026-02-02', 50_000, 'TRANSFER FROM FARM CHECKING']])
  const line = (payee: string) => waiting().find((one) => one.payee === payee)!.id
  const sorted = sortLines(app.books, act(), [
    { lineId: line('HOLLOW MILL'), ...to('Feed') },
    {
      lineId: line('TRANSFER TO HOUSEHOLD CHECKING'),
      kind: 'transfer',
      otherLineId: line('TRANSFER FROM FARM CHECKING'),
    },
    { lineId: line('ODD ONE'), kind: 'ignore', note: '' },
  ])
  expect(sorted.ok).toBe(true)
  expect([waiting().length, balance('Feed'), listRules(app.books).length]).toEqual([0, 1000, 1])
  expect(await said(await takeBack('lines.sorted'))).toContain('It is undone.')
  expect(waiting().map(({ state }) => state)).toEqual(['unsorted', 'unsorted', 'unsorted', 'unsorted'])
  expect([balance('Feed'), balance('Farm checking'), balance('Household checking')]).toEqual([0, 0, 0])
  expect(listRules(app.books)).toEqual([])
  sound()
})

test('what was corrected since, or stands in a closed month, is not reversed by a press, and the page says why', async () => {
  read('Farm checking', [['2026-02-01', -1000, 'HOLLOW MILL']])
  sortLines(app.books, act(), [{ lineId: waiting()[0]!.id, ...to('Feed') }])
  const no = app.books.sqlite.prepare('SELECT max(no) FROM entries').pluck().get()
  const page = await (await app.get(`/books/entries/${no}/for`)).text()
  const formId = /name="formId" value="([^"]+)"/.exec(page)![1]!
  const answer = await app.post(`/books/entries/${no}/for`, {
    formId,
    'parts.0.account': String(id('Supplies')),
    'parts.0.amount': '',
  })
  expect(answer.status).toBe(303)
  expect([balance('Feed'), balance('Supplies')]).toEqual([0, 1000])
  expect(await said(await takeBack('lines.sorted'))).toContain('was corrected since')
  // Taken back in order, both go.
  await takeBack('entry.corrected')
  expect([balance('Feed'), balance('Supplies')]).toEqual([1000, 0])
  sound()
})

test('a crossing recorded and a month of it are reversed on both sides; twice reverses once', async () => {
  expect(
    postCrossing(app.books, act(), {
      kind: 'draw',
      day: day('2026-02-10'),
      amountCents: cents(30_000),
      fromAccountId: id('Farm checking'),
      toAccountId: id('Household checking'),
      memo: '',
    }).ok,
  ).toBe(true)
  const change = listActs(app.books)[0]!
  for (let time = 0; time < 2; time += 1)
    await app.post(`/undo/${change.id}`, { formId: randomUUID(), from: 'acts' })
  expect([balance('Farm checking'), balance('Household checking')]).toEqual([0, 0])
  expect(
    app.books.sqlite.prepare("SELECT count(*) FROM entries WHERE source = 'reversal'").pluck().get(),
  ).toBe(2)
})

test('a crossing that the banks have on two days says in the other register which day its bank has', async () => {
  read('Farm checking', [['2026-02-22', -40_000, 'TRANSFER TO HOUSEHOLD CHECKING']])
  read('Household checking', [['2026-02-23', 40_000, 'TRANSFER FROM FARM CHECKING']])
  const [one, other] = waiting()
  expect(
    sortLines(app.books, act(), [{ lineId: one!.id, kind: 'transfer', otherLineId: other!.id }]).ok,
  ).toBe(true)
  const days = async (name: string) =>
    (
      (await (await app.get(`/books/accounts/${id(name)}.json`)).json()) as {
        rows: { day: string; bankDay: string | null }[]
      }
    ).rows.map(({ day, bankDay }) => [day, bankDay])
  const all = [...(await days('Farm checking')), ...(await days('Household checking'))]
  expect(new Set(all.map(([booked]) => booked)).size).toBe(1)
  const away = all.filter(([, bankDay]) => bankDay !== null)
  expect(away).toHaveLength(1)
  const register = await (
    await app.get(
      `/books/accounts/${id(away[0]![1] === '2026-02-23' ? 'Household checking' : 'Farm checking')}`,
    )
  ).text()
  expect(register).toMatch(/bank: Feb 2[23], 2026/)
})

test('who did it is said by the name given once at the browser', async () => {
  read('Farm checking', [['2026-02-01', -1000, 'HOLLOW MILL']])
  const here = { cookie: 'dooryard-browser=browser-abcd1234' }
  const line = waiting()[0]!.id
  await app.post(`/books/sorting/lines/${line}`, { formId: randomUUID(), how: 'ignore', note: '' }, here)
  const rows = async (headers = here) =>
    ((await (await app.get('/books/acts.json', headers)).json()) as { acts: { who: string }[] }).acts.map(
      ({ who }) => who,
    )
  // The first two are the books of both sides, the third the file.
  expect(await rows()).toEqual(['This browser', 'test', 'test', 'test'])
  await app.post('/books/acts/name', { formId: randomUUID(), name: 'Wren' }, here)
  expect(await rows({ cookie: 'dooryard-browser=browser-other999' })).toEqual([
    'Wren',
    'Wren',
    'test',
    'test',
    'test',
  ])
})

test('acts beyond a page are a step away, however many there are, and none is told twice', async () => {
  for (let at = 0; at < 60; at += 1) read('Farm checking', [['2026-02-01', -1000 - at, `MILL ${at}`]])
  interface Acts {
    acts: { id: number; hasOpposite: boolean }[]
  }
  const all = ((await (await app.get('/books/acts.json')).json()) as Acts).acts.flatMap((one) =>
    one.hasOpposite ? [one.id] : [],
  )
  const shown: number[] = []
  for (let path: string | undefined = '/books/acts'; path !== undefined; ) {
    const html: string = await (await app.get(path)).text()
    shown.push(...[...html.matchAll(/action="\/undo\/(\d+)"/g)].map((found) => Number(found[1])))
    path = /href="(\/books\/acts\?before=\d+)"/.exec(html)?.[1]
  }
  expect(shown).toEqual(all)
  expect(shown.length).toBeGreaterThanOrEqual(60)
})

test('newest first is by the clock, not by the order of writing, across pages too', async () => {
  const hour = (at: number) => `2026-03-01T${String(at % 24).padStart(2, '0')}:00:00.000Z`
  // Written at hours 0, 7, 14, 21, 4 and so on.
  for (let at = 0; at < 30; at += 1)
    importStatement(
      app.books,
      { ...act(), at: hour(at * 7) },
      id('Farm checking'),
      statementFile([{ day: day('2026-02-01'), amount: cents(-1000 - at), payee: `MILL ${at}` }]),
      day('2026-03-15'),
    )
  const hours: string[] = []
  for (let path: string | undefined = '/books/acts'; path !== undefined; ) {
    const html: string = await (await app.get(path)).text()
    hours.push(...[...html.matchAll(/Mar 1, 2026, (\d+:00 [AP]M)/g)].map((found) => found[1]!))
    path = /href="(\/books\/acts\?before=\d+)"/.exec(html)?.[1]
  }
  const atHour = (said: string) => (Number.parseInt(said, 10) % 12) + (said.endsWith('PM') ? 12 : 0)
  const shown = hours.map(atHour)
  expect(new Set(shown).size).toBe(24)
  expect(shown).toEqual(shown.toSorted((one, other) => other - one))
})

test('acts without an opposite are in the list with the page on which they are changed back; a part of an undo is not told twice', async () => {
  app.savePlan({ planVersion, startMonth: '2026-03' })
  read('Farm checking', [['2026-02-01', -1000, 'HOLLOW MILL']])
  expect((await takeBack('statement.imported')).status).toBe(303)
  const { acts } = (await (await app.get('/books/acts.json')).json()) as {
    acts: { says: string; href: string | null; hasOpposite: boolean; isTakenBack: boolean }[]
  }
  const saved = acts.find(({ says }) => says === 'A plan was saved')
  expect(saved).toMatchObject({ href: '/runway/revisions', hasOpposite: false, isTakenBack: false })
  const ofStatement = acts.filter(({ says }) => /statement/i.test(says))
  expect(ofStatement.map(({ hasOpposite, isTakenBack }) => [hasOpposite, isTakenBack])).toEqual([
    [true, true],
  ])
  const page = await (await app.get('/books/acts')).text()
  expect(page).toMatch(/A plan was saved[\s\S]*?href="\/runway\/revisions"[\s\S]*?on its own page/)
  // None of it can be undone by its number.
  const lone = listActs(app.books, { withLone: true }).find(({ kind }) => kind === 'plan.saved')!
  const tried = await app.post(`/undo/${lone.id}`, { formId: randomUUID(), from: 'acts' })
  expect(await said(tried)).toContain('Something was done since')
  sound()
})
