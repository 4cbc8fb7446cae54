// What a month's path says of closing, in houses unlike the sample: nothing read yet, months between, a file that ends before the month does.

import { randomUUID } from 'node:crypto'
import { afterEach, beforeEach, expect, test } from 'vitest'
import { day } from '#calendar/day.ts'
import { listAccounts } from '#db/ledger/account-store.ts'
import { postEntry } from '#db/ledger/ledger-store.ts'
import { standingClosing } from '#db/reconcile/closing-store.ts'
import { sortingDesk } from '#db/statements/sorting-desk.ts'
import { sortLines } from '#db/statements/sorting-store.ts'
import { importStatement } from '#db/statements/statement-store.ts'
import { cents } from '#money/cents.ts'
import { statementFile } from '../db/statement-file.ts'
import { type TestApp, testApp } from './test-app.ts'

let app: TestApp
const idOf = (name: string) => listAccounts(app.books).find((one) => one.name === name)!.id
const act = (at = '2026-11-06') => ({ formId: randomUUID(), at: `${at}T12:00:00.000Z`, actor: 'test' })

type Line = [on: string, dollars: number]

/** A file that ends with what its lines leave of `begins`, on the day of its last line. */
const read = (account: string, begins: number, lines: Line[], at = '2026-11-06') => {
  const last = lines.at(-1)![0]
  let balance = begins
  const told = lines.map(([on, dollars], index) => {
    balance += dollars
    return {
      bankNumber: `${on}-${index}`,
      day: day(on),
      amount: cents(dollars * 100),
      balance: cents(balance * 100),
      payee: `HOLLOW LANE ${index}`,
    }
  })
  const file = statementFile(told, { closing: { balance: cents(balance * 100), asOf: day(last) } })
  expect(importStatement(app.books, act(at), idOf(account), file, day(at)).ok).toBe(true)
}

const bookAll = () => {
  const farm = idOf('Farm checking')
  const sortings = sortingDesk(app.books).lines.map(({ line }) => ({
    lineId: line.id,
    kind: 'target' as const,
    target: {
      kind: 'account' as const,
      accountId: idOf(line.accountId === farm ? 'Supplies' : 'Groceries'),
      enterpriseId: null,
    },
  }))
  expect(sortLines(app.books, act(), sortings).ok).toBe(true)
}

const opening = (on: string, dollars: number) => {
  const equity = listAccounts(app.books, { sideId: 'household' }).find(
    (one) => one.systemRole === 'opening_balances',
  )!.id
  const lines = [
    { accountId: idOf('Household checking'), amountCents: cents(dollars * 100) },
    { accountId: equity, amountCents: cents(-dollars * 100) },
  ]
  const draft = { sideId: 'household', day: day(on), payee: '', memo: '', source: 'form' as const, lines }
  expect(postEntry(app.books, act(), draft)).toMatchObject({ ok: true })
}

const page = async (of = '') => (await (await app.get(`/month${of}`)).text()).replace(/<!--.*?-->/g, '')
const json = async (of = '') => (await app.get(`/month.json${of}`)).json()
const close = (of: string, more = {}) =>
  app.post('/month/close', { formId: randomUUID(), month: of, ...more })
/** How the step is marked: done, the one that is on, or neither. */
const markOf = (html: string, step: string) =>
  /<li class="([^"]*)"[^>]*><section aria-labelledby="step-X"/.exec(
    html.replace(`"step-${step}"`, '"step-X"'),
  )?.[1] ?? ''

beforeEach(() => {
  app = testApp({ today: '2026-11-06' })
  app.openSides()
})
afterEach(() => app.close())

test('opening balances alone are nothing to close: the files come first, and no other step is done', async () => {
  opening('2026-10-15', 4000)
  const html = await page('?month=2026-10')
  expect(html).toContain('No bank file has been read yet. Begin with the files of October 2026.')
  expect(html).not.toContain('can be closed')
  expect(html).not.toContain('action="/month/close"')
  expect(['files', 'sort', 'transfers', 'reconcile'].map((step) => markOf(html, step))).toEqual([
    'is-here',
    '',
    '',
    '',
  ])
  // What was booked by hand can be closed, read or not.
  const lines = [
    { accountId: idOf('Household checking'), amountCents: cents(-900) },
    { accountId: idOf('Groceries'), amountCents: cents(900) },
  ]
  const byHand = {
    sideId: 'household',
    day: day('2026-10-20'),
    payee: '',
    memo: '',
    source: 'form' as const,
    lines,
  }
  expect(postEntry(app.books, act(), byHand).ok).toBe(true)
  expect(await page('?month=2026-10')).toContain('October 2026 can be closed.')
})

