// No income of the books is lost on its way to the worksheet: sales the inventory does not know, income without a line, interest.
import { afterEach, beforeEach, expect, test } from 'vitest'
import { day } from '#calendar/day.ts'
import { addAccount, listAccounts } from '#db/ledger/account-store.ts'
import { postEntry } from '#db/ledger/ledger-store.ts'
import { saveHolding } from '#db/year-store.ts'
import { cents, zeroCents } from '#money/cents.ts'
import { planSchema } from '#plan/plan.ts'
import { act, done } from '../db/fresh-books.ts'
import { type TestApp, testApp } from './test-app.ts'

let app: TestApp

const post = (side: string, on: string, debit: string, credit: string, dollars: number) => {
  const idOf = (name: string) =>
    listAccounts(app.books).find((account) => account.sideId === side && account.name === name)!.id
  const lines = [
    { accountId: idOf(debit), amountCents: cents(dollars * 100) },
    { accountId: idOf(credit), amountCents: cents(-dollars * 100) },
  ]
  done(
    postEntry(app.books, act(), { sideId: side, day: day(on), payee: '', memo: '', source: 'form', lines }),
  )
}

interface Pack {
  places: { account: string; amountCents: number; goes: { form: string; line: string } | null }[]
  sales: { sales: { priceCents: number }[]; section1231Cents: number }
  scheduleF: { netProfitCents: number }
  tax: { worksheet: { inputs: { label: string; dollars: number }[] } }
  gaps: { says: string }[]
}

const pack = async () => (await (await app.get('/year-pack.json?year=2025')).json()) as Pack
const inputOf = ({ tax }: Pack, label: string) =>
  tax.worksheet.inputs.find((input) => input.label.startsWith(label))?.dollars

beforeEach(() => {
  app = testApp({ today: '2026-02-10' })
  app.openSides()
  post('farm', '2025-06-10', 'Farm checking', 'Vegetables and fruit sold', 21_000)
  app.savePlan(
    planSchema.parse({
      startMonth: '2025-01',
      household: {
        people: [{ id: 'ann', name: 'Ann', born: '1982-04-01' }],
        living: [{ id: 'living', name: 'Living', perMonth: 1500 }],
      },
    }),
  )
})

afterEach(() => app.close())

test('sales of 1,100 in the books of which the inventory has 400: the other 700 are taxed too, and told', async () => {
  post('farm', '2025-10-01', 'Farm checking', 'Breeding stock and equipment sold', 1100)
  done(
    saveHolding(app.books, act(), 'farm', {
      kind: 'breeding_stock',
      name: 'Two ewes',
      quantity: 2,
      unit: 'head',
      accountId: null,
      acquiredDay: day('2022-03-01'),
      inServiceDay: null,
      raised: true,
      costCents: zeroCents,
      depreciation: null,
      marketValueCents: null,
      disposedDay: day('2025-10-01'),
      disposedForCents: cents(40_000),
    }),
  )
  const read = await pack()
  expect(read.sales.sales.map(({ priceCents }) => priceCents)).toEqual([40_000, 70_000])
  expect(read.sales.section1231Cents).toBe(110_000)
  expect(inputOf(read, 'Breeding stock and equipment sold, section 1231')).toBe(1100)
  expect(read.gaps.map(({ says }) => says).join(' ')).toContain(
    '$1,100.00 in the books, $400.00 on the inventory',
  )
})

test('interest of the farm, unemployment pay, dividends and income of no kind go to their line or are told as left out', async () => {
  const add = (sideId: string, name: string, scheduleLine: string | null) =>
    done(addAccount(app.books, act(), { sideId, name, kind: 'income', scheduleLine }))
  add('farm', 'Interest on farm savings', '2b')
  add('farm', 'Something sold', null)
  add('household', 'Unemployment', 'S1-7')
  add('household', 'Dividends of a fund', '3a')
  post('farm', '2025-11-01', 'Farm checking', 'Interest on farm savings', 30)
  post('farm', '2025-11-02', 'Farm checking', 'Something sold', 200)
  post('household', '2025-11-03', 'Savings', 'Unemployment', 900)
  post('household', '2025-11-04', 'Savings', 'Dividends of a fund', 50)
  post('household', '2025-11-05', 'Savings', 'Other income', 77)
  const read = await pack()
  const placeOf = (name: string) => read.places.find(({ account }) => account === name)!.goes
  expect(placeOf('Interest on farm savings')).toEqual({ form: 'Form 1040', line: '2b' })
  expect(placeOf('Something sold')).toEqual({ form: 'Schedule F', line: '8' })
  expect(placeOf('Unemployment')).toEqual({ form: 'Form 1040', line: 'S1-7' })
  expect(placeOf('Other income')).toBeNull()
  const asked = read.gaps.map(({ says }) => says).join(' ')
  expect(asked).toContain('“Something sold”. It has no line of Schedule F')
  expect(asked).toContain('“Other income”. Not classified yet')
  expect(inputOf(read, 'Interest')).toBe(30)
  expect(inputOf(read, 'Unemployment pay')).toBe(900)
  expect([inputOf(read, 'Dividends, line 3b'), inputOf(read, 'Of them qualified')]).toEqual([50, 50])
  expect(read.scheduleF.netProfitCents).toBe(2_120_000)
  const html = await (await app.get('/year-pack/print?year=2025')).text()
  expect(html).toContain('Where income goes')
  expect(html).toContain('Income in the books')
  const csv = await (await app.get('/year-pack.csv?year=2025&table=income-places')).text()
  expect(csv).toContain('Household,Other income,77.00,left out,')
})
