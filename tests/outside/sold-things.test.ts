// What was sold and still stands in the books, worked by hand: the pack tells the entry, and with it statements and Form 4797 agree.
//
// Depreciation: IRS Pub. 946, table A-1, 5-year property, half-year: 20 percent, then half of 32 percent in the year of the sale.
// Gain: price less adjusted basis (26 USC 1001, 1016(a)(2)). Entries without money stand in no cash flow statement (FASB ASC 230-10-50-3, from memory).
import { afterEach, beforeEach, expect, test } from 'vitest'
import { day } from '#calendar/day.ts'
import { listAccounts } from '#db/ledger/account-store.ts'
import { booksYear } from '#today/tax/books-year.ts'
import { yearPackFigures } from '#today/year-pack/year-pack-figures.ts'
import { postByName } from '../web/post-by-name.ts'
import { type TestApp, testApp } from '../web/test-app.ts'
import { type YearBooks, yearBooks, yearParts } from './year-books.ts'

let app: TestApp
const idOf = (name: string) =>
  listAccounts(app.books).find((one) => one.sideId === 'farm' && one.name === name)!.id
const book = (on: string, lines: Record<string, number>) => postByName(app.books, 'farm', on, lines)
const pack = () => yearPackFigures(app.books, 2025, 'cash', day('2026-02-10'))
const farm = () => pack().sides.find(({ id }) => id === 'farm')!
const soldSays = () =>
  pack()
    .gaps.map(({ says }) => says)
    .filter((says) => says.includes('was sold on'))
const investing = () =>
  Object.fromEntries(farm().cash.investing.lines.map(({ label, amountCents }) => [label, amountCents / 100]))

const hold: YearBooks['hold'] = (name, kind, since, cost, more) =>
  yearBooks(app.books).hold(name, kind, since, cost, more)

beforeEach(() => {
  app = testApp({ today: '2026-02-10' })
  app.openSides()
  // Two cows bought in 2024 at 2,000 and 2,400: 20 percent written off, 400 and 480. One sold in 2025 for 3,000.
  book('2024-03-01', { 'Breeding stock': 4400, 'Farm checking': -4400 })
  book('2024-12-31', { Depreciation: 880, 'Depreciation taken': -880 })
  book('2025-05-02', { 'Farm checking': 3000, 'Breeding stock and equipment sold': -3000 })
  const cow = { ...yearParts.by('cattle'), accountId: idOf('Breeding stock') }
  hold('Cow no. 7', 'breeding_stock', '2024-03-01', '2,000', {
    ...cow,
    ...yearParts.sold('2025-05-02', '3,000'),
  })
  hold('Cow no. 8', 'breeding_stock', '2024-03-01', '2,400', cow)
  // 2025: no. 7 half of 32 percent, 320; no. 8 32 percent, 768.
  book('2025-12-31', { Depreciation: 1088, 'Depreciation taken': -1088 })
})

afterEach(() => app.close())

test('the open point names cost and depreciation, and the entry it tells settles it', () => {
  // Basis of no. 7: 2,000 − 400 − 320 = 1,280.
  expect(soldSays()).toEqual([
    'Cow no. 7 was sold on May 2, 2025; its cost of $2,000.00 and $720.00 of depreciation are still in the books, so that net income is $1,280.00 too high. Book on Dec 31, 2025, by debits and credits: debit “Depreciation taken” $720.00, debit “Breeding stock and equipment sold” $1,280.00, credit “Breeding stock” $2,000.00.',
  ])
  const { gainCents } = booksYear(app.books, 2025).farm!.sales.sales[0]!
  expect(gainCents).toBe(172_000)
  book('2025-12-31', {
    'Depreciation taken': 720,
    'Breeding stock and equipment sold': 1280,
    'Breeding stock': -2000,
  })
  expect(soldSays()).toEqual([])
  expect(farm().income.capital.totalCents).toBe(gainCents)
  // The form still takes the whole price as booked, so that nothing sold besides is hidden by the entry.
  expect(booksYear(app.books, 2025).farm!.sales.bookedCents).toBe(300_000)
  expect(pack().scheduleF!.beside.map(({ amountCents }) => amountCents)).toEqual([300_000])
  // No. 8 stays: 2,400 less 480 and 768.
  const { end } = farm()
  expect(end.otherAssets.costCents).toBe(115_200)
})

