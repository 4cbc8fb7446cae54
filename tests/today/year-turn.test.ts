// A plan that starts again in January from real books: balances, what last year's return still asks for, and the tax facts of the two
// years before. A couple of our own invention, Mara and Jon, with pay from which no income tax is kept back, worked by hand.
import { afterEach, expect, test } from 'vitest'
import { day } from '#calendar/day.ts'
import { addMonths, type Month, month, monthText, yearOf } from '#calendar/month.ts'
import { listAccounts } from '#db/ledger/account-store.ts'
import { postEntry } from '#db/ledger/ledger-store.ts'
import { dollarsToCents } from '#money/cents.ts'
import type { Plan } from '#plan/plan.ts'
import { readPlan } from '#plan/upgrade.ts'
import { project } from '#runway/project.ts'
import { continuedPlan } from '#today/projection/continued-plan.ts'
import { act, done } from '../db/fresh-books.ts'
import { type TestApp, testApp } from '../web/test-app.ts'

let app: TestApp
afterEach(() => app.close())

const planned = (): Plan => {
  const read = readPlan({
    planVersion: 5,
    startMonth: '2025-01',
    household: {
      people: [
        { id: 'mara', name: 'Mara', born: '1968-03-02' },
        { id: 'jon', name: 'Jon', born: '1985-06-06' },
      ],
      living: [{ id: 'living', name: 'Living', perMonth: 3000 }],
      pay: [{ id: 'mill', name: 'Mill', person: 'mara', perMonth: 4000 }],
      floor: { kind: 'dollars', dollars: 5000 },
    },
    savings: { accounts: [{ id: 'cash', name: 'Cash', kind: 'cash', balance: 30_000 }] },
    health: { medicareFrom65: false },
    assumptions: { inflation: 0, wageGrowth: 0 },
  })
  if (!read.ok) throw new Error(JSON.stringify(read.faults))
  return read.plan
}

const booked = (on: string, from: string, into: string, dollars: number) => {
  const id = (name: string) =>
    listAccounts(app.books, { sideId: 'household' }).find((one) => one.name === name)!.id
  const lines = [
    { accountId: id(into), amountCents: dollarsToCents(dollars) },
    { accountId: id(from), amountCents: dollarsToCents(-dollars) },
  ]
  const head = { sideId: 'household', payee: '', memo: '', source: 'form' } as const
  done(postEntry(app.books, act(), { ...head, day: day(on), lines }))
}

/** 3,900 of pay a month in 2025 and 4,000 in 2026, 3,200 spent; 1,530 paid with the return of 2025, and something ahead in June 2026. */
const booksThrough = (last: Month, ahead: number) => {
  app = testApp({ today: '2027-01-15' })
  app.openSides()
  booked('2024-12-31', 'Opening balances', 'Savings', 30_000)
  for (let at = month(2025, 1); at <= last; at = addMonths(at, 1)) {
    booked(`${monthText(at)}-05`, 'Off-farm pay', 'Savings', yearOf(at) === 2025 ? 3900 : 4000)
    booked(`${monthText(at)}-20`, 'Savings', 'Groceries', 3200)
  }
  booked('2026-04-10', 'Savings', 'Federal taxes', 1530)
  booked('2026-06-12', 'Savings', 'Federal taxes', ahead)
}

/** The projection of that day, from the start that the books give. */
const fromBooks = () => {
  const { plan } = continuedPlan(app.books, planned(), day('2027-01-15'))
  const { months } = project(plan)
  const at = (text: string) => months.find((one) => one.month === text)!
  return { plan, at }
}

test('January from whole books: balances, the two years before, and last year’s tax in January and April', () => {
  booksThrough(month(2026, 12), 600)
  const { plan, at } = fromBooks()
  expect(plan.continuesFrom).toBe('2027-01')
  // 30,000 and 12 × 700 and 12 × 800, less 1,530 and 600.
  expect(plan.savings.accounts.map(({ balance }) => balance)).toEqual([45_870])
  // Married, jointly: 46,800 less 31,500 (Public Law 119-21, section 70102) is 15,300 and 48,000 less 32,200 (Rev. Proc. 2025-32) is
  // 15,800, all of it in the bracket of 10%. Of 1,580 there is 980 to pay.
  expect(plan.tax.lastYear).toEqual({
    tax: 1580,
    stateTax: 0,
    adjustedGrossIncome: 48_000,
    taxableIncome: 15_800,
    farmShare: 0,
    incomeTwoYearsBack: 46_800,
    taxableIncomeTwoYearsBack: 15_300,
    taxableIncomeThreeYearsBack: 0,
    stillDue: 980,
  })
  expect(Object.values(plan.tax.soFar).every((amount) => amount === 0)).toBe(true)
  // The payments ahead of 2026 come to the smaller of 90% of its tax, 1,422, and the 1,530 of the year before (26 USC 6654(d)): what
  // 600 leave of 1,422 is due in January. 158 are left for April, which pays the first part of 2027 too, as June does the second.
  expect(at('2027-01').taxes).toBe(822)
  expect(at('2027-02').taxes).toBe(0)
  expect(at('2027-04').taxes - at('2027-06').taxes).toBeCloseTo(158, 6)
  // Pay after 7.65% (26 USC 3101), less living and the 822; less the 158 and a twelfth of the tax of 2027, which are claims on it.
  const year = project(plan).years[0]!
  expect(at('2027-01').pay).toBeCloseTo(3694, 6)
  expect(at('2027-01').cash).toBeCloseTo(45_870 + 3694 - 3000 - 822, 6)
  expect(at('2027-01').spendable).toBeCloseTo(at('2027-01').cash - 158 - year.tax / 12, 6)
})

test('what was paid ahead beyond the tax comes back in April', () => {
  booksThrough(month(2026, 12), 2000)
  const { plan, at } = fromBooks()
  expect(plan.tax.lastYear.stillDue).toBe(-420)
  expect(at('2027-01').taxes).toBe(0)
  expect(at('2027-04').taxes - at('2027-06').taxes).toBeCloseTo(-420, 6)
})

test('books that miss December turn the year in the projection, and settle it alike', () => {
  booksThrough(month(2026, 11), 600)
  const { plan, at } = fromBooks()
  expect(plan.continuesFrom).toBe('2026-12')
  expect(plan.tax.soFar).toMatchObject({ wages: 44_000, paid: 600 })
  expect(plan.tax.lastYear).toMatchObject({ tax: 1530, adjustedGrossIncome: 46_800, stillDue: 0 })
  // December as planned: 45,070 and 3,694 less 3,000.
  expect(at('2026-12').cash).toBeCloseTo(45_764, 6)
  expect(at('2027-01').taxes).toBe(822)
  expect(at('2027-04').taxes - at('2027-06').taxes).toBeCloseTo(158, 6)
})
