// The notebook of a farm unlike the sample: goats and a stand, one person; what is noted, taken back, and booked at the table.
import { afterAll, beforeAll, expect, test } from 'vitest'
import { listAccounts } from '#db/ledger/account-store.ts'
import { findEntry } from '#db/ledger/entry-reader.ts'
import { verifyBooks } from '#db/verify/verify.ts'
import { type TestApp, testApp } from './test-app.ts'

let app: TestApp
const formId = (n: number) => `00000000-0000-4000-8000-${String(n).padStart(12, '0')}`
const account = (name: string) => String(listAccounts(app.books).find((one) => one.name === name)!.id)

beforeAll(() => {
  app = testApp({ today: '2026-05-16' })
  app.openSides()
  app.savePlan({
    name: 'Goats',
    startMonth: '2026-01',
    household: { people: [{ id: 'ines', name: 'Ines', born: '1988-03-02' }] },
    farm: {
      enterprises: [{ id: 'cheese', name: 'Cheese' }],
      markets: [{ id: 'stand', name: 'Road stand' }],
      herds: [
        {
          id: 'does',
          name: 'Milk goats',
          kind: 'goats',
          start: '2025-01',
          breedingFemales: 12,
          carryingLimit: 20,
        },
      ],
    },
  })
})
afterAll(() => app.close())

const json = async <Figures>(path: string) => (await (await app.get(`${path}.json`)).json()) as Figures

const hours = (n: number, more: Record<string, string> = {}) => ({
  formId: formId(n),
  'hours.day': '2026-05-16',
  'hours.person': 'ines',
  'hours.subject': 'enterprise:cheese',
  'hours.length': '120',
  'hours.time': '',
  ...more,
})

test('hours are written once however often they are sent, and stand in their week', async () => {
  expect((await app.post('/farm/notebook/hours', hours(1))).status).toBe(303)
  expect((await app.post('/farm/notebook/hours', hours(1))).status).toBe(303)
  expect(
    (await app.post('/farm/notebook/hours', hours(2, { 'hours.time': '1:30', 'hours.subject': 'herd:does' })))
      .status,
  ).toBe(303)
  const week = await json<{ people: { name: string; total: number }[] }>('/farm/hours')
  expect(week.people).toMatchObject([{ name: 'Ines', total: 210 }])
})

test('what was chosen last stands chosen; what is wrong is told at its field with what was typed', async () => {
  const page = await (await app.get('/farm/notebook')).text()
  expect(page).toMatch(/value="herd:does" checked/)
  const wrong = await app.post(
    '/farm/notebook/hours',
    hours(3, { 'hours.time': '25 h', 'hours.note': 'kidding' }),
  )
  expect(wrong.status).toBe(422)
  const text = await wrong.text()
  expect(text).toContain('Enter hours up to 24')
  expect(text).toContain('25 h')
  expect(text).toContain('kidding')
})

test('a clock runs once a person and is stopped into hours', async () => {
  const start = { clock: 'start' }
  expect((await app.post('/farm/notebook/hours', hours(4, start))).status).toBe(303)
  expect((await app.post('/farm/notebook/hours', hours(5, start))).status).toBe(422)
  app.setToday('2026-05-16', '14:25')
  const { clocks } = await json<{ clocks: { id: string }[] }>('/farm/notebook')
  expect(clocks).toHaveLength(1)
  await app.post(`/farm/notebook/clock/${clocks[0]!.id}/stop`, { formId: formId(6) })
  expect((await json<{ clocks: unknown[] }>('/farm/notebook')).clocks).toEqual([])
})

