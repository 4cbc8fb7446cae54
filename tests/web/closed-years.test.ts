// A closed year stands: its pack is kept as it was, what would change it asks first, and then an amended copy is kept beside it.
import { afterEach, beforeEach, expect, test } from 'vitest'
import { day } from '#calendar/day.ts'
import { month } from '#calendar/month.ts'
import { listAccounts } from '#db/ledger/account-store.ts'
import { postEntry } from '#db/ledger/ledger-store.ts'
import { latestRevision } from '#db/plan-store.ts'
import { closeMonth } from '#db/reconcile/closing-store.ts'
import { verifyBooks } from '#db/verify/verify.ts'
import { listHoldings } from '#db/year/holding-list.ts'
import { keepPack, keptPacksOf } from '#db/year/kept-packs.ts'
import { cents } from '#money/cents.ts'
import { planSchema } from '#plan/plan.ts'
import { type KeptSheets, packDifferences, sheetsToKeep } from '#web/forms/pack/kept-sheets.ts'
import { act, done } from '../db/fresh-books.ts'
import { yearBooks } from '../outside/year-books.ts'
import { browserForms } from './browser-form.ts'
import { type TestApp, testApp } from './test-app.ts'

let app: TestApp
const formId = () => crypto.randomUUID()
const idOf = (name: string) =>
  listAccounts(app.books).find((one) => one.sideId === 'farm' && one.name === name)!.id
const page = async (path: string) => (await app.get(path)).text()
const packs = () => keptPacksOf(app.books, 2025)
const closeYear = (over = '0', note = '') =>
  app.post('/year-pack/close?year=2025', { formId: formId(), over, note })

beforeEach(() => {
  app = testApp({ today: '2026-02-10' })
  app.openSides()
  const post = (on: string, debit: string, credit: string, dollars: number) =>
    done(
      postEntry(app.books, act(), {
        sideId: 'farm',
        day: day(on),
        payee: '',
        memo: '',
        source: 'form',
        lines: [
          { accountId: idOf(debit), amountCents: cents(dollars * 100) },
          { accountId: idOf(credit), amountCents: cents(-dollars * 100) },
        ],
      }),
    )
  post('2024-12-31', 'Farm checking', 'Opening balances', 5000)
  post('2025-06-10', 'Farm checking', 'Vegetables and fruit sold', 9000)
  post('2025-07-10', 'Supplies', 'Farm checking', 1200)
})

afterEach(() => app.close())

const closeMonths = () =>
  done(closeMonth(app.books, act(), { sideId: 'farm', month: month(2025, 12), note: '' }, day('2026-02-10')))

test('open months come first; then the pack is kept once, however often the form is sent', async () => {
  expect(await page('/year-pack?year=2025')).toContain('Close the months of 2025 in the books of Wrenfold')
  expect((await closeYear()).status).toBe(422)
  expect(packs()).toEqual([])
  closeMonths()
  const form = { formId: formId(), over: '0', note: '' }
  for (const _ of [1, 2]) expect((await app.post('/year-pack/close?year=2025', form)).status).toBe(303)
  expect(packs().map(({ copyNo }) => copyNo)).toEqual([1])
  const text = await page('/year-pack?year=2025')
  expect(text).toContain('2025 is closed')
  expect(text).toContain('The books say the same today, line by line')
  const kept = (await (await app.get('/year-pack/kept/2025/1.json')).json()) as {
    digest: string
    kept: { cash: { sheets: { id: string; rows: string[][] }[] } }
  }
  expect(kept.digest).toBe(packs()[0]!.digest)
  expect(kept.kept.cash.sheets.find(({ id }) => id === 'schedule-f')!.rows.flat()).toContain('7800.00')
  expect(await page('/year-pack/kept/2025/1')).toContain('as it was closed')
  expect(await (await app.get('/year-pack/kept/2025/1.csv?table=farm-income')).text()).toContain('7800.00')
  expect(verifyBooks(app.books.sqlite).findings).toEqual([])
})

