// A whole year of an invented farm of two people, with hired help, and of a venture one of them runs: worked by hand, to the cent.
//
// Schedule F, SE, C (Form 1040) 2025. Election: 26 USC 761(f), each line cut by the shares of the two. Conservation: 26 USC 175(b), a
// quarter of gross income from farming. Crop insurance: 26 USC 451(f). Weather sales: 26 USC 451(g), 26 CFR 1.451-7(e). Miles: 70
// cents (IRS Notice 2026-10). Home: 5 dollars a square foot (Rev. Proc. 2013-13). Pub. 946 table A-1: 7-year 14.29, 5-year 20 percent.
import { afterEach, beforeEach, describe, expect, test } from 'vitest'
import { day } from '#calendar/day.ts'
import { addSide, listAccounts } from '#db/ledger/account-store.ts'
import { postEntry } from '#db/ledger/ledger-store.ts'
import { sayPayees } from '#db/tax/payees.ts'
import { addAccrual } from '#db/year-store.ts'
import { formsOfTwo } from '#ledger/reports/form-lines.ts'
import { scheduleCRows, scheduleFRows } from '#ledger/reports/form-rows.ts'
import { homeDeduction } from '#ledger/tax/deducted-by-rate.ts'
import { nothingOfFarm, nothingOfVenture } from '#ledger/tax/form-said.ts'
import { cents } from '#money/cents.ts'
import { planSchema } from '#plan/plan.ts'
import { currentPlan } from '#today/current-plan.ts'
import { booksYear } from '#today/tax/books-year.ts'
import { saveSaidOf } from '#today/tax/said-of-year.ts'
import { workedYear } from '#today/tax/tax-payments.ts'
import { peopleFigures } from '#today/year-pack/people-figures.ts'
import { yearPackFigures } from '#today/year-pack/year-pack-figures.ts'
import { act, done } from '../db/fresh-books.ts'
import { type TestApp, testApp } from '../web/test-app.ts'
import { yearBooks, yearParts } from './year-books.ts'

const { toCents, by, dollarsOf } = yearParts
let app: TestApp
let bench: string

const couple = planSchema.parse({
  startMonth: '2025-01',
  household: {
    people: [
      { id: 'ida', name: 'Ida', born: '1982-04-01', farmWorkShare: 0.6 },
      { id: 'leo', name: 'Leo', born: '1984-09-01', farmWorkShare: 0.4 },
    ],
    living: [{ id: 'living', name: 'Living', perMonth: 1500 }],
  },
})

const said = {
  ...nothingOfFarm,
  ownership: 'joint' as const,
  firstShare: 0.6,
  untaxed: { '3a': toCents('85'), '4a': toCents('600'), '5b': toCents('0'), '6a': toCents('0') },
  cropPutOffCents: toCents('3,000'),
  weatherSales: [
    { what: 'sheep', origin: 'raised' as const, sold: 135, usual: 100, incomeCents: toCents('7,020') },
  ],
  vehicle: { ...nothingOfFarm.vehicle, by: 'miles' as const, businessMiles: 3200 },
}

const keepSaid = (...saving: Parameters<typeof saveSaidOf>) => {
  if (!saveSaidOf(...saving).ok) throw new Error('It was not kept')
}

beforeEach(() => {
  app = testApp({ today: '2026-02-10' })
  app.openSides()
  bench = done(addSide(app.books, act(), { kind: 'venture', name: 'Repair bench' })).sideId
  const farm = yearBooks(app.books)
  farm.book(
    {
      'Vegetables and fruit sold': '42,315.25',
      'CSA shares': '18,400',
      'Raised livestock and meat sold': '7,020',
      'Cooperative distributions': '310',
      'Farm program payments': '2,400',
      'Crop insurance received': '5,200',
      'Other farm income': '120.35',
    },
    {
      'Car and truck': '2,905.12',
      Conservation: '20,000',
      Feed: '2,000',
      'Fertilizer and lime': '9,000',
      'Fuel and oil': '1,480.22',
      'Hired labor': '14,200',
      'Repairs and upkeep': '910',
      'Seeds and plants': '4,100',
      Supplies: '3,950.40',
      'Taxes and licenses': '1,086.30',
    },
  )
  farm.hold('Tractor', 'equipment', '2025-05-02', '10,000', by('machinery-used'))
  const venture = yearBooks(app.books, bench, 'Venture checking')
  venture.book(
    { 'Sales and fees earned': '9,820', 'Other venture income': '40' },
    {
      'Returned goods and money given back': '120',
      'Goods bought to sell': '2,600',
      Supplies: '1,310.45',
      Travel: '210',
      'Fees and dues': '300',
    },
  )
  venture.hold('Computer', 'equipment', '2025-03-10', '1,500', by('computer'))
  venture.hold('Parts to sell', 'market_stock', '2025-11-01', '450')
  keepSaid(app.books, act(), 'farm', 2025, said, 0)
  const byLeo = { ...nothingOfVenture, person: 'leo', homeSquareFeet: 120 }
  keepSaid(app.books, act(), bench, 2025, byLeo, 0)
})

