// What the farm's pages say of markets without which some goods find room elsewhere, of seats that no simulation draws, and of heads without a value.
import { afterAll, beforeAll, expect, test } from 'vitest'
import { day } from '#calendar/day.ts'
import { listAccounts } from '#db/ledger/account-store.ts'
import { postEntry } from '#db/ledger/ledger-store.ts'
import { moneyOut } from '#ledger/simple-entry.ts'
import { cents } from '#money/cents.ts'
import { type TestApp, testApp } from './test-app.ts'

let app: TestApp
const textOf = async (path: string) => (await (await app.get(path)).text()).replaceAll(/\s+/g, ' ')

beforeAll(() => {
  app = testApp({ today: '2026-11-20' })
  app.openSides()
  const seat = (chance: number) => ({ from: '2026-01', chance })
  const list = ['One', 'Two', 'Three', 'Four', 'Five'].map((name) => ({
    id: name.toLowerCase(),
    name,
    salesPerTrip: 10,
    seat: seat(0.5),
  }))
  app.savePlan({
    name: 'Quinces',
    startMonth: '2026-01',
    assumptions: { inflation: 0 },
    household: { people: [{ id: 'ivo', name: 'Ivo', born: '1984-03-02' }] },
    farm: {
      enterprises: [
        {
          id: 'quinces',
          name: 'Quinces',
          salesPerUnit: Array(12).fill(1_000),
          markets: ['pier', 'green'],
        },
      ],
      markets: [
        {
          id: 'pier',
          name: 'Pier',
          salesPerTrip: 700,
          growth: { perYear: 0.4, from: '2040-01', years: 2 },
        },
        { id: 'green', name: 'Green', salesPerTrip: 500 },
        ...list,
      ],
      purchases: [
        {
          id: 'press',
          name: 'Cider press',
          cost: 9_000,
          valueAtEnd: 1_000,
          usefulYears: 16,
          month: '2027-03',
          addsCash: [...Array(8).fill(0), 300, 300, 150, 0],
        },
      ],
      herds: [
        {
          id: 'ewes',
          name: 'Flock',
          kind: 'sheep',
          breedingFemales: 20,
          start: '2026-01',
          carryingLimit: 30,
          rates: {
            birthMonths: [3],
            conception: 1,
            birthsPerFemale: 2,
            weaningAgeMonths: 3,
            breedingAgeMonths: 12,
            youngLossToWeaning: 0,
            adultLossPerYear: 0,
            cullPerYear: 0,
            keepOfFemaleYoung: 0.5,
          },
        },
      ],
    },
  })
})
afterAll(() => app.close())

test('a market that is dropped loses less than it sells where its goods find room elsewhere, and the page says how much', async () => {
  const { markets } = (await (await app.get('/farm.json')).json()) as {
    markets: { name: string; sold: number; netLostIfDropped: number; thenSoldElsewhere: number }[]
  }
  // 1,000 a month to a pier that takes 700 and a green that takes 500: without one the other is full, 12 × 200 between what they sold and that.
  const pier = markets.find(({ name }) => name === 'Pier')!
  const green = markets.find(({ name }) => name === 'Green')!
  expect(pier.sold + green.sold).toBeCloseTo(12_000, 6)
  expect(green.netLostIfDropped).toBeCloseTo(12 * 300, 6)
  expect(green.sold - green.thenSoldElsewhere).toBeCloseTo(green.netLostIfDropped, 6)
  expect(pier.sold - pier.thenSoldElsewhere).toBeCloseTo(12 * 500, 6)
  const said = Math.round(pier.thenSoldElsewhere).toLocaleString('en-US')
  expect(await textOf('/farm/markets')).toContain(
    `Pier: if it is dropped, none of its customers buy at another market. The markets that stay then sell $${said} more`,
  )
})

test('the fifth uncertain seat is said to count by its chance where seats are entered, listed and simulated', async () => {
  expect(await textOf('/farm/markets/new')).toContain('a fifth and later ones are counted by their chance')
  const listed = await textOf('/farm/markets')
  expect(listed.match(/Simulations do so too/g)).toHaveLength(1)
  expect(listed.match(/it is had in so many of them, or not at all/g)).toHaveLength(4)
  expect(await textOf('/runway/chance')).toContain('Counted by its chance in every simulation: Five.')
})

