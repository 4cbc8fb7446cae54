// What the notebook holds back until it can be told: goods set aside, a batch without costs, lines changed in bulk, and the year pack's open points.
import { afterAll, beforeAll, expect, test } from 'vitest'
import { day } from '#calendar/day.ts'
import { listAccounts } from '#db/ledger/account-store.ts'
import { postEntry } from '#db/ledger/ledger-store.ts'
import { registerPage } from '#db/ledger/register.ts'
import { verifyBooks } from '#db/verify/verify.ts'
import { moneyOut } from '#ledger/simple-entry.ts'
import { cents } from '#money/cents.ts'
import { type TestApp, testApp } from './test-app.ts'

let app: TestApp
const formId = (n: number) => `00000000-0000-4000-8000-${String(n).padStart(12, '0')}`
const account = (name: string) => String(listAccounts(app.books).find((one) => one.name === name)!.id)
const json = async <Figures>(path: string) => (await (await app.get(path)).json()) as Figures

beforeAll(() => {
  app = testApp({ today: '2026-09-20' })
  app.openSides()
  app.savePlan({
    name: 'Geese',
    startMonth: '2026-01',
    household: { people: [{ id: 'oda', name: 'Oda', born: '1985-07-09' }] },
    farm: { enterprises: [{ id: 'geese', name: 'Geese', unit: 'bird', scale: 40, costsPerUnit: 18 }] },
  })
  spend(21, 600_00)
  spend(22, 200_00)
})
afterAll(() => app.close())

const goods = (n: number, what: string) =>
  app.post('/farm/notebook/goods', {
    formId: formId(n),
    'goods.day': '2026-09-12',
    'goods.kind': 'kitchen',
    'goods.what': what,
    'goods.quantity': '2',
    'goods.unit': 'lb',
    'goods.tradedFor': '',
  })

test('goods of the field stand as one line on This month and Now and as an open point of the pack, until they are set aside', async () => {
  await goods(1, 'goose')
  for (const path of ['/now', '/month?month=2026-09', '/farm/notebook'])
    expect(await (await app.get(path)).text(), path).toContain('One note from the field is not booked yet')
  // The last month that is over is older than the note.
  expect(await (await app.get('/month?month=2026-08')).text()).not.toContain(
    'note from the field is not booked yet',
  )
  const pack = await json<{ gaps: { says: string }[]; notebook: { goods: unknown[] } }>(
    '/year-pack.json?year=2026',
  )
  expect(pack.notebook.goods).toHaveLength(1)
  expect(pack.gaps.map(({ says }) => says)).toContain(
    'Goods used at home or bartered: 1 of 1 noted in 2026 waits for the table and is in none of these figures.',
  )
  const table = await json<{ goods: { id: string }[] }>('/farm/notebook/table.json')
  const aside = `/farm/notebook/table/goods/${table.goods[0]!.id}/aside`
  for (const _ of [1, 2]) expect((await app.post(aside, { formId: formId(2) })).status).toBe(303)
  expect((await json<{ goods: unknown[] }>('/farm/notebook/table.json')).goods).toEqual([])
  expect(await (await app.get('/now')).text()).not.toContain('note from the field is not booked yet')
  expect((await json<{ notebook: unknown }>('/year-pack.json?year=2026')).notebook).toBeNull()
})

test('hired hours without pay and miles without an odometer are asked for in the pack, and stand in its table', async () => {
  await app.post('/farm/notebook/hours', {
    formId: formId(10),
    'hours.day': '2026-09-14',
    'hours.person': 'hired',
    'hours.hiredName': 'Rolf',
    'hours.subject': 'enterprise:geese',
    'hours.length': '120',
    'hours.time': '',
  })
  await app.post('/farm/notebook/trip', {
    formId: formId(11),
    'trip.day': '2026-09-14',
    'trip.kind': 'farm',
    'trip.vehicle': 'Pickup',
    'trip.amount': '31.5',
    'trip.purpose': 'Feed',
  })
  const { gaps } = await json<{ gaps: { says: string }[] }>('/year-pack.json?year=2026')
  const says = gaps.map((gap) => gap.says).join('\n')
  expect(says).toContain('Hired hours of Rolf: for some of 2026 no pay is noted')
  expect(says).toContain('31.5 miles for the farm are noted in 2026, and no odometer')
  const csv = await (await app.get('/year-pack.csv?year=2026&table=notebook')).text()
  expect(csv).toContain('Miles driven for the farm,31.5,')
})