afterEach(() => app.close())

const rowsOf = (rows: ReturnType<typeof scheduleFRows>) => dollarsOf(rows)

describe('Schedule F', () => {
  test('line by line, with what is taxed, put off, limited and driven', () => {
    const { form } = booksYear(app.books, 2025).farm!
    expect(rowsOf(scheduleFRows(form, null))).toEqual({
      // 42,315.25 + 18,400 + 7,020, less 7,020 × 35 / 135.
      '2': '65915.25',
      '3a': '310.00',
      '3b': '225.00',
      '4a': '2400.00',
      '4b': '1800.00',
      '6a': '5200.00',
      '6b': '2200.00',
      '8': '120.35',
      '9': '70260.60',
      // 3,200 × 0.70.
      '10': '2240.00',
      // A quarter of 70,260.60.
      '12': '17565.15',
      '14': '1429.00',
      '16': '2000.00',
      '17': '9000.00',
      '19': '1480.22',
      '22': '14200.00',
      '25': '910.00',
      '26': '4100.00',
      '28': '3950.40',
      '29': '1086.30',
      '33': '57961.07',
      '34': '12299.53',
    })
    expect(form.carried.conservationCents).toBe(243_485)
    expect(form.beside).toMatchObject([{ amountCents: 290_512 }])
  })

  test('what lies between the books and line 9 is told to the cent', () => {
    const { form } = booksYear(app.books, 2025).farm!
    // 75,765.60 booked; 1,820 + 85 + 600 + 3,000 are not on the form.
    const between = form.between.reduce((sum, { amountCents }) => sum + amountCents, 0)
    expect(between).toBe(-550_500)
    expect(7_576_560 + between).toBe(form.grossIncomeCents)
  })

  test('net income of the books comes to line 34 by the lines that hold otherwise', () => {
    const { bridge } = booksYear(app.books, 2025).farm!.form
    // 75,765.60 less costs of 59,632.04.
    expect([bridge.booksCents, bridge.formCents]).toEqual([1_613_356, 1_229_953])
    expect(bridge.leftOut).toEqual([])
    expect(dollarsOf(bridge.changed)).toEqual({
      '2': '-1820.00',
      '3b': '-85.00',
      '4b': '-600.00',
      '6b': '-3000.00',
      // 2,905.12 less 2,240 of miles; 20,000 less 17,565.15; the tractor.
      '10': '665.12',
      '12': '2434.85',
      '14': '-1429.00',
    })
  })

  test('the sheet and its table tell the same way from the books to line 34', async () => {
    const page = await (await app.get('/year-pack/sheets/schedule-f?year=2025')).text()
    expect(page).toContain('From the books to line 34')
    expect(page).toMatch(
      /Net income of the books, cash basis[\s\S]*16,133\.56[\s\S]*Line 12, Conservation[\s\S]*2,434\.85/,
    )
    const table = await (await app.get('/year-pack.csv?year=2025&table=schedule-f-books')).text()
    expect(table).toContain('Net income of the books, cash basis",16133.56')
    expect(table.trim().split('\n').at(-1)).toContain('Line 34,12299.53')
  })

  test('one form for each of two, which add up', () => {
    const { form } = booksYear(app.books, 2025).farm!
    const [ida, leo] = formsOfTwo(form, 0.6)
    // 12,299.53 × 0.6 = 7,379.718.
    expect([ida.netProfitCents, leo.netProfitCents]).toEqual([737_972, 491_981])
    expect([ida.grossIncomeCents, leo.grossIncomeCents]).toEqual([4_215_636, 2_810_424])
    for (const row of scheduleFRows(form, [ida, leo]))
      expect(row.owners![0] + row.owners![1], row.line).toBe(row.amountCents)
  })

  test('the year after begins with what was put off and left', () => {
    yearBooks(app.books, 'farm', 'Farm checking', 2026).book(
      { 'Vegetables and fruit sold': '40,000' },
      { Conservation: '1,000' },
    )
    const { form } = booksYear(app.books, 2026).farm!
    expect(dollarsOf(form.income)).toEqual({ '2': '41820.00', '6d': '3000.00' })
    // 1,000 + 2,434.85, under a quarter of 44,820.
    expect(dollarsOf(form.expenses)).toMatchObject({ '12': '3434.85' })
    expect(form.carried.conservationCents).toBe(0)
  })
})

