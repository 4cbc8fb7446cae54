// Eight cows bought together, of which three are sold, then two, then the rest; and a roof of panels of which half is sold. By hand
// from IRS Pub. 946, table A-1 (5-year property, half-year convention: 20, 32, 19.2, 11.52, 11.52, 5.76 percent; half of a year's
// in the year of a sale), and 26 CFR 1.61-6(a): of a part sold the basis is apportioned.
import { afterEach, beforeEach, expect, test } from 'vitest'
import { day } from '#calendar/day.ts'
import { storedHolding } from '#db/year/holding-list.ts'
import { disposeOf, takePartBack } from '#db/year/holding-parts.ts'
import { writeHoldingValue } from '#db/year/holding-values.ts'
import { saveHolding } from '#db/year-store.ts'
import { heldAtYearEnd } from '#ledger/reports/stock-inventory.ts'
import { cents, sumCents } from '#money/cents.ts'
import { packGround } from '#today/year-pack/pack-ground.ts'
import { act, done, freshBooks, type TestBooks } from '../db/fresh-books.ts'
import { yearBooks, yearParts } from './year-books.ts'

let books: TestBooks
beforeEach(() => {
  books = freshBooks()
  yearBooks(books, 'farm', 'Farm checking', 2024).book({ 'Other farm income': '100' }, {})
  yearBooks(books).book({ 'Other farm income': '100' }, {})
})
afterEach(() => books.close())

const sell = (id: string, quantity: number, on: string, price: string | null) =>
  done(
    disposeOf(books, act(), 'farm', id, {
      quantity,
      disposedDay: day(on),
      disposedForCents: price === null ? null : yearParts.toCents(price),
    }),
  )
const cows = (cost = '14,000', quantity = 8) =>
  yearBooks(books).hold('Dexter cows', 'breeding_stock', '2023-04-10', cost, {
    ...yearParts.by('cattle'),
    quantity,
    unit: 'head',
  }).holdingId
const farmOf = (year: number) => packGround(books, year).read.farm!
const rowsOf = (year: number) =>
  farmOf(year).inventory.rows.map(
    ({ holding, deductedBeforeCents, deductedThisYearCents, bookCents, market }) => ({
      quantity: holding.quantity,
      cost: holding.costCents / 100,
      before: deductedBeforeCents / 100,
      thisYear: deductedThisYearCents / 100,
      left: bookCents / 100,
      market: market && market.cents / 100,
    }),
  )

test('three of eight cows: cost, depreciation, gain and value are split by head, and the five go on', () => {
  const id = cows()
  writeHoldingValue(books, '2025-01-05T00:00:00Z', id, day('2024-12-31'), cents(1_600_000))
  const before = JSON.stringify(rowsOf(2024))
  sell(id, 3, '2025-06-15', '6,300')
  // The year before has all eight in one row, as if nothing had been sold.
  expect(rowsOf(2024)).toEqual([
    { quantity: 8, cost: 14_000, before: 2800, thisYear: 4480, left: 6720, market: 16_000 },
  ])
  expect(JSON.stringify(rowsOf(2024))).toBe(before)
  expect(rowsOf(2025)).toEqual([
    // 3/8 of 14,000 = 5,250; of 7,280 deducted 2,730; half of 19.2 % of 5,250.
    { quantity: 3, cost: 5250, before: 2730, thisYear: 504, left: 0, market: null },
    { quantity: 5, cost: 8750, before: 4550, thisYear: 1680, left: 2520, market: 10_000 },
  ])
  const [sale, ...others] = farmOf(2025).sales.sales
  expect(others).toEqual([])
  // 6,300 − (5,250 − 3,234) = 4,284: what was deducted is ordinary, the rest section 1231 (held 26 months).
  expect(sale).toMatchObject({
    name: 'Dexter cows (3 of 8 head)',
    priceCents: 630_000,
    costCents: 525_000,
    deductedCents: 323_400,
    gainCents: 428_400,
    ordinaryCents: 323_400,
    section1231Cents: 105_000,
    part: 'III',
  })
  expect(farmOf(2025).depreciation).toMatchObject({ earlierCents: 218_400, totalCents: 218_400 })
  // 2026: 11.52 % of 8,750, and the three are gone from the list.
  expect(rowsOf(2026)).toEqual([
    { quantity: 5, cost: 8750, before: 6230, thisYear: 1008, left: 1512, market: 10_000 },
  ])
})

