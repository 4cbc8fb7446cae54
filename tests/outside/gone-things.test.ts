// An invented farm of ewes, a tiller given in trade and a tractor, worked by hand before the year's depreciation is booked: what is gone
// stands in the accounts still, and the balance sheet must neither leave it out of what it says nor count it at market.
//
// IRS Pub. 946, table A-1, 5-year property, half-year: 20 percent, then 32, half of it in the year of a sale. A thing traded in is sold
// at its allowance (26 USC 1031(a)(1)). Cost that a sale leaves: cost less depreciation to the sale (26 USC 1001, 1016(a)(2)).
import { afterEach, beforeEach, expect, test } from 'vitest'
import { day } from '#calendar/day.ts'
import { listAccounts } from '#db/ledger/account-store.ts'
import { listHoldings } from '#db/year/holding-list.ts'
import { disposeOf } from '#db/year/holding-parts.ts'
import { writeHoldingValue } from '#db/year/holding-values.ts'
import { saveMarketValues } from '#db/year-store.ts'
import { cents } from '#money/cents.ts'
import { yearPackFigures } from '#today/year-pack/year-pack-figures.ts'
import { act, done } from '../db/fresh-books.ts'
import { filledForm } from '../web/browser-form.ts'
import { postByName } from '../web/post-by-name.ts'
import { type TestApp, testApp } from '../web/test-app.ts'
import { yearBooks, yearParts } from './year-books.ts'

let app: TestApp
const idOf = (name: string) =>
  listAccounts(app.books).find((one) => one.sideId === 'farm' && one.name === name)!.id
const book = (on: string, lines: Record<string, number>) => postByName(app.books, 'farm', on, lines)
const farm = (year = 2025) =>
  yearPackFigures(app.books, year, 'cash', day('2026-02-10')).sides.find(({ id }) => id === 'farm')!
const lasting = (year = 2025) => {
  const { costCents, marketCents } = farm(year).end.otherAssets
  return [costCents / 100, marketCents / 100]
}
const note = async (year = 2025) =>
  (await (await app.get(`/year-pack/sheets/farm-balance?year=${year}`)).text())
    .match(/<p class="notice">([\s\S]*?)<\/p>/)?.[1]
    ?.replaceAll(/\s+/g, ' ')
const thing = (name: string) => listHoldings(app.books, 'farm').find((one) => one.name === name)!

beforeEach(() => {
  app = testApp({ today: '2026-02-10' })
  app.openSides()
  const machine = { ...yearParts.by('machinery-new'), accountId: idOf('Machinery and equipment') }
  book('2024-04-01', { 'Breeding stock': 2500, 'Machinery and equipment': 15_000, 'Farm checking': -17_500 })
  yearBooks(app.books).hold('Ewes', 'breeding_stock', '2024-04-01', '2,500', {
    ...yearParts.by('sheep-or-goats'),
    quantity: 10,
    accountId: idOf('Breeding stock'),
  })
  yearBooks(app.books).hold('Tiller', 'equipment', '2024-04-01', '3,000', machine)
  yearBooks(app.books).hold('Tractor', 'equipment', '2024-04-01', '12,000', machine)
  // 2024: 500 and 600 and 2,400.
  book('2024-12-31', { Depreciation: 3500, 'Depreciation taken': -3500 })
  // 2025: four ewes for 1,200, and the tiller, allowed at 2,000, with 1,000 for a new one.
  book('2025-05-02', { 'Farm checking': 1200, 'Breeding stock and equipment sold': -1200 })
  done(
    disposeOf(app.books, act(), 'farm', thing('Ewes').id, {
      quantity: 4,
      disposedDay: day('2025-05-02'),
      disposedForCents: cents(120_000),
    }),
  )
  book('2025-08-10', { 'Machinery and equipment': 2000, 'Breeding stock and equipment sold': -2000 })
  book('2025-08-10', { 'Machinery and equipment': 1000, 'Farm checking': -1000 })
  done(
    disposeOf(app.books, act(), 'farm', thing('Tiller').id, {
      quantity: 1,
      disposedDay: day('2025-08-10'),
      disposedForCents: cents(200_000),
    }),
  )
  yearBooks(app.books).hold('New tiller', 'equipment', '2025-08-10', '3,000', machine)
  writeHoldingValue(app.books, '2026-01-05T00:00:00Z', thing('Tractor').id, day('2025-12-31'), cents(950_000))
})
afterEach(() => app.close())