test('Schedule C, line by line, with goods sold and the part of the home', () => {
  const { form, depreciation } = booksYear(app.books, 2025).ventures[0]!
  expect(rowsOf(scheduleCRows(form))).toEqual({
    '1': '9820.00',
    '2': '120.00',
    '3': '9700.00',
    '4': '2150.00',
    '5': '7550.00',
    '6': '40.00',
    '7': '7590.00',
    '13': '300.00',
    '22': '1310.45',
    '24a': '210.00',
    '27b': '300.00',
    '28': '2120.45',
    '29': '5469.55',
    // 120 × 5.
    '30': '600.00',
    '31': '4869.55',
    '36': '2600.00',
    '40': '2600.00',
    '41': '450.00',
    '42': '2150.00',
    'Part V': '300.00',
    '48': '300.00',
  })
  expect(depreciation.totalCents).toBe(30_000)
})

test('Schedule SE of each: the venture is Leo’s', () => {
  const worked = workedYear(app.books, couple, 2025)
  if (worked.status === 'cannot') throw new Error(worked.says)
  const { household, return: filed } = worked.tax
  expect(household.farmProfit).toEqual([7379.72, 4919.81])
  expect(household.otherSelfEmployment).toEqual([0, 4869.55])
  // 7,379.72 × 0.9235 = 6,815.17: 845.08 + 197.64. 9,789.36 × 0.9235 = 9,040.47: 1,121.02 + 262.17.
  expect(filed.figures.selfEmploymentTax).toBe(2425.91)
  // Less half of each: 521.36 and 691.60 (691.595).
  expect(filed.figures.adjustedGrossIncome).toBeCloseTo(12_299.53 + 4869.55 - 521.36 - 691.6, 1)
})

test('Form 1040 after line 11: nothing is taxed, and the earned income credit goes against the tax of Schedule SE', () => {
  const worked = workedYear(app.books, couple, 2025)
  if (worked.status === 'cannot') throw new Error(worked.says)
  const { figures } = worked.tax.return
  // Line 11: 15,956.12; less the standard deduction of two, 31,500 (26 USC 63(c)(7), P.L. 119-21): line 15 is 0.
  expect(figures.adjustedGrossIncome).toBeCloseTo(15_956.12, 2)
  expect([figures.taxableIncome, figures.qbiDeduction]).toEqual([0, 0])
  // Earned 15,956.12, over 8,490 and under 17,730: the most without children, 649 (Rev. Proc. 2024-40, section 2.06, from memory), line 27.
  expect(figures.earnedIncomeCredit).toBe(649)
  // Line 23: 2,425.91. Line 37: less line 27, and nothing was paid ahead.
  expect(figures.balanceDue).toBeCloseTo(2425.91 - 649, 2)
})

