// The year's reports on made-up books: each statement closes, crossings cancel, and the lines are those a preparer expects.
import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { day } from '#calendar/day.ts'
import { accrualYear } from '#ledger/reports/accrual.ts'
import { balanceSheet } from '#ledger/reports/balance-sheet.ts'
import type { BookYear } from '#ledger/reports/book-year.ts'
import { cashFlow } from '#ledger/reports/cash-flow.ts'
import { crossingsByMonth } from '#ledger/reports/crossings-by-month.ts'
import { incomeStatement } from '#ledger/reports/income-statement.ts'
import { measuresOfYear } from '#ledger/reports/measures-of-year.ts'
import { ownerEquity } from '#ledger/reports/owner-equity.ts'
import { scheduleF } from '#ledger/reports/schedule-f.ts'
import { gainOnSale, type Holding, stockInventory } from '#ledger/reports/stock-inventory.ts'
import { together } from '#ledger/reports/together.ts'
import { type Cents, cents } from '#money/cents.ts'
import { MadeBooks } from './made-books.ts'
import { noExtras } from './no-extras.ts'

const aFarmYear = (): MadeBooks => {
  const books = new MadeBooks()
  books.post('farm', 0, 'Farm checking', 'Opening balances', 8000)
  books.post('farm', 0, 'Machinery and equipment', 'Opening balances', 12_000)
  books.post('farm', 0, 'Opening balances', 'Term loan', 6000)
  books.post('household', 0, 'Savings', 'Opening balances', 90_000)
  books.post('farm', 6, 'Farm checking', 'Vegetables and fruit sold', 24_000)
  books.post('farm', 7, 'Farm checking', 'CSA shares', 9000)
  books.post('farm', 8, 'Farm checking', 'Livestock bought for resale, sold', 2000)
  books.post('farm', 4, 'Cost of livestock bought for resale', 'Farm checking', 1100)
  books.post('farm', 3, 'Seeds and plants', 'Farm card', 3200)
  books.post('farm', 5, 'Farm card', 'Farm checking', 3200)
  books.post('farm', 5, 'Hired labor', 'Farm checking', 5000)
  books.post('farm', 9, 'Term loan', 'Farm checking', 1500)
  books.post('farm', 9, 'Other interest', 'Farm checking', 300)
  books.post('farm', 12, 'Depreciation', 'Depreciation taken', 2400)
  books.post('farm', 10, 'Farm checking', 'Breeding stock and equipment sold', 700)
  books.post('farm', 2, 'Machinery and equipment', 'Farm checking', 4000)
  // A draw of 6,000, a contribution of 1,000 and 400 of goods used at home: each in both books.
  books.post('farm', 9, 'draws', 'Farm checking', 6000)
  books.post('household', 9, 'Household checking', 'draws', 6000)
  books.post('household', 2, 'contributions', 'Household checking', 1000)
  books.post('farm', 2, 'Farm checking', 'contributions', 1000)
  books.post('farm', 7, 'goods', 'Value of goods used at home', 400)
  books.post('household', 7, 'Food from the farm', 'goods', 400)
  books.post('household', 1, 'Household checking', 'Off-farm pay', 30_000)
  books.post('household', 1, 'Groceries', 'Household checking', 14_000)
  books.post('household', 1, 'Health premiums', 'Household checking', 5000)
  books.post('household', 4, 'Federal taxes', 'Household checking', 3000)
  return books
}

const equityOf = (side: BookYear) =>
  ownerEquity(side, {
    begin: balanceSheet(side, 'begin', noExtras),
    end: balanceSheet(side, 'end', noExtras),
    income: incomeStatement(side),
  })

const amounts = (lines: readonly { label: string; amountCents: Cents }[]) =>
  Object.fromEntries(lines.map((line) => [line.label, line.amountCents / 100]))

