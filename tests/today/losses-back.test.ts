// A farming loss on its way back when the plan is continued: by the books where they hold its year, else as it was planned.
import { afterEach, expect, test } from 'vitest'
import { day } from '#calendar/day.ts'
import { parseMonth } from '#calendar/month.ts'
import { listAccounts } from '#db/ledger/account-store.ts'
import { postEntry } from '#db/ledger/ledger-store.ts'
import { cents } from '#money/cents.ts'
import { planSchema } from '#plan/plan.ts'
import { project } from '#runway/project.ts'
import { taxFacts } from '#today/projection/tax-facts.ts'
import { lastYearOf } from '#today/tax/tax-payments.ts'
import { act, done } from '../db/fresh-books.ts'
import { type TestApp, testApp } from '../web/test-app.ts'

let app: TestApp
afterEach(() => app.close())

/** Ann alone: a loss of 40,000 in 2026, after 44,250 of taxable income in 2025 and 20,400 in 2024. */
const plan = planSchema.parse({
  startMonth: '2026-01',
  household: {
    people: [{ id: 'ann', name: 'Ann', born: '1985-03-10', planToAge: 60 }],
    living: [{ id: 'living', name: 'Living', perMonth: 1000 }],
  },
  savings: { accounts: [{ id: 'cash', name: 'Cash', kind: 'cash', balance: 100_000 }] },
  farm: {
    cash: 90_000,
    enterprises: [{ id: 'beds', name: 'Beds', salesPerUnit: 30_000 }],
    purchases: [{ id: 'soil', name: 'Soil', cost: 70_000, month: '2026-03', assetClass: 'supplies' }],
  },
  tax: {
    farmLosses: 'back',
    lastYear: {
      tax: 8000,
      adjustedGrossIncome: 60_000,
      taxableIncome: 44_250,
      incomeTwoYearsBack: 35_000,
      taxableIncomeTwoYearsBack: 20_400,
    },
  },
  assumptions: { inflation: 0, wageGrowth: 0, farmPriceGrowth: 0, farmCostGrowth: 0 },
})

// By hand, as in the projection's own test: 2024 pays 2,216 and then 408, 2025 5,071.50 and then 2,229.90.
const refund = 2216 - 408 + (5071.5 - 2229.9)

test('as planned: due up to May of the next year, nothing of it forward', () => {
  app = testApp({ today: '2027-02-10' })
  const baseline = project(plan)
  const facts = (month: string) => taxFacts(app.books, plan, parseMonth(month)!, baseline)
  expect(facts('2027-02').lossRefundDue).toBeCloseTo(refund, 2)
  expect(facts('2027-05').lossRefundDue).toBeCloseTo(refund, 2)
  expect(facts('2027-06').lossRefundDue).toBe(0)
  expect(facts('2027-02').carried.netOperatingLoss).toBe(0)
  expect(facts('2027-02').carried.qualifiedBusiness).toBeCloseTo(40_000, 2)
  const continued = project({
    ...plan,
    startMonth: '2027-02',
    tax: { ...plan.tax, ...facts('2027-02') },
  })
  const may = (months: typeof continued.months) => months.find((one) => one.month === '2027-05')!.taxes
  expect(may(continued.months)).toBeCloseTo(may(baseline.months), 2)
})

test('by the books: what their year of loss brings back, and what the years before cannot use goes on', () => {
  app = testApp({ today: '2027-02-10' })
  app.openSides()
  const post = (on: string, debit: string, credit: string, dollars: number) => {
    const idOf = (name: string) =>
      listAccounts(app.books).find((one) => one.sideId === 'farm' && one.name === name)!.id
    const lines = [
      { accountId: idOf(debit), amountCents: cents(dollars * 100) },
      { accountId: idOf(credit), amountCents: cents(-dollars * 100) },
    ]
    const entry = { sideId: 'farm', day: day(on), payee: '', memo: '', source: 'form', lines } as const
    done(postEntry(app.books, act(), entry))
  }
  post('2025-12-31', 'Farm checking', 'Opening balances', 120_000)
  post('2026-03-02', 'Seeds and plants', 'Farm checking', 90_000)
  post('2026-07-10', 'Farm checking', 'Vegetables and fruit sold', 30_000)
  // Of 60,000 the year 2024 takes 16,320 and 2025 80 % of 44,250, 35,400: of its tax 10 % of 8,850 are left.
  const filed = lastYearOf(app.books, plan, 2026)!.filed!
  expect(filed.carried.netOperatingLoss).toBeCloseTo(60_000 - 16_320 - 35_400, 2)
  expect(filed.lossRefund).toBeCloseTo(2216 - 408 + (5071.5 - 885), 2)
  const facts = taxFacts(app.books, plan, parseMonth('2027-03')!, null)
  expect(facts.lossRefundDue).toBe(filed.lossRefund)
  expect(facts.carried).toMatchObject({
    netOperatingLoss: filed.carried.netOperatingLoss,
    qualifiedBusiness: 60_000,
  })
  const forward = { ...plan, tax: { ...plan.tax, farmLosses: 'forward' as const } }
  expect(lastYearOf(app.books, forward, 2026)!.filed!).toMatchObject({ lossRefund: 0 })
  expect(taxFacts(app.books, forward, parseMonth('2027-03')!, null).carried.netOperatingLoss).toBe(60_000)
  // What is worked out once is worked out again when the books say something else of the year.
  post('2026-08-10', 'Seeds and plants', 'Farm checking', 1000)
  expect(lastYearOf(app.books, forward, 2026)!.filed!.carried.netOperatingLoss).toBe(61_000)
})