describe('statements of the farm', () => {
  const item = (year: number, kind: 'crops' | 'prepaid' | 'payable', name: string, dollars: string) =>
    done(addAccrual(app.books, act(), 'farm', year, { kind, name, amountCents: toCents(dollars) }))
  const pack = () => yearPackFigures(app.books, 2025, 'accrual', day('2026-02-10'))
  const measure = (id: string) => pack().measures.find((one) => one.id === id)!.value

  beforeEach(() => {
    item(2024, 'crops', 'Squash', '900')
    item(2025, 'crops', 'Squash', '1,250')
    item(2025, 'prepaid', 'Seed paid ahead', '300')
    item(2025, 'payable', 'Vet', '480')
  })

  test('accrual income, balance sheet and equity, to the cent', () => {
    const { income, end, equity } = pack().sides.find(({ id }) => id === 'farm')!
    // 75,765.60 of income less 59,632.04 of costs; squash +350, seed +300, the vet −480.
    expect([income.cashNetIncomeCents, income.netIncomeCents]).toEqual([1_613_356, 1_630_356])
    expect(end.currentAssets.costCents).toBe(1_613_356 + 125_000 + 30_000)
    expect(end.otherAssets.costCents).toBe(0)
    expect(end.totalLiabilities.costCents).toBe(48_000)
    expect([equity.beginCents, equity.endCents]).toEqual([90_000, 1_720_356])
  })

  test('measures, each by its formula of the Farm Financial Standards', () => {
    const [revenue, expense, current, due] = [76_115.6, 59_812.04, 17_683.56, 480]
    const expected: Record<string, number> = {
      currentRatio: current / due,
      workingCapital: toCents('17,203.56'),
      workingCapitalToRevenue: (current - due) / revenue,
      workingCapitalToExpense: (current - due) / expense,
      debtToAsset: due / current,
      equityToAsset: (current - due) / current,
      debtToEquity: due / (current - due),
      netFarmIncome: toCents('16,303.56'),
      assetTurnover: revenue / ((900 + current) / 2),
      operatingExpenseRatio: expense / revenue,
      depreciationRatio: 0,
      interestRatio: 0,
      netIncomeRatio: 16_303.56 / revenue,
    }
    for (const [id, value] of Object.entries(expected)) expect(measure(id), id).toBeCloseTo(value, 8)
    // Nobody said what own work is worth, so that returns cannot be told.
    expect([measure('returnOnAssets'), measure('operatingProfitMargin')]).toEqual([null, null])
  })
})

test('one owner: all of the farm is hers, whatever the plan says of the work', () => {
  const one = { ...said, ownership: 'one' as const, owner: 'leo', firstShare: null }
  keepSaid(app.books, act(), 'farm', 2025, one, 1)
  const worked = workedYear(app.books, couple, 2025)
  if (worked.status === 'cannot') throw new Error(worked.says)
  expect(worked.tax.household.farmProfit).toEqual([0, 12_299.53])
})