test('a kept copy has every sheet open, money as people write it, and measures as percent', async () => {
  closeMonths()
  await closeYear()
  const text = await page('/year-pack/kept/2025/1')
  const sheets = JSON.parse(packs()[0]!.sheets).cash.sheets as { id: string }[]
  expect(text.match(/<details class="kept-sheet"[^>]* open/g)).toHaveLength(sheets.length)
  const measures = text.slice(
    text.indexOf('id="measures"'),
    text.indexOf('</details>', text.indexOf('id="measures"')),
  )
  // Operating expense 1,200 of 9,000 sold: 13.3 percent.
  expect(measures).toContain('13.3%')
  expect(text).not.toMatch(/<td[^>]*>(fraction|dollars)<\/td>/)
  expect(text).toMatch(/<td class="number">7,800\.00<\/td>/)
  expect(text).not.toMatch(/\D\d{4,}\.\d\d\D/)
})

test('a running year is not closed, nor one of which the books have nothing', async () => {
  const missing = await app.post('/year-pack/close?year=2026', { formId: formId(), over: '0', note: '' })
  expect([missing.status, keptPacksOf(app.books, 2026)]).toEqual([404, []])
  yearBooks(app.books, 'farm', 'Farm checking', 2026).book({ 'Vegetables and fruit sold': '10' }, {})
  const refused = await app.post('/year-pack/close?year=2026', { formId: formId(), over: '0', note: '' })
  expect(refused.status).toBe(422)
  expect(await refused.text()).toContain('2026 still runs')
})

test('an account given another line says what it changes first, and keeps an amended copy once it is meant', async () => {
  closeMonths()
  await closeYear()
  const address = `/settings/accounts/${idOf('Supplies')}`
  const form = {
    formId: formId(),
    side: 'farm',
    kind: 'expense',
    name: 'Supplies',
    number: '5280',
    scheduleLine: '32f',
    note: '',
  }
  const asked = await app.post(address, form)
  expect(asked.status).toBe(422)
  const text = await asked.text()
  expect(text).toContain('2025 is closed with its pack, and this changes it')
  expect(text).toMatch(/Schedule F summary.*1,200\.00 becomes nothing|1,200\.00/)
  expect(text).toContain('name="overClosed"')
  expect(listAccounts(app.books).find(({ id }) => id === idOf('Supplies'))!.scheduleLine).toBe('28')
  expect(packs()).toHaveLength(1)
  expect((await app.post(address, { ...form, overClosed: 'yes' })).status).toBe(303)
  expect(packs().map(({ copyNo }) => copyNo)).toEqual([2, 1])
  expect(await page('/year-pack?year=2025')).toContain('The books say the same today, line by line')
  // The first copy still says what was handed over.
  const first = JSON.parse(packs()[1]!.sheets)
  expect(JSON.stringify(first.cash.sheets)).toContain('"28"')
})

test('a new name of an account, or an account of this year, changes no closed year’s amounts and asks nothing', async () => {
  closeMonths()
  await closeYear()
  const added = await app.post('/settings/accounts/new', {
    formId: formId(),
    side: 'farm',
    kind: 'expense',
    name: 'Bee supplies',
    number: '',
    scheduleLine: '28',
    note: '',
  })
  expect(added.status).toBe(303)
  expect(packs()).toHaveLength(1)
})

