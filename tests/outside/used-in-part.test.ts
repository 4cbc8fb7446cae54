// Things used for the farm in part, worked by hand: sold as two things, and what falls back as income when the farm's part of the use drops.
//
// Sold as two: IRS Pub. 544, property used partly for business; the mean of the years' shares is common practice. Depreciation back:
// 26 USC 1245. No loss on the own part: 26 USC 165(c), 262. The drop: 26 USC 280F(b)(2); IRS Pub. 946, chapter 5, with its pickup of
// 18,000 dollars (from memory), moved to 2021. Rates: Pub. 946, table A-1, 5-year property, half-year: 20, 32, 19.2, 11.52, 11.52, 5.76.
import { afterEach, beforeEach, expect, test } from 'vitest'
import { day } from '#calendar/day.ts'
import { booksYear } from '#today/tax/books-year.ts'
import { yearPackFigures } from '#today/year-pack/year-pack-figures.ts'
import { type TestApp, testApp } from '../web/test-app.ts'
import { type YearBooks, yearBooks, yearParts } from './year-books.ts'

let app: TestApp
let farm: YearBooks
const { by, sold, toCents } = yearParts
const saleIn = (year: number) => booksYear(app.books, year).farm!.sales
const used = (useShares: Record<string, number>, section179 = '0') => ({
  depreciation: { ...by('pickup', section179).depreciation, useShares },
})

beforeEach(() => {
  app = testApp({ today: '2027-01-20' })
  app.openSides()
  farm = yearBooks(app.books)
  farm.book({ 'Honey and hive goods sold': '9,000' }, {})
})
afterEach(() => app.close())

/** 30,000 in June 2022; 80 percent the farm's, then 60. 4,800 + 5,760 + 3,456 + half of 2,073.60 were deducted: 15,052.80. */
const pickup = (price: string) =>
  farm.hold('Old pickup', 'equipment', '2022-06-01', '30,000', {
    ...used({ '2022': 0.8, '2023': 0.6 }),
    ...sold('2025-05-10', price),
  })

test('a loss on the own part is not allowed, and lowers no gain of the farm’s part', () => {
  pickup('22,000')
  // Mean use 65 percent. Farm: 14,300 less (19,500 − 15,052.80). Own: 7,700 less 10,500.
  const { sales, ordinaryCents, section1231Cents, personalGains, recordedCents } = saleIn(2025)
  expect(sales[0]).toMatchObject({
    priceCents: toCents('14,300'),
    costCents: toCents('19,500'),
    deductedCents: toCents('15,052.80'),
    gainCents: toCents('9,852.80'),
    part: 'III',
  })
  const { businessUse, ...own } = sales[0]!.personal!
  expect(businessUse).toBeCloseTo(0.65, 12)
  expect(own).toEqual({
    priceCents: toCents('7,700'),
    costCents: toCents('10,500'),
    gainCents: 0,
    lossNotAllowedCents: toCents('2,800'),
    isLongTerm: true,
  })
  expect([ordinaryCents, section1231Cents]).toEqual([toCents('9,852.80'), 0])
  expect(personalGains).toEqual({ longCents: 0, shortCents: 0 })
  expect(recordedCents).toBe(toCents('22,000'))
})

test('sold above its cost: depreciation back, the rest of section 1231, and a capital gain of the own part', async () => {
  pickup('34,000')
  // Farm: 22,100 − 4,447.20 = 17,652.80, of it 15,052.80 ordinary. Own: 11,900 − 10,500.
  const { ordinaryCents, section1231Cents, personalGains } = saleIn(2025)
  expect([ordinaryCents, section1231Cents]).toEqual([toCents('15,052.80'), toCents('2,600')])
  expect(personalGains).toEqual({ longCents: toCents('1,400'), shortCents: 0 })
  const { income } = booksYear(app.books, 2025).farm!
  expect(income.sold.personal).toEqual({ longTerm: 1400, shortTerm: 0 })
  const page = await (await app.get('/year-pack/print?year=2025')).text()
  expect(page).toContain('personal part sold for 11,900.00, cost 10,500.00: a gain of 1,400.00')
  const csv = await (await app.get('/year-pack.csv?year=2025&table=sales')).text()
  expect(csv).toContain('11900.00,10500.00,1400.00,0.00')
})

test('sold within a year the own part’s gain is a short one', () => {
  farm.hold('Van', 'equipment', '2024-11-05', '10,000', {
    ...used({ '2024': 0.4 }),
    ...sold('2025-11-05', '12,000'),
  })
  // 60 percent own: 7,200 less 6,000, held a year and not more.
  expect(saleIn(2025).personalGains).toEqual({ longCents: 0, shortCents: toCents('1,200') })
})

test('use falls to half in the fifth year: what comes back is on line 8, and lowers what the sale reverses', () => {
  farm.hold('Market pickup', 'equipment', '2021-06-01', '18,000', {
    ...used({ '2021': 1, '2025': 0.5 }, '10,000'),
    ...sold('2026-08-20', '6,000'),
  })
  // 10,000 at once, and 8,000 at 20, 32, 19.2 and 11.52 percent: 16,617.60; by the straight line 12,600.
  const { form, depreciation } = booksYear(app.books, 2025).farm!
  expect(form.income.find(({ line }) => line === '8')?.amountCents).toBe(toCents('4,017.60'))
  // From then on by the straight line, and printed so; the years before by the table.
  const methodIn = (year: number) => booksYear(app.books, year).farm!.depreciation.listed[0]!.writeOff.method
  expect([2024, 2025, 2026].map(methodIn)).toEqual([
    '200 % declining balance',
    'straight line',
    'straight line',
  ])
  // The year itself: 18,000 at 20 percent, half of it.
  expect(depreciation.totalCents).toBe(toCents('1,800'))
  expect(form.netProfitCents).toBe(toCents('9,000') + toCents('4,017.60') - toCents('1,800'))
  expect(form.between).toMatchObject([{ line: '8', amountCents: toCents('4,017.60') }])
  const { gaps } = yearPackFigures(app.books, 2025, 'cash', day('2026-02-10'))
  expect(gaps.map(({ says }) => says).join()).not.toContain('is not in the worksheet')
  // 2026: half of 900. 18,867.60 less what came back leaves 14,850. Mean use 5/6: 5,000 less (15,000 − 14,850); own 1,000 less 3,000.
  const [sale] = saleIn(2026).sales
  expect(sale).toMatchObject({
    deductedCents: toCents('14,850'),
    gainCents: toCents('4,850'),
    ordinaryCents: toCents('4,850'),
    personal: { lossNotAllowedCents: toCents('2,000'), gainCents: 0 },
  })
  // Another year has none of it.
  expect(booksYear(app.books, 2026).farm!.inventory.fallsBackCents).toBe(0)
})

test('statements and form say which depreciation they take, with one link to book the difference', async () => {
  farm.hold('Tiller', 'equipment', '2025-04-02', '5,000', by('machinery-used'))
  const print = await (await app.get('/year-pack/print?year=2025')).text()
  // 14.29 percent by table A-1, 7-year property.
  expect(print).toContain('depreciation here is $0.00, as booked.')
  expect(print).toContain('takes the depreciation schedule of Form 4562: $714.50')
  expect(print).toContain('/year-pack/depreciation?year=2025&amp;side=farm')
})
