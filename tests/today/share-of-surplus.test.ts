// A draw that is a share of the farm's surplus looks back twelve months: on a plan under way those are the books'. A nut grove of our
// own invention: 3,000 sold and 1,000 paid a month in the books, where the plan expects 1,000 a month to be left.
import { afterEach, expect, test } from 'vitest'
import { day } from '#calendar/day.ts'
import { type Month, monthText, parseMonth } from '#calendar/month.ts'
import { postCrossing } from '#db/ledger/crossing-store.ts'
import { dollarsToCents } from '#money/cents.ts'
import { readPlan } from '#plan/upgrade.ts'
import { continuedPlan } from '#today/projection/continued-plan.ts'
import { projectionOf } from '#today/projection/courses.ts'
import { act, done } from '../db/fresh-books.ts'
import { type TestApp, testApp } from '../web/test-app.ts'
import { accountIn, moveIn } from './moved.ts'

let app: TestApp
afterEach(() => app.close())

const accountId = (side: string, name: string) => accountIn(app.books, side, name)
const moved = (side: 'household' | 'farm', on: string, from: string, to: string, dollars: number) =>
  moveIn(app.books, side, on, from, to, dollars)

const grove = (startMonth: string, netBefore?: number) => {
  const read = readPlan({
    planVersion: 4,
    startMonth,
    household: { living: [{ id: 'living', name: 'Living', perMonth: 1500 }] },
    savings: { accounts: [{ id: 'cash', name: 'Cash', kind: 'cash', balance: 90_000 }] },
    farm: {
      cash: 20_000,
      enterprises: [
        {
          id: 'nuts',
          name: 'Nuts',
          unit: 'tree',
          salesPerUnit: 24_000,
          costsPerUnit: 12_000,
          hoursPerUnit: 0,
        },
      ],
    },
    draw: {
      policy: 'share',
      from: startMonth,
      share: 0.5,
      ...(netBefore === undefined ? {} : { netBefore }),
    },
    tax: { method: 'none' },
    assumptions: { inflation: 0, premiumGrowth: 0 },
  })
  if (!read.ok) throw new Error(JSON.stringify(read.faults))
  return read.plan
}

/** A month's trade from the month given to February 2027. */
const traded = (from: string) => {
  for (let month = parseMonth(from)!; month <= parseMonth('2027-02')!; month = (month + 1) as Month) {
    moved('farm', `${monthText(month)}-10`, 'Vegetables and fruit sold', 'Farm checking', 3000)
    moved('farm', `${monthText(month)}-11`, 'Farm checking', 'Supplies', 1000)
    moved('household', `${monthText(month)}-12`, 'Savings', 'Groceries', 1500)
  }
}

let plan: ReturnType<typeof grove>
const firstDraw = () =>
  projectionOf(continuedPlan(app.books, plan, day('2027-03-05')).plan).months[0]!.plannedDraw

const opened = (saved: ReturnType<typeof grove>, eve: string) => {
  app = testApp({ today: '2027-03-05' })
  app.openSides()
  plan = saved
  app.savePlan(saved)
  moved('household', eve, 'Opening balances', 'Savings', 90_000)
  moved('farm', eve, 'Opening balances', 'Farm checking', 20_000)
}

test('twelve months of the books are looked back on; what was drawn, lent or bought to last is no cost in them', () => {
  opened(grove('2026-01'), '2026-01-31')
  traded('2026-02')
  moved('farm', '2026-06-20', 'Farm checking', 'Machinery and equipment', 5000)
  done(
    postCrossing(app.books, act(), {
      kind: 'draw',
      day: day('2026-07-01'),
      amountCents: dollarsToCents(800),
      fromAccountId: accountId('farm', 'Farm checking'),
      toAccountId: accountId('household', 'Savings'),
      memo: '',
    }),
  )
  // Eleven months of 2,000 and March's own 1,000: half of a twelfth of 23,000.
  expect(firstDraw()).toBeCloseTo(23_000 / 24, 6)
})

test('months that the books do not hold are those the plan expected', () => {
  opened(grove('2026-09'), '2026-11-30')
  traded('2026-12')
  // December to February 2,000 each in the books; the other eight and March's own 1,000 each.
  expect(firstDraw()).toBeCloseTo((3 * 2000 + 9 * 1000) / 24, 6)
})

test('before the plan and the books, what the plan says of the twelve months before it', () => {
  opened(grove('2027-01', 6000), '2026-12-31')
  traded('2027-01')
  // April to December 500 each as the plan says, January and February 2,000 in the books, March 1,000.
  expect(firstDraw()).toBeCloseTo((9 * 500 + 2 * 2000 + 1000) / 24, 6)
})
