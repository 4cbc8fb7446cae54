// The statements of a whole invented year, worked by hand outside the code, to the cent: a sheep farm in its second year of owning land.
//
// Formulas: Farm Financial Standards, as in public descriptions (see finance-measures.test.ts). Base values of raised breeding stock and
// accrual adjustments: the same. Depreciation: IRS Pub. 946, table A-1, 7-year property, half-year: 14.29, 24.49 percent.
import { afterEach, beforeEach, describe, expect, test } from 'vitest'
import { day } from '#calendar/day.ts'
import { addAccount, listAccounts } from '#db/ledger/account-store.ts'
import { saveHoldingValues } from '#db/year/holding-values.ts'
import { addAccrual, saveHolding, saveMarketValues } from '#db/year-store.ts'
import type { AccrualKind } from '#ledger/reports/accrual.ts'
import type { BalanceSection } from '#ledger/reports/balance-sheet.ts'
import { cents } from '#money/cents.ts'
import { yearPackFigures } from '#today/year-pack/year-pack-figures.ts'
import { savePackYear } from '#today/year-pack/year-pack-settings.ts'
import { act, done } from '../db/fresh-books.ts'
import { postByName } from '../web/post-by-name.ts'
import { type TestApp, testApp } from '../web/test-app.ts'

let app: TestApp
const toCents = (dollars: number) => cents(Math.round(dollars * 100))
const idOf = (side: string, name: string) =>
  listAccounts(app.books).find((one) => one.sideId === side && one.name === name)!.id

/** Amounts by account: debits positive. */
const book = (side: string, on: string, lines: Record<string, number>, source: 'form' | 'opening' = 'form') =>
  postByName(app.books, side, on, lines, { source })
const item = (year: number, kind: AccrualKind, name: string, dollars: number) =>
  done(addAccrual(app.books, act(), 'farm', year, { kind, name, amountCents: toCents(dollars) }))
const figures = (basis: 'cash' | 'accrual') => yearPackFigures(app.books, 2025, basis, day('2026-02-10'))
const farmOf = (basis: 'cash' | 'accrual') => figures(basis).sides.find(({ id }) => id === 'farm')!
const rows = ({ lines }: BalanceSection) =>
  lines.map(({ label, costCents, marketCents }) => [label, costCents / 100, marketCents / 100])
const measure = (basis: 'cash' | 'accrual', id: string) =>
  figures(basis).measures.find((one) => one.id === id)!