test('a thing bought in the closed year, a year-end item and a value of its last day ask first', async () => {
  closeMonths()
  await closeYear()
  const thing = {
    formId: formId(),
    name: 'Walking tractor',
    kind: 'equipment',
    quantity: '1',
    unit: '',
    cost: '6000',
    acquiredDay: '2025-03-02',
    inServiceDay: '',
    account: '',
    assetClass: 'machinery-used',
    section179: '',
    marketValue: '',
    valuedDay: '',
    disposedDay: '',
    disposedFor: '',
  }
  expect((await app.post('/year-pack/holdings/new', thing)).status).toBe(422)
  const item = { formId: formId(), at: 'end', side: 'farm', kind: 'crops', name: 'Garlic', amount: '400' }
  expect((await app.post('/year-pack/inputs/items?year=2025', item)).status).toBe(422)
  const value = { formId: formId(), [`market.a${idOf('Land')}`]: '90000' }
  expect((await app.post('/year-pack/inputs/market?year=2025', value)).status).toBe(422)
  // Of the year after: nothing of 2025.
  const later = { ...item, formId: formId() }
  expect((await app.post('/year-pack/inputs/items?year=2026', later)).status).toBe(303)
  expect(packs()).toHaveLength(1)
  expect((await app.post('/year-pack/holdings/new', { ...thing, overClosed: 'yes' })).status).toBe(303)
  expect(packs()).toHaveLength(2)
})

test('a thing held at the end of the closed year and sold in the next changes nothing of it', async () => {
  const tractor = {
    formId: formId(),
    name: 'Walking tractor',
    kind: 'equipment',
    quantity: '1',
    unit: '',
    cost: '6000',
    acquiredDay: '2025-03-02',
    inServiceDay: '',
    account: '',
    assetClass: 'machinery-used',
    section179: '',
    marketValue: '',
    valuedDay: '',
    disposedDay: '',
    disposedFor: '',
  }
  expect((await app.post('/year-pack/holdings/new', tractor)).status).toBe(303)
  closeMonths()
  await closeYear()
  const { id } = listHoldings(app.books, 'farm')[0]!
  const sold = { ...tractor, formId: formId(), disposedDay: '2026-02-03', disposedFor: '4100' }
  const basedOn = /name="basedOn" value="([^"]*)"/.exec(await page(`/year-pack/holdings/${id}`))?.[1] ?? ''
  expect((await app.post(`/year-pack/holdings/${id}`, { ...sold, basedOn })).status).toBe(303)
  expect(packs()).toHaveLength(1)
  expect(await page('/year-pack?year=2025')).toContain('The books say the same today, line by line')
  expect(await (await app.get('/year-pack.csv?year=2025&table=inventory')).text()).not.toContain('2026-02-03')
  expect(listHoldings(app.books, 'farm')[0]!.disposedDay).toBe('2026-02-03')
  // A copy kept by an earlier program has the later sale in it.
  const kept = JSON.parse(packs()[0]!.sheets) as KeptSheets
  const old = structuredClone(kept)
  for (const { sheets } of [old.cash, old.accrual])
    for (const { header, rows } of sheets.filter((sheet) => sheet.id === 'inventory')) {
      const row = rows[0] as string[]
      row[header.indexOf('disposed')] = '2026-02-03'
      row[header.indexOf('for')] = '4100.00'
    }
  expect(packDifferences(old, kept)).toEqual([])
})

test('what is said once a year, and of its forms, asks first too', async () => {
  closeMonths()
  await closeYear()
  const inputs = (await (await app.get('/year-pack/inputs.json?year=2025')).json()) as { revision: number }
  const said = { basedOn: String(inputs.revision), unpaidLabor: '9000' }
  const asked = await app.post('/year-pack/inputs/said?year=2025', said)
  expect(asked.status).toBe(422)
  const question = await asked.text()
  expect(question).toContain('name="overClosed"')
  // A measure is asked about as the sheet tells it, in percent.
  expect(question).toContain('Farm finance measures')
  expect(question).toMatch(/becomes −?\d[\d,.]*%/)
  expect(question).not.toMatch(/becomes -?\d\.\d{4}\b/)
  expect((await app.post('/year-pack/inputs/said?year=2025', { ...said, overClosed: 'yes' })).status).toBe(
    303,
  )
  expect(packs().map(({ copyNo }) => copyNo)).toEqual([2, 1])
})

