// Statements of random years, with year-end items and market values: rows are accounts, and equity moves by what is told and nothing else.
import fc from 'fast-check'
import { expect, test } from 'vitest'
import { day } from '#calendar/day.ts'
import { type AccrualItem, accrualDefinitions, accrualKinds, accrualYear } from '#ledger/reports/accrual.ts'
import { type BalanceExtras, type BalanceSheet, balanceSheet } from '#ledger/reports/balance-sheet.ts'
import { type BookYear, closingOf } from '#ledger/reports/book-year.ts'
import { incomeStatement } from '#ledger/reports/income-statement.ts'
import { type DatedValue, type HeldThing, valueOn } from '#ledger/reports/market-values.ts'
import { ownerEquity } from '#ledger/reports/owner-equity.ts'
import { together } from '#ledger/reports/together.ts'
import { cents } from '#money/cents.ts'
import { MadeBooks } from './made-books.ts'

/** Accounts beside the usual ones: two of one name on two sides, and what turns over within a year. */
const madeBooks = () => {
  const books = new MadeBooks()
  books.add('farm', { number: 2250, name: 'Mortgage', kind: 'liability' })
  books.add('farm', { number: 1400, name: 'Feed on hand', kind: 'asset', currentKind: 'supplies' })
  books.add('farm', { number: 2400, name: 'Shares paid ahead', kind: 'liability', currentKind: 'customers' })
  books.add('household', { number: 1300, name: 'Machinery and equipment', kind: 'asset' })
  books.add('household', { number: 3500, name: 'Inherited', kind: 'equity' })
  return books
}
const namesOf = (side: 'farm' | 'household') =>
  [...madeBooks().rows.values()]
    .filter(({ account }) => account.sideId === side && account.crossingRole === null)
    .map(({ account }) => account.name)
    .filter((name) => !/^(Value of goods|Food from)/.test(name))

const amount = fc.integer({ min: 1, max: 9_999_999 })
const posted = (side: 'farm' | 'household') =>
  fc.record({
    side: fc.constant(side),
    debit: fc.constantFrom(...namesOf(side)),
    credit: fc.constantFrom(...namesOf(side)),
    month: fc.nat(12),
    amount,
  })
const crossed = fc.record({
  role: fc.constantFrom('draws', 'contributions', 'goods', 'lent'),
  month: fc.nat(12),
  amount,
})
const item: fc.Arbitrary<AccrualItem> = fc.record({
  kind: fc.constantFrom(...accrualKinds),
  name: fc.constantFrom('garlic', 'hay', 'Oats'),
  amountCents: amount.map(cents),
})
const value: fc.Arbitrary<DatedValue> = fc.record({
  day: fc.constantFrom(null, day('2025-06-01'), day('2025-12-31'), day('2026-12-31'), day('2027-03-01')),
  amountCents: amount.map(cents),
})
const thing = fc.record({
  account: fc.constantFrom('Machinery and equipment', 'Land', 'Breeding stock'),
  cost: amount,
  deductedShare: fc.double({ min: 0, max: 1, noNaN: true }),
  values: fc.array(value, { maxLength: 3 }),
})
const randomYear = fc.record({
  entries: fc.array(fc.oneof(posted('farm'), posted('household')), { maxLength: 40 }),
  crossings: fc.array(crossed, { maxLength: 8 }),
  begin: fc.array(item, { maxLength: 6 }),
  end: fc.array(item, { maxLength: 6 }),
  things: fc.array(thing, { maxLength: 5 }),
  unbooked: fc.array(value, { maxLength: 2 }),
  land: fc.option(value, { nil: null }),
  rate: fc.constantFrom(null, 0.25),
})
type RandomYear = typeof randomYear extends fc.Arbitrary<infer Year> ? Year : never

const booksOf = ({ entries, crossings }: RandomYear): BookYear[] => {
  const books = madeBooks()
  for (const one of entries) books.post(one.side, one.month, one.debit, one.credit, one.amount / 100)
  for (const { role, month, amount } of crossings) {
    const [farm, house] = {
      draws: [
        ['draws', 'Farm checking'],
        ['Savings', 'draws'],
      ],
      contributions: [
        ['Farm checking', 'contributions'],
        ['contributions', 'Savings'],
      ],
      goods: [
        ['goods', 'Value of goods used at home'],
        ['Food from the farm', 'goods'],
      ],
      lent: [
        ['Farm checking', 'borrowed'],
        ['lent', 'Savings'],
      ],
    }[role]!
    books.post('farm', month, farm![0]!, farm![1]!, amount / 100)
    books.post('household', month, house![0]!, house![1]!, amount / 100)
  }
  return [books.side('farm'), books.side('household')]
}

