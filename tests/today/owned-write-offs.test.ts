// What the books write off of things in use is in the plan that goes on from them: this year's and that of the years ahead, once.
import { afterEach, expect, test } from 'vitest'
import { day } from '#calendar/day.ts'
import { addSide } from '#db/ledger/account-store.ts'
import { saveHolding } from '#db/year-store.ts'
import type { HoldingDepreciation } from '#ledger/reports/stock-inventory.ts'
import { cents } from '#money/cents.ts'
import { type Plan, planSchema } from '#plan/plan.ts'
import { project } from '#runway/project.ts'
import { monthReview } from '#today/month-review/month-review.ts'
import { continuedPlan } from '#today/projection/continued-plan.ts'
import { act, done } from '../db/fresh-books.ts'
import { type TestApp, testApp } from '../web/test-app.ts'
import { moveIn } from './moved.ts'

let app: TestApp
afterEach(() => app?.close())

/** Ruth and Tom on 80,000 of savings; an orchard without stock, and Tom's tool sharpening. */
const plan: Plan = planSchema.parse({
  startMonth: '2026-01',
  household: {
    people: [
      { id: 'ruth', name: 'Ruth', born: '1984-03-15', planToAge: 50 },
      { id: 'tom', name: 'Tom', born: '1985-09-15', planToAge: 50 },
    ],
    living: [{ id: 'living', name: 'Living', perMonth: 2000 }],
    sideVentures: [{ id: 'edges', name: 'Sharp edges', person: 'tom', perMonth: 900 }],
  },
  savings: { accounts: [{ id: 'cash', name: 'Cash', kind: 'cash', balance: 80_000 }] },
  farm: {
    cash: 9000,
    enterprises: [{ id: 'apples', name: 'Apples', salesPerUnit: 48_000, costsPerUnit: 12_000 }],
  },
  assumptions: { inflation: 0, farmPriceGrowth: 0, farmCostGrowth: 0 },
})

const used: HoldingDepreciation = {
  assetClass: 'machinery-used',
  section179Cents: cents(0),
  bonus: false,
}

const opened = (saved: Plan) => {
  app = testApp({ today: '2026-06-10' })
  app.openSides()
  moveIn(app.books, 'household', '2025-12-31', 'Opening balances', 'Savings', 80_000)
  moveIn(app.books, 'farm', '2025-12-31', 'Opening balances', 'Farm checking', 9000)
  for (const on of ['2026-01-31', '2026-05-31'])
    moveIn(app.books, 'household', on, 'Savings', 'Groceries', 100)
  return () => project(continuedPlan(app.books, structuredClone(saved), day('2026-06-10')).plan)
}

const bought = (name: string, on: string, dollars: number, depreciation = used, side = 'farm') =>
  done(
    saveHolding(app.books, act(), side, {
      kind: 'equipment',
      name,
      quantity: 1,
      unit: 'each',
      accountId: null,
      acquiredDay: day(on),
      inServiceDay: null,
      raised: false,
      costCents: cents(dollars * 100),
      depreciation,
      marketValueCents: null,
      disposedDay: null,
      disposedForCents: null,
    }),
  )

test('a tractor bought the year before is written off in the years ahead by its table', () => {
  const run = opened(plan)
  const without = run()
  bought('Tractor', '2025-04-10', 20_000)
  const years = run().years
  // Seven years, 200 % declining balance, half-year convention (IRS Pub. 946, table A-1): 14.29, 24.49, 17.49, 12.49, 8.93, 8.92, 8.93, 4.46 %.
  expect(years.slice(0, 8).map(({ depreciation }) => depreciation)).toEqual([
    4898, 3498, 2498, 1786, 1784, 1786, 892, 0,
  ])
  years.slice(0, 3).forEach(({ farmProfit, adjustedGrossIncome }, y) => {
    const before = without.years[y]!
    expect(before.farmProfit - farmProfit).toBeCloseTo([4898, 3498, 2498][y]!, 6)
    expect(adjustedGrossIncome).toBeLessThan(before.adjustedGrossIncome - 2000)
  })
})

test('what is elected this year is taken up to income, and nothing bought as planned is written off twice', () => {
  const planned: Plan = planSchema.parse({
    ...plan,
    farm: {
      ...plan.farm,
      purchases: [
        { id: 'tractor', name: 'Tractor', cost: 20_000, month: '2026-03', assetClass: 'machinery-used' },
      ],
    },
  })
  const run = opened(planned)
  // As planned, as long as the inventory holds nothing: 14.29 % of it, or all at once where the plan takes bonus.
  expect(run().years[0]!.depreciation).toBeGreaterThan(0)
  bought('Tractor', '2026-03-12', 20_000, { ...used, section179Cents: cents(500_000) })
  // 5,000 elected, and 14.29 % of the rest: 2,143.50; then 24.49 % of it.
  const [first, second] = run().years
  expect(first!.depreciation).toBeCloseTo(7143.5, 6)
  expect(second!.depreciation).toBeCloseTo(3673.5, 6)
})

test('what a venture owns lowers what its owner earns with it', () => {
  const run = opened(plan)
  const before = run().years
  const { sideId } = done(addSide(app.books, act(), { kind: 'venture', name: 'Sharp edges' }))
  bought('Wet grinder', '2025-08-20', 3000, used, sideId)
  const after = run().years
  for (const [y, dollars] of [734.7, 524.7, 374.7].entries())
    expect(before[y]!.sideProfit - after[y]!.sideProfit).toBeCloseTo(dollars, 6)
  expect(after[1]!.depreciation).toBe(0)
  expect(after[1]!.adjustedGrossIncome).toBeLessThan(before[1]!.adjustedGrossIncome - 400)
})

test('what comes into use within the month or later is not in it yet', () => {
  const run = opened(plan)
  bought('Press', '2026-06-04', 7000)
  expect(run().years[0]!.depreciation).toBe(0)
})

test('a month later nothing of it is told as a change', () => {
  opened(plan)
  bought('Tractor', '2025-04-10', 20_000)
  app.savePlan(plan)
  const review = monthReview(app.books, day('2026-06-10'))
  if (review.status !== 'read') throw new Error(review.says)
  expect(review.parts.map(({ kind }) => kind)).toContain('tax')
  expect(Math.abs(review.parts.find(({ kind }) => kind === 'rest')?.yearAhead ?? 0)).toBeLessThan(1)
})