const spend = (n: number, amount: number) => {
  const done = postEntry(
    app.books,
    { formId: formId(n), at: '2026-09-20T12:00:00.000Z', actor: 'test' },
    moneyOut(
      { id: '', sideId: 'farm', day: day('2026-05-03'), payee: 'Mill', memo: '' },
      Number(account('Farm checking')),
      [{ accountId: Number(account('Supplies')), amountCents: cents(amount), enterpriseId: 'geese' }],
    ),
  )
  if (!done.ok) throw new Error(JSON.stringify(done.problems))
}

interface BatchSeen {
  result: { costsCents: number }
  untied: { lines: { postingId: number }[] }
}

test('an ended batch says nothing of costs until lines are tied; changed in bulk, they stay tied', async () => {
  const geese = {
    enterprise: 'geese',
    name: 'Geese of 2026',
    size: '40',
    unit: 'birds',
    startedDay: '2026-04-01',
    place: '',
    hopedPrice: '',
    note: '',
  }
  const made = await app.post('/farm/batches/new', { formId: formId(20), ...geese })
  expect(made.status).toBe(303)
  const address = made.headers.get('location')!.split('?')[0]!
  const end = { basedOn: '1', endedDay: '2026-09-10', restSold: '40' }
  expect((await app.post(`${address}/edit`, { formId: formId(25), ...geese, ...end })).status).toBe(303)
  const costs = async () =>
    (await json<{ rows: { key: string; seen: number }[] }>('/farm/seen.json')).rows
      .filter(({ key }) => key === 'enterprise.geese.costs')
      .map(({ seen }) => seen)
  expect(await costs()).toEqual([])
  expect(await costs()).toEqual([])
  const { untied } = await json<BatchSeen>(`${address}.json`)
  const tie = { formId: formId(23), 'tie[]': untied.lines.map(({ postingId }) => String(postingId)) }
  expect((await app.post(`${address}/tie`, tie)).status).toBe(303)
  // 800 dollars over 40 birds.
  expect(await costs()).toEqual([20])
  const checking = account('Farm checking')
  const ticked = registerPage(app.books, { accountId: Number(checking) }).rows.map(({ postingId }) =>
    String(postingId),
  )
  const changed = await app.post(`/books/accounts/${checking}/change`, {
    formId: formId(24),
    lines: 'others',
    account: account('Feed'),
    enterprise: '',
    payee: '',
    memo: '',
    'ticked[]': ticked,
  })
  expect(changed.status).toBe(303)
  expect(await costs()).toEqual([20])
  expect((await json<BatchSeen>(`${address}.json`)).result.costsCents).toBe(800_00)
  expect(verifyBooks(app.books.sqlite).findings).toEqual([])
})

test('a market day whose cash and fee are in no books is an open point of the pack, and none once it is settled', async () => {
  const gaps = async () =>
    (await json<{ gaps: { says: string; href: string }[] }>('/year-pack.json?year=2026')).gaps.filter(
      ({ says }) => says.startsWith('Market days'),
    )
  expect(await gaps()).toEqual([])
  const noted = (n: number, on: string, over: Record<string, string>) =>
    app.post('/farm/notebook/market', {
      formId: formId(n),
      'market.market': 'green',
      'market.day': on,
      ...over,
    })
  expect((await noted(80, '2026-09-12', { 'market.cash': '112.50', 'market.fee': '20' })).status).toBe(303)
  expect((await noted(81, '2026-09-19', { 'market.card': '90', 'market.fee': '20' })).status).toBe(303)
  // A day of cards without a fee waits for nothing.
  expect((await noted(82, '2026-09-18', { 'market.card': '40' })).status).toBe(303)
  expect(await gaps()).toEqual([
    {
      says: 'Market days: 2 of 2026 wait for the table. Their cash of $112.50 and their fees of $40.00 are in these figures only as far as the bank’s statements have brought them.',
      href: '/farm/notebook/table',
    },
  ])
  const table = await json<{ marketDays: { id: string }[] }>('/farm/notebook/table.json')
  for (const [n, { id }] of table.marketDays.entries())
    expect(
      (await app.post(`/farm/notebook/table/market/${id}`, { formId: formId(83 + n), cash: '', fee: 'line' }))
        .status,
    ).toBe(303)
  expect(await gaps()).toEqual([])
})
