// Spending by kind and month, worked by hand for a small house of our own: what each month went on, and what was expected of it.
import { afterAll, beforeAll, expect, test } from 'vitest'
import { postEntry } from '#db/ledger/ledger-store.ts'
import { moneyOut } from '#ledger/simple-entry.ts'
import { cents } from '#money/cents.ts'
import { planSchema } from '#plan/plan.ts'
import { act, done, on, type TestBooks, withAccounts } from '../db/fresh-books.ts'
import { type TestApp, testApp } from './test-app.ts'

let app: TestApp
let books: TestBooks
const spent: [string, string, string, number][] = [
  ['2026-03-05', 'household', 'Groceries', 20_000],
  ['2026-04-05', 'household', 'Groceries', 25_050],
  ['2026-04-06', 'household', 'Health premiums', 40_000],
  ['2026-05-05', 'household', 'Groceries', 30_000],
  ['2026-05-09', 'farm', 'Feed', 7_700],
  ['2026-06-02', 'household', 'Groceries', 1_000],
]

beforeAll(() => {
  app = testApp({ today: '2026-06-15' })
  app.openSides()
  books = withAccounts(app.books)
  for (const [day, side, name, amount] of spent) {
    const from = books.account(side, side === 'farm' ? 'Farm checking' : 'Household checking').id
    const head = { id: '', sideId: side, day: on(day), payee: name, memo: '' }
    const lines = [{ accountId: books.account(side, name).id, amountCents: cents(amount) }]
    done(postEntry(books, act(), moneyOut(head, from, lines)))
  }
})
afterAll(() => app.close())

interface Row {
  name: string
  accountId: number | null
  spent: number[]
  planned: (number | null)[] | null
  totalCents: number
  plannedCents: number | null
  differenceCents: number | null
}
const figures = async (query = '') =>
  (await (await app.get(`/books/spending.json?${query}`)).json()) as {
    months: number[]
    rows: Row[]
    total: Row
  }

test('the whole months that the books reach, each kind over its accounts, none counted twice', async () => {
  const { months, rows, total } = await figures()
  expect(months).toHaveLength(3)
  expect(rows.map(({ name, spent: of }) => [name, ...of])).toEqual([
    ['Living costs', 20_000, 25_050, 30_000],
    ['Groceries', 20_000, 25_050, 30_000],
    ['Premiums', 0, 40_000, 0],
    ['Health premiums', 0, 40_000, 0],
  ])
  expect(total.spent).toEqual([20_000, 65_050, 30_000])
  expect(total).toMatchObject({ totalCents: 115_050, plannedCents: null })
})

test('no picture stands twice: an account alone in its kind is drawn as its kind', async () => {
  const drawn = async (query = '') =>
    [...(await (await app.get(`/books/spending?${query}`)).text()).matchAll(/<h3[^>]*>([^<]+)<\/h3>/g)].map(
      ([, name]) => name,
    )
  expect(await drawn()).toEqual(['Living costs', 'Premiums'])
  expect(await drawn('side=farm')).toEqual(['Feed'])
})

test('another span and other books; the month of today counts when it is asked for', async () => {
  expect((await figures('until=2026-06&months=2')).total.spent).toEqual([30_000, 1_000])
  expect((await figures('until=2031-01')).months).toHaveLength(3)
  const farm = await figures('side=farm')
  expect(farm.rows.map(({ name, totalCents }) => [name, totalCents])).toEqual([['Feed', 7_700]])
  const june = await (await app.get('/books/spending?until=2026-06')).text()
  expect(june).toContain('so far')
  // The month that has begun can be asked for, none after it.
  expect(june).toContain('<option value="2026-06"')
  expect(june).not.toContain('<option value="2026-07"')
})

test('held against the plan in the months that it tells of, and no others', async () => {
  const household = {
    living: [{ id: 'food', name: 'Groceries', perMonth: 280 }],
    floor: { kind: 'dollars', dollars: 0 },
  }
  app.savePlan(planSchema.parse({ startMonth: '2026-05', years: 3, household }))
  const { rows, total } = await figures()
  const living = rows[0]!
  expect(living.planned).toEqual([null, null, 28_000])
  expect(living).toMatchObject({ totalCents: 75_050, plannedCents: 28_000, differenceCents: 2_000 })
  expect(total.planned!.slice(0, 2)).toEqual([null, null])
  const page = await (await app.get('/books/spending')).text()
  expect(page).toContain('in the 1 month that a plan tells of')
  const csv = (await (await app.get('/books/spending.csv')).text()).trim().split(/\r?\n/)
  expect(csv[0]).toBe('kind,2026-03,2026-04,2026-05,together,expected,more or less')
  expect(csv[1]).toBe('Living costs,200.00,250.50,300.00,750.50,280.00,20.00')
})

test('care that the plan has among its living costs stands there in the books too', async () => {
  const from = books.account('household', 'Household checking').id
  const head = { id: '', sideId: 'household', day: on('2026-05-08'), payee: 'Dentist', memo: '' }
  const lines = [{ accountId: books.account('household', 'Care and medicine').id, amountCents: cents(6_000) }]
  done(postEntry(books, act(), moneyOut(head, from, lines)))
  const { rows, total } = await figures()
  // 750.50 of groceries and 60.00; in May, of which alone the plan tells, 360.00 against 280.00.
  expect(rows.map(({ name, totalCents }) => [name, totalCents])).toEqual([
    ['Living costs', 81_050],
    ['Groceries', 75_050],
    ['Care and medicine', 6_000],
    ['Premiums', 40_000],
    ['Health premiums', 40_000],
  ])
  expect(rows[0]).toMatchObject({ plannedCents: 28_000, differenceCents: 8_000 })
  expect(total.totalCents).toBe(121_050)
})

test('Now counts what a month costs, Spending what was bought to last too; each leads to the other’s amount', async () => {
  const from = books.account('household', 'Household checking').id
  const head = { id: '', sideId: 'household', day: on('2026-05-20'), payee: 'Used trailer', memo: '' }
  const lines = [{ accountId: books.account('household', 'Vehicles').id, amountCents: cents(120_000) }]
  done(postEntry(books, act(), moneyOut(head, from, lines)))
  // May: 300.00 of groceries and 60.00 of care are 360.00; with the trailer 1,560.00.
  const { total } = await figures()
  expect(total.spent.at(-1)).toBe(156_000)
  const spoken = (await (await app.get('/books/spending')).text()).replace(/\s+/g, ' ')
  expect(spoken).toContain(
    '<a href="/now">Household spending on Now</a> is the total without lasting things and one-off items: $360 in May 2026.',
  )
  const now = (await (await app.get('/now.json')).json()) as { spending: object[] }
  expect(now.spending.at(-1)).toEqual({ month: '2026-05', cents: 36_000, thingsCents: 120_000 })
  const page = (await (await app.get('/now')).text()).replace(/\s+/g, ' ')
  expect(page).toContain('Lasting things and one-off items besides')
  expect(page).toContain('$1,560.00')
})