test('a cost that was taken out in the sale’s own entry, and things the inventory does not know, are no open point', () => {
  book('2024-06-01', { 'Breeding stock': 5000, 'Farm checking': -5000 })
  expect(soldSays()).toHaveLength(1)
  book('2025-05-02', {
    'Farm checking': 10,
    'Depreciation taken': 720,
    'Breeding stock and equipment sold': 1270,
    'Breeding stock': -2000,
  })
  expect(soldSays()).toEqual([])
})

test('written off on the things’ own account, what is left of the cost stands', () => {
  for (const [on, amount] of [
    ['2024-12-31', 880],
    ['2025-12-31', 1088],
  ] as const) {
    book(on, { Depreciation: -amount, 'Depreciation taken': amount })
    book(on, { Depreciation: amount, 'Breeding stock': -amount })
  }
  // 4,400 less 880 and 1,088 is 2,432; of that 1,152 is of no. 8.
  expect(soldSays()).toHaveLength(1)
  expect(soldSays()[0]).toContain(
    '$1,280.00 of its cost is still in the books, so that net income is $1,280.00 too high.',
  )
  expect(soldSays()[0]).toContain(
    'debit “Breeding stock and equipment sold” $1,280.00, credit “Breeding stock” $1,280.00.',
  )
  book('2025-12-31', { 'Breeding stock and equipment sold': 1280, 'Breeding stock': -1280 })
  expect(soldSays()).toEqual([])
})

test('before the year’s depreciation is booked the point leads there and tells no entry; without an account it asks for it', () => {
  book('2025-12-31', { Depreciation: -1088, 'Depreciation taken': 1088 })
  expect(soldSays()).toEqual([
    'Cow no. 7 was sold on May 2, 2025, and its cost of $2,000.00 is still in the books. Book the difference of depreciation of 2025: the same entry takes out what was sold.',
  ])
  hold('Ram', 'breeding_stock', '2024-03-01', '600', yearParts.sold('2025-06-01', '200'))
  expect(soldSays()[0]).toContain(
    'Ram was sold on Jun 1, 2025, and no account is chosen that holds its cost of $600.00',
  )
})

test('the cash flow statement has neither depreciation nor the cost of what was sold', () => {
  expect(investing()).toEqual({ 'Breeding stock and equipment sold': 3000 })
  book('2025-12-31', {
    'Depreciation taken': 720,
    'Breeding stock and equipment sold': 1280,
    'Breeding stock': -2000,
  })
  expect(investing()).toEqual({ 'Breeding stock and equipment sold': 3000 })
})

test('a heifer given for a used baler is a sale on Form 4797, as if it had been paid for (no exchange of machinery or stock since 2018: 26 USC 1031(a)(1), from memory)', () => {
  book('2025-08-01', { 'Machinery and equipment': 1900, 'Breeding stock and equipment sold': -1900 })
  hold('Heifer no. 12', 'breeding_stock', '2022-04-01', '0', {
    raised: true,
    ...yearParts.sold('2025-08-01', '1,900'),
  })
  const { sales, form } = booksYear(app.books, 2025).farm!
  // 3,000 of cow no. 7 and 1,900; the books hold what the inventory does, and no open point asks for the money.
  expect([sales.bookedCents, sales.recordedCents, form.capitalSalesCents]).toEqual([
    490_000, 490_000, 490_000,
  ])
  expect(pack().places.find(({ goes }) => goes?.form === 'Form 4797')!.amountCents).toBe(490_000)
  expect(
    pack()
      .gaps.map(({ says }) => says)
      .join(' '),
  ).not.toContain('look whether the money is booked')
  // Nothing of it is money.
  expect(investing()).toEqual({ 'Breeding stock and equipment sold': 3000 })
})