test('heads follow from counts and from what came and went since', async () => {
  const heads = (n: number, kind: string, headClass: string, count: string, day: string) =>
    app.post('/farm/notebook/heads', {
      formId: formId(n),
      'heads.day': day,
      'heads.herd': 'does',
      'heads.kind': kind,
      'heads.headClass': headClass,
      'heads.count': count,
    })
  await heads(10, 'counted', 'females', '12', '2026-05-01')
  await heads(11, 'born', 'young', '20', '2026-05-03')
  await heads(12, 'died', 'young', '2', '2026-05-04')
  await heads(13, 'kitchen', 'young', '1', '2026-05-10')
  expect((await heads(14, 'died', 'females', '0', '2026-05-10')).status).toBe(422)
  const { herds } = await json<{ herds: { heads: unknown }[] }>('/farm/notebook')
  expect(herds[0]!.heads).toEqual({ females: 12, young: 17 })
  // Nobody sells more than stand there: not on the day, not by way of a day before, and what went to the kitchen is one of them.
  const refused = await heads(17, 'sold', 'females', '13', '2026-05-12')
  expect(refused.status).toBe(422)
  expect(await refused.text()).toContain('Only 12 are left by the notebook')
  expect((await heads(18, 'bartered', 'females', '13', '2026-05-12')).status).toBe(422)
  expect((await heads(19, 'sold', 'females', '10', '2026-05-13')).status).toBe(303)
  expect((await heads(19, 'sold', 'females', '10', '2026-05-13')).status).toBe(303)
  expect((await heads(21, 'died', 'females', '3', '2026-05-12')).status).toBe(422)
  expect((await heads(22, 'died', 'females', '2', '2026-05-12')).status).toBe(303)
  expect((await json<{ herds: { heads: unknown }[] }>('/farm/notebook')).herds[0]!.heads).toMatchObject({
    females: 0,
  })
  await heads(23, 'counted', 'females', '12', '2026-05-14')
  // Does of the year to come are told apart from kids for sale.
  await heads(15, 'counted', 'kept', '4', '2026-05-11')
  await heads(16, 'died', 'kept', '1', '2026-05-12')
  const page = await (await app.get('/farm/notebook?open=heads')).text()
  expect(page).toContain('12 does, 3 doelings, 17 kids')
  expect(page).toContain('>Doelings kept to breed</label>')
})

test('a market day keeps takings by product and means, and the same takings are there once', async () => {
  const market = {
    formId: formId(20),
    'market.day': '2026-05-16',
    'market.market': 'stand',
    'market.cash': '212',
    'market.card': '386',
    'market.products.0.enterprise': 'cheese',
    'market.products.0.cash': '150',
    'market.products.0.card': '0',
    'market.people[]': ['ines'],
    'market.hours': '6.5',
    'market.miles': '28',
    'market.fee': '',
    // Cheese was 150 of it, the rest of nothing told apart.
    'sure[]':
      'The products come to $150.00, and this is $212.00: $62.00 would be of no product. If that is right, check the box',
  }
  expect((await app.post('/farm/notebook/market', market)).status).toBe(303)
  expect((await app.post('/farm/notebook/market', market)).status).toBe(303)
  expect((await app.post('/farm/notebook/market', { ...market, formId: formId(21) })).status).toBe(422)
  const tooMuch = {
    ...market,
    formId: formId(22),
    'market.day': '2026-05-15',
    'market.products.0.cash': '300',
  }
  expect(await (await app.post('/farm/notebook/market', tooMuch)).text()).toContain(
    'The products come to $300.00, $88.00 more than this',
  )
  const below = { ...tooMuch, 'market.card': '-85', 'market.products.0.cash': '0' }
  const refused = await (await app.post('/farm/notebook/market', below)).text()
  expect(refused).toContain('An amount below zero is not allowed here')
  expect(refused).not.toContain('The products come to')
  const { markets } = await json<{ markets: { takenCents: number; perHourCents: number }[] }>('/farm/hours')
  expect(markets).toMatchObject([{ takenCents: 59800, perHourCents: 9200 }])
})