test('a purchase’s form says what a year of its use takes, and the cash of all its years', async () => {
  // (9,000 − 1,000) ÷ 16 years, and 750 a year for 16 of them.
  const form = await textOf('/farm/purchases/press')
  expect(form).toMatch(/Cost of a year of use<\/dt><dd [^>]*>\$500\.00</)
  expect(form).toMatch(/Cash it adds in all its years<\/dt><dd [^>]*>\$12,000\.00</)
})

test('growth of a market is said as it is counted: month by month, each year on the one before', async () => {
  // Two years of 40 percent: 1.4 × 1.4 = 1.96.
  expect(await textOf('/farm/markets')).toContain(
    'Pier: from January 2040 a trip sells 40% more each year for 2 years, on top of prices. It rises a little each month, each year on the one before: after that time a trip sells 1.96 times what it sold at first.',
  )
})

test('heads that only the notebook counts are an open point of the year pack, with the way to give them a value', async () => {
  const gaps = async () =>
    (
      (await (await app.get('/year-pack.json?year=2026')).json()) as {
        gaps: { says: string; href: string }[]
      }
    ).gaps
  const ofFlock = async () => (await gaps()).filter(({ says }) => says.startsWith('Flock: '))
  const account = (name: string) => listAccounts(app.books).find((one) => one.name === name)!.id
  const head = { id: '', sideId: 'farm', day: day('2026-05-03'), payee: 'Mill', memo: '' }
  const bought = [{ accountId: account('Supplies'), amountCents: cents(40_00) }]
  const act = {
    formId: '00000000-0000-4000-8000-000000000002',
    at: '2026-05-03T12:00:00.000Z',
    actor: 'test',
  }
  expect(postEntry(app.books, act, moneyOut(head, account('Farm checking'), bought)).ok).toBe(true)
  expect(await ofFlock()).toEqual([])
  const counted = await app.post('/farm/notebook/heads', {
    formId: '00000000-0000-4000-8000-000000000001',
    'heads.day': '2026-11-15',
    'heads.herd': 'ewes',
    'heads.kind': 'counted',
    'heads.headClass': 'females',
    'heads.count': '22',
  })
  expect(counted.status).toBe(303)
  expect(await ofFlock()).toMatchObject([
    {
      says: expect.stringMatching(
        /^Flock: 22 ewes by the count of Nov 15, 2026 and what was noted since, no value/,
      ),
      href: '/year-pack/holdings/new',
    },
  ])
  expect(await textOf('/farm/herds')).toContain(
    'By the notebook: 22 ewes, last counted on Nov 15, 2026. The years below go on from them.',
  )
  // 20 ewes, 40 lambs born in March 2026, of the 20 ewe lambs half kept, of age after twelve months; the land carries 30, and 22 ewes stand there.
  expect(await textOf('/farm/herds')).toContain(
    'Next to join the flock by the plan, in March 2027: 8 ewe lambs kept to breed.',
  )
  // With 15 ewes on the inventory it is the other seven that have no value, and the flock is not told as a whole.
  const listed = await app.post('/year-pack/holdings/new', {
    formId: '00000000-0000-4000-8000-000000000003',
    side: 'farm',
    kind: 'breeding_stock',
    name: 'Ewes',
    quantity: '15',
    unit: 'head',
    raised: 'yes',
    cost: '0',
    acquiredDay: '2026-03-01',
    inServiceDay: '',
    account: '',
    assetClass: '',
    section179: '',
    takesPlaceOf: '',
    marketValue: '3000',
    valuedDay: '2026-11-15',
    disposedDay: '',
    disposedFor: '',
  })
  expect(listed.status, await listed.clone().text()).toBe(303)
  expect(await ofFlock()).toEqual([])
  expect((await gaps()).map(({ says }) => says)).toContain(
    'The notebook has 22 head of breeding stock, and the inventory 15: 7 have no value there, unless one of its lines stands for several.',
  )
})
