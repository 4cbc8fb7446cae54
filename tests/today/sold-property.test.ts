// Breeding stock sold stands in the year's income of the plan that goes on: from the books, and at once where the notebook tells it.
import { afterEach, expect, test } from 'vitest'
import { day } from '#calendar/day.ts'
import { month } from '#calendar/month.ts'
import { saveHolding } from '#db/year-store.ts'
import { cents, zeroCents } from '#money/cents.ts'
import { planSchema } from '#plan/plan.ts'
import { project } from '#runway/project.ts'
import { continuedPlan } from '#today/projection/continued-plan.ts'
import { startedAgain } from '#today/projection/start-of-month.ts'
import { nothingYet } from '#today/projection/tax-facts.ts'
import { act, done } from '../db/fresh-books.ts'
import { type TestApp, testApp } from '../web/test-app.ts'
import { moveIn } from './moved.ts'

let app: TestApp
afterEach(() => app?.close())

/** Ida alone on 60,000 of savings, in no state: nothing else is income of hers in 2026. */
const plan = planSchema.parse({
  startMonth: '2026-01',
  household: {
    people: [{ id: 'ida', name: 'Ida', born: '1980-06-15', planToAge: 60 }],
    living: [{ id: 'living', name: 'Living', perMonth: 1000 }],
  },
  savings: { accounts: [{ id: 'cash', name: 'Cash', kind: 'cash', balance: 60_000 }] },
  farm: {
    cash: 4000,
    herds: [
      {
        id: 'ewes',
        name: 'Ewes',
        kind: 'sheep',
        start: '2026-01',
        breedingFemales: 10,
        carryingLimit: 10,
        prices: { cullFemale: 90 },
      },
    ],
  },
  assumptions: { inflation: 0, farmPriceGrowth: 0, farmCostGrowth: 0 },
})

test('what the books hold as sold this year is in the year’s income, and is taxed with it', () => {
  app = testApp({ today: '2026-06-10' })
  app.openSides()
  moveIn(app.books, 'household', '2025-12-31', 'Opening balances', 'Savings', 60_000)
  moveIn(app.books, 'farm', '2025-12-31', 'Opening balances', 'Farm checking', 4000)
  moveIn(app.books, 'farm', '2026-05-04', 'Breeding stock and equipment sold', 'Farm checking', 80_000)
  for (const on of ['2026-01-31', '2026-04-30', '2026-05-31'])
    moveIn(app.books, 'household', on, 'Savings', 'Groceries', 100)
  done(
    saveHolding(app.books, act(), 'farm', {
      kind: 'breeding_stock',
      name: 'A flock',
      quantity: 60,
      unit: 'head',
      accountId: null,
      acquiredDay: day('2022-03-01'),
      inServiceDay: null,
      raised: true,
      costCents: zeroCents,
      depreciation: null,
      marketValueCents: null,
      disposedDay: day('2026-05-04'),
      disposedForCents: cents(8_000_000),
    }),
  )
  const on = (today: string) => continuedPlan(app.books, plan, day(today)).plan
  expect(on('2026-06-10').tax.soFar).toMatchObject({ propertyGain: 80_000, ordinaryGain: 0 })
  // Within its own month neither the money nor the gain is there yet.
  expect(on('2026-05-20').tax.soFar).toMatchObject({ propertyGain: 0, ordinaryGain: 0 })
  const year = project(on('2026-06-10')).years[0]!
  const without = project({ ...on('2026-06-10'), tax: { ...plan.tax, soFar: nothingYet } }).years[0]!
  expect(year.gains - without.gains).toBeCloseTo(80_000, 6)
  // Less the standard deduction of 16,100, what is over 49,450 of long-term gains is taxed at 15 % (Rev. Proc. 2025-32).
  expect(without.tax).toBe(0)
  expect(year.adjustedGrossIncome).toBeGreaterThan(80_000)
  expect(year.tax).toBeCloseTo(0.15 * (year.adjustedGrossIncome - 16_100 - 49_450), 0)
})

test('heads sold within the month bring their money and their gain at once: grown stock as property, lambs as sales', () => {
  const moves = [
    { herdId: 'ewes', kind: 'counted', headClass: 'females', count: 10, day: day('2026-06-01') },
    { herdId: 'ewes', kind: 'sold', headClass: 'females', count: 4, day: day('2026-06-03') },
  ] as const
  const start = {
    savings: {},
    apart: [],
    farmCash: 4000,
    ventureCash: [],
    farmNetBefore: null,
    loans: { household: [], farm: [] },
    people: plan.household.people,
    purchases: [],
    inAccounts: new Map(),
    headMoves: moves,
    hasPutIn: false,
    tax: { ...plan.tax, soFar: { ...nothingYet, farmGross: 500, farmProfit: 200 } },
  }
  const ongoing = startedAgain(plan, month(2026, 6), start)
  expect(ongoing.farm.cash).toBe(4360)
  // Raised ewes have no basis: all of 4 × 90 is a gain of section 1231 (26 USC 1231(b)(3)).
  expect(ongoing.tax.soFar).toMatchObject({
    propertyGain: 360,
    ordinaryGain: 0,
    farmGross: 500,
    farmProfit: 200,
  })
})
