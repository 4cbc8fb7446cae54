// Months left as planned and without draws: never one for the other, on Now, in Plan against the books, and in what a day keeps of them.
// A ferry house of our own invention, where nothing grows: 2,150 a month, 700 of it drawn from the farm, a floor of 4,000.
import { afterEach, beforeEach, expect, test } from 'vitest'
import { day } from '#calendar/day.ts'
import { month } from '#calendar/month.ts'
import { listSayings } from '#db/runway-history-store.ts'
import { readPlan } from '#plan/upgrade.ts'
import { nowFigures } from '#today/now/now-figures.ts'
import { writeDownToday } from '#today/projection/forecasts.ts'
import { saidToday } from '#today/projection/months-left.ts'
import { act } from '../db/fresh-books.ts'
import { type TestApp, testApp } from '../web/test-app.ts'
import { moveIn } from './moved.ts'

const today = day('2027-03-08')
let app: TestApp
beforeEach(() => {
  app = testApp({ today })
  app.openSides()
  const read = readPlan({
    planVersion: 4,
    startMonth: '2027-03',
    household: {
      living: [{ id: 'living', name: 'Living', perMonth: 2150 }],
      floor: { kind: 'dollars', dollars: 4000 },
    },
    savings: { accounts: [{ id: 'cash', name: 'Cash', kind: 'cash', balance: 19_000 }] },
    draw: { policy: 'steps', steps: [{ from: '2027-03', perMonth: 700 }], growth: 0, withPrices: false },
    tax: { method: 'none' },
    assumptions: { inflation: 0, premiumGrowth: 0 },
  })
  if (!read.ok) throw new Error(JSON.stringify(read.faults))
  app.savePlan(read.plan)
  moveIn(app.books, 'household', '2027-02-28', 'Opening balances', 'Savings', 26_000)
})
afterEach(() => app.close())

// 26,000 less 1,450 a month is 4,250 after fifteen months and below 4,000 in the sixteenth, June 2028. Less 2,150 it is 4,500 after
// ten and below in the eleventh, January 2028.
test('the books’ 26,000 last fifteen months as planned and ten without draws, wherever it is said', async () => {
  const { plan } = nowFigures(app.books, today)
  expect(plan).toMatchObject({
    status: 'read',
    monthsLeft: 15,
    floorMonth: month(2028, 6),
    monthsLeftWithoutDraws: 10,
    floorMonthWithoutDraws: month(2028, 1),
  })
  const both = { monthsLeft: 15, monthsLeftWithoutDraws: 10 }
  expect(saidToday(app.books, today)).toMatchObject({ ...both, fromBooks: true })
  expect(await (await app.get('/runway/actual.json')).json()).toMatchObject(both)
  writeDownToday(app.books, act(), today)
  expect(listSayings(app.books)).toEqual([expect.objectContaining({ ...both, floorMonth: month(2028, 6) })])
})