// 2025: four ewes, half of 32 percent of 1,000, 160; six, 32 percent of 1,500, 480; tiller 480; tractor 3,840; new tiller 600: 5,560.
// Left of the ewes sold 1,000 − 200 − 160 = 640, of the tiller 3,000 − 600 − 480 = 1,920: 2,560.
const book2025 = async () => {
  const path = '/year-pack/depreciation?year=2025&side=farm'
  expect((await app.post(path, await filledForm(app, path))).status).toBe(303)
}

test('the note before the difference is booked tells what is gone beside the depreciation, and how much both lower equity', async () => {
  expect(await note()).toBe(
    'Wrenfold: depreciation is shown here as booked. By the schedule of Form 4562 $5,560.00 more is written off for 2025. Besides, what is gone is still in the books’ columns, with $2,560.00 of cost that is not written off: Ewes (4 of 10), Tiller. What things cost, and equity with it, would be $8,120.00 lower.',
  )
  const before = farm().end.equity.costCents
  expect(lasting()[0]).toBe(17_000)
  await book2025()
  // Six ewes 720, tractor 5,760, new tiller 2,400.
  expect(lasting()[0]).toBe(8880)
  expect(before - farm().end.equity.costCents).toBe(812_000)
  expect(await note()).toBeUndefined()
})

test('at market what is gone counts for nothing, whether or not the difference is booked', async () => {
  // The 3,500 booked are of 9,060 scheduled, shared in that proportion: ewes kept 780, new tiller 600; the tractor as valued.
  expect(lasting()[1]).toBeCloseTo(1500 + 3000 - (3500 * (780 + 600)) / 9060 + 9500, 2)
  await book2025()
  expect(lasting()[1]).toBe(720 + 2400 + 9500)
})

test('with depreciation booked by itself, what is gone is left in the note; the account as a whole valued later has it no more', async () => {
  book('2025-12-31', { Depreciation: 5560, 'Depreciation taken': -5560 })
  expect(await note()).toBe(
    'Wrenfold: what is gone is still in the books’ columns, with $2,560.00 of cost that is not written off: Ewes (4 of 10), Tiller. What things cost, and equity with it, would be $2,560.00 lower.',
  )
  expect(lasting()).toEqual([11_440, 720 + 2400 + 9500])
  done(
    saveMarketValues(app.books, act(), day('2025-12-31'), [
      { accountId: idOf('Machinery and equipment'), amountCents: cents(1_150_000) },
    ]),
  )
  expect(lasting()[1]).toBe(720 + 11_500)
})

test('a year later it stands there still, named and worth nothing, until it is taken out', async () => {
  book('2025-12-31', { Depreciation: 5560, 'Depreciation taken': -5560 })
  book('2026-01-20', { 'Farm checking': 100, 'Other farm income': -100 })
  // 2026: six ewes 19.2 percent of 1,500, 288; tractor 2,304; new tiller 960: 3,552.
  book('2026-12-31', { Depreciation: 3552, 'Depreciation taken': -3552 })
  expect(await note(2026)).toContain('$2,560.00 of cost that is not written off')
  expect(lasting(2026)).toEqual([7888, 720 - 288 + 9500 + 2400 - 960])
  book('2026-12-31', {
    'Depreciation taken': 1440,
    'Breeding stock and equipment sold': 2560,
    'Breeding stock': -1000,
    'Machinery and equipment': -3000,
  })
  expect(await note(2026)).toBeUndefined()
  expect(lasting(2026)).toEqual([5328, 720 - 288 + 9500 + 2400 - 960])
})

test('written off on the things’ own accounts, the same', async () => {
  book('2024-12-31', {
    'Depreciation taken': 3500,
    'Breeding stock': -500,
    'Machinery and equipment': -3000,
  })
  expect(await note()).toContain('would be $8,120.00 lower')
  expect(lasting()[0]).toBe(17_000)
})
