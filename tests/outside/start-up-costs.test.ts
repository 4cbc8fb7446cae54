// A market farm that was made ready from October and began in May, and its soap kitchen of the year after, worked by hand from 26 USC 195(b)(1): at once at most 5,000, less what
// the costs are over 50,000; the rest over 180 months from the month in which the business begins. Interest and taxes are no start-up
// costs (195(c)(1)). The line of Form 4562, Part VI, is 42 in the first year and 43 after it (from memory).
import { afterEach, beforeEach, expect, test } from 'vitest'
import { day } from '#calendar/day.ts'
import { addAccount, addSide, listAccounts } from '#db/ledger/account-store.ts'
import { startUpOf } from '#ledger/tax/start-up.ts'
import { cents } from '#money/cents.ts'
import { booksYear } from '#today/tax/books-year.ts'
import { yearPackFigures } from '#today/year-pack/year-pack-figures.ts'
import { act, done } from '../db/fresh-books.ts'
import { filledForm } from '../web/browser-form.ts'
import { postByName } from '../web/post-by-name.ts'
import { type TestApp, testApp } from '../web/test-app.ts'
import { yearParts } from './year-books.ts'

let app: TestApp
const onLine = (line: string) =>
  listAccounts(app.books).find((one) => one.sideId === 'farm' && one.scheduleLine === line)!.name
const paid = (on: string, line: string, dollars: number) =>
  postByName(app.books, 'farm', on, { [onLine(line)]: dollars, 'Farm checking': -dollars })
const form = (year: number) => booksYear(app.books, year).farm!.form
const costsOf = (year: number) => yearParts.dollarsOf(form(year).expenses)
const gaps = (year: number) =>
  yearPackFigures(app.books, year, 'cash', day('2027-02-10'))
    .gaps.map(({ says }) => says)
    .filter((says) => says.includes('195'))
const say = async (year: number, more: Record<string, string>) => {
  const path = `/year-pack/schedule-f?year=${year}`
  return app.post(path, await filledForm(app, path, { more: '', ...more }))
}

beforeEach(() => {
  app = testApp({ today: '2027-02-10' })
  app.openSides()
  paid('2024-10-10', '28', 3000)
  paid('2024-11-20', '26', 2000)
  paid('2024-12-01', '21b', 300)
  paid('2024-12-10', '29', 150)
  paid('2025-03-04', '28', 4000)
  paid('2025-05-09', '26', 1200)
  paid('2025-05-10', '28', 2500)
  postByName(app.books, 'farm', '2025-06-07', { 'Farm checking': 9000, 'Vegetables and fruit sold': -9000 })
  postByName(app.books, 'farm', '2026-06-07', { 'Farm checking': 8000, 'Vegetables and fruit sold': -8000 })
})
afterEach(() => app.close())

test('before the day is said all is on Schedule F, and the pack asks for it', () => {
  expect(form(2024).netProfitCents).toBe(-545_000)
  expect(gaps(2024)).toEqual([
    '$5,450.00 of farm costs is booked before the first farm income. If the farm began only in these books, enter the day: what was paid before it is no farm expense but start-up costs (26 USC 195). If it began earlier, enter that day.',
  ])
})

test('costs before the day are deducted as start-up costs, carried from the years before it and to those after', async () => {
  expect((await say(2025, { beganOn: '2025-05-10' })).status).toBe(303)
  // 2024 has interest and taxes alone; 5,000 waits.
  expect(costsOf(2024)).toEqual({ '21b': '300.00', '29': '150.00' })
  expect(form(2024).startUp!.costsCents).toBe(500_000)
  expect(gaps(2024)[0]).toContain('$5,000.00 of 2024 was paid before the farm began on May 10, 2025')
  // 2025: 5,000 + 4,000 + 1,200 = 10,200; 5,000 at once; 5,200 × 8 ÷ 180 = 231.11.
  expect(costsOf(2025)).toEqual({ '28': '2500.00', '32(195)': '5231.11' })
  expect(form(2025).netProfitCents).toBe(900_000 - 250_000 - 523_111)
  expect(gaps(2025)[0]).toContain('$10,200.00 paid before the farm began on May 10, 2025')
  // 2026: 5,200 × 20 ÷ 180 = 577.78, less 231.11.
  expect(costsOf(2026)).toEqual({ '32(195)': '346.67' })
  expect(gaps(2026)).toEqual([])
  const sheet = async (year: number) =>
    (await (await app.get(`/year-pack/sheets/depreciation?year=${year}`)).text())
      .replaceAll(/<[^>]+>/g, ' ')
      .replaceAll(/\s+/g, ' ')
  expect(await sheet(2025)).toContain(
    'Amortization that begins this year Part VI, line 42: start-up costs, from May 10, 2025, 5,200.00, section 195, 180 months 231.11',
  )
  expect(await sheet(2025)).toContain('statement with that return, filed in time, gives the deduction up')
  expect(await sheet(2026)).toContain('Amortization that began before Part VI, line 43')
})

test('the day is one for all years, costs of years before the books come beside, and a day after the first sale is asked about', async () => {
  await say(2025, { beganOn: '2025-05-10' })
  expect((await say(2024, { startUpBefore: '1,800' })).status).toBe(303)
  // 10,200 and 1,800: 7,000 × 8 ÷ 180 = 311.11.
  expect(costsOf(2025)['32(195)']).toBe('5311.11')
  await say(2024, { beganOn: '2025-07-01' })
  expect(form(2025).startUp).toMatchObject({ takenInBeforeCents: 900_000, costsCents: 1_450_000 })
  expect(await (await app.get('/year-pack/schedule-f?year=2025')).text()).toContain('value="2025-07-01"')
  const refused = await say(2024, { beganOn: '' })
  expect(refused.status).toBe(422)
  expect(await refused.text()).toContain('Enter the day the farm began, or empty the costs before it')
  expect((await say(2024, { beganOn: '', startUpBefore: '' })).status).toBe(303)
  expect(costsOf(2025)).toEqual({ '26': '1200.00', '28': '6500.00' })
})