beforeEach(() => {
  app = testApp({ today: '2026-02-10' })
  app.openSides()
  done(addAccount(app.books, act(), { sideId: 'farm', name: 'Mortgage', kind: 'liability' }))
  book(
    'farm',
    '2025-01-01',
    {
      'Farm checking': 9000,
      Land: 63_000,
      'Machinery and equipment': 30_000,
      'Depreciation taken': -4287,
      'Term loan': -12_000,
      Mortgage: -50_000,
      'Opening balances': -35_713,
    },
    'opening',
  )
  book(
    'household',
    '2025-01-01',
    { Savings: 40_000, Home: 150_000, Mortgage: -110_000, 'Opening balances': -80_000 },
    'opening',
  )
  book('farm', '2025-05-10', { 'Farm checking': 21_400, 'Raised livestock and meat sold': -21_400 })
  book('farm', '2025-03-10', { Feed: 6200, 'Farm checking': -6200 })
  book('farm', '2025-04-01', { 'Farm checking': 3000, 'Operating loan': -3000 })
  book('farm', '2025-10-01', { 'Operating loan': 3000, 'Other interest': 90, 'Farm checking': -3090 })
  book('farm', '2025-06-01', { 'Term loan': 2000, 'Other interest': 700, 'Farm checking': -2700 })
  book('farm', '2025-06-02', { 'Farm checking': 5000, 'Term loan': -5000 })
  book('farm', '2025-07-01', { Mortgage: 1100, 'Mortgage interest': 3250, 'Farm checking': -4350 })
  book('farm', '2025-12-31', { Depreciation: 7347, 'Depreciation taken': -7347 })
  book('household', '2025-08-01', { Savings: 30_000, 'Off-farm pay': -30_000 })
  book('household', '2025-08-02', {
    Groceries: 18_000,
    'Federal taxes': 2500,
    Mortgage: 2400,
    'Mortgage interest': 4000,
    Savings: -26_900,
  })
  book('household', '2025-12-30', { 'Taxable investments': 800, 'Change in value of investments': -800 })
  const hold = (name: string, cost: number, account: string, raised = false) =>
    done(
      saveHolding(app.books, act(), 'farm', {
        name,
        kind: raised ? 'breeding_stock' : 'equipment',
        quantity: 1,
        unit: '',
        accountId: account === '' ? null : idOf('farm', account),
        acquiredDay: day('2024-03-01'),
        inServiceDay: null,
        raised,
        costCents: toCents(cost),
        depreciation: raised
          ? null
          : { assetClass: 'machinery-used', section179Cents: cents(0), bonus: false },
        marketValueCents: null,
      }),
    ).holdingId
  const tractor = hold('Tractor', 20_000, 'Machinery and equipment')
  hold('Baler', 10_000, 'Machinery and equipment')
  const ewes = hold('Ewes raised', 0, '', true)
  done(
    saveMarketValues(app.books, act(), day('2025-12-31'), [
      { accountId: idOf('farm', 'Land'), amountCents: toCents(90_000) },
    ]),
  )
  done(
    saveHoldingValues(app.books, act(), day('2025-12-31'), [
      { holdingId: tractor, amountCents: toCents(17_500) },
      { holdingId: ewes, amountCents: toCents(4800) },
    ]),
  )
  // A value of the year after stands in no paper of 2025.
  done(
    saveHoldingValues(app.books, act(), day('2026-12-31'), [{ holdingId: tractor, amountCents: toCents(1) }]),
  )
  item(2024, 'raised_base', 'Ewes', 3000)
  item(2024, 'receivable', 'Butcher', 400)
  item(2024, 'customers', 'Lamb shares', 1500)
  item(2025, 'raised_base', 'Ewes', 3600)
  item(2025, 'customers', 'Lamb shares', 2100)
  item(2025, 'market_stock', 'Lambs', 2600)
  item(2025, 'supplies', 'Mineral', 180)
  item(2025, 'payable', 'Vet', 350)
})

afterEach(() => app.close())

describe('the balance sheet', () => {
  test('what opened the books on the first day is the beginning; things bought before are not bought in the year', () => {
    const { begin, cash, equity } = farmOf('cash')
    expect(begin.equity.costCents).toBe(toCents(35_713))
    expect(cash.investing.totalCents).toBe(0)
    expect([equity.beginCents, equity.other]).toEqual([toCents(35_713), []])
  })
  test('values at the level that was valued: the land whole, of the machinery the tractor, of the depreciation the tractor’s', () => {
    const { end } = farmOf('cash')
    // Machinery: 30,000 less the tractor's 20,000, and 17,500 for it. The schedule has deducted 38.78 percent of 30,000, 11,634, as the
    // books have; the tractor's two thirds, 7,756, no longer count. Raised ewes are in no account.
    expect(rows(end.otherAssets)).toEqual([
      ['Machinery and equipment', 30_000, 27_500],
      ['Depreciation taken', -11_634, -3878],
      ['Land', 63_000, 90_000],
      ['Ewes raised', 0, 4800],
    ])
  })
  test('two mortgages stay two when all sides are put together', () => {
    const whole = figures('cash').together!
    const owed = rows(whole.end.otherLiabilities).filter(([label]) => String(label).startsWith('Mortgage'))
    expect(owed).toEqual([
      ['Mortgage, Wrenfold', 48_900, 48_900],
      ['Mortgage, Household', 107_600, 107_600],
    ])
    // Its interest is interest, not a living cost.
    expect(whole.income.interest.totalCents).toBe(toCents(90 + 700 + 3250 + 4000))
  })
})