test('a market may be held twice on a day: other takings are another market day, and the same form is one', async () => {
  const evening = {
    formId: formId(24),
    'market.day': '2026-05-09',
    'market.market': 'stand',
    'market.card': '85',
    'market.hours': '3',
  }
  const morning = { ...evening, formId: formId(25), 'market.card': '140' }
  for (const form of [evening, morning, morning, evening])
    expect((await app.post('/farm/notebook/market', form)).status).toBe(303)
  expect((await app.post('/farm/notebook/market', { ...evening, formId: formId(26) })).status).toBe(422)
  const { markets } = await json<{ markets: { takenCents: number; days: number }[] }>('/farm/hours')
  expect(markets).toMatchObject([{ takenCents: 59800 + 22500 }])
})

test('cash of a market day is booked by product, by one press, and waits again when it is reversed', async () => {
  const { marketDays } = await json<{ marketDays: { id: string; cashCents: number }[] }>(
    '/farm/notebook/table',
  )
  expect(marketDays).toMatchObject([{ cashCents: 21200 }])
  const settle = { cash: account('Farm checking'), sales: account('Cut flowers sold') }
  const path = `/farm/notebook/table/market/${marketDays[0]!.id}`
  for (const _ of [1, 2]) expect((await app.post(path, { formId: formId(30), ...settle })).status).toBe(303)
  const entry = findEntry(app.books, formId(30))!
  expect(entry.lines.map(({ amountCents, enterpriseId }) => [amountCents, enterpriseId])).toEqual([
    [21200, null],
    [-6200, null],
    [-15000, 'cheese'],
  ])
  await app.post(`/books/entries/${entry.no}/void`, { formId: formId(31) })
  expect((await json<{ marketDays: unknown[] }>('/farm/notebook/table')).marketDays).toHaveLength(1)
})

test('a head eaten becomes a crossing at fair value; bartered goods are a sale of the farm', async () => {
  await app.post('/farm/notebook/goods', {
    formId: formId(40),
    'goods.day': '2026-05-12',
    'goods.kind': 'bartered',
    'goods.what': 'cheese',
    'goods.quantity': '4',
    'goods.unit': 'lb',
    'goods.tradedFor': 'the smith, a gate',
  })
  const { goods } = await json<{ goods: { id: string; says: string }[] }>('/farm/notebook/table')
  expect(goods.map(({ says }) => says)).toEqual([
    '1 head Milk goats (kid) to the kitchen',
    '4 lb cheese, bartered for the smith, a gate',
  ])
  const [eaten, bartered] = goods
  const settle = (id: string, n: number, price: string, from: string, to: string) =>
    app.post(`/farm/notebook/table/goods/${id}`, {
      formId: formId(n),
      price,
      fromAccount: account(from),
      toAccount: account(to),
    })
  expect((await settle(eaten!.id, 41, '', 'Value of goods used at home', 'Food from the farm')).status).toBe(
    422,
  )
  await settle(eaten!.id, 41, '120', 'Value of goods used at home', 'Food from the farm')
  await settle(bartered!.id, 42, '11', 'Cut flowers sold', 'Groceries')
  const crossings = await json<{ history: { amountCents: number; memo: string }[] }>('/crossings')
  expect(crossings.history.map(({ amountCents, memo }) => [amountCents, memo])).toEqual([
    [4400, 'Bartered: cheese, for the smith, a gate'],
    [12000, 'Milk goats (kid)'],
  ])
  expect((await json<{ goods: unknown[] }>('/farm/notebook/table')).goods).toEqual([])
})

test('a crossing made of goods that is reversed lets them wait again, and the books stay whole', async () => {
  const { history } = await json<{ history: { id: string }[] }>('/crossings')
  const page = await app.get(`/crossings/${history[0]!.id}`)
  const no = /entries\/(\d+)/.exec(page.headers.get('location') ?? '')![1]!
  await app.post(`/books/entries/${no}/void`, { formId: formId(50) })
  expect((await json<{ goods: { says: string }[] }>('/farm/notebook/table')).goods).toHaveLength(1)
  const wrong = verifyBooks(app.books.sqlite).findings
  expect(wrong).toEqual([])
})