test('who a payee is, and what a paper says, stand in the kept pack: said otherwise they ask first', async () => {
  const hauler = {
    sideId: 'farm',
    day: day('2025-09-01'),
    payee: 'Ora Hauling',
    memo: '',
    source: 'form' as const,
    lines: [
      { accountId: idOf('Freight and trucking'), amountCents: cents(80_000) },
      { accountId: idOf('Farm checking'), amountCents: cents(-80_000) },
    ],
  }
  done(postEntry(app.books, act(), hauler))
  closeMonths()
  await closeYear()
  const kept = await (await app.get('/year-pack/kept/2025/1.csv?table=people')).text()
  expect(kept).toContain('Ora Hauling')
  expect(kept).toContain('800.00')
  const text = await page('/year-pack/people?year=2025')
  const said = {
    formId: formId(),
    basedOn: /name="basedOn" value="([^"]*)"/.exec(text)![1]!,
    'payees.0.name': 'Ora Hauling',
    'payees.0.kind': 'company',
    'payees.0.sameAs': '',
  }
  const asked = await app.post('/year-pack/people?year=2025', said)
  expect(asked.status).toBe(422)
  expect(await asked.text()).toContain('name="overClosed"')
  expect(packs()).toHaveLength(1)
  expect((await app.post('/year-pack/people?year=2025', { ...said, overClosed: 'yes' })).status).toBe(303)
  expect(packs()).toHaveLength(2)
  expect(await (await app.get('/year-pack/kept/2025/1.csv?table=people')).text()).toBe(kept)
})

test('who is paid as a worker counts as one in a closed year too: asked first, and sent again it books once', async () => {
  const lines = [
    { accountId: idOf('Hired labor'), amountCents: cents(90_000) },
    { accountId: idOf('Farm checking'), amountCents: cents(-90_000) },
  ]
  const weeds = {
    sideId: 'farm',
    day: day('2025-09-01'),
    payee: 'Ida Weeds',
    memo: '',
    source: 'form' as const,
  }
  done(postEntry(app.books, act(), { ...weeds, lines }))
  closeMonths()
  await closeYear()
  const pay = {
    formId: formId(),
    worker: 'Ida Weeds',
    day: '2026-01-20',
    wages: String(idOf('Hired labor')),
    money: String(idOf('Farm checking')),
    gross: '100',
    federal: '',
    state: '',
    kept: '',
    employer: '',
  }
  const asked = await app.post('/year-pack/pay', pay)
  expect(asked.status).toBe(422)
  expect(await asked.text()).toContain('name="overClosed"')
  const meant = { ...pay, overClosed: 'yes' }
  expect((await app.post('/year-pack/pay', meant)).status).toBe(303)
  expect((await app.post('/year-pack/pay', meant)).status).toBe(303)
  expect(packs()).toHaveLength(2)
  const booked = app.books.sqlite
    .prepare("SELECT count(*) FROM entries WHERE payee = 'Ida Weeds'")
    .pluck()
    .get()
  expect(booked).toBe(2)
})

test('what changed without a question, like a payment booked after a month was opened again, is told with the lines', async () => {
  closeMonths()
  await closeYear()
  const closing = app.books.sqlite.prepare('SELECT id FROM month_closings').pluck().get() as string
  app.books.sqlite
    .prepare("UPDATE month_closings SET reopened_at = 'x', reopen_reason = 'late bill' WHERE id = ?")
    .run(closing)
  done(
    postEntry(app.books, act(), {
      sideId: 'farm',
      day: day('2025-11-10'),
      payee: '',
      memo: '',
      source: 'form',
      lines: [
        { accountId: idOf('Feed'), amountCents: cents(7500) },
        { accountId: idOf('Farm checking'), amountCents: cents(-7500) },
      ],
    }),
  )
  const text = await page('/year-pack?year=2025')
  expect(text).toMatch(/Since copy 1, \d+ lines read\s+otherwise/)
  expect(text).toContain('75.00')
  expect((await closeYear('1')).status).toBe(422)
  expect((await closeYear('1', 'A late feed bill')).status).toBe(303)
  expect(packs()[0]).toMatchObject({ copyNo: 2, note: 'A late feed bill' })
})

