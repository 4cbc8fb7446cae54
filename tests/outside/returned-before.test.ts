// A beekeeper's truck loads: what tax returns wrote off before the books began is what the schedule, Form 4797 and the books go on from.
//
// Depreciation: IRS Pub. 946, table A-1, 5-year property (new machinery in use from 2018 on), half-year: 20, 32, 19.2, 11.52, 11.52,
// 5.76 percent; 150 percent declining balance over the same 5 years: 15, 25.5, 17.85, 16.66, 16.66, 8.33 (26 USC 168(b)(2)(D); table
// A sale takes half of its year. Basis: lowered by what was allowed, no less than allowable (26 USC 1016(a)(2)).
import { expect, test } from 'vitest'
import { day } from '#calendar/day.ts'
import { type Holding, stockInventory } from '#ledger/reports/stock-inventory.ts'
import { propertySales } from '#ledger/tax/property-sales.ts'
import { cents, zeroCents } from '#money/cents.ts'

const loader = (returned: number | null, more: Partial<Holding> = {}): Holding => ({
  id: 'loader',
  kind: 'equipment',
  name: 'Hive loader',
  quantity: 1,
  unit: '',
  accountId: null,
  acquiredDay: day('2021-03-20'),
  inServiceDay: null,
  raised: false,
  costCents: cents(2_000_000),
  depreciation: { assetClass: 'machinery-new', section179Cents: zeroCents, bonus: false },
  writtenOffBefore:
    returned === null ? null : { amountCents: cents(Math.round(returned * 100)), through: 2024 },
  marketValueCents: null,
  disposedDay: null,
  disposedForCents: null,
  ...more,
})

const rowOf = (thing: Holding, year = 2025) => stockInventory([thing], year).rows[0]!
const inDollars = (thing: Holding, year = 2025) => {
  const { deductedBeforeCents, deductedThisYearCents, bookCents } = rowOf(thing, year)
  return [deductedBeforeCents, deductedThisYearCents, bookCents].map((one) => one / 100)
}

test('what the table has by then goes on as the table, whole dollars of a return or not', () => {
  // 82.72 percent of 20,000.
  expect(inDollars(loader(null))).toEqual([16_544, 2304, 1152])
  expect(inDollars(loader(16_546))).toEqual([16_546, 2304, 1150])
  expect(inDollars(loader(16_546), 2026)).toEqual([18_850, 1150, 0])
  expect(rowOf(loader(16_546)).returned).toMatchObject({ isTold: true })
})

test('a return by 150 percent is told by its figure, and later years follow that method', () => {
  // 75.01 percent: 15,002; then 16.66 and 8.33 percent.
  const thing = loader(15_002)
  expect(inDollars(thing)).toEqual([15_002, 3332, 1666])
  expect(inDollars(thing, 2026)).toEqual([18_334, 1666, 0])
  expect(rowOf(thing).writeOff).toMatchObject({ method: '150 % declining balance', years: 5 })
})

test('a return by the alternative system is told too: ten years, straight line', () => {
  // 5 + 3 × 10 percent: 7,000; then 2,000 a year (26 USC 168(g)(2); Rev. Proc. 87-56, class 01.1).
  const thing = loader(7000)
  expect(inDollars(thing)).toEqual([7000, 2000, 11_000])
  expect(rowOf(thing).writeOff).toMatchObject({ method: 'straight line', years: 10 })
})

test('more than the table: what is left spreads over the years that are left, as after section 179', () => {
  // 8,000 under section 179, then 82.72 percent of 12,000 = 9,926.40: 17,926.40; 2025 has 11.52 percent of 12,000.
  const thing = loader(17_926.4)
  expect(inDollars(thing)).toEqual([17_926.4, 1382.4, 691.2])
  expect(inDollars(thing, 2026)).toEqual([19_308.8, 691.2, 0])
  expect(rowOf(thing).returned).toMatchObject({ isTold: false, byTableCents: 1_654_400 })
})

test('less than the table and by no method: the years go on, and what was missed is not caught up', () => {
  const thing = loader(12_000)
  expect(inDollars(thing)).toEqual([12_000, 2304, 5696])
  expect(inDollars(thing, 2026)).toEqual([14_304, 1152, 4544])
  expect(inDollars(thing, 2027)).toEqual([15_456, 0, 4544])
})

test('sold: Form 4797 has what was filed and half of the year', () => {
  // 20,000 − 12,000 − 1,152 = 6,848 left; sold for 9,000.
  const sold = loader(12_000, { disposedDay: day('2025-06-10'), disposedForCents: cents(900_000) })
  const [sale] = propertySales(stockInventory([sold], 2025), cents(900_000)).sales
  expect(sale).toMatchObject({ deductedCents: 1_315_200, gainCents: 215_200, ordinaryCents: 215_200 })
})
