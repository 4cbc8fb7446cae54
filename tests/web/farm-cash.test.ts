// What the farm could spend today comes from the cash its books hold, once they hold any; from the plan's opening cash before that.
import { afterEach, beforeEach, expect, test } from 'vitest'
import { postEntry } from '#db/ledger/ledger-store.ts'
import { moneyIn, moneyOut } from '#ledger/simple-entry.ts'
import { cents } from '#money/cents.ts'
import { act, done, on, type TestBooks, withAccounts } from '../db/fresh-books.ts'
import { type TestApp, testApp } from './test-app.ts'

let app: TestApp
let books: TestBooks
const plan = (startMonth: string) => ({
  startMonth,
  household: {
    people: [{ id: 'ada', name: 'Ada', born: '1979-05-02' }],
    living: [{ id: 'living', name: 'Living', perMonth: 100 }],
  },
  savings: { accounts: [{ id: 'cash', name: 'Cash', kind: 'cash', balance: 90_000 }] },
  farm: {
    cash: 2204,
    reserve: 2000,
    purchases: [
      { id: 'tiller', name: 'Tiller', cost: 150, timing: 'dated', month: '2026-02' },
      { id: 'cooler', name: 'Cooler', cost: 5000, timing: 'when cash allows', month: '2026-03' },
    ],
  },
})
interface Purchases {
  affordableNow: number
  cashNow: { dollars: number; isFromBooks: boolean }
  queue: { id: string; bought: string | null }[]
}
const shown = async (): Promise<Purchases> =>
  ((await (await app.get('/farm.json')).json()) as { purchases: Purchases }).purchases
const take = (day: string, dollars: number) => {
  const head = { id: '', sideId: 'farm', day: on(day), payee: 'Market', memo: '' }
  const sold = [
    { accountId: books.account('farm', 'Vegetables and fruit sold').id, amountCents: cents(dollars * 100) },
  ]
  done(postEntry(books, act(), moneyIn(head, books.account('farm', 'Farm checking').id, sold)))
}

beforeEach(() => {
  app = testApp({ today: '2026-05-20' })
  app.openSides()
  books = withAccounts(app.books)
})
afterEach(() => app.close())

test('without books the plan’s opening cash counts, and the page says so', async () => {
  app.savePlan(plan('2026-06'))
  expect(await shown()).toMatchObject({ affordableNow: 204, cashNow: { dollars: 2204, isFromBooks: false } })
  expect(await (await app.get('/farm/buying')).text()).toMatch(
    /By the plan the farm has\s+\$2,204\s+in cash on May 31, 2026/,
  )
})

test('before the plan begins, the cash of today counts', async () => {
  app.savePlan(plan('2026-06'))
  take('2026-05-02', 8844)
  expect(await shown()).toMatchObject({ affordableNow: 6844, cashNow: { dollars: 8844, isFromBooks: true } })
})

test('once the plan runs, the queue goes on from what the books held at the start of this month', async () => {
  app.savePlan(plan('2026-01'))
  take('2026-03-09', 8844)
  const purchases = await shown()
  expect(purchases).toMatchObject({ affordableNow: 6844, cashNow: { dollars: 8844, isFromBooks: true } })
  // The tiller was bought in February by the plan and is not bought again; the cooler, for which the plan's cash never
  // came, is bought now: 8,844 − 5,000 leaves more than the reserve of 2,000.
  expect(purchases.queue.map(({ id, bought }) => [id, bought])).toEqual([
    ['tiller', '2026-02'],
    ['cooler', '2026-05'],
  ])
  expect(await (await app.get('/farm/buying')).text()).toMatch(
    /By the books the farm had\s+\$8,844\s+in cash on Apr 30, 2026\. Of\s+that \$6,844\s+could be spent/,
  )
})

test('what lies behind this month is bought: its month is said, and nothing ahead is judged of it', async () => {
  const base = plan('2026-01')
  // Of the 2,204 the press took all but 4, far below the reserve, in March; the drier was bought before the plan began.
  const purchases = [
    { id: 'press', name: 'Oil press', cost: 2200, timing: 'dated', month: '2026-03', addsCash: 600 },
    { id: 'drier', name: 'Seed drier', cost: 900, timing: 'dated', month: '2025-09' },
    { id: 'shed', name: 'Shed', cost: 700, timing: 'dated', month: '2026-06' },
  ]
  app.savePlan({ ...base, farm: { ...base.farm, purchases } })
  take('2026-04-09', 8844)
  const { queue } = (await shown()) as unknown as { queue: Record<string, unknown>[] }
  const told = queue.map(({ id, bought, isBought, because }) => [id, bought, isBought, because])
  expect(told).toEqual([
    ['press', '2026-03', true, 'bought on its date'],
    ['drier', '2025-09', true, 'bought on its date'],
    ['shed', '2026-06', false, 'bought on its date, reserve intact'],
  ])
  for (const one of queue.slice(0, 2))
    expect(one).toMatchObject({ drawDisplaced: null, monthsOfDraws: null, spareAfter: null, behind: [] })
  const page = (await (await app.get('/farm/buying')).text()).replaceAll(/\s+/g, ' ')
  const [ahead, behind] = page.split('Bought already')
  expect(ahead).toContain('Shed')
  expect(ahead).not.toContain('Oil press</a>')
  expect(behind).toContain('Oil press</a>, $2,200: <strong>March 2026</strong>, bought on its date.')
  // 2,200 at 600 a year: 3 years and 8 months.
  expect(behind).toContain('Pays back in 3 years and 8 months, hours saved counted')
  expect(page).not.toContain('falls below the reserve')
  expect(behind).not.toContain('even draw')
})