/** A person's plan, so that the year's return is worked; 2025 was closed before its tax was paid. */
const closedBeforePaying = async () => {
  app.savePlan(
    planSchema.parse({
      startMonth: '2025-01',
      household: {
        people: [{ id: 'ann', name: 'Ann', born: '1982-04-01' }],
        living: [{ id: 'living', name: 'Living', perMonth: 1500 }],
      },
    }),
  )
  closeMonths()
  done(
    closeMonth(
      app.books,
      act(),
      { sideId: 'household', month: month(2025, 12), note: '' },
      day('2026-02-10'),
    ),
  )
  expect((await closeYear()).status).toBe(303)
}

const household = (name: string) =>
  listAccounts(app.books).find((one) => one.sideId === 'household' && one.name === name)!.id

const payTax = (on: string, dollars: number, bookedOn = on) =>
  done(
    postEntry(
      app.books,
      { ...act(), at: `${bookedOn}T18:00:00.000Z` },
      {
        sideId: 'household',
        day: day(on),
        payee: 'Treasury',
        memo: '',
        source: 'form',
        lines: [
          { accountId: household('Federal taxes'), amountCents: cents(dollars * 100) },
          { accountId: household('Savings'), amountCents: cents(-dollars * 100) },
        ],
      },
    ),
  )

test('tax paid before the closing and booked after it is on line 26: an amended copy is offered, and lists it', async () => {
  await closedBeforePaying()
  expect(await page('/year-pack?year=2025')).toContain('The books say the same today, line by line')
  payTax('2026-01-12', 300, '2026-02-16')
  const withEstimate = await page('/year-pack?year=2025')
  expect(withEstimate).not.toContain('The books say the same today')
  expect(withEstimate).toContain('2026-01-12 estimated payment')
  expect(withEstimate).not.toContain('Paid since copy')
  // Booking it asked nothing: the page names the payment that the lines follow from.
  expect(withEstimate).toMatch(
    /Paid before copy 1 was kept and booked after it, for 2025[\s\S]*Jan 12, 2026, federal[\s\S]*300\.00/,
  )
  expect((await closeYear('1', 'The last estimate was paid')).status).toBe(303)
  expect(await page('/year-pack?year=2025')).not.toContain('booked after it')
  expect(await page('/year-pack?year=2025')).toContain('The books say the same today, line by line')
  const amended = await page('/year-pack/kept/2025/2')
  const [, changes] = amended.split('What changed since copy 1')
  // Line by line, old and new: nothing of line 26 before, 300 dollars now, and so much less owed.
  expect(changes).toMatch(/Estimated payments, line 26[\s\S]*?>0\.00<[\s\S]*?>300\.00</)
  expect(changes).toMatch(/2026-01-12 estimated payment[\s\S]*?>no such line<[\s\S]*?>300\.00</)
  expect(await (await app.get('/year-pack/kept/2025/2.csv?table=changes')).text()).toMatch(
    /cash,"Tax paid for the year","federal, Estimated payments, line 26",0\.00,300\.00|cash,Tax paid for the year,"federal, Estimated payments, line 26",0\.00,300\.00/,
  )
  expect(await page('/year-pack/kept/2025/1')).not.toContain('What changed since')
})

