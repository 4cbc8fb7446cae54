// From which year the farm needs nothing from the household: what was put into it this year counts, whether the books know of it or
// the projection. A couple of our own invention with goats, Wes and Ona, whose plan puts in nothing from May on.
import { afterEach, expect, test } from 'vitest'
import { day } from '#calendar/day.ts'
import { listAccounts } from '#db/ledger/account-store.ts'
import { postCrossing } from '#db/ledger/crossing-store.ts'
import { postEntry } from '#db/ledger/ledger-store.ts'
import { dollarsToCents } from '#money/cents.ts'
import type { PlanInput } from '#plan/plan.ts'
import { readPlan } from '#plan/upgrade.ts'
import { act, done } from '../db/fresh-books.ts'
import { type TestApp, testApp } from '../web/test-app.ts'

let app: TestApp
afterEach(() => app.close())

/** The goats bring 500 and cost 300 in every month: nothing is ever put in. */
const goats: PlanInput = {
  startMonth: '2026-01',
  household: {
    people: [
      { id: 'wes', name: 'Wes', born: '1967-05-30' },
      { id: 'ona', name: 'Ona', born: '1984-11-08' },
    ],
    living: [{ id: 'living', name: 'Living', perMonth: 1800 }],
    floor: { kind: 'dollars', dollars: 4000 },
  },
  savings: { accounts: [{ id: 'cash', name: 'Cash', kind: 'cash', balance: 60_000 }] },
  farm: {
    cash: 900,
    enterprises: [{ id: 'goats', name: 'Goats', salesPerUnit: 6000, costsPerUnit: 3600 }],
  },
  tax: { method: 'none' },
  health: { medicareFrom65: false },
  assumptions: { inflation: 0 },
}

const opened = (today: string, plan: PlanInput) => {
  app = testApp({ today })
  app.openSides()
  const read = readPlan({ planVersion: 5, ...plan })
  if (!read.ok) throw new Error(JSON.stringify(read.faults))
  app.savePlan(read.plan)
}

const accountOf = (sideId: string, name: string) =>
  listAccounts(app.books, { sideId }).find((one) => one.name === name)!.id

const opening = (sideId: string, account: string, dollars: number, on: string) =>
  done(
    postEntry(app.books, act(), {
      sideId,
      day: day(on),
      payee: '',
      memo: '',
      source: 'form',
      lines: [
        { accountId: accountOf(sideId, account), amountCents: dollarsToCents(dollars) },
        { accountId: accountOf(sideId, 'Opening balances'), amountCents: dollarsToCents(-dollars) },
      ],
    }),
  )

const putIn = (on: string, dollars: number) =>
  done(
    postCrossing(app.books, act(), {
      kind: 'contribution',
      day: day(on),
      amountCents: dollarsToCents(dollars),
      fromAccountId: accountOf('household', 'Savings'),
      toAccountId: accountOf('farm', 'Farm checking'),
      memo: 'Hay',
    }),
  )

interface Said {
  milestones: { farmStandsAloneFrom: number | null }
}

const standsAloneFrom = async () => {
  const said = async <Said>(path: string) => (await (await app.get(path)).json()) as Said
  const { plans } = await said<{ plans: Said[] }>('/runway/compare.json')
  const { milestones } = await said<Said>('/runway.json')
  const csv = await (await app.get('/runway/compare.csv')).text()
  expect(plans[0]!.milestones.farmStandsAloneFrom).toBe(milestones.farmStandsAloneFrom)
  expect(csv).toContain(`farmStandsAloneFrom,${milestones.farmStandsAloneFrom ?? ''}`)
  return milestones.farmStandsAloneFrom
}

test('what the books say was put in this year puts off the year from which the farm stands alone', async () => {
  opened('2026-05-12', goats)
  opening('household', 'Savings', 60_000, '2025-10-31')
  opening('farm', 'Farm checking', 900, '2025-10-31')
  putIn('2025-12-04', 2500)
  // Put in last year: this one needs nothing.
  expect(await standsAloneFrom()).toBe(2026)
  putIn('2026-02-17', 1500)
  expect(await standsAloneFrom()).toBe(2027)
  app.setToday('2027-01-09')
  putIn('2026-12-30', 40)
  expect(await standsAloneFrom()).toBe(2027)
})

test('where the books hold nothing, what the plan had put in before this month counts', async () => {
  // January to April cost 1,800, and 900 are in hand: 900 are put in by the plan in March and April.
  const lean: PlanInput = {
    ...goats,
    farm: {
      cash: 900,
      enterprises: [
        {
          id: 'goats',
          name: 'Goats',
          salesPerUnit: [0, 0, 0, 0, 1000, 1000, 1000, 1000, 1000, 1000, 500, 500],
          costsPerUnit: [450, 450, 450, 450, 100, 100, 100, 100, 100, 100, 100, 100],
        },
      ],
    },
  }
  opened('2026-01-10', lean)
  expect(await standsAloneFrom()).toBe(2027)
  app.setToday('2026-06-10')
  expect(await standsAloneFrom()).toBe(2027)
  app.setToday('2027-01-10')
  expect(await standsAloneFrom()).toBe(2027)
})
