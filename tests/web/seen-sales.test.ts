// What the notebook says of sales against the plan, taken over by a press: an invented farm with jam at two markets, worked by hand.
import { afterAll, beforeAll, expect, test } from 'vitest'
import { listAccounts } from '#db/ledger/account-store.ts'
import { latestRevision } from '#db/plan-store.ts'
import type { Plan } from '#plan/plan.ts'
import { type TestApp, testApp } from './test-app.ts'

let app: TestApp
const formId = (n: number) => `00000000-0000-4000-8000-${String(n).padStart(12, '0')}`
const account = (name: string) => String(listAccounts(app.books).find((one) => one.name === name)!.id)
const farmNow = () => (latestRevision(app.books, 'ours')!.document as Plan).farm

beforeAll(() => {
  app = testApp({ today: '2026-08-20' })
  app.openSides()
  app.savePlan({
    name: 'Jam',
    startMonth: '2026-01',
    farm: {
      enterprises: [
        {
          id: 'jam',
          name: 'Jam',
          unit: 'case',
          salesPerUnit: 60,
          costsPerUnit: 20,
          markets: ['hall', 'pier'],
        },
      ],
      markets: [
        { id: 'hall', name: 'Hall', salesPerTrip: 400 },
        { id: 'pier', name: 'Pier', salesPerTrip: 300 },
      ],
    },
  })
})
afterAll(() => app.close())

const seen = async () =>
  (
    (await (await app.get('/farm/seen.json')).json()) as {
      rows: { key: string; plan: number; seen: number }[]
    }
  ).rows
const row = async (key: string) => (await seen()).find((one) => one.key === key)

const marketDay = (n: number, market: string, day: string, card: string) =>
  app.post('/farm/notebook/market', {
    formId: formId(n),
    'market.day': day,
    'market.market': market,
    'market.card': card,
    'market.products.0.enterprise': 'jam',
    'market.products.0.card': card,
  })

test('what a trip took, and which market sold most, are said from three market days on', async () => {
  for (const [n, card] of [200, 250].entries())
    await marketDay(10 + n, 'hall', `2026-07-0${n + 1}`, String(card))
  expect(await seen()).toEqual([])
  await marketDay(12, 'hall', '2026-07-03', '150')
  for (const [n, card] of [310, 290, 300].entries())
    await marketDay(20 + n, 'pier', `2026-07-1${n + 1}`, String(card))
  // 600 over three days are 200; the pier's 900 are 300 a day, as planned, and 60 percent of 1,500.
  expect(await row('market.hall.salesPerTrip')).toMatchObject({ plan: 400, seen: 200 })
  expect(await row('market.pier.salesPerTrip')).toBeUndefined()
  expect(await row('enterprise.jam.markets')).toMatchObject({ seen: 0.6 })
  const take = async (n: number, key: string) =>
    app.post('/farm/seen', {
      formId: formId(n),
      planId: 'ours',
      basedOn: String(latestRevision(app.books, 'ours')!.revisionNo),
      take: key,
    })
  expect((await take(30, 'market.hall.salesPerTrip')).status).toBe(303)
  expect((await take(31, 'enterprise.jam.markets')).status).toBe(303)
  expect(farmNow().markets[0]!.salesPerTrip).toBe(200)
  expect(farmNow().enterprises[0]!.markets).toEqual(['pier', 'hall'])
  expect(await seen()).toEqual([])
})

test('an ended batch says what one of it brought', async () => {
  const jam = { enterprise: 'jam', name: 'Plum', size: '20', unit: 'cases', startedDay: '2026-06-01' }
  await app.post('/farm/batches/new', { formId: formId(40), ...jam })
  await app.post('/books/entry', {
    formId: formId(41),
    side: 'farm',
    kind: 'in',
    day: '2026-07-20',
    payee: 'HALL',
    moneyAccount: account('Farm checking'),
    'lines.0.account': account('Cut flowers sold'),
    'lines.0.amount': '864',
    'lines.0.batch': formId(40),
  })
  await app.post(`/farm/batches/${formId(40)}/edit`, {
    formId: formId(42),
    basedOn: '1',
    ...jam,
    endedDay: '2026-08-01',
    restSold: '16',
    restLost: '1.5',
    restKitchen: '2.5',
  })
  // 864 for 16 cases.
  expect(await row('enterprise.jam.sales')).toMatchObject({ plan: 60, seen: 54 })
})