// A venture of the year after: 6,000 of supplies and 600 of advertising before September, 240 of licenses, 90 of bank interest and 500 of
// oils bought to sell, which are none; from its first day on 800 of supplies and 2,000 of sales.
const soapYear = () => {
  const soap = done(addSide(app.books, act(), { kind: 'venture', name: 'Soap kitchen' })).sideId
  const called = (line: string) =>
    listAccounts(app.books).find((one) => one.sideId === soap && one.scheduleLine === line)!.name
  const pay = (on: string, name: string, dollars: number) =>
    postByName(app.books, soap, on, { [name]: dollars, 'Venture checking': -dollars })
  const account = (name: string, scheduleLine: string) =>
    done(addAccount(app.books, act(), { sideId: soap, name, kind: 'expense', scheduleLine }))
  account('Licenses', '23')
  account('Bank interest', '16b')
  account('Oils', '36')
  pay('2025-11-03', called('22'), 2500)
  pay('2026-02-10', called('22'), 3500)
  pay('2026-03-01', called('8'), 600)
  pay('2026-03-02', 'Licenses', 240)
  pay('2026-04-02', 'Bank interest', 90)
  pay('2026-05-02', 'Oils', 500)
  pay('2026-09-20', called('22'), 800)
  postByName(app.books, soap, '2026-10-04', { 'Venture checking': 2000, 'Sales and fees earned': -2000 })
  return soap
}
const soapForm = (year: number) => booksYear(app.books, year).ventures[0]!.form
const soapCosts = (year: number) => yearParts.dollarsOf(soapForm(year).expenses)

test('what was paid before a venture began is deducted as the farm’s is, in Part V of its Schedule C', async () => {
  const soap = soapYear()
  expect(gaps(2025)).toEqual([
    '$2,500.00 of Soap kitchen costs is booked before the first Soap kitchen income. If Soap kitchen began only in these books, enter the day: what was paid before it is no Soap kitchen expense but start-up costs (26 USC 195). If it began earlier, enter that day.',
  ])
  const path = `/year-pack/schedule-c/${soap}?year=2026`
  const say = async (more: Record<string, string>) => app.post(path, await filledForm(app, path, more))
  expect((await say({ beganOn: '2026-09-15', began: 'no' })).status).toBe(422)
  expect((await say({ startUpBefore: '100' })).status).toBe(422)
  expect((await say({ beganOn: '2026-09-15' })).status).toBe(303)
  // 2025 deducts nothing of it; 2026: 2,500 + 3,500 + 600 = 6,600; 5,000 at once; 1,600 × 4 ÷ 180 = 35.56.
  expect(soapCosts(2025)).toEqual({})
  expect(soapCosts(2026)).toEqual({ '16b': '90.00', '22': '800.00', '23': '240.00', '48(195)': '5035.56' })
  // 2,000 less 500 of oils, 90, 800, 240 and 5,035.56.
  expect(soapForm(2026).netProfitCents).toBe(200_000 - 50_000 - 113_000 - 503_556)
  expect(soapForm(2026).bridge.formCents).toBe(
    soapForm(2026).bridge.booksCents +
      soapForm(2026).bridge.changed.reduce((sum, { amountCents }) => sum + amountCents, 0),
  )
  expect(gaps(2026)).toEqual([
    '$6,600.00 paid before Soap kitchen began on Sep 15, 2026 count as start-up costs. A preparer should look at that day, and whether any of it was for goods to sell or things that last (26 USC 195(c), 263A). Deducting them is an election of this year’s return.',
  ])
  const sheet = (await (await app.get(`/year-pack/sheets/${soap}-schedule-c?year=2026`)).text())
    .replaceAll(/<[^>]+>/g, ' ')
    .replaceAll(/\s+/g, ' ')
  expect(sheet).toContain('Began in this year Yes')
  expect(sheet).toContain('Deducted at once Schedule C, Part V: 26 USC 195(b)(1)(A) 5,000.00')
  expect(sheet).toContain(
    'Amortization that begins this year Part VI, line 42: start-up costs, from Sep 15, 2026, 1,600.00, section 195, 180 months 35.56',
  )
  // The farm's own day is another.
  expect(form(2026).startUp).toBeNull()
})

test('over 50,000 less is deducted at once, over 55,000 nothing; the months end after fifteen years, to the cent', () => {
  const of = (costs: number, year: number, began = '2025-01-15') => {
    const { atOnceCents, byMonthsCents } = startUpOf(cents(costs * 100), day(began), year)
    return [atOnceCents / 100, byMonthsCents / 100]
  }
  expect(of(4200, 2025)).toEqual([4200, 0])
  // 5,000 − 2,000; 49,000 × 12 ÷ 180.
  expect(of(52_000, 2025)).toEqual([3000, 3266.67])
  expect(of(60_000, 2025)).toEqual([0, 4000])
  expect(of(60_000, 2024)).toEqual([0, 0])
  const years = Array.from({ length: 18 }, (_, at) => of(10_200, 2024 + at, '2025-05-10')[1]!)
  expect(years.reduce((sum, one) => sum + Math.round(one * 100), 0)).toBe(520_000)
  // January to April 2040 are the last four: 5,200 − 5,200 × 176 ÷ 180.
  expect(years.slice(16)).toEqual([115.56, 0])
})
