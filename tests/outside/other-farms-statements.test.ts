// Balance sheet, accrual income and measures of the two other invented farms (farm-years.test.ts), worked by hand outside the code.
//
// Formulas: Farm Financial Standards, as in public descriptions (see finance-measures.test.ts): working capital is current assets less
// current debts, debt to asset all debts over all assets, current ratio the one over the other.
import { afterEach, beforeEach, describe, expect, test } from 'vitest'
import { day } from '#calendar/day.ts'
import { addAccrual } from '#db/year-store.ts'
import type { AccrualKind } from '#ledger/reports/accrual.ts'
import { yearPackFigures } from '#today/year-pack/year-pack-figures.ts'
import { act, done } from '../db/fresh-books.ts'
import { filledForm } from '../web/browser-form.ts'
import { type TestApp, testApp } from '../web/test-app.ts'
import { yearBooks, yearParts } from './year-books.ts'

let app: TestApp
const { toCents, by } = yearParts

const item = (year: number, kind: AccrualKind, name: string, amount: string) =>
  done(
    addAccrual(app.books, act(), 'farm', year, {
      kind,
      name,
      amountCents: toCents(amount),
    }),
  )

const pack = (basis: 'cash' | 'accrual') => yearPackFigures(app.books, 2025, basis, day('2026-02-10'))
const farmOf = (basis: 'cash' | 'accrual') => pack(basis).sides.find(({ id }) => id === 'farm')!
const measure = (id: string) => pack('accrual').measures.find((one) => one.id === id)!.value

beforeEach(() => {
  app = testApp({ today: '2026-02-10' })
  app.openSides()
})

afterEach(() => app.close())

describe('the market garden', () => {
  beforeEach(() => {
    const year = yearBooks(app.books)
    // 50,147.30 of income and 27,843.16 of costs, line by line in farm-years.test.ts.
    year.book({ 'Vegetables and fruit sold': '50,147.30' }, { Supplies: '27,843.16' })
    year.hold('Tractor', 'equipment', '2025-04-02', '6,000', by('machinery-new'))
    item(2024, 'crops', 'Garlic', '500')
    item(2025, 'crops', 'Garlic', '640')
    item(2025, 'supplies', 'Pots', '300')
    item(2025, 'payable', 'Seed bill', '210.50')
  })

  test('accrual income and balance sheet, before and after the depreciation is booked', async () => {
    // 22,304.14 in cash; garlic +140, pots +300, the bill −210.50.
    const before = farmOf('accrual')
    expect([before.income.cashNetIncomeCents, before.income.netIncomeCents]).toEqual([2_230_414, 2_253_364])
    expect([before.end.totalAssets.costCents, before.end.totalLiabilities.costCents]).toEqual([
      2_324_414, 21_050,
    ])
    expect([before.equity.beginCents, before.equity.endCents]).toEqual([50_000, 2_303_364])
    expect(farmOf('cash').end.equity.costCents).toBe(2_230_414)
    const path = '/year-pack/depreciation?year=2025&side=farm'
    expect((await app.post(path, await filledForm(app, path))).status).toBe(303)
    // A fifth of 6,000.
    const after = farmOf('accrual')
    expect([after.income.netIncomeCents, after.equity.endCents]).toEqual([2_133_364, 2_183_364])
    expect(measure('netFarmIncome')).toBe(2_133_364)
  })

  test('measures of liquidity and solvency', () => {
    expect(measure('workingCapital')).toBe(2_324_414 - 21_050)
    expect(measure('currentRatio')).toBeCloseTo(23_244.14 / 210.5, 6)
    expect(measure('debtToAsset')).toBeCloseTo(210.5 / 23_244.14, 9)
  })
})

describe('the livestock farm', () => {
  beforeEach(() => {
    // 38,365.30 of income, of it 2,250 of stock and equipment sold; 21,117.46 of costs.
    yearBooks(app.books).book(
      { 'Raised livestock and meat sold': '36,115.30', 'Breeding stock and equipment sold': '2,250' },
      { Feed: '21,117.46' },
    )
    item(2024, 'raised_base', 'Twenty ewes', '3,000')
    item(2025, 'raised_base', 'Fifteen ewes', '2,250')
    item(2025, 'market_stock', 'Five steers', '1,537.50')
  })

  test('accrual income takes five ewes fewer and the steers; the balance sheet holds both', () => {
    const { income, end, equity } = farmOf('accrual')
    // 17,247.84 − 750 + 1,537.50.
    expect([income.cashNetIncomeCents, income.netIncomeCents]).toEqual([1_724_784, 1_803_534])
    expect([end.currentAssets.costCents, end.otherAssets.costCents]).toEqual([1_724_784 + 153_750, 225_000])
    expect([equity.beginCents, equity.endCents]).toEqual([300_000, 2_103_534])
    expect(measure('debtToAsset')).toBe(0)
  })

  test('what stock and equipment brought is in net farm income, and in no measure of return or repayment', () => {
    // 18,035.34, of it 2,250 of stock and equipment sold, less the base value of five ewes: 750.
    expect(measure('netFarmIncome')).toBe(1_803_534)
    const fromOperations = 1_803_534 - farmOf('accrual').income.capital.totalCents
    expect(farmOf('cash').income.capital.totalCents).toBe(225_000)
    expect(measure('repaymentCapacity')).toBe(fromOperations)
    expect(pack('cash').measures.find(({ id }) => id === 'repaymentCapacity')!.value).toBe(
      1_724_784 - 225_000,
    )
  })
})