describe('limits by the examples of their source', () => {
  // Rev. Proc. 2013-13 sec. 4.08 and the Simplified Method Worksheet of Schedule C (from memory): the area of the year is the average of
  // its twelve months, and a month with fewer than 15 days of use counts 0. 120 square feet from Nov 10 on: two months, 120 × 2 / 12 × 5
  // = 100.00. From Nov 17 on (14 days): one month, 50.00. From Nov 16 on (15 days): two. Until Jun 14: five months, 250.00; until the
  // 15th: six, 300.00. 400 square feet count as 300 in each month: 300 × 2 / 12 × 5 = 250.00. February 2025, used from the 14th: 15
  // days of it, eleven months; from the 15th: 14 days, ten. 7 × 5 / 12 × 5 = 14.583…
  test.each([
    [120, '2025-11-10', null, 10_000],
    [120, '2025-11-17', null, 5_000],
    [120, '2025-11-16', null, 10_000],
    [120, null, '2025-06-14', 25_000],
    [120, null, '2025-06-15', 30_000],
    [400, '2025-11-10', null, 25_000],
    [120, '2025-02-14', null, 55_000],
    [120, '2025-02-15', null, 50_000],
    [7, '2025-08-01', null, 1_458],
    [120, '2025-03-20', '2025-03-30', 0],
    [120, '2023-05-02', null, 60_000],
    [120, '2023-05-02', '2024-12-31', 0],
    [120, '2026-01-05', null, 0],
    [120, null, null, 60_000],
  ] as const)('%i square feet of the home from %s until %s', (homeSquareFeet, from, until, expected) => {
    const home = {
      homeSquareFeet,
      homeFrom: from && day(from),
      homeUntil: until && day(until),
    }
    expect(homeDeduction(home, 2025, cents(900_000))).toBe(expected)
  })

  // IRS Pub. 225, Prepaid farm supplies, its example (from memory): 4,000 fertilizer, 1,000 feed, 500 seed paid ahead, other costs
  // 10,000: no more than 5,000 of it may be deducted, 500 waits.
  test('supplies paid ahead', () => {
    const other = testApp({ today: '2026-02-10' })
    other.openSides()
    yearBooks(other.books).book(
      { 'Vegetables and fruit sold': '30,000' },
      { 'Fertilizer and lime': '4,000', Feed: '1,000', 'Seeds and plants': '500', Supplies: '10,000' },
    )
    const prepaid = {
      ...nothingOfFarm.prepaid,
      '16': toCents('1,000'),
      '17': toCents('4,000'),
      '26': toCents('500'),
    }
    keepSaid(other.books, act(), 'farm', 2025, { ...nothingOfFarm, prepaid }, 0)
    const { form } = booksYear(other.books, 2025).farm!
    expect(form.totalExpensesCents).toBe(1_500_000)
    yearBooks(other.books, 'farm', 'Farm checking', 2026).book({ 'CSA shares': '10' }, {})
    expect(booksYear(other.books, 2026).farm!.form.totalExpensesCents).toBe(50_000)
    other.close()
  })

  // SDSU Extension, "Drought sales tax issues" (beefmagazine.com): usually 200 head, 250 sold for 163,000: 32,600 may wait.
  test('weather sales', () => {
    const other = testApp({ today: '2026-02-10' })
    other.openSides()
    yearBooks(other.books).book({ 'Raised livestock and meat sold': '163,000' }, {})
    const weatherSales = [
      { what: 'cattle', origin: 'raised' as const, sold: 250, usual: 200, incomeCents: toCents('163,000') },
    ]
    keepSaid(other.books, act(), 'farm', 2025, { ...nothingOfFarm, weatherSales }, 0)
    expect(booksYear(other.books, 2025).farm!.form.grossIncomeCents).toBe(13_040_000)
    other.close()
  })
})

test('breeding stock sold for want of grass and bought again: the gain waits (26 USC 1033(e))', () => {
  const farm = yearBooks(app.books)
  const { holdingId } = farm.hold('Eight ewes', 'breeding_stock', '2020-03-01', '0', {
    raised: true,
    disposedDay: day('2025-08-01'),
    disposedForCents: toCents('2,400'),
  })
  keepSaid(app.books, act(), 'farm', 2025, { ...said, replaced: { [holdingId]: toCents('2,000') } }, 1)
  const sale = booksYear(app.books, 2025).farm!.sales.sales.find((one) => one.holdingId === holdingId)!
  expect([sale.gainCents, sale.putOffCents, sale.section1231Cents]).toEqual([240_000, 200_000, 40_000])
  const open = (year: number) =>
    yearPackFigures(app.books, year, 'cash', day(`${year}-12-31`))
      .gaps.map(({ says }) => says)
      .filter((says) => says.startsWith('Eight ewes'))
  expect(open(2025)).toEqual([
    'Eight ewes, sold in 2025 because of weather: $2,000.00 of gain are put off for stock of $2,000.00, and $0.00 of it are on the inventory as taking its place. It must be bought by the end of 2027.',
  ])
  expect(open(2027)[0]).toContain('That time is over with this year')

  // Five ewes at 1,200 and three at 900 take their place: 2,000 of gain by cost, 1,142.86 and 857.14. 57.14 and 42.86 are left.
  const inPlace = { assetClass: 'sheep-or-goats' as const, section179Cents: cents(0), bonus: false }
  const more = { depreciation: { ...inPlace, takesPlaceOf: holdingId } }
  farm.hold('Five ewes', 'breeding_stock', '2026-03-01', '1,200', more)
  farm.hold('Three ewes', 'breeding_stock', '2026-04-01', '900', more)
  expect(open(2026)).toEqual([])
  const { rows } = booksYear(app.books, 2026).farm!.inventory
  // 20 percent of what is left in the first year (5-year property, IRS Pub. 946, table A-1).
  expect(
    rows
      .filter(({ holding }) => holding.loweredCents)
      .map(({ holding, deductedThisYearCents, bookCents }) => [
        holding.name,
        holding.loweredCents,
        deductedThisYearCents,
        bookCents,
      ]),
  ).toEqual([
    ['Five ewes', 114_286, 1143, 4571],
    ['Three ewes', 85_714, 857, 3429],
  ])
})

