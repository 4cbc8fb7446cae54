// What a venture sold that it had used, worked by hand: its lines of Form 4797 beside the farm's, on to the worksheet's last income line.
//
// Depreciation: IRS Pub. 946, table A-1, 5-year property, half-year: 20, 32, 19.2 percent, half of it in the year of the sale; none of
// what comes and goes in one year (26 CFR 1.168(d)-1(b)(3)). Taken back: 26 USC 1245. Held a year or less: 26 USC 1231(b)(1). No
// self-employment tax on it: 26 USC 1402(a)(3)(C), from memory. Schedule SE: 92.35, 12.4 and 2.9 percent.
import { afterEach, beforeEach, describe, expect, test } from 'vitest'
import { day } from '#calendar/day.ts'
import { addSide, listAccounts } from '#db/ledger/account-store.ts'
import { postEntry } from '#db/ledger/ledger-store.ts'
import { cents } from '#money/cents.ts'
import { planSchema } from '#plan/plan.ts'
import { booksYear } from '#today/tax/books-year.ts'
import { workedYear } from '#today/tax/tax-payments.ts'
import { yearPackFigures } from '#today/year-pack/year-pack-figures.ts'
import { act, done } from '../db/fresh-books.ts'
import { type TestApp, testApp } from '../web/test-app.ts'
import { type YearBooks, yearBooks, yearParts } from './year-books.ts'

let app: TestApp
let shop: string
let venture: YearBooks
const { by, sold, toCents, dollarsOf } = yearParts
const idOf = (name: string) =>
  listAccounts(app.books).find((one) => one.sideId === shop && one.name === name)!.id

const alone = planSchema.parse({
  startMonth: '2025-01',
  household: {
    people: [{ id: 'per', name: 'Per', born: '1979-06-01' }],
    living: [{ id: 'living', name: 'Living', perMonth: 1200 }],
  },
})

beforeEach(() => {
  app = testApp({ today: '2026-02-10' })
  app.openSides()
  shop = done(addSide(app.books, act(), { kind: 'venture', name: 'Sharpening' })).sideId
  const farm = yearBooks(app.books)
  farm.book({ 'Breeding stock and equipment sold': '1,050' }, {})
  farm.hold('Five ewes', 'breeding_stock', '2022-04-01', '0', {
    raised: true,
    ...sold('2025-10-01', '1,050'),
  })
  venture = yearBooks(app.books, shop, 'Venture checking')
  // 200 of it is on no thing of the inventory.
  venture.book({ 'Sales and fees earned': '8,000', 'Equipment sold': '3,950' }, { Supplies: '1,000' })
  const used = { accountId: idOf('Equipment') }
  venture.hold('Trailer', 'equipment', '2023-05-10', '5,000', {
    ...by('heavy-truck-or-trailer'),
    ...used,
    ...sold('2025-08-01', '2,600'),
  })
  venture.hold('Computer', 'equipment', '2024-03-01', '1,500', {
    ...by('computer'),
    ...used,
    ...sold('2025-09-10', '400'),
  })
  venture.hold('Camera', 'equipment', '2025-02-01', '900', {
    ...by('computer'),
    ...used,
    ...sold('2025-10-01', '750'),
  })
})
afterEach(() => app.close())

const pack = () => yearPackFigures(app.books, 2025, 'cash', day('2026-02-10'))