describe('on the accrual basis there is one net income', () => {
  // Cash: 21,400 − 6,200 − 4,040 interest − 7,347 = 3,813. Revenue: ewes +600, butcher −400, lambs +2,600, shares taken ahead −600;
  // costs: mineral −180, vet +350. So 3,813 + 2,200 + 180 − 350 = 5,843.
  test('income statement, equity and measures say the same', () => {
    const { income, equity, items } = farmOf('accrual')
    expect([income.cashNetIncomeCents, income.netIncomeCents, equity.netIncomeCents]).toEqual([
      381_300, 584_300, 584_300,
    ])
    expect(measure('accrual', 'netFarmIncome').value).toBe(584_300)
    expect(income.revenue.totalCents).toBe(toCents(23_600))
    expect(items!.begin.map(({ name }) => name)).toEqual(['Lamb shares', 'Ewes', 'Butcher'])
    // 35,713 + 3,000 + 400 − 1,500 = 37,613 at the beginning.
    expect([equity.beginCents, equity.endCents]).toEqual([toCents(37_613), toCents(37_613 + 5843)])
  })
  test('what customers paid ahead and bills are current debts, base values last and are at market with the ewes', () => {
    const { end } = farmOf('accrual')
    expect(rows(end.currentLiabilities)).toEqual([
      ['Lamb shares', 2100, 2100],
      ['Vet', 350, 350],
    ])
    expect(rows(end.otherAssets).slice(-2)).toEqual([
      ['Ewes', 3600, 0],
      ['Ewes raised', 0, 4800],
    ])
  })
})

describe('the measures', () => {
  test('what falls due is not known, so liquidity cannot be told; said, it is', () => {
    expect(measure('cash', 'currentRatio')).toMatchObject({
      value: null,
      missing: expect.stringContaining('Term loan'),
    })
    expect(
      figures('cash')
        .gaps.map(({ says }) => says)
        .join(' '),
    ).toContain('“Term loan”: say what falls due')
    savePackYear(
      app.books,
      act(),
      2025,
      {
        deferredTaxRate: null,
        unpaidLabourCents: null,
        replaceCents: null,
        dueWithinYear: {
          [idOf('farm', 'Term loan')]: toCents(2500),
          [idOf('farm', 'Mortgage')]: toCents(1200),
        },
      },
      0,
    )
    // Checking: 9,000 + 21,400 − 6,200 + 3,000 − 3,090 − 2,700 + 5,000 − 4,350 = 22,060.
    expect(measure('cash', 'workingCapital').value).toBe(toCents(22_060 - 3700))
    expect(measure('cash', 'currentRatio').parts).toEqual([
      { name: 'current assets', cents: toCents(22_060) },
      { name: 'current liabilities', cents: toCents(3700) },
    ])
  })
  test('principal as paid though a loan was drawn; the season’s loan and its interest are no term debt; gains not taken pay nothing', () => {
    // Term debt: 2,000 + 700 and 1,100 + 3,250 = 7,050. Off-farm income 30,000; living 18,000 + 4,000 + 2,400; tax 2,500.
    // Capacity: 3,813 + 30,000 + 7,347 + 3,950 − 2,500 − 24,400 = 18,210.
    expect(measure('cash', 'repaymentCapacity').value).toBe(toCents(18_210))
    expect(measure('cash', 'termDebtCoverage').value).toBeCloseTo(18_210 / 7050, 9)
    expect(measure('cash', 'debtCoverage').value).toBeCloseTo((18_210 + 90) / (7050 + 90), 9)
  })
  test('a replacement and an own wage that nobody said are not taken for nothing', () => {
    for (const id of ['replacementMargin', 'replacementCoverage', 'returnOnAssets', 'returnOnEquity'])
      expect([id, measure('cash', id).value]).toEqual([id, null])
    expect(measure('cash', 'repaymentMargin').value).toBe(toCents(18_210 - 7050))
  })
})

