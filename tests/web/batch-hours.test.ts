// A batch begun late in the books: hours noted before it was there are tied to it, birds eaten count at the price hoped for, and eggs have a place.
import { afterAll, beforeAll, expect, test } from 'vitest'
import { type TestApp, testApp } from './test-app.ts'

let app: TestApp
const formId = (n: number) => `00000000-0000-4000-8000-${String(n).padStart(12, '0')}`

beforeAll(() => {
  app = testApp({ today: '2026-09-30' })
  app.openSides()
  app.savePlan({
    name: 'Birds',
    startMonth: '2026-01',
    household: { people: [{ id: 'olu', name: 'Olu', born: '1991-07-02' }] },
    farm: {
      enterprises: [{ id: 'birds', name: 'Birds' }],
      markets: [{ id: 'gate', name: 'Gate' }],
      herds: [
        {
          id: 'hens',
          tag: 'flock',
          name: 'Laying flock',
          kind: 'layers',
          start: '2026-01',
          breedingFemales: 90,
          carryingLimit: 120,
        },
      ],
    },
  })
})
afterAll(() => app.close())

const hours = (n: number, day: string) =>
  app.post('/farm/notebook/hours', {
    formId: formId(n),
    'hours.day': day,
    'hours.person': 'olu',
    'hours.subject': 'enterprise:birds',
    'hours.length': '120',
    'hours.time': '',
  })

interface Told {
  untiedHours: { id: string; minutes: number }[]
  result: { minutes: number; goodsCents: number; atHoped: number; unpriced: number }
}

test('hours of its days are tied once; those of before stay with the enterprise', async () => {
  for (const [n, day] of [
    [1, '2026-06-01'],
    [2, '2026-07-04'],
    [3, '2026-07-05'],
  ] as const)
    await hours(n, day)
  const started = await app.post('/farm/batches/new', {
    formId: formId(10),
    enterprise: 'birds',
    name: 'July birds',
    size: '40',
    unit: 'birds',
    startedDay: '2026-07-01',
    hopedPrice: '26',
  })
  const at = started.headers.get('location')!.split('?')[0]!
  const told = async () => (await (await app.get(`${at}.json`)).json()) as Told
  const { untiedHours } = await told()
  expect(untiedHours.map(({ minutes }) => minutes)).toEqual([120, 120])
  expect(await (await app.get(at)).text()).toContain('Hours that may be its')
  const tie = { formId: formId(11), 'hours[]': untiedHours.map(({ id }) => id) }
  for (const _ of [1, 2]) expect((await app.post(`${at}/tie-hours`, tie)).status).toBe(303)
  expect(await told()).toMatchObject({ untiedHours: [], result: { minutes: 240 } })
  // Four birds of 26 hoped for, until the table gives theirs.
  await app.post('/farm/notebook/goods', {
    formId: formId(12),
    'goods.day': '2026-09-01',
    'goods.kind': 'kitchen',
    'goods.of': `batch:${at.split('/').at(-1)}`,
    'goods.what': 'birds',
    'goods.quantity': '4',
  })
  expect((await told()).result).toMatchObject({ goodsCents: 10_400, atHoped: 4, unpriced: 0 })
  expect(await (await app.get(at)).text()).toContain('4 at the price hoped for')
})

test('eggs of a flock are sold at a market by product, and go to the kitchen out of it', async () => {
  const page = await (await app.get('/farm/notebook?open=market')).text()
  expect(page).toContain('<legend>Laying flock</legend>')
  expect(page).toContain('<option value="enterprise:flock">Laying flock</option>')
  const sold = await app.post('/farm/notebook/market', {
    formId: formId(20),
    'market.day': '2026-09-05',
    'market.market': 'gate',
    'market.products.0.enterprise': 'flock',
    'market.products.0.cash': '48',
    'market.products.0.card': '0',
  })
  expect(sold.status).toBe(303)
  const { soldWhere } = (await (await app.get('/farm.json')).json()) as {
    soldWhere: { noted: { atMarketsCents: number } }[]
  }
  expect(soldWhere.map(({ noted }) => noted.atMarketsCents)).toEqual([0, 4_800])
})