test('tax paid with the return, after the closing, is told as paid since and asks for no other copy', async () => {
  await closedBeforePaying()
  app.setToday('2026-03-20')
  payTax('2026-03-18', 500)
  const text = await page('/year-pack?year=2025')
  expect(text).toContain('The books say the same today, line by line')
  expect(text).not.toContain('Keep an amended copy')
  expect(text).toMatch(/Paid since copy 1 was kept, for 2025[\s\S]*Mar 18, 2026[\s\S]*500\.00/)
  // Saying for which year it counts changes nothing of the closed one either.
  app.setToday('2026-05-02')
  payTax('2026-04-14', 250)
  expect(await page('/year-pack?year=2025')).toMatch(/Apr 14, 2026[\s\S]*Another year fits too/)
  expect(await page('/year-pack?year=2025')).toContain('The books say the same today')
  // Something else changes: the amended copy holds what was paid by then, too, and nothing is paid since it.
  const inputs = (await (await app.get('/year-pack/inputs.json?year=2025')).json()) as { revision: number }
  const said = { basedOn: String(inputs.revision), unpaidLabor: '9000', overClosed: 'yes' }
  expect((await app.post('/year-pack/inputs/said?year=2025', said)).status).toBe(303)
  expect(packs()).toHaveLength(2)
  expect(await page('/year-pack?year=2025')).not.toContain('Paid since copy')
  expect(await page('/year-pack/kept/2025/2')).toMatch(
    /What changed since copy 1[\s\S]*2026-03-18 paid with the return or after it[\s\S]*500\.00/,
  )
  const csv = await (await app.get('/year-pack.csv?year=2025&table=tax-paid')).text()
  // Schedule SE 1,102.11 less the credit 554.54, both as worked below: of the 250, 47.57 are still of 2025.
  expect(csv).toContain('federal,Paid with the return or after it,547.57')
})

test('that Forms 1099 were sent is an answer, kept and asked about like an amount', async () => {
  await closedBeforePaying()
  const path = '/year-pack/schedule-f?year=2025'
  const form = { basedOn: '0', files1099: 'yes', 'weather.0.what': '' }
  const asked = await app.post(path, form)
  expect(asked.status).toBe(422)
  expect(await asked.text()).toMatch(/What Schedule F asks, G, They were or will be filed: nothing becomes/)
  expect((await app.post(path, { ...form, overClosed: 'yes' })).status).toBe(303)
  expect(packs()).toHaveLength(2)
  expect(await (await app.get('/year-pack/kept/2025/2.csv?table=schedule-f-asked')).text()).toMatch(
    /G,They were or will be filed,[Yy]es/,
  )
})

test('a refund left for the next year is on line 36 of one return and line 26 of the next', async () => {
  await closedBeforePaying()
  payTax('2026-01-12', 3000)
  const paid = async (year: number) => {
    const pack = (await (await app.get(`/year-pack.json?year=${year}`)).json()) as {
      tax: { worksheet: { payments: Record<string, number>; inputs: { label: string; dollars: number }[] } }
    }
    return pack.tax.worksheet
  }
  const back = (await paid(2025)).payments.comesBack!
  // Profit of 7,800: Schedule SE 7,203.30, line 10 893.21 and line 11 208.90; no income tax. Earned income credit: 7.65 percent of
  // 7,800 less half of 1,102.11 (Rev. Proc. 2024-40, from memory).
  expect(back).toBeCloseTo(3000 - 1102.11 + 554.54, 2)
  const path = '/year-pack/payments?year=2025'
  const send = (more: Record<string, string>) =>
    app.post('/year-pack/payments/applied?year=2025', {
      basedOn: /applied\?year=2025[^>]*>\s*<input[^>]*value="(\d+)"/.exec(text)![1]!,
      federal: '1,000.00',
      state: '',
      local: '',
      ...more,
    })
  const text = await page(path)
  expect((await send({ federal: '-1' })).status).toBe(422)
  const asked = await send({})
  expect(asked.status).toBe(422)
  expect(await asked.text()).toContain('name="overClosed"')
  expect((await send({ overClosed: 'yes' })).status).toBe(303)
  // Sent twice it is kept once; what another saved since is shown.
  expect((await send({ overClosed: 'yes' })).status).toBe(303)
  expect((await send({ federal: '2', overClosed: 'yes' })).status).toBe(409)
  expect((await paid(2025)).payments).toMatchObject({ appliedToNext: 1000, stillOwed: 0 })
  expect((await paid(2025)).payments.comesBack).toBeCloseTo(back - 1000, 2)
  done(
    postEntry(app.books, act(), {
      sideId: 'farm',
      day: day('2026-02-09'),
      payee: '',
      memo: '',
      source: 'form',
      lines: [
        { accountId: idOf('Farm checking'), amountCents: cents(40_000) },
        { accountId: idOf('Vegetables and fruit sold'), amountCents: cents(-40_000) },
      ],
    }),
  )
  const next = await paid(2026)
  expect(next.payments).toMatchObject({ applied: 1000, estimates: 0 })
  expect(next.inputs.find(({ label }) => label.includes('line 26'))!.dollars).toBe(1000)
  expect(await page('/year-pack/payments?year=2026')).toContain(
    'Left there from the refund of the year before',
  )
})