describe('every line of the year', () => {
  const lines = ({ lines: own }: { lines: readonly { label: string; amountCents: number }[] }) =>
    Object.fromEntries(own.map(({ label, amountCents }) => [label, amountCents / 100]))
  const sideOf = (id: string) => figures('cash').sides.find((side) => side.id === id)!

  test('income statements of farm and household, on the cash basis and adjusted', () => {
    const { income } = farmOf('cash')
    expect(lines(income.revenue)).toEqual({ 'Raised livestock and meat sold': 21_400 })
    expect(lines(income.expenses)).toEqual({ Feed: 6200 })
    expect(lines(income.depreciation)).toEqual({ Depreciation: 7347 })
    expect(lines(income.interest)).toEqual({ 'Mortgage interest': 3250, 'Other interest': 790 })
    expect(lines(income.capital)).toEqual({})
    const adjusted = farmOf('accrual').income
    expect(lines(adjusted.revenue)).toEqual({
      'Raised livestock and meat sold': 21_400,
      'Change in what is owed to us': -400,
      'Change in feeder and market stock': 2600,
      'Change in base values of raised breeding stock': 600,
      'Change in what was taken from customers ahead': -600,
    })
    expect(lines(adjusted.expenses)).toEqual({
      Feed: 6200,
      'Change in supplies on hand': -180,
      'Change in bills not yet paid': 350,
    })
    const home = sideOf('household').income
    expect(lines(home.revenue)).toEqual({ 'Off-farm pay': 30_000, 'Change in value of investments': 800 })
    expect(lines(home.expenses)).toEqual({ Groceries: 18_000, 'Federal taxes': 2500 })
    expect(lines(home.interest)).toEqual({ 'Mortgage interest': 4000 })
    expect(home.netIncomeCents).toBe(toCents(6300))
    expect(figures('cash').together!.income.netIncomeCents).toBe(toCents(3813 + 6300))
  })

  test('balance sheets with their totals, at cost and at market', () => {
    const { end } = farmOf('cash')
    expect(rows(end.currentAssets)).toEqual([['Farm checking', 22_060, 22_060]])
    expect(rows(end.currentLiabilities)).toEqual([])
    // 12,000 − 2,000 + 5,000; 50,000 − 1,100.
    expect(rows(end.otherLiabilities)).toEqual([
      ['Term loan', 15_000, 15_000],
      ['Mortgage', 48_900, 48_900],
    ])
    // 22,060 + 30,000 − 11,634 + 63,000; at market 22,060 + 27,500 − 3,878 + 90,000 + 4,800.
    expect(end.totalAssets).toEqual({ costCents: toCents(103_426), marketCents: toCents(140_482) })
    expect(end.equity).toEqual({ costCents: toCents(39_526), marketCents: toCents(76_582) })
    const home = sideOf('household').end
    expect(rows(home.currentAssets)).toEqual([
      ['Savings', 43_100, 43_100],
      ['Taxable investments', 800, 800],
    ])
    expect(rows(home.otherAssets)).toEqual([['Home', 150_000, 150_000]])
    expect(rows(home.otherLiabilities)).toEqual([['Mortgage', 107_600, 107_600]])
    expect(home.equity.costCents).toBe(toCents(86_300))
    const whole = figures('cash').together!.end
    expect([whole.totalAssets.costCents, whole.equity.costCents]).toEqual([
      toCents(103_426 + 193_900),
      toCents(39_526 + 86_300),
    ])
    // With what the cash books do not show: 2,600 + 180 + 3,600 owned, 2,100 + 350 owed.
    const adjusted = farmOf('accrual').end
    expect(rows(adjusted.currentAssets)).toEqual([
      ['Farm checking', 22_060, 22_060],
      ['Lambs', 2600, 2600],
      ['Mineral', 180, 180],
    ])
    expect([adjusted.totalAssets.costCents, adjusted.totalLiabilities.costCents]).toEqual([
      toCents(109_806),
      toCents(66_350),
    ])
    expect(adjusted.equity.costCents).toBe(toCents(43_456))
  })

  test('cash flow by part, and owner’s equity with its valuation', () => {
    const { cash, equity } = farmOf('cash')
    expect(lines(cash.operations)).toEqual({
      'Raised livestock and meat sold': 21_400,
      Feed: -6200,
      'Mortgage interest': -3250,
      'Other interest': -790,
    })
    // The season's loan came and went: 3,000 and 3,000.
    expect(lines(cash.financing)).toEqual({ 'Term loan': 3000, Mortgage: -1100 })
    expect([cash.beginCents, cash.changeCents, cash.endCents]).toEqual([9000, 13_060, 22_060].map(toCents))
    expect(equity).toMatchObject({
      beginCents: toCents(35_713),
      netIncomeCents: toCents(3813),
      crossings: [],
      endCents: toCents(39_526),
      valuation: { beginCents: 0, endCents: toCents(37_056) },
    })
    const home = sideOf('household').cash
    expect(lines(home.financing)).toEqual({ Mortgage: -2400 })
    expect([home.beginCents, home.endCents]).toEqual([40_000, 43_900].map(toCents))
  })

  test('what investments gained in value is nothing earned: it stands by itself, and of retirement savings nowhere', () => {
    book('household', '2025-12-30', {
      'Retirement, traditional': 1250,
      'Change in value of investments': -1250,
    })
    const home = sideOf('household').cash
    // 30,000 − 18,000 − 2,500 − 4,000 of interest.
    expect(lines(home.operations)).toEqual({
      'Off-farm pay': 30_000,
      Groceries: -18_000,
      'Federal taxes': -2500,
      'Mortgage interest': -4000,
    })
    expect(lines(home.valuation)).toEqual({ 'Change in value of investments': 800 })
    expect(lines(home.investing)).toEqual({})
    // 5,500 − 2,400 + 800.
    expect(home.changeCents).toBe(toCents(3900))
    expect(sideOf('household').income.netIncomeCents).toBe(toCents(6300 + 1250))
  })

  test('each measure, once all its parts are said', () => {
    savePackYear(
      app.books,
      act(),
      2025,
      {
        deferredTaxRate: 0.2,
        unpaidLabourCents: toCents(9000),
        replaceCents: toCents(4000),
        dueWithinYear: {
          [idOf('farm', 'Term loan')]: toCents(2500),
          [idOf('farm', 'Mortgage')]: toCents(1200),
        },
      },
      0,
    )
    // Average assets (97,713 + 103,426) / 2, average equity (35,713 + 39,526) / 2.
    const [assets, equity] = [100_569.5, 37_619.5]
    const expected: Record<string, number> = {
      currentRatio: 22_060 / 3700,
      workingCapital: toCents(18_360),
      workingCapitalToRevenue: 18_360 / 21_400,
      workingCapitalToExpense: 18_360 / 6200,
      debtToAsset: 63_900 / 103_426,
      equityToAsset: 39_526 / 103_426,
      debtToEquity: 63_900 / 39_526,
      netFarmIncome: toCents(3813),
      returnOnAssets: (3813 + 4040 - 9000) / assets,
      returnOnEquity: (3813 - 9000) / equity,
      operatingProfitMargin: (3813 + 4040 - 9000) / 21_400,
      assetTurnover: 21_400 / assets,
      ebitda: toCents(15_200),
      repaymentCapacity: toCents(18_210),
      repaymentMargin: toCents(11_160),
      replacementMargin: toCents(7160),
      termDebtCoverage: 18_210 / 7050,
      replacementCoverage: 18_210 / 11_050,
      debtCoverage: 18_300 / 7140,
      operatingExpenseRatio: 6200 / 21_400,
      depreciationRatio: 7347 / 21_400,
      interestRatio: 4040 / 21_400,
      netIncomeRatio: 3813 / 21_400,
    }
    const { measures } = figures('cash')
    expect(measures.map(({ id }) => id).toSorted()).toEqual(Object.keys(expected).toSorted())
    for (const { id, value } of measures) expect(value, id).toBeCloseTo(expected[id]!, 9)
    // A fifth of the gain of 37,056 is owed at market: 76,582 − 7,411.20.
    expect(farmOf('cash').end.equity.marketCents).toBe(toCents(69_170.8))
  })
})