test('sold in three parts, each adds to the whole to the cent, and no later sale moves an earlier year', () => {
  // 10,000.01 by sevenths: 7 × 1,428.572.
  const id = cows('10,000.01', 7)
  const seen = new Map<number, string>()
  const see = (...years: number[]) => {
    for (const year of years) {
      const now = JSON.stringify([
        rowsOf(year),
        farmOf(year).sales.sales,
        farmOf(year).depreciation.totalCents,
      ])
      expect(now, String(year)).toBe(seen.get(year) ?? now)
      seen.set(year, now)
    }
  }
  see(2023, 2024)
  const whole = sumCents(farmOf(2024).inventory.rows.map((row) => row.deductedBeforeCents))
  expect(whole).toBe(200_000)
  sell(id, 2, '2025-03-01', '2,000')
  see(2023, 2024, 2025)
  const after = farmOf(2025).inventory.rows
  expect(sumCents(after.map(({ holding }) => holding.costCents))).toBe(1_000_001)
  expect(sumCents(after.map((row) => row.deductedBeforeCents))).toBe(520_000)
  sell(id, 1, '2026-03-01', '700')
  see(2023, 2024, 2025, 2026)
  sell(id, 4, '2027-03-01', '2,500')
  see(2023, 2024, 2025, 2026)
  // Nothing of the cost is lost: what was deducted and what was left at the sales.
  const all = [2025, 2026, 2027].flatMap((year) => farmOf(year).sales.sales)
  expect(sumCents(all.map((sale) => sale.costCents))).toBe(1_000_001)
  const sumOf = (of: 'priceCents' | 'deductedCents' | 'gainCents') => sumCents(all.map((sale) => sale[of]))
  expect(sumOf('gainCents')).toBe(sumOf('priceCents') - 1_000_001 + sumOf('deductedCents'))
  // By its schedule the whole would have been written off in 2028: the rest that stays to the end has nothing left.
  expect(farmOf(2028).inventory.rows).toEqual([])
})

test('what stays is written off to the last cent', () => {
  const id = cows('10,000.01', 7)
  sell(id, 2, '2025-03-01', null)
  const last = farmOf(2028).inventory.rows
  expect(last).toMatchObject([{ bookCents: 0 }])
  expect(last[0]!.deductedBeforeCents + last[0]!.deductedThisYearCents).toBe(last[0]!.holding.costCents)
})

test('half of a set of panels, section 179 in it, sold in the year it came: that half is not deducted', () => {
  const { holdingId } = yearBooks(books).hold('Solar panels', 'equipment', '2025-02-01', '9,000.01', {
    ...yearParts.by('machinery-new', '4,000'),
    quantity: 1,
    unit: 'set',
  })
  sell(holdingId, 0.5, '2025-11-20', '4,000')
  const { inventory, depreciation, sales } = farmOf(2025)
  // 26 CFR 1.168(d)-1(b)(3)(ii): none for property placed in service and disposed of in one year.
  expect(sales.sales).toMatchObject([
    {
      name: 'Solar panels (0.5 of 1 set)',
      costCents: 450_001,
      deductedCents: 0,
      gainCents: -50_001,
      ordinaryCents: -50_001,
    },
  ])
  expect(depreciation.section179.electedCents).toBe(200_000)
  // (4,500.00 − 2,000) × 20 %.
  expect(inventory.rows.find(({ holding }) => heldAtYearEnd(holding, 2025))).toMatchObject({
    deductedThisYearCents: 250_000,
    bookCents: 200_000,
  })
})

test('stock for sale: the part that is sold leaves what waits at the year’s end', () => {
  const { holdingId } = yearBooks(books).hold('Feeder pigs', 'market_stock', '2025-05-01', '900', {
    quantity: 6,
  })
  sell(holdingId, 4, '2025-10-01', '2,000')
  expect(farmOf(2025).inventory.resale).toEqual({ beginCents: 0, endCents: 30_000 })
})

test('what cannot be: more than is left, before it came, all of it as a part; and a part taken back is as it was', () => {
  const id = cows()
  const asked = (quantity: number, on = '2025-06-15') => {
    const outcome = disposeOf(books, act(), 'farm', id, {
      quantity,
      disposedDay: day(on),
      disposedForCents: null,
    })
    return outcome.ok ? [] : outcome.problems.map(({ path }) => path)
  }
  expect(asked(9)).toEqual(['quantity'])
  expect(asked(0)).toEqual(['quantity'])
  expect(asked(3, '2023-04-01')).toEqual(['disposedDay'])
  const before = JSON.stringify(farmOf(2025).inventory)
  const { partId } = sell(id, 3, '2025-06-15', '6,300')
  expect(asked(6)).toEqual(['quantity'])
  // The rest on an earlier day than the part.
  expect(asked(5, '2025-06-01')).toEqual(['disposedDay'])
  const { parts: _, ...kept } = storedHolding(books, 'farm', id)!
  const changed = saveHolding(
    books,
    act(),
    'farm',
    { ...kept, quantity: 3, acquiredDay: day('2025-07-01') },
    id,
  )
  expect(changed.ok ? [] : changed.problems.map(({ path }) => path)).toEqual(['quantity', 'acquiredDay'])
  done(takePartBack(books, act(), 'farm', id, partId!))
  expect(JSON.stringify(farmOf(2025).inventory)).toBe(before)
})