describe('Schedule F summary', () => {
  const form = scheduleF(aFarmYear().side('farm'))
  test('income by line, resale stock less its cost, expenses by line, net on line 34', () => {
    expect(form.income.map(({ line, amountCents }) => [line, amountCents / 100])).toEqual([
      ['1a', 2000],
      ['1b', 1100],
      ['2', 33_000],
    ])
    expect(form.grossIncomeCents).toBe(3_390_000)
    expect(form.expenses.map(({ line, amountCents }) => [line, amountCents / 100])).toEqual([
      ['14', 2400],
      ['21b', 300],
      ['22', 5000],
      ['26', 3200],
    ])
    expect(form.netProfitCents).toBe(3_390_000 - 1_090_000)
  })
  test('a line says which accounts it is made of', () => {
    expect(
      amounts(form.income[2]!.accounts.map(({ name, amountCents }) => ({ label: name, amountCents }))),
    ).toEqual({
      'Vegetables and fruit sold': 24_000,
      'CSA shares': 9000,
    })
  })
  test('breeding stock sold and goods used at home stand beside the form', () => {
    expect(amounts(form.beside)).toEqual({
      'Breeding stock and equipment sold': 700,
      'Value of goods used at home': 400,
    })
  })
  test('the depreciation schedule takes the place of what was booked', () => {
    const changed = scheduleF(aFarmYear().side('farm'), cents(500_000))
    expect(changed.netProfitCents).toBe(form.netProfitCents + 240_000 - 500_000)
    expect(changed.depreciation).toEqual({ bookedCents: 240_000, scheduleCents: 500_000 })
  })
})

describe('income statement', () => {
  test('cash basis: revenue, costs, interest, depreciation and capital sales make the net income of the books', () => {
    const statement = incomeStatement(aFarmYear().side('farm'))
    expect(statement.revenue.totalCents).toBe(3_430_000)
    expect(statement.expenses.totalCents).toBe(820_000)
    expect(statement.interest.totalCents).toBe(30_000)
    expect(statement.depreciation.totalCents).toBe(240_000)
    expect(statement.capital.totalCents).toBe(70_000)
    expect(statement.netIncomeCents).toBe(2_410_000)
    expect(statement.cashNetIncomeCents).toBe(statement.netIncomeCents)
  })
  test('accrual adjusted: what is owed to us and unsold raises it, bills and interest owed lower it, things paid ahead raise it', () => {
    const item = (
      kind: 'receivable' | 'inventory' | 'prepaid' | 'payable' | 'accrued_interest',
      dollars: number,
    ) => ({
      kind,
      name: kind,
      amountCents: cents(dollars * 100),
    })
    const accrual = accrualYear(
      [item('receivable', 500), item('payable', 200)],
      [
        item('receivable', 900),
        item('inventory', 1500),
        item('prepaid', 250),
        item('payable', 650),
        item('accrued_interest', 40),
      ],
    )
    const statement = incomeStatement(aFarmYear().side('farm'), accrual)
    expect(statement.netIncomeCents - statement.cashNetIncomeCents).toBe((400 + 1500 + 250 - 450 - 40) * 100)
    expect(statement.basis).toBe('accrual adjusted')
  })
})

describe('balance sheet', () => {
  const farm = aFarmYear().side('farm')
  const idOf = (name: string) => farm.accounts.find(({ account }) => account.name === name)!.account.id
  test('what is owned less what is owed is the owners’ equity, at both ends', () => {
    const equity = equityOf(farm)
    expect(balanceSheet(farm, 'begin', noExtras).equity.costCents).toBe(equity.beginCents)
    expect(balanceSheet(farm, 'end', noExtras).equity.costCents).toBe(equity.endCents)
  })
  test('the part of a loan that falls due within twelve months is current', () => {
    const sheet = balanceSheet(farm, 'end', {
      ...noExtras,
      dueWithinYear: new Map([[idOf('Term loan'), cents(150_000)]]),
    })
    expect(sheet.currentLiabilities.costCents).toBe(150_000)
    expect(sheet.otherLiabilities.costCents).toBe(300_000)
  })
  test('market column: recorded values, no depreciation taken twice, deferred tax on the gain', () => {
    const sheet = balanceSheet(farm, 'end', {
      ...noExtras,
      marketByAccount: new Map([
        [idOf('Machinery and equipment'), { day: day('2026-12-31'), amountCents: cents(1_800_000) }],
      ]),
      things: [
        {
          id: 'tractor',
          name: 'Tractor',
          accountId: idOf('Machinery and equipment'),
          costCents: cents(1_600_000),
          deductedCents: cents(240_000),
          isUntold: false,
          values: [],
          goneOn: null,
        },
      ],
      unbooked: [
        {
          id: 'ewes',
          name: 'Ewes, raised',
          value: { day: null, amountCents: cents(300_000) },
          current: false,
          standsFor: ['raised_base'],
        },
      ],
      deferredTaxRate: 0.2,
    })
    expect(sheet.otherAssets.costCents).toBe(1_360_000)
    expect(sheet.otherAssets.marketCents).toBe(2_100_000)
    expect(sheet.deferredTax.taxCents).toBe(148_000)
    expect(sheet.equity.marketCents - sheet.equity.costCents).toBe(740_000 - 148_000)
  })
})