describe('hired help: Forms W-2 and 943 of the year', () => {
  // 14,200 of wages in two pays, Ana 9,000 and Ben 5,200, 7.65 percent kept back of each and owed again; 600 of income tax of Ana’s.
  const pay = (worker: string, gross: number, withheld: number) => {
    const idOf = (name: string) =>
      listAccounts(app.books).find((one) => one.sideId === 'farm' && one.name === name)!.id
    const own = Math.round(gross * 7.65) / 100
    const lines = {
      'Hired labor': gross,
      'Employer’s payroll taxes': own,
      'Social Security and Medicare owed': -2 * own,
    }
    const all = {
      ...lines,
      'Income tax kept back from pay': -withheld,
      'Farm checking': -(gross - own - withheld),
    }
    done(
      postEntry(app.books, act(), {
        sideId: 'farm',
        day: day('2026-06-20'),
        payee: worker,
        memo: '',
        source: 'form',
        lines: Object.entries(all)
          .filter(([, dollars]) => dollars !== 0)
          .map(([name, dollars]) => ({
            accountId: idOf(name),
            amountCents: cents(Math.round(dollars * 100)),
          })),
      }),
    )
  }

  const deposit = (on: string, dollars: number) =>
    done(
      postEntry(app.books, act(), {
        sideId: 'farm',
        day: day(on),
        payee: '',
        memo: '',
        source: 'form',
        lines: [
          ['Social Security and Medicare owed', dollars] as const,
          ['Farm checking', -dollars] as const,
        ].map(([name, amount]) => ({
          accountId: listAccounts(app.books).find((one) => one.sideId === 'farm' && one.name === name)!.id,
          amountCents: cents(Math.round(amount * 100)),
        })),
      }),
    )

  test('by hand', () => {
    pay('Ana', 9000, 600)
    pay('Ben', 5200, 0)
    const said = ['Ana', 'Ben'].map((name) => ({
      name,
      kind: 'worker' as const,
      sameAs: null,
      formOnFile: true,
    }))
    done(sayPayees(app.books, act(), said))
    const { workers, farmPayroll } = peopleFigures(app.books, 2026, currentPlan(app.books))
    // 9,000 × 6.2 and 1.45 percent: 558 and 130.50; 5,200: 322.40 and 75.40.
    expect(
      workers.map(({ name, due, payrollCents }) => [
        name,
        due.socialSecurityCents,
        due.medicareCents,
        payrollCents,
      ]),
    ).toEqual([
      ['Ana', 55_800, 13_050, 68_850],
      ['Ben', 32_240, 7540, 39_780],
    ])
    // Twice 880.40 and twice 205.90, and 600.
    expect(farmPayroll).toMatchObject({
      wagesCents: 1_420_000,
      socialSecurityCents: 176_080,
      medicareCents: 41_180,
      withheldCents: 60_000,
      totalCents: 277_260,
    })
    // On the form: wages on line 22; the employer’s 1,086.30 on line 29 as far as it was paid (26 CFR 1.461-1(a)(1)).
    const expensesOf = (year: number) => booksYear(app.books, year).farm!.form.expenses
    expect(dollarsOf(expensesOf(2026))).toMatchObject({ '22': '14200.00' })
    expect(dollarsOf(expensesOf(2026))).not.toHaveProperty('29')
    // Ana's 1,377 in December, the rest, twice 397.80, in January.
    deposit('2026-12-15', 1377)
    expect(dollarsOf(expensesOf(2026))).toMatchObject({ '22': '14200.00', '29': '688.50' })
    deposit('2027-01-15', 795.6)
    expect(dollarsOf(expensesOf(2026))['29']).toBe('688.50')
    const later = expensesOf(2027).find(({ line }) => line === '29')!
    expect(later.amountCents).toBe(39_780)
    expect(later.note).toContain('$397.80 of payroll taxes of the year before')
  })
})
