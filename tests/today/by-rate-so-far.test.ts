// What the projection knows of a year under way takes miles and the home by their rates, as the year's form does, in place of what was
// booked for the truck. A grower of cut willow alone, our own invention, with a basket venture; rates of 2026 by the data's sources:
// 72.5 cents a mile (IRS Notice 2026-10), 5 dollars a square foot (Rev. Proc. 2013-13).
import { afterEach, beforeEach, expect, test } from 'vitest'
import { month } from '#calendar/month.ts'
import { addSide } from '#db/ledger/account-store.ts'
import { bookedBetween } from '#today/projection/booked-between.ts'
import { act, done } from '../db/fresh-books.ts'
import { postByName } from '../web/post-by-name.ts'
import { type TestApp, testApp } from '../web/test-app.ts'

let app: TestApp
beforeEach(() => {
  app = testApp({ today: '2026-11-15' })
  app.openSides()
})
afterEach(() => app.close())

const book = (side: string, on: string, amounts: Record<string, number>) =>
  postByName(app.books, side, on, amounts)
const soFar = () => bookedBetween(app.books, month(2026, 1), month(2026, 11))!.income
const say = async (page: string, more: Record<string, string>) =>
  expect((await app.post(page, { basedOn: '0', ...more })).status).toBe(303)

test('the farm: miles replace what the truck cost, and the home comes off beside them', async () => {
  book('farm', '2026-03-05', { 'Farm checking': 30_000, 'Vegetables and fruit sold': -30_000 })
  book('farm', '2026-04-10', { 'Car and truck': 1900, 'Farm checking': -1900 })
  // November is not behind.
  book('farm', '2026-11-09', { 'Farm checking': 4000, 'Vegetables and fruit sold': -4000 })
  expect(soFar().farmProfit).toBe(28_100)
  await say('/year-pack/schedule-f?year=2026', {
    vehicleBy: 'miles',
    businessMiles: '5200',
    homeSquareFeet: '240',
    'weather.0.what': '',
  })
  // 5,200 × 0.725 = 3,770; 240 × 5 = 1,200.
  expect(soFar().farmProfit).toBe(30_000 - 3770 - 1200)
})

test('a venture: the same, of what the farm leaves of the home', async () => {
  const { sideId } = done(addSide(app.books, act(), { kind: 'venture', name: 'Baskets' }))
  book('farm', '2026-03-05', { 'Farm checking': 30_000, 'Vegetables and fruit sold': -30_000 })
  book(sideId, '2026-05-02', { 'Venture checking': 6000, 'Sales and fees earned': -6000 })
  await say('/year-pack/schedule-f?year=2026', { homeSquareFeet: '240', 'weather.0.what': '' })
  await say(`/year-pack/schedule-c/${sideId}?year=2026`, {
    homeSquareFeet: '100',
    vehicleBy: 'miles',
    businessMiles: '400',
  })
  // One person has 300 square feet for all businesses: 60 are left, at 5; 400 × 0.725 = 290.
  expect(soFar()).toMatchObject({ farmProfit: 30_000 - 1200, ventureProfit: 6000 - 300 - 290 })
})