test('what waited for cash and was bought by the plan before the books go on is bought, and waits no more', async () => {
  const base = plan('2026-01')
  // 2,204 − 40 leaves more than the reserve.
  const sieve = { id: 'sieve', name: 'Sieve', cost: 40, timing: 'when cash allows', month: '2026-01' }
  app.savePlan({ ...base, farm: { ...base.farm, purchases: [sieve] } })
  take('2026-04-09', 8844)
  expect((await shown()).queue).toMatchObject([
    { bought: '2026-01', isBought: true, because: 'bought when cash allowed it, by the plan' },
  ])
})

test('where the farm’s books reach further than the household’s, buying goes on from what the farm’s own hold', async () => {
  app.setToday('2026-07-22')
  app.savePlan(plan('2026-01'))
  const head = { id: '', sideId: 'household', day: on('2025-12-31'), payee: 'Dairy', memo: '' }
  const spent = [{ accountId: books.account('household', 'Groceries').id, amountCents: cents(40_00) }]
  done(postEntry(books, act(), moneyOut(head, books.account('household', 'Household checking').id, spent)))
  take('2025-12-30', 3000)
  take('2026-06-11', 6000)
  take('2026-07-20', 500)
  // 3,000 and 6,000 lie in the farm's account as July begins; what July brings is told apart.
  const purchases = await shown()
  expect(purchases).toMatchObject({ affordableNow: 7000, cashNow: { dollars: 9000, isFromBooks: true } })
  expect(purchases.queue.find(({ id }) => id === 'cooler')).toMatchObject({ bought: '2026-07' })
  expect(await (await app.get('/farm/buying')).text()).toMatch(/in cash on Jun 30, 2026/)
})

test('a new purchase, herd, loan or bad year opens with this month, or with the first of a plan yet to begin', async () => {
  app.savePlan(plan('2026-01'))
  const opens = async (month: string) => {
    for (const [path, name] of [
      ['farm/purchases', 'month'],
      ['farm/herds', 'start'],
      ['farm/loans', 'start'],
      ['runway/storms', 'from'],
    ]) {
      const text = await (await app.get(`/${path}/new`)).text()
      const field = text.match(new RegExp(`<input[^>]*name="([^"]*\\.)?${name}"[^>]*>`))?.[0]
      expect(field, path).toContain(`value="${month}"`)
    }
  }
  await opens('2026-05')
  app.setToday('2025-10-20')
  await opens('2026-01')
})

test('a month that brings more than it takes is told beside the cash it starts from, not as a part of it', async () => {
  const earning = plan('2026-05')
  const flour = [{ id: 'flour', name: 'Flour', salesPerUnit: 12_000 }]
  app.savePlan({ ...earning, farm: { cash: 5000, reserve: 0, enterprises: flour, purchases: [] } })
  // 12,000 of sales a year are 1,000 in May, on top of the 5,000.
  expect(await shown()).toMatchObject({ affordableNow: 6000, cashNow: { dollars: 5000 } })
  for (const page of ['/farm', '/farm/buying'])
    expect((await (await app.get(page)).text()).replaceAll(/\s+/g, ' '), page).toContain(
      'has $5,000 in cash on Apr 30, 2026. With $1,000 of what May 2026 brings by the plan, $6,000 could be spent with the reserve of $0 intact',
    )
})

test('below what is in cash too, more than cash less the reserve names the money of the plan that is counted', async () => {
  const earning = plan('2026-05')
  const flour = [{ id: 'flour', name: 'Flour', salesPerUnit: 8004 }]
  app.savePlan({ ...earning, farm: { cash: 4118, reserve: 1500, enterprises: flour, purchases: [] } })
  // 4,118 − 1,500 = 2,618 are there without the plan; its May adds 8,004 ÷ 12 = 667.
  expect(await shown()).toMatchObject({ affordableNow: 3285, cashNow: { dollars: 4118 } })
  for (const page of ['/farm', '/farm/buying'])
    expect((await (await app.get(page)).text()).replaceAll(/\s+/g, ' '), page).toContain(
      'has $4,118 in cash on Apr 30, 2026. With $667 of what May 2026 brings by the plan, $3,285 could be spent with the reserve of $1,500 intact',
    )
})

test('cash below the reserve leaves nothing to spend, and the page says so', async () => {
  app.savePlan({ ...plan('2026-05'), farm: { cash: 900, reserve: 1500 } })
  expect((await (await app.get('/farm')).text()).replaceAll(/\s+/g, ' ')).toContain(
    'has $900 in cash on Apr 30, 2026. Nothing of it could be spent with the reserve of $1,500 intact',
  )
})
