// What the books say went into savings this year is known to the plan of the day: an invented couple who put money away in spring.
import { afterEach, expect, test } from 'vitest'
import { day } from '#calendar/day.ts'
import { listAccounts } from '#db/ledger/account-store.ts'
import { postEntry } from '#db/ledger/ledger-store.ts'
import { cents } from '#money/cents.ts'
import { planSchema } from '#plan/plan.ts'
import { continuedPlan } from '#today/projection/continued-plan.ts'
import { act, done } from '../db/fresh-books.ts'
import { type TestApp, testApp } from '../web/test-app.ts'

let app: TestApp
afterEach(() => app.close())

const putIn = (on: string, into: string, dollars: number) => {
  const id = (name: string) =>
    listAccounts(app.books).find((one) => one.sideId === 'household' && one.name === name)!.id
  const lines = [
    { accountId: id(into), amountCents: cents(dollars * 100) },
    { accountId: id('Savings'), amountCents: cents(-dollars * 100) },
  ]
  const entry = { sideId: 'household', day: day(on), payee: '', memo: '', source: 'form', lines } as const
  done(postEntry(app.books, act(), entry))
}

test('by person and kind, up to the eve of the month, for the year under way alone', () => {
  app = testApp({ today: '2026-09-20' })
  app.openSides()
  const saved = planSchema.parse({
    startMonth: '2025-01',
    household: {
      people: [
        { id: 'ivo', name: 'Ivo', born: '1980-02-01', putInSoFar: { roth: 900 } },
        { id: 'kaja', name: 'Kaja', born: '1981-02-01' },
      ],
      living: [{ id: 'living', name: 'Living', perMonth: 1500 }],
    },
    savings: { accounts: [{ id: 'cash', name: 'Savings', kind: 'cash', balance: 60_000 }] },
  })
  const soFar = (today: string) =>
    continuedPlan(app.books, saved, day(today)).plan.household.people.map((one) => one.putInSoFar)
  putIn('2025-08-01', 'Retirement, traditional', 4000)
  putIn('2026-05-04', 'Retirement, traditional', 1200)
  putIn('2026-06-04', 'Retirement, Roth', 700)
  putIn('2026-08-31', 'Retirement, traditional', 50)
  putIn('2026-09-02', 'Retirement, traditional', 5000)
  const nothing = { traditional: 0, roth: 0, ownPlan: 0, health: 0 }
  // September's own are the projection's to expect; accounts that name nobody are the first one's.
  expect(soFar('2026-09-20')).toEqual([{ ...nothing, traditional: 1250, roth: 700 }, nothing])
  expect(soFar('2026-06-10')).toEqual([{ ...nothing, traditional: 1200 }, nothing])
  // The year after begins with nothing of it.
  putIn('2026-12-31', 'Retirement, Roth', 10)
  expect(soFar('2027-01-10')).toEqual([nothing, nothing])
})