describe('a venture that sold what it used', () => {
  test('each sale is a line of Form 4797, with what is reversed', () => {
    const rows = pack().sales!.sales.map((sale) => [
      sale.business,
      sale.name,
      sale.part,
      ...[sale.priceCents, sale.deductedCents, sale.gainCents, sale.ordinaryCents, sale.section1231Cents].map(
        (amount) => amount / 100,
      ),
    ])
    expect(rows).toEqual([
      ['Wrenfold', 'Five ewes', 'I', 1050, 0, 1050, 0, 1050],
      // 1,000 + 1,600 + half of 960: 1,920 left.
      ['Sharpening', 'Trailer', 'III', 2600, 3080, 680, 680, 0],
      // 300 + half of 480: 960 left.
      ['Sharpening', 'Computer', 'I', 400, 540, -560, 0, -560],
      ['Sharpening', 'Camera', 'II', 750, 0, -150, -150, 0],
      ['Sharpening', 'Sold by the books, on no thing of the inventory', 'I', 200, 0, 200, 0, 200],
    ])
  })

  test('none of it is on Schedule C, and each account of income is told where it goes', () => {
    const { form } = booksYear(app.books, 2025).ventures[0]!
    expect(dollarsOf(form.income)).toEqual({ '1': '8000.00' })
    expect(dollarsOf(form.expenses)).toEqual({ '13': '720.00', '22': '1000.00' })
    expect(form.netProfitCents).toBe(toCents('6,280'))
    expect(form.beside.map(({ label, amountCents }) => [label, amountCents])).toEqual([
      ['Equipment sold', toCents('3,950')],
    ])
    const place = pack().places.find(({ account }) => account === 'Equipment sold')!
    expect([place.goes, place.amountCents, place.isAsked]).toEqual([
      { form: 'Form 4797', line: 'sales' },
      toCents('3,950'),
      false,
    ])
  })

  test('the worksheet takes gains and losses of all businesses together, and self-employment tax of none', () => {
    const worked = workedYear(app.books, alone, 2025)
    if (worked.status === 'cannot') throw new Error(worked.says)
    const { household, return: filed } = worked.tax
    // 1,050 − 560 + 200; 680 − 150.
    expect([household.section1231, household.businessGains]).toEqual([690, 530])
    // 6,280 × 0.9235 = 5,799.58: 719.15 + 168.19.
    expect(filed.figures.selfEmploymentTax).toBe(887.34)
    expect(filed.figures.adjustedGrossIncome).toBeCloseTo(6280 + 690 + 530 - 443.67, 2)
    // Two thirds: the farm's own gain alone is from farming (26 USC 6654(i)(2), IRS Pub. 225).
    expect(booksYear(app.books, 2025).farm!.income.gross).toEqual({ farm: 1050, total: 1050 + 8000 + 530 })
  })

  test('its gains are business income for the limit of section 179 (26 CFR 1.179-2(c)(1))', () => {
    venture.hold('Forge', 'equipment', '2025-11-01', '20,000', by('computer', '20,000'))
    // 6,280 of profit, 690 and 530.
    expect(booksYear(app.books, 2025).ventures[0]!.depreciation.section179).toMatchObject({
      deductedCents: toCents('7,500'),
      carriedCents: toCents('12,500'),
    })
  })

  test('what still stands of their cost is an open point, told with the entry that settles it', () => {
    const settle = (lines: Record<string, number>) =>
      done(
        postEntry(app.books, act(), {
          sideId: shop,
          day: day('2025-12-31'),
          payee: '',
          memo: '',
          source: 'form',
          lines: Object.entries(lines).map(([name, dollars]) => ({
            accountId: idOf(name),
            amountCents: cents(dollars * 100),
          })),
        }),
      )
    settle({ Equipment: 7400, 'Venture checking': -7400 })
    settle({ Depreciation: 3620, 'Depreciation taken': -3620 })
    const says = () =>
      pack()
        .gaps.map((gap) => gap.says)
        .filter((one) => one.includes('was sold on'))
    expect(says()[0]).toBe(
      'Trailer was sold on Aug 1, 2025; its cost of $5,000.00 and $3,080.00 of depreciation are still in the books, so that net income is $1,920.00 too high. Book on Dec 31, 2025, by debits and credits: debit “Depreciation taken” $3,080.00, debit “Equipment sold” $1,920.00, credit “Equipment” $5,000.00.',
    )
    expect(says()).toHaveLength(3)
    settle({ 'Depreciation taken': 3620, 'Equipment sold': 3780, Equipment: -7400 })
    expect(says()).toEqual([])
    const { income, cash } = pack().sides.find(({ id }) => id === shop)!
    // 3,950 less 3,780, and no money moved by it.
    expect([income.capital.title, income.capital.totalCents]).toEqual([
      'Equipment and buildings sold',
      toCents('170'),
    ])
    expect(cash.investing.lines.map(({ label, amountCents }) => [label, amountCents / 100])).toEqual([
      ['Equipment', -7400],
      ['Equipment sold', 3950],
    ])
    expect(pack().gaps.map((gap) => gap.says)).toContain(
      'Sharpening, equipment sold: $3,950.00 in the books, $3,750.00 on the inventory. The difference is taxed as held long enough and without cost until its sale stands there.',
    )
  })

  test('the page and the table name whose each sale is', async () => {
    app.savePlan(alone)
    const page = await (await app.get('/year-pack/print?year=2025')).text()
    expect(page).toContain('Sales for Form 4797')
    const table = await (await app.get('/year-pack.csv?year=2025&table=sales')).text()
    expect(table).toMatch(/Trailer.*Sharpening/)
  })
})