test('a month that an entry by hand of an earlier one does not reach begins with the files, and no press shuts it', async () => {
  opening('2026-08-01', 4000)
  const lines = [
    { accountId: idOf('Household checking'), amountCents: cents(-1230) },
    { accountId: idOf('Groceries'), amountCents: cents(1230) },
  ]
  const head = { sideId: 'household', day: day('2026-08-09'), payee: '', memo: '', source: 'form' as const }
  expect(postEntry(app.books, act(), { ...head, lines }).ok).toBe(true)
  const october = await page('?month=2026-10')
  expect(october).toContain('No bank file has been read yet. Begin with the files of October 2026.')
  expect(october).not.toContain('can be closed')
  expect(october).not.toContain('action="/month/close"')
  expect(['files', 'sort', 'reconcile'].map((step) => markOf(october, step))).toEqual(['is-here', '', ''])
  // August itself holds what was booked by hand.
  expect(await page('?month=2026-08')).toContain('August 2026 can be closed.')
})

test('every month that one press shuts is named, empty ones between too', async () => {
  read('Household checking', 900, [['2026-06-11', -40]])
  read('Household checking', 860, [['2026-10-09', -60]])
  bookAll()
  expect(await json('?month=2026-10')).toMatchObject({
    openBefore: ['2026-06', '2026-07', '2026-08', '2026-09'],
  })
  const html = await page('?month=2026-10')
  expect(html.replace(/<[^>]*>/g, '')).toContain(
    '4 earlier months are open: June 2026 to September 2026. Closing October 2026 closes them too.',
  )
  expect(html).toContain('4 months before this one will be shut with it')
  const reply = await close('2026-10')
  const shown = await app.get(reply.headers.get('location')!)
  expect(await shown.text()).toContain('June 2026 to October 2026 are closed.')
})

test('an account reconciled through its file’s own day is done where nothing comes after it and the month was over', async () => {
  read('Household checking', 500, [
    ['2026-10-12', -30],
    ['2026-10-28', -20],
  ])
  bookAll()
  const reconciled = () =>
    app.post('/month/reconcile', {
      formId: randomUUID(),
      month: '2026-10',
      'agrees[]': [`${idOf('Household checking')}.2026-10-28.45000`],
    })
  opening('2026-10-01', 500)
  expect((await reconciled()).status).toBe(303)
  expect(await json('?month=2026-10')).toMatchObject({ reconcile: [{ state: 'done' }] })
  const html = await page('?month=2026-10')
  expect(html).not.toContain('no file says a balance')
  expect(html).not.toContain('Not reconciled through')
  // A transaction of the 30th comes after that balance.
  read('Household checking', 450, [['2026-10-30', -5]])
  bookAll()
  expect(await json('?month=2026-10')).toMatchObject({ reconcile: [{ state: 'agrees' }] })
})

test('a file read before the month was over says nothing of the month’s end', async () => {
  opening('2026-10-01', 500)
  read('Household checking', 500, [['2026-10-15', -30]], '2026-10-15')
  bookAll()
  const agrees = [`${idOf('Household checking')}.2026-10-15.47000`]
  const form = { formId: randomUUID(), month: '2026-10', 'agrees[]': agrees }
  expect((await app.post('/month/reconcile', form)).status).toBe(303)
  expect(await json('?month=2026-10')).toMatchObject({ reconcile: [{ state: 'untold' }] })
})

test('one count of what waits, with the sides it is of', async () => {
  read('Household checking', 540, [['2026-09-05', -40]])
  read('Farm checking', 940, [['2026-09-05', -40]])
  bookAll()
  read('Household checking', 500, [
    ['2026-10-05', 250],
    ['2026-10-12', -30],
  ])
  read('Farm checking', 900, [
    ['2026-10-05', -250],
    ['2026-10-13', -45],
    ['2026-10-14', -46],
  ])
  const html = (await page('?month=2026-10')).replace(/<[^>]*>/g, ' ')
  expect(html).toContain('October 2026 waits for 5 transactions')
  expect(html).toContain('5 left')
  expect(html).toContain('Household: 2 transactions are not sorted')
  expect(html).toContain('Wrenfold: 3 transactions are not sorted')
})

test('the books reach the day that Now says, and months missing since then are counted from the next one', async () => {
  read('Household checking', 500, [['2026-10-28', -30]])
  read('Farm checking', 900, [['2026-10-25', -45]])
  bookAll()
  expect(await page('?month=2026-10')).toContain('the books reach Oct 28, 2026')
  expect(await (await app.get('/now')).text()).toContain('The books reach Oct 28, 2026.')
})

