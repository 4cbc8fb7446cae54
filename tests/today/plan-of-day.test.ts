// The plan of a day is one object as long as it says the same: what is worked out from it is kept with it.
import { afterEach, expect, test } from 'vitest'
import { day } from '#calendar/day.ts'
import { monthText, parseMonth } from '#calendar/month.ts'
import { listAccounts } from '#db/ledger/account-store.ts'
import { postEntry } from '#db/ledger/ledger-store.ts'
import { booksReach } from '#db/reconcile/books-reach.ts'
import { cents } from '#money/cents.ts'
import { firstMonthOf } from '#plan/first-month.ts'
import { planSchema } from '#plan/plan.ts'
import { readPlanText } from '#plan/upgrade.ts'
import { project } from '#runway/project.ts'
import { continuedPlan } from '#today/projection/continued-plan.ts'
import { act, done } from '../db/fresh-books.ts'
import { type TestApp, testApp } from '../web/test-app.ts'
import { moveIn } from './moved.ts'

let app: TestApp
afterEach(() => app.close())

test('an entry of this month leaves it as it was, one of last month makes another', () => {
  app = testApp({ today: '2027-02-10' })
  app.openSides()
  const spend = (on: string, dollars: number, account = 'Groceries') => {
    const idOf = (name: string) =>
      listAccounts(app.books).find((one) => one.sideId === 'household' && one.name === name)!.id
    const lines = [
      { accountId: idOf(account), amountCents: cents(dollars * 100) },
      { accountId: idOf('Household checking'), amountCents: cents(-dollars * 100) },
    ]
    const entry = { sideId: 'household', day: day(on), payee: '', memo: '', source: 'form', lines } as const
    done(postEntry(app.books, act(), entry))
  }
  const saved = planSchema.parse({
    startMonth: '2026-12',
    household: {
      people: [{ id: 'ann', name: 'Ann', born: '1985-03-10', planToAge: 60 }],
      living: [{ id: 'living', name: 'Living', perMonth: 1000 }],
    },
    savings: { accounts: [{ id: 'cash', name: 'Cash', kind: 'cash', balance: 9000 }] },
  })
  const now = () => continuedPlan(app.books, saved, day('2027-02-10')).plan
  const held = (plan: typeof saved) => plan.savings.accounts[0]!.balance
  spend('2026-11-30', -5000, 'Opening balances')
  spend('2027-01-04', 100)
  // The first entry of a month says that it has begun: bad years begin after it.
  spend('2027-02-01', 30)
  const first = now()
  expect(held(first)).toBe(4900)
  spend('2027-02-03', 70)
  expect(now()).toBe(first)
  spend('2027-01-05', 20)
  expect(held(now())).toBe(4880)
  expect(now()).not.toBe(first)
})

/** Savings of 30,000 opened on the first of January 2027, 1,000 a month to live on; the plan itself begins with 9,000. */
const openedInJanuary = (on: string) => {
  app = testApp({ today: '2027-11-20' })
  app.openSides()
  moveIn(app.books, 'household', on, 'Opening balances', 'Household checking', 30_000)
  return planSchema.parse({
    startMonth: '2027-01',
    household: {
      people: [{ id: 'ann', name: 'Ann', born: '1985-03-10', planToAge: 60 }],
      living: [{ id: 'living', name: 'Living', perMonth: 1000 }],
    },
    savings: { accounts: [{ id: 'cash', name: 'Cash', kind: 'cash', balance: 9000 }] },
    tax: { method: 'none' },
    assumptions: { inflation: 0 },
  })
}

test('opening balances of the first of a month are what its eve left: no month is known by them alone', () => {
  for (const on of ['2026-12-31', '2027-01-01']) {
    const saved = openedInJanuary(on)
    const { plan } = continuedPlan(app.books, saved, day('2027-11-20'))
    // January to October, ten months, are missing and projected from 30,000.
    expect(firstMonthOf(plan)).toBe(parseMonth('2027-01'))
    expect(plan.savings.accounts[0]!.balance).toBe(30_000)
    expect(booksReach(app.books, day('2027-11-20'))).toBe('2026-12-31')
    app.close()
  }
  // Once money has moved on the day itself, the month is known to have begun.
  const saved = openedInJanuary('2027-01-01')
  moveIn(app.books, 'household', '2027-01-01', 'Household checking', 'Groceries', 200)
  expect(booksReach(app.books, day('2027-11-20'))).toBe('2027-01-01')
  // Ten months less January: February goes on from 29,800. January itself still begins with what was there, 30,000.
  const { plan } = continuedPlan(app.books, saved, day('2027-11-20'))
  expect(firstMonthOf(plan)).toBe(parseMonth('2027-02'))
  expect(plan.savings.accounts[0]!.balance).toBe(29_800)
  expect(continuedPlan(app.books, saved, day('2027-01-20')).plan.savings.accounts[0]!.balance).toBe(30_000)
})

test('a plan told from a later month goes on as it expected itself, from that month', () => {
  app = testApp({ today: '2027-11-20' })
  // Savings of 60,000 at the start of March 2027, 1,000 a month: 54,000 as September begins, in month 9 of a plan of January.
  const saved = planSchema.parse({
    startMonth: '2027-01',
    continuesFrom: '2027-03',
    years: 3,
    household: {
      living: [{ id: 'living', name: 'Living', perMonth: 1000 }],
      floor: { kind: 'dollars', dollars: 0 },
    },
    savings: { accounts: [{ id: 'cash', name: 'Cash', kind: 'cash', balance: 60_000 }] },
    tax: { method: 'none' },
    assumptions: { inflation: 0 },
  })
  const held = (today: string) => {
    const { plan } = continuedPlan(app.books, saved, day(today))
    return [monthText(firstMonthOf(plan)), plan.savings.accounts[0]!.balance]
  }
  expect(held('2027-02-10')).toEqual(['2027-03', 60_000])
  expect(held('2027-09-10')).toEqual(['2027-09', 54_000])
  expect(held('2028-03-10')).toEqual(['2028-03', 48_000])
})

test('what only the day knows is beside the plan and no part of its document', () => {
  const saved = openedInJanuary('2027-01-01')
  const { plan } = continuedPlan(app.books, saved, day('2027-11-20'))
  // Today is November; the books hold no month of it.
  expect(plan.seenFrom).toEqual({ leftFrom: parseMonth('2027-11'), badYearsFrom: parseMonth('2027-12') })
  // 29 months of 1,000 from 30,000 in January, to the floor of six: it is crossed in January 2029, 14 months from today.
  expect(project(plan).milestones).toMatchObject({ floorMonth: '2029-01', monthsLeft: 14 })
  expect(project(planSchema.parse(plan)).milestones).toMatchObject({ floorMonth: '2029-01', monthsLeft: 24 })
  // A file of an earlier release that holds it is read as the plan it is.
  const released = { ...saved, leftFrom: '2027-11', badYearsFrom: '2027-12' }
  const read = readPlanText(JSON.stringify(released), { refuseUnknown: true })
  expect(read).toEqual({ ok: true, plan: saved, upgradedFrom: null })
})