test('a sheet that an earlier program did not have is named as new, and is no difference', async () => {
  closeMonths()
  // As an earlier program closed the year: without the way from the books to Schedule F.
  const sheets = sheetsToKeep(app.books, 2025, day('2026-02-10'))
  const without = ({ sheets, ...basis }: KeptSheets['cash']) => ({
    ...basis,
    sheets: sheets.filter(({ id }) => id !== 'schedule-f-books'),
  })
  const kept = { ...sheets, cash: without(sheets.cash), accrual: without(sheets.accrual) }
  done(keepPack(app.books, act(), { year: 2025, sheets: JSON.stringify(kept), note: '', over: 0 }))
  const text = await page('/year-pack?year=2025')
  expect(text).toContain('New sheet since copy 1 was made: From the books to Schedule F')
  expect(text).toContain('The books say the same today, line by line')
  expect(text).not.toContain('Keep an amended copy')
})

test('a cash flow kept under headings in plain words says the same under those of the trade, and tells an amount that changed', () => {
  const packOf = (rows: string[][]): KeptSheets => {
    const sheet = { of: 'Wrenfold', title: 'Cash flow', total: '', header: ['part', 'line', 'amount'], rows }
    const basis = { days: '', open: [], sheets: [{ ...sheet, id: 'farm-cash' }] }
    return { format: 'dooryard-year-pack', version: 1, year: 2025, cash: basis, accrual: basis }
  }
  const before = packOf([
    ['', 'Money at the beginning', '5000.00'],
    ['Earning and spending', 'Vegetables and fruit sold', '9000.00'],
    ['Earning and spending', 'From earning and spending', '9000.00'],
    ['Loans', 'Term loan', '-1500.00'],
    ['Loans', 'From loans', '-1500.00'],
    ['Crossings', 'Owner’s draws', '-600.00'],
    ['Crossings', 'From crossings', '-600.00'],
    ['', 'Money at the end', '11900.00'],
  ])
  const now = (draws: string, financing: string) =>
    packOf([
      ['', 'Money at the beginning', '5000.00'],
      ['Operating activities', 'Vegetables and fruit sold', '9000.00'],
      ['Operating activities', 'Cash from operating activities', '9000.00'],
      ['Financing activities', 'Term loan', '-1500.00'],
      ['Financing activities', 'Owner’s draws', draws],
      // −1,500 and −600 of the copy are −2,100 here.
      ['Financing activities', 'Cash from financing activities', financing],
      ['', 'Money at the end', '11900.00'],
    ])
  expect(packDifferences(before, now('-600.00', '-2100.00'))).toEqual([])
  const told = packDifferences(before, now('-650.00', '-2150.00'))
  expect(told.slice(0, 2).map(({ line, before: then, now: later }) => [line, then, later])).toEqual([
    ['Financing activities, Owner’s draws', '-600.00', '-650.00'],
    ['Financing activities, Cash from financing activities', '-2100.00', '-2150.00'],
  ])
})