// The home is worth 93,000 more than it cost: no tax on that. Of 61,500 in a traditional account all is taxed as it comes out, of
// 5,000 in a Roth nothing; 15 % of 61,500.
test('deferred tax of a household: traditional accounts whole, Roth, home and cars not', () => {
  const household = aFarmYear().side('household')
  const idIn = (name: string) => household.accounts.find(({ account }) => account.name === name)!.account.id
  const worth = (dollars: number) => ({ day: day('2026-12-31'), amountCents: cents(dollars * 100) })
  const sheet = balanceSheet(household, 'end', {
    ...noExtras,
    marketByAccount: new Map([
      [idIn('Home'), worth(93_000)],
      [idIn('Vehicles'), worth(4000)],
      [idIn('Retirement, traditional'), worth(61_500)],
      [idIn('Retirement, Roth'), worth(5000)],
    ]),
    deferredTaxRate: 0.15,
  })
  expect(sheet.deferredTax).toMatchObject({ gainCents: 6_150_000, taxCents: 922_500 })
})

test('owner’s equity: start, net income, contributions, draws, goods, end', () => {
  const equity = equityOf(aFarmYear().side('farm'))
  expect(equity.beginCents).toBe(1_400_000)
  expect(amounts(equity.crossings)).toEqual({
    'Owner’s contributions': 1000,
    'Owner’s draws': -6000,
    'Farm goods used at home': -400,
  })
  expect(equity.endCents).toBe(1_400_000 + 2_410_000 + 100_000 - 600_000 - 40_000)
})

describe('cash flow', () => {
  test('operating, investing and financing activities make the change of money; booked depreciation moves none', () => {
    // The three headings of a statement of cash flows, draws and contributions among the financing (FFSC guidelines, from memory).
    const flow = cashFlow(aFarmYear().side('farm'))
    expect([flow.operations, flow.investing, flow.financing].map(({ title }) => title)).toEqual([
      'Operating activities',
      'Investing activities',
      'Financing activities',
    ])
    expect(flow.operations.totalCents).toBe((33_000 + 2000 - 1100 - 3200 - 5000 - 300) * 100)
    expect(flow.investing.totalCents).toBe(-400_000 + 70_000)
    expect(amounts(flow.investing.lines)).toEqual({
      'Machinery and equipment': -4000,
      'Breeding stock and equipment sold': 700,
    })
    expect(flow.financing.totalCents).toBe(-150_000 + (1000 - 6000) * 100)
    // Goods used at home are on no line, neither as what they are worth nor as the crossing.
    expect(flow.financing.lines.map(({ label, amountCents }) => [label, amountCents / 100])).toEqual([
      ['Term loan', -1500],
      ['draws', -6000],
      ['contributions', 1000],
    ])
    expect(flow.crossings.lines).toEqual([])
    expect(flow.endCents).toBe(flow.beginCents + flow.changeCents)
    expect(flow.byMonth.reduce((a, b) => a + b, 0)).toBe(flow.changeCents)
  })
})

test('crossings by month, each pair once', () => {
  const books = aFarmYear()
  const [pair, ...others] = crossingsByMonth([books.side('farm'), books.side('household')])
  expect(others).toEqual([])
  expect([pair!.draws[8], pair!.contributions[1], pair!.goods[6]]).toEqual([600_000, 100_000, 40_000])
})

test('together: crossings are gone, goods used at home are neither income nor cost', () => {
  const books = aFarmYear()
  const whole = together([books.side('farm'), books.side('household')])
  const statement = incomeStatement(whole)
  expect(statement.revenue.lines.map(({ label }) => label)).not.toContain('Value of goods used at home')
  expect(statement.netIncomeCents).toBe((24_100 - 400 + 30_000 - 14_000 - 5000 - 3000) * 100)
  expect(cashFlow(whole).crossings.lines).toEqual([])
  expect(equityOf(whole).crossings).toEqual([])
})