test('balances of the first of June leave June to October missing: five months', async () => {
  opening('2026-06-01', 4000)
  expect(await (await app.get('/now')).text()).toContain('5 months are missing since then')
})

const begin = (account: string, balance: string) =>
  app.post('/books/reconcile', {
    formId: randomUUID(),
    account: String(idOf(account)),
    statementDay: '2026-10-31',
    balance,
    note: '',
  })
const boxOf = (html: string, account: string) =>
  html.match(/<input [^>]*>/g)!.find((tag) => tag.includes(`id="begun-${idOf(account)}"`))!

test('over a reconciliation that was begun a month closes only with a yes to its account, kept when it is refused', async () => {
  read('Household checking', 900, [['2026-10-12', -60]])
  read('Farm checking', 700, [['2026-10-14', -30]])
  bookAll()
  expect((await begin('Household checking', '840')).status).toBe(303)
  expect((await begin('Farm checking', '670')).status).toBe(303)
  const html = await page('?month=2026-10')
  expect(html).toContain('can be closed; reconciling')
  expect(html).toContain('Reconciling was begun and is not finished: Household checking')
  expect(boxOf(html, 'Household checking')).not.toContain(' checked')
  const one = await close('2026-10', { 'begun[]': [String(idOf('Household checking'))] })
  expect(one.status).toBe(422)
  const again = await one.text()
  expect(again).toContain('Reconciling Farm checking was begun and is not finished. Finish it first')
  expect(boxOf(again, 'Household checking')).toContain(' checked')
  expect(boxOf(again, 'Farm checking')).not.toContain(' checked')
  expect(standingClosing(app.books, 'household')).toBeUndefined()
  const bySide = { formId: randomUUID(), side: 'household', at: '0', month_0: '2026-10', note_0: '' }
  const refused = await app.post('/books/close', bySide)
  expect(refused.status).toBe(422)
  expect(boxOf(await refused.text(), 'Household checking')).toContain('name="begun_0[]"')
  const both = ['Household checking', 'Farm checking'].map((name) => String(idOf(name)))
  const done = await close('2026-10', { 'begun[]': both })
  expect(done.status).toBe(303)
  expect(await (await app.get(done.headers.get('location')!)).text()).toMatch(
    /October 2026 is closed\. Reconciling .*Household checking.* is still to be finished\./,
  )
})

test('a month between two files of an account is said until it is read, unless their balances meet', async () => {
  read('Farm checking', 900, [
    ['2026-06-05', -10],
    ['2026-07-20', -10],
  ])
  read('Household checking', 300, [['2026-07-05', -10]])
  read('Household checking', 290, [['2026-10-05', -10]])
  read('Farm checking', 700, [
    ['2026-09-05', -10],
    ['2026-10-20', -10],
  ])
  bookAll()
  const missing = 'August 2026 of Farm checking was not read'
  const html = await page('?month=2026-10')
  expect(html.split(missing)).toHaveLength(3)
  expect(html).not.toContain('of Household checking was not read')
  expect(markOf(html, 'files')).toBe('is-here')
  expect((await close('2026-10')).status).toBe(303)
  expect(await page('?month=2026-11')).toContain(missing)
  const farm = (await (await app.get('/books/close')).text()).includes(missing)
  expect(farm).toBe(false)
  read('Farm checking', 880, [['2026-08-09', -180]])
  expect(await page('?month=2026-11')).not.toContain(missing)
})

test('the earliest month that something waits in leads, of new books the one they begin with; closing says what stands against it', async () => {
  opening('2026-07-01', 4000)
  expect(await page()).toContain('Begin with the files of July 2026.')
  read('Household checking', 4000, [['2026-07-11', -40]])
  read('Household checking', 3960, [['2026-10-09', -60]])
  expect(await page()).toContain('July 2026 waits for 1 transaction')
  // October waits for both: not to be closed while they do.
  expect(await page('?month=2026-10')).not.toContain('it can be closed</p>')
  bookAll()
  const october = await page()
  expect(october).toContain('October 2026 can be closed; not reconciled yet: Household checking.')
  // A slip by hand puts bank and books apart, which is said.
  const lines = [
    { accountId: idOf('Household checking'), amountCents: cents(-700) },
    { accountId: idOf('Groceries'), amountCents: cents(700) },
  ]
  const slip = { sideId: 'household', day: day('2026-10-08'), payee: '', memo: '', source: 'form' as const }
  expect(postEntry(app.books, act(), { ...slip, lines }).ok).toBe(true)
  expect(await page()).toContain('; bank and books are apart: Household checking')
})