test('a plan that moves the worksheet of a closed year is asked about before it is saved, in words of the sheet', async () => {
  await closedBeforePaying()
  const revisions = async () =>
    ((await (await app.get('/runway/revisions.json')).json()) as { revisions: unknown[] }).revisions
  const plan = planSchema.parse(JSON.parse(JSON.stringify(latestRevision(app.books, planIdOf())!.document)))
  const form = (changed: unknown, more: Record<string, string> = {}) => ({
    formId: formId(),
    planId: planIdOf(),
    basedOn: '1',
    document: JSON.stringify(changed),
    next: '/runway',
    ...more,
  })
  // What no closed year rests on is saved as ever.
  const cheaper = planSchema.parse({
    ...plan,
    household: { ...plan.household, living: [{ id: 'living', name: 'Living', perMonth: 1400 }] },
  })
  expect((await app.post('/runway/revisions/mine', form(cheaper))).status).toBe(303)
  expect(packs()).toHaveLength(1)
  // With a child born before 2025 the return of 2025 is another one.
  const withChild = planSchema.parse({
    ...cheaper,
    household: { ...cheaper.household, dependents: [{ id: 'kit', name: 'Kit', born: '2015-05-05' }] },
  })
  const asked = await app.post('/runway/revisions/mine', form(withChild, { basedOn: '2' }))
  expect(asked.status).toBe(409)
  const text = await asked.text()
  expect(text).toContain('2025 is closed with its pack, and this changes it')
  expect(text).toMatch(/Tax worksheet, All sides, Deduction: 15,750\.00 becomes 23,625\.00/)
  expect(text).not.toMatch(/, out, |povertyPercent|childTaxCredit/)
  expect(await revisions()).toHaveLength(2)
  expect(packs()).toHaveLength(1)
  // The page's own form saves both, and sent twice it saves once.
  const [own] = browserForms(text, '/runway').filter(({ action }) =>
    action.startsWith('/runway/revisions/mine'),
  )
  for (const _ of [1, 2])
    expect((await app.post('/runway/revisions/mine', Object.fromEntries(own!.fields))).status).toBe(303)
  expect(await revisions()).toHaveLength(3)
  expect(packs().map(({ copyNo }) => copyNo)).toEqual([2, 1])
  expect(await page('/year-pack?year=2025')).toContain('The books say the same today, line by line')
  expect(verifyBooks(app.books.sqlite).findings).toEqual([])
})

test('another plan taken into use moves the closed year too, and asks before', async () => {
  await closedBeforePaying()
  const document = planSchema.parse({
    startMonth: '2025-01',
    household: {
      people: [{ id: 'ann', name: 'Ann', born: '1982-04-01' }],
      dependents: [{ id: 'kit', name: 'Kit', born: '2015-05-05' }],
    },
  })
  app.savePlan(document, { planId: 'theirs', name: 'With Kit' })
  const inUse = async () => (await app.get('/runway/compare')).text()
  const before = await inUse()
  const form = { formId: formId(), planId: 'theirs' }
  const asked = await app.post('/runway/compare/use', form)
  expect(asked.status).toBe(409)
  const text = await asked.text()
  expect(text).toContain('Tax worksheet, All sides, Deduction: 15,750.00 becomes 23,625.00')
  expect(packs()).toHaveLength(1)
  expect((await inUse()).length).toBe(before.length)
  const [own] = browserForms(text, '/runway').filter(({ action }) => action === '/runway/compare/use')
  expect((await app.post('/runway/compare/use', Object.fromEntries(own!.fields))).status).toBe(303)
  expect(packs().map(({ copyNo }) => copyNo)).toEqual([2, 1])
})

const planIdOf = () => app.books.sqlite.prepare('SELECT id FROM plans').pluck().get() as string