test('together: goods given for something of the household stay a sale and a cost, and no value of goods is below zero', () => {
  const books = aFarmYear()
  // Lamb for 150 of roof work: the farm sold it to the roofer, the household bought his work with it.
  books.post('farm', 9, 'goods', 'Vegetables and fruit sold', 150)
  books.post('household', 9, 'Groceries', 'goods', 150)
  const statement = incomeStatement(together([books.side('farm'), books.side('household')]))
  const before = incomeStatement(together([aFarmYear().side('farm'), aFarmYear().side('household')]))
  const lines = [...statement.revenue.lines, ...statement.expenses.lines]
  expect(lines.map(({ label }) => label)).not.toContain('Value of goods used at home')
  expect(lines.map(({ label }) => label)).not.toContain('Food from the farm')
  expect(statement.netIncomeCents).toBe(before.netIncomeCents)
  const sold = (one: typeof statement) =>
    one.revenue.lines.find(({ label }) => label === 'Vegetables and fruit sold')!.amountCents
  expect(sold(statement) - sold(before)).toBe(15_000)
})

test('measures are taken from the statements, at cost and at market', () => {
  const books = aFarmYear()
  const farm = books.side('farm')
  const measures = measuresOfYear({
    begin: balanceSheet(farm, 'begin', noExtras),
    end: balanceSheet(farm, 'end', noExtras),
    income: incomeStatement(farm),
    farm,
    household: books.side('household'),
    ventures: [],
    unpaidLaborCents: cents(1_000_000),
    replacementCents: cents(0),
  })
  const value = (id: string) => measures.cost.find((measure) => measure.id === id)!.value
  expect(value('netFarmIncome')).toBe(2_410_000)
  // Without the 700 of gain on capital sales, which is in net farm income.
  expect(value('repaymentCapacity')).toBe(2_340_000 + 3_000_000 + 240_000 - 300_000 - 1_900_000 - 40_000)
  expect(value('termDebtCoverage')).toBeCloseTo(33_400 / 1500, 9)
})

describe('on any books', () => {
  const names = (side: 'farm' | 'household') => {
    const own = [...new MadeBooks().rows.values()].filter(
      ({ account }) => account.sideId === side && account.crossingRole === null,
    )
    return own.map(({ account }) => account.name).filter((name) => !/^(Value of goods|Food from)/.test(name))
  }
  const entry = fc.oneof(
    fc.record({
      side: fc.constant('farm' as const),
      debit: fc.constantFrom(...names('farm')),
      credit: fc.constantFrom(...names('farm')),
      month: fc.nat(12),
      amount: fc.integer({ min: 1, max: 999_999 }),
    }),
    fc.record({
      side: fc.constant('household' as const),
      debit: fc.constantFrom(...names('household')),
      credit: fc.constantFrom(...names('household')),
      month: fc.nat(12),
      amount: fc.integer({ min: 1, max: 999_999 }),
    }),
  )
  const crossing = fc.record({
    role: fc.constantFrom('draws', 'contributions', 'reimbursements', 'goods', 'loan'),
    month: fc.nat(12),
    amount: fc.integer({ min: 1, max: 999_999 }),
  })

  test('every statement closes, and together crossings cancel', () => {
    fc.assert(
      fc.property(
        fc.array(entry, { maxLength: 40 }),
        fc.array(crossing, { maxLength: 12 }),
        (entries, crossings) => {
          const books = new MadeBooks()
          for (const one of entries) books.post(one.side, one.month, one.debit, one.credit, one.amount / 100)
          for (const { role, month, amount } of crossings) cross(books, role, month, amount / 100)
          const sides = [books.side('farm'), books.side('household')]
          for (const side of [...sides, together(sides)]) {
            const equity = equityOf(side)
            expect(balanceSheet(side, 'end', noExtras).equity.costCents).toBe(equity.endCents)
            expect(incomeStatement(side).netIncomeCents).toBe(equity.netIncomeCents)
            expect(cashFlow(side).endCents).toBe(cashFlow(side).beginCents + cashFlow(side).changeCents)
          }
          const net = (side: BookYear) => incomeStatement(side).netIncomeCents
          expect(net(together(sides))).toBe(net(sides[0]!) + net(sides[1]!))
        },
      ),
      { seed: 20261125, numRuns: 150 },
    )
  })

  const cross = (books: MadeBooks, role: string, month: number, dollars: number) => {
    if (role === 'goods') {
      books.post('farm', month, 'goods', 'Value of goods used at home', dollars)
      books.post('household', month, 'Food from the farm', 'goods', dollars)
    } else if (role === 'contributions') {
      books.post('household', month, 'contributions', 'Savings', dollars)
      books.post('farm', month, 'Farm checking', 'contributions', dollars)
    } else if (role === 'loan') {
      books.post('household', month, 'lent', 'Savings', dollars)
      books.post('farm', month, 'Farm checking', 'borrowed', dollars)
    } else {
      books.post('farm', month, role, 'Farm checking', dollars)
      books.post('household', month, 'Savings', role, dollars)
    }
  }

  test('books whose crossings do not match are refused with the amount', () => {
    const books = aFarmYear()
    books.post('farm', 3, 'draws', 'Farm checking', 5)
    expect(() => together([books.side('farm'), books.side('household')])).toThrow(/off by 500 cents/)
  })
})

