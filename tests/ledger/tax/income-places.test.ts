// Every dollar of income in the books stands on a line or is left out with why, and worksheet and inventory hold the same dollars.
import fc from 'fast-check'
import { expect, test } from 'vitest'
import { day } from '#calendar/day.ts'
import type { Account, SideKind } from '#ledger/account.ts'
import { type BookYear, changeOf } from '#ledger/reports/book-year.ts'
import { incomeOfYear } from '#ledger/reports/income-of-year.ts'
import { scheduleC } from '#ledger/reports/schedule-c.ts'
import { scheduleF } from '#ledger/reports/schedule-f.ts'
import { type Holding, stockInventory } from '#ledger/reports/stock-inventory.ts'
import { linesFor } from '#ledger/schedule-lines.ts'
import { incomePlaces } from '#ledger/tax/income-places.ts'
import { propertySales } from '#ledger/tax/property-sales.ts'
import { cents, centsToDollars, sumCents, zeroCents } from '#money/cents.ts'
import { blankAccount } from '../blank-account.ts'

/** An account of income as a person may have it: any line the form offers or one it does not, any purpose, a role of the program's. */
const incomeAccounts = (kind: SideKind) =>
  fc.array(
    fc.record({
      scheduleLine: fc.constantFrom(null, '9', ...linesFor(kind, 'income').map(({ line }) => line)),
      purpose: kind === 'household' ? fc.constantFrom(null, 'pay', 'benefit', 'interest') : fc.constant(null),
      taxKind: kind === 'household' ? fc.constantFrom(null, 'unrealized') : fc.constant(null),
      systemRole:
        kind === 'household'
          ? fc.constantFrom(null, 'unsorted_in')
          : fc.constantFrom(null, null, 'unsorted_in', 'goods_value'),
      months: fc.array(fc.integer({ min: -200_000, max: 900_000 }), { minLength: 12, maxLength: 12 }),
    }),
    { maxLength: 8 },
  )

const side = (kind: SideKind, rows: readonly { months: readonly number[] }[]): BookYear => ({
  sideId: kind === 'venture' ? 'venture-a' : kind,
  kind,
  name: kind,
  year: 2025,
  accounts: rows.map(({ months, ...row }, i) => ({
    account: {
      ...blankAccount,
      ...(row as Partial<Account>),
      id: i + 1,
      name: `${kind} ${i}`,
      sideId: kind === 'venture' ? 'venture-a' : kind,
    },
    openingCents: zeroCents,
    monthsCents: months.map((sum) => cents(-sum)),
    paidDownCents: zeroCents,
    termInterestCents: cents(0),
    withoutMoneyCents: cents(0),
  })),
})

const holdings = fc.array(
  fc.record({
    kind: fc.constantFrom('breeding_stock', 'equipment', 'land', 'market_stock'),
    raised: fc.boolean(),
    cost: fc.integer({ min: 0, max: 900_000 }),
    price: fc.option(fc.integer({ min: 0, max: 900_000 }), { nil: null }),
    sold: fc.boolean(),
  }),
  { maxLength: 5 },
)

const holding = (
  made: { kind: string; raised: boolean; cost: number; price: number | null; sold: boolean },
  i: number,
): Holding => ({
  id: String(i),
  kind: made.kind as Holding['kind'],
  name: `thing ${i}`,
  quantity: 1,
  unit: '',
  accountId: null,
  acquiredDay: day('2020-03-01'),
  inServiceDay: null,
  raised: made.raised,
  costCents: cents(made.raised ? 0 : made.cost),
  depreciation: null,
  marketValueCents: null,
  disposedDay: made.sold ? day('2025-08-01') : null,
  disposedForCents: made.sold && made.price !== null ? cents(made.price) : null,
})

test('income in the books is income on lines and income left out; books, worksheet and inventory hold the same dollars', () => {
  fc.assert(
    fc.property(
      incomeAccounts('farm'),
      incomeAccounts('household'),
      incomeAccounts('venture'),
      holdings,
      (farm, home, venture, things) => {
        const sides = [side('farm', farm), side('household', home), side('venture', venture)]
        const places = incomePlaces(sides)
        const of = (form: string, line?: string) =>
          sumCents(
            places
              .filter(({ goes }) => goes?.form === form && (line === undefined || goes.line === line))
              .map(({ amountCents }) => amountCents),
          )
        const inBooks = -sumCents(sides.flatMap((one) => one.accounts.map(changeOf)))
        expect(sumCents(places.map(({ amountCents }) => amountCents)) + 0).toBe(inBooks + 0)

        const form = scheduleF(sides[0]!)
        expect(of('Schedule F') + 0).toBe(form.grossIncomeCents + 0)
        const ofVenture = scheduleC(sides[2]!)
        expect(of('Form 4797') + 0).toBe(form.capitalSalesCents + ofVenture.capitalSalesCents)
        const ventureSales = propertySales(stockInventory([], 2025), ofVenture.capitalSalesCents)

        const sales = propertySales(stockInventory(things.map(holding), 2025), form.capitalSalesCents)
        const prices = sumCents(sales.sales.map(({ priceCents }) => priceCents))
        expect(prices).toBe(Math.max(sales.recordedCents, form.capitalSalesCents))
        expect(sumCents(sales.sales.map(({ gainCents }) => gainCents))).toBe(
          sales.ordinaryCents + sales.section1231Cents,
        )

        const { pay, interest, lines, farmGross, ventureProfit, sold } = incomeOfYear(sides, form, sales, [
          { form: ofVenture, person: null, sales: ventureSales },
        ])
        const all = sales.section1231Cents + sales.ordinaryCents + ventureSales.section1231Cents
        expect(sold.section1231 + sold.ordinary).toBeCloseTo(centsToDollars(cents(all)), 2)
        const dollars = (form: string, ...of1040: string[]) =>
          centsToDollars(sumCents(of1040.map((line) => of(form, line))))
        const home1040 = (...of1040: string[]) => dollars('Form 1040', ...of1040)
        expect(farmGross).toBeCloseTo(centsToDollars(of('Schedule F')), 2)
        expect(ventureProfit).toBeCloseTo(centsToDollars(of('Schedule C')) + unsortedOf(sides[2]!), 2)
        expect(pay).toBeCloseTo(home1040('1a'), 2)
        expect(interest).toBeCloseTo(home1040('2b'), 2)
        expect(lines.ordinaryDividends).toBeCloseTo(home1040('3a', '3b'), 2)
        expect(lines.other).toBeCloseTo(home1040('S1-7', 'S1-8'), 2)
        expect(lines.pensions + lines.iraDistributions + lines.socialSecurity).toBeCloseTo(
          home1040('5b', '4b', '6a'),
          2,
        )
        // What is left out says why.
        for (const { goes, says } of places) if (goes === null) expect(says).not.toBe('')
      },
    ),
    { numRuns: 200 },
  )
})

/** What waits to be sorted in a venture's books counts in its profit, dollars: rather too much is set aside than too little. */
const unsortedOf = ({ accounts }: BookYear): number =>
  -centsToDollars(
    sumCents(accounts.filter(({ account }) => account.systemRole === 'unsorted_in').map(changeOf)),
  )