const extrasOf = (
  year: RandomYear,
  farm: BookYear,
  at: 'begin' | 'end',
  items: readonly AccrualItem[],
): BalanceExtras => {
  const on = day(at === 'end' ? '2026-12-31' : '2025-12-31')
  const idOf = (name: string) => farm.accounts.find(({ account }) => account.name === name)!.account.id
  const land = year.land === null ? null : valueOn([year.land], on)
  return {
    on,
    marketByAccount: land ? new Map([[idOf('Land'), land]]) : new Map(),
    things: year.things.map(
      (one, i): HeldThing => ({
        id: `t${i}`,
        name: `thing ${i}`,
        accountId: idOf(one.account),
        costCents: cents(one.cost),
        deductedCents: cents(Math.floor(one.cost * one.deductedShare)),
        isUntold: one.deductedShare === 0,
        values: one.values,
        goneOn: null,
      }),
    ),
    unbooked: year.unbooked.flatMap((one, i) => {
      const found = valueOn([one], on)
      return found
        ? [{ id: `u${i}`, name: 'Ewes', value: found, current: i > 0, standsFor: ['raised_base'] as const }]
        : []
    }),
    accruals: items,
    dueWithinYear: new Map(),
    deferredTaxRate: year.rate,
  }
}

const linesOf = (sheet: BalanceSheet) =>
  [sheet.currentAssets, sheet.otherAssets, sheet.currentLiabilities, sheet.otherLiabilities].flatMap(
    ({ lines }) => lines,
  )

const run = (check: (year: RandomYear, sides: BookYear[]) => void) =>
  fc.assert(
    fc.property(randomYear, (year) => check(year, booksOf(year))),
    { seed: 20261129, numRuns: Number(process.env.STATEMENT_RUNS ?? 150) },
  )

/** Farm, household, and both together, in each basis: the farm's things and items are those of the whole. */
const each = (
  year: RandomYear,
  sides: BookYear[],
  check: (of: {
    books: BookYear
    begin: BalanceSheet
    end: BalanceSheet
    accrual: ReturnType<typeof accrualYear> | null
  }) => void,
) => {
  for (const books of [...sides, together(sides)])
    for (const basis of ['cash', 'accrual'] as const) {
      const own =
        books.kind === 'household'
          ? { ...year, things: [], unbooked: [], land: null, begin: [], end: [] }
          : year
      const accrual = basis === 'accrual' ? accrualYear(own.begin, own.end) : null
      const sheet = (at: 'begin' | 'end') =>
        balanceSheet(books, at, extrasOf(own, sides[0]!, at, accrual?.[at] ?? []))
      check({ books, begin: sheet('begin'), end: sheet('end'), accrual })
    }
}

test('every row is an account, a thing or a year-end item, each once, and no account’s balance is lost or merged', () => {
  run((year, sides) =>
    each(year, sides, ({ books, end }) => {
      const lines = linesOf(end)
      expect(new Set(lines.map(({ key }) => key)).size).toBe(lines.length)
      for (const { key, accountId } of lines)
        expect(accountId === null ? key : `account ${accountId}`).toMatch(
          /^(account \d+|thing u\d|item \w+ \w+|deferred tax)$/,
        )
      for (const row of books.accounts) {
        const { kind, id } = row.account
        if (kind !== 'asset' && kind !== 'liability') continue
        const shown = lines
          .filter(({ accountId }) => accountId === id)
          .reduce((sum, { costCents }) => sum + costCents, 0)
        expect([row.account.name, shown]).toEqual([
          row.account.name,
          kind === 'asset' ? closingOf(row) : -closingOf(row) + 0,
        ])
      }
    }),
  )
})

test('equity at the end less the beginning is net income, crossings and other equity, and at market what values changed', () => {
  run((year, sides) =>
    each(year, sides, ({ books, begin, end, accrual }) => {
      const income = incomeStatement(books, accrual)
      const equity = ownerEquity(books, { begin, end, income })
      const moved = [...equity.crossings, ...equity.other].reduce(
        (sum, { amountCents }) => sum + amountCents,
        0,
      )
      expect(end.equity.costCents - begin.equity.costCents).toBe(income.netIncomeCents + moved)
      expect(end.equity.marketCents - begin.equity.marketCents).toBe(
        income.netIncomeCents + moved + equity.valuation.endCents - equity.valuation.beginCents,
      )
      // Worked apart from the sheets: what is owned above and below the books, account by account and thing by thing.
      const above = (sheet: BalanceSheet) =>
        linesOf(sheet).reduce(
          (sum, { key, costCents, marketCents }) =>
            sum +
            (key === 'deferred tax' ? -marketCents : key.endsWith('later') ? 0 : marketCents - costCents),
          0,
        )
      expect([equity.valuation.beginCents, equity.valuation.endCents]).toEqual([above(begin), above(end)])
    }),
  )
})

test('accrual net income differs from cash by what changed of the items, and no sheet has another net income', () => {
  run((year, sides) => {
    const farm = sides[0]!
    const signed = (items: readonly AccrualItem[]) =>
      items.reduce(
        (sum, { kind, amountCents }) => sum + (accrualDefinitions[kind].isOwned ? 1 : -1) * amountCents,
        0,
      )
    const statement = incomeStatement(farm, accrualYear(year.begin, year.end))
    expect(statement.netIncomeCents - statement.cashNetIncomeCents).toBe(
      signed(year.end) - signed(year.begin),
    )
  })
})

test('a value of a later day leaves the sheet of an earlier year as it is', () => {
  run((year, sides) => {
    const later = { ...year, land: { day: day('2027-01-01'), amountCents: cents(5) } }
    const none = { ...year, land: null }
    const sheet = (of: RandomYear) => balanceSheet(sides[0]!, 'end', extrasOf(of, sides[0]!, 'end', []))
    expect(sheet(later)).toEqual(sheet(none))
  })
})
