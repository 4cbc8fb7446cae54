// Random books of a farm, a household and a venture over two years, as people fill them: what is drawn.
import fc from 'fast-check'
import type { CrossingKind } from '#ledger/crossing-kind.ts'
import { accrualKinds } from '#ledger/reports/accrual.ts'

export const bookedYears = [2025, 2026] as const
type Year = (typeof bookedYears)[number]

export const sides = ['farm', 'household', 'venture-mill'] as const
export type Side = (typeof sides)[number]

const amount = fc.integer({ min: 1, max: 4_000_000 })
const pick = fc.nat(999)
const when = fc.record({
  year: fc.constantFrom(...bookedYears),
  month: fc.integer({ min: 1, max: 12 }),
  date: fc.integer({ min: 1, max: 28 }),
})
export type When = { year: Year; month: number; date: number }

/** Any two accounts of a side, so that what no form books stands in the books too; and what people do every week. */
const posted = fc.record({
  side: fc.constantFrom(...sides),
  on: when,
  debit: pick,
  credit: pick,
  amount,
  how: fc.constantFrom('any', 'sale', 'sale', 'cost', 'cost', 'barter', 'trade', 'loan', 'loanPaid'),
})
const crossed = fc.record({
  kind: fc.constantFrom<CrossingKind>(
    'draw',
    'contribution',
    'reimbursement',
    'loan',
    'repayment',
    'goods_used_at_home',
  ),
  business: fc.constantFrom('farm' as const, 'venture-mill' as const),
  on: when,
  /** Of a contribution: paid for by the household, and a cost of the business. */
  pays: fc.constantFrom('money', 'cost'),
  pick,
  amount,
})
const thing = fc.record({
  side: fc.constantFrom('farm' as const, 'farm' as const, 'venture-mill' as const),
  kind: fc.constantFrom(
    'equipment',
    'pickup',
    'breeding_stock',
    'raised',
    'market_stock',
    'market_stock',
    'land',
    'produce',
  ),
  bought: when,
  /** In the year before the books, when it is opened with them. */
  isOpened: fc.boolean(),
  cost: amount,
  section179: fc.double({ min: 0, max: 1, noNaN: true }),
  bonus: fc.boolean(),
  use: fc.integer({ min: 10, max: 99 }),
  sold: fc.option(fc.record({ year: fc.constantFrom(...bookedYears), price: amount }), { nil: null }),
  /** Parts of it sold before: of eight, so many. What is driven privately too is sold as a whole. */
  parts: fc.array(
    fc.record({
      year: fc.constantFrom(...bookedYears),
      month: fc.integer({ min: 1, max: 11 }),
      count: fc.integer({ min: 1, max: 3 }),
      price: amount,
    }),
    { maxLength: 2 },
  ),
  /** A sale whose cost is taken off the accounts, as the program books it. */
  isTakenOff: fc.boolean(),
  values: fc.array(fc.record({ year: fc.constantFrom(2024, ...bookedYears), amount }), { maxLength: 2 }),
})
const paid = fc.record({
  on: when,
  gross: fc.integer({ min: 20_000, max: 900_000 }),
  isDeposited: fc.boolean(),
})
const item = fc.record({
  side: fc.constantFrom(...sides),
  year: fc.constantFrom(2024, ...bookedYears),
  kind: fc.constantFrom(...accrualKinds),
  amount,
})
const said = fc.record({
  untaxed: fc.integer({ min: 0, max: 20_000 }),
  cropPutOff: fc.integer({ min: 0, max: 50_000 }),
  prepaid: fc.integer({ min: 0, max: 900_000 }),
  weather: fc.option(fc.constantFrom('raised' as const, 'bought' as const), { nil: null }),
  loansReceived: fc.integer({ min: 0, max: 90_000 }),
  by: fc.constantFrom('costs' as const, 'miles' as const),
  miles: fc.option(fc.integer({ min: 0, max: 9000 }), { nil: null }),
  home: fc.option(fc.integer({ min: 1, max: 400 }), { nil: null }),
})

export const randomHousehold = fc.record({
  opened: fc.array(fc.record({ side: fc.constantFrom(...sides), pick, amount }), { maxLength: 12 }),
  opensOn: fc.constantFrom('2024-12-31', '2025-04-01'),
  entries: fc.array(posted, { maxLength: 30 }),
  crossings: fc.array(crossed, { maxLength: 8 }),
  things: fc.array(thing, { maxLength: 6 }),
  pays: fc.array(paid, { maxLength: 3 }),
  items: fc.array(item, { maxLength: 8 }),
  market: fc.array(fc.record({ year: fc.constantFrom(2024, ...bookedYears), pick, amount }), {
    maxLength: 4,
  }),
  said: fc.option(said, { nil: null }),
  rate: fc.constantFrom(null, 0.25),
})
export type RandomHousehold = typeof randomHousehold extends fc.Arbitrary<infer One> ? One : never
export type Thing = RandomHousehold['things'][number]