describe('inventory', () => {
  const holding = (more: Partial<Holding>): Holding => ({
    id: 'a',
    kind: 'equipment',
    name: 'Walking tractor',
    quantity: 1,
    unit: '',
    accountId: null,
    acquiredDay: day('2025-03-01'),
    inServiceDay: null,
    raised: false,
    costCents: cents(1_000_000),
    depreciation: { assetClass: 'machinery-new', section179Cents: cents(0), bonus: false },
    marketValueCents: null,
    disposedDay: null,
    disposedForCents: null,
    ...more,
  })
  test('depreciation of the year, of earlier years, and what is left', () => {
    const [row] = stockInventory([holding({})], 2026).rows
    expect([row!.deductedBeforeCents, row!.deductedThisYearCents, row!.bookCents]).toEqual([
      200_000, 320_000, 480_000,
    ])
  })
  test('a machine in use since before the tables of 1989 is written off; its sale is gain in full', () => {
    const old = holding({ id: 'old', acquiredDay: day('1974-05-01') })
    const [row] = stockInventory([old, holding({})], 2026).rows
    expect([row!.deductedBeforeCents, row!.deductedThisYearCents, row!.bookCents]).toEqual([1_000_000, 0, 0])
    const sold = stockInventory(
      [{ ...old, disposedDay: day('2026-06-01'), disposedForCents: cents(70_000) }],
      2026,
    ).rows[0]!
    expect(gainOnSale(sold)).toBe(70_000)
  })
  test('a bonus of years that are not kept is not taken; what was deducted at once then stands for it', () => {
    const barn = (bonus: boolean) =>
      stockInventory(
        [
          holding({
            acquiredDay: day('2014-05-01'),
            depreciation: { assetClass: 'farm-building', section179Cents: cents(0), bonus },
          }),
        ],
        2026,
      ).rows[0]!
    expect(barn(true)).toMatchObject({ bookCents: barn(false).bookCents })
    expect(barn(true).bookCents).toBeGreaterThan(0)
  })
  test('raised ewes have no cost to write off and are gain in full when sold', () => {
    const ewes = holding({
      kind: 'breeding_stock',
      raised: true,
      depreciation: null,
      costCents: cents(0),
      disposedDay: day('2026-09-01'),
      disposedForCents: cents(72_000),
    })
    const inventory = stockInventory([ewes], 2026)
    expect(inventory.depreciationCents).toBe(0)
    expect(gainOnSale(inventory.rows[0]!)).toBe(72_000)
  })
  test('a machine sold in the year takes half its deduction and tells the gain', () => {
    const inventory = stockInventory(
      [holding({ disposedDay: day('2026-06-01'), disposedForCents: cents(700_000) })],
      2026,
    )
    expect(inventory.rows[0]!.deductedThisYearCents).toBe(160_000)
    expect(gainOnSale(inventory.rows[0]!)).toBe(700_000 - 640_000)
    expect(stockInventory([holding({ disposedDay: day('2025-06-01') })], 2026).rows).toEqual([])
  })
})
