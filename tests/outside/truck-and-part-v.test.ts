// A goat dairy with a truck driven privately too, and a cheese venture with other costs: lines worked by hand from the instructions of
// Schedule F line 10 (the business share of actual costs; IRS Pub. 463, chapter 4) and of Schedule C, lines 5, 27b and 48.
import { afterEach, beforeEach, expect, test } from 'vitest'
import { day } from '#calendar/day.ts'
import { addSide, listAccounts } from '#db/ledger/account-store.ts'
import { scheduleCRows } from '#ledger/reports/form-rows.ts'
import { scheduleCSource } from '#ledger/schedule-c-lines.ts'
import { booksYear } from '#today/tax/books-year.ts'
import { yearPackFigures } from '#today/year-pack/year-pack-figures.ts'
import { act, done } from '../db/fresh-books.ts'
import { type TestApp, testApp } from '../web/test-app.ts'
import { yearBooks, yearParts } from './year-books.ts'

let app: TestApp
let cheese: string
const form = () => booksYear(app.books, 2025).farm!.form
const line10 = () => form().expenses.find(({ line }) => line === '10')!
const besides = () =>
  form()
    .beside.filter(({ label }) => label.startsWith('Car and truck'))
    .map(({ label, amountCents }) => [label, amountCents / 100])
const says = () => yearPackFigures(app.books, 2025, 'cash', day('2026-02-10')).gaps.map((gap) => gap.says)
let revision = 0
const say = async (more: Record<string, string>) => {
  const sent = await app.post('/year-pack/schedule-f?year=2025', {
    basedOn: String(revision++),
    'weather.0.what': '',
    ...more,
  })
  expect(sent.status).toBe(303)
}

beforeEach(() => {
  revision = 0
  app = testApp({ today: '2026-02-10' })
  app.openSides()
  cheese = done(addSide(app.books, act(), { kind: 'venture', name: 'Cheese room' })).sideId
  const farm = yearBooks(app.books)
  const truckCosts = listAccounts(app.books).find(
    (one) => one.sideId === 'farm' && one.scheduleLine === '10',
  )!
  farm.book({ 'Vegetables and fruit sold': '30,000' }, { [truckCosts.name]: '3,200' })
  farm.hold('Truck', 'equipment', '2025-02-01', '24,000', {
    depreciation: {
      assetClass: 'pickup',
      section179Cents: yearParts.toCents('0'),
      bonus: false,
      useShares: { '2025': 0.8 },
    },
  })
})

afterEach(() => app.close())

test('line 10 takes 80 percent of 3,200 as line 14 takes 80 percent of the truck; the rest is said, and asked about', async () => {
  expect(line10().amountCents).toBe(256_000)
  expect(line10().note).toBe(
    '80% business use by the inventory, of $3,200.00 booked; $640.00 is private and not deducted',
  )
  expect(besides()).toEqual([['Car and truck costs, private part', 640]])
  // 24,000 × .80 × .20 (IRS Pub. 946, table A-1).
  expect(form().depreciation.scheduleCents).toBe(384_000)
  expect(form().netProfitCents).toBe(3_000_000 - 256_000 - 384_000)
  const asked = () => says().filter((one) => one.startsWith('Line 10, car and truck'))
  expect(asked()).toHaveLength(1)
  await say({ vehicleBooked: 'whole' })
  expect([line10().amountCents, asked()]).toEqual([256_000, []])
  await say({ vehicleBooked: 'part' })
  expect([line10().amountCents, asked(), besides()]).toEqual([320_000, [], []])
})

test('miles that are said go before the inventory, and stand with the evidence on the lines of Form 4562, Part V', async () => {
  await say({
    businessMiles: '9000',
    commutingMiles: '500',
    otherMiles: '500',
    evidence: 'written',
    inUseSince: '2025-02-01',
  })
  expect(line10().amountCents).toBe(288_000)
  const table = await (await app.get('/year-pack.csv?year=2025&table=schedule-f-asked')).text()
  for (const row of [
    '"4562, 30",Miles for the business,9000',
    '"4562, 31",Miles to a job,500',
    '"4562, 32",Other miles,500',
    '"4562, 24a",Evidence of the use,Yes',
    '"4562, 24b",The evidence is written,Yes',
  ])
    expect(table).toContain(row)
  // By miles: 9,000 at the rate of 2025, 70 cents (Notice 2025-5); no cost beside.
  await say({ vehicleBy: 'miles', businessMiles: '9000' })
  expect(line10().amountCents).toBe(630_000)
  expect(besides()).toEqual([['Car and truck costs, for which miles are deducted', 3200]])
})

test('two cars of different shares: nobody can tell whose costs these are, so all counts and it is asked', () => {
  yearBooks(app.books).hold('Van', 'equipment', '2025-02-01', '9,000', yearParts.by('pickup'))
  expect(line10().amountCents).toBe(320_000)
  expect(says().filter((one) => one.includes('different shares of business use'))).toHaveLength(1)
})

test('Schedule C prints gross profit, the sum of Part V on line 27b and each cost of Part V', () => {
  yearBooks(app.books, cheese, 'Venture checking').book(
    { 'Sales and fees earned': '8,000' },
    { Supplies: '1,000', 'Fees and dues': '300', 'Other venture costs': '150' },
  )
  const of = (year: number) =>
    scheduleCRows({ ...booksYear(app.books, 2025).ventures[0]!.form, year }).map(
      ({ line, label, amountCents }) => `${line} ${label} ${amountCents / 100}`,
    )
  expect(of(2025)).toEqual([
    '1 Sales and fees 8000',
    '3 Line 1 less line 2 8000',
    '5 Gross profit 8000',
    '7 Gross income 8000',
    '22 Supplies 1000',
    '27b Other costs, line 48 450',
    '28 Total expenses 1450',
    '29 Profit before use of the home 6550',
    '31 Net profit or loss 6550',
    'Part V Fees and dues 300',
    'Part V Other venture costs 150',
    '48 Total other costs, to line 27 450',
  ])
  expect(of(2023)).toContain('27a Other costs, line 48 450')
  expect(scheduleCSource(2025)).toContain('Schedule C (Form 1040) 2025, Parts I to V')
  expect(scheduleCSource(2026)).toContain(
    'Schedule C (Form 1040) 2025, the newest known here: lines of 2026 may differ',
  )
})
