// Any thing sold in any parts: a part sold later moves no year before it by a cent, all parts add to the whole, and what stays is
// written off to nothing.
import fc from 'fast-check'
import { expect, test } from 'vitest'
import { day, lastDayOfYear } from '#calendar/day.ts'
import { inParts, quantityLeft } from '#ledger/reports/sold-parts.ts'
import { type Holding, stockInventory } from '#ledger/reports/stock-inventory.ts'
import { cents, sumCents, zeroCents } from '#money/cents.ts'

const amount = (least: number, most: number) => fc.integer({ min: least, max: most })
const drawnDay = (from: number, to: number) =>
  fc
    .record({ year: amount(from, to), month: amount(1, 12), date: amount(1, 28) })
    .map(({ year, month, date }) =>
      day(`${year}-${String(month).padStart(2, '0')}-${String(date).padStart(2, '0')}`),
    )

const drawn = fc.record({
  cost: amount(1, 3_000_000),
  quantity: fc.constantFrom(3, 7, 8, 12.5, 40),
  assetClass: fc.constantFrom(
    'cattle' as const,
    'machinery-new' as const,
    'machinery-used' as const,
    'fence-or-grain-bin' as const,
    'farm-building' as const,
    'orchard-or-vineyard' as const,
  ),
  since: drawnDay(2022, 2024),
  atOnce: fc.constantFrom(0, 0, 0.3, 1),
  bonus: fc.boolean(),
  returned: fc.option(fc.double({ min: 0, max: 0.6, noNaN: true }), { nil: null }),
  value: fc.option(fc.record({ on: drawnDay(2024, 2027), amount: amount(0, 3_000_000) }), { nil: null }),
  parts: fc.array(fc.record({ share: amount(1, 40), on: drawnDay(2025, 2028), price: amount(0, 900_000) }), {
    maxLength: 3,
  }),
  /** Beside it something of a year's last quarter, so that the convention is one or the other. */
  beside: fc.option(amount(1, 4_000_000), { nil: null }),
})

const years = [2024, 2025, 2026, 2027, 2028, 2029]

test('any thing in any parts', () => {
  fc.assert(
    fc.property(drawn, (one) => {
      const building = one.assetClass === 'farm-building'
      const whole: Holding = {
        id: 'thing',
        kind: 'equipment',
        name: 'Thing',
        quantity: one.quantity,
        unit: '',
        accountId: null,
        acquiredDay: one.since,
        inServiceDay: null,
        raised: false,
        costCents: cents(one.cost),
        depreciation: {
          assetClass: one.assetClass,
          section179Cents: building ? zeroCents : cents(Math.floor(one.cost * one.atOnce)),
          bonus: one.bonus,
        },
        writtenOffBefore:
          one.returned === null
            ? null
            : { amountCents: cents(Math.floor(one.cost * one.returned)), through: 2024 },
        marketValueCents: null,
        disposedDay: null,
        disposedForCents: null,
      }
      const beside: Holding[] =
        one.beside === null
          ? []
          : [
              {
                ...whole,
                id: 'beside',
                costCents: cents(one.beside),
                acquiredDay: day(`${one.since.slice(0, 4)}-11-05`),
                depreciation: { assetClass: 'machinery-used', section179Cents: zeroCents, bonus: false },
                writtenOffBefore: null,
              },
            ]
      const parts = one.parts
        .map(({ share, on, price }, i) => ({
          id: `part ${i}`,
          quantity: Math.round((one.quantity * share) / 1300) + 0.5,
          disposedDay: on,
          disposedForCents: cents(price),
        }))
        .filter((_, i, all) => quantityLeft({ quantity: one.quantity, parts: all.slice(0, i + 1) }) > 0)
        .toSorted((a, b) => (a.disposedDay < b.disposedDay ? -1 : 1))
      const at = (year: number, of: Holding) =>
        stockInventory([...inParts(of, lastDayOfYear(year)), ...beside], year)
      const papers = (year: number, count: number) => at(year, { ...whole, parts: parts.slice(0, count) })
      for (const year of years) {
        const gone = parts.filter(({ disposedDay }) => disposedDay <= lastDayOfYear(year)).length
        const now = papers(year, parts.length)
        // Parts sold after the year are as if they had never been.
        expect(now).toEqual(papers(year, gone))
        const rows = now.rows.filter(({ holding }) => holding.id !== 'beside')
        const before = papers(year - 1, parts.length).rows.filter(({ holding }) => holding.id !== 'beside')
        // The year begins where the one before ended.
        const left = (all: typeof rows) => sumCents(all.map(({ bookCents }) => bookCents))
        const opened = sumCents(
          rows.map(({ holding, deductedBeforeCents }) => cents(holding.costCents - deductedBeforeCents)),
        )
        if (before.length > 0) expect([year, opened]).toEqual([year, left(before)])
        for (const { holding, deductedBeforeCents, deductedThisYearCents } of rows) {
          expect(deductedThisYearCents).toBeGreaterThanOrEqual(-1)
          expect(deductedBeforeCents + deductedThisYearCents).toBeLessThanOrEqual(holding.costCents)
        }
      }
      expect(
        sumCents(inParts({ ...whole, parts }, lastDayOfYear(2040)).map(({ costCents }) => costCents)),
      ).toBe(one.cost)
      // Depreciation that returns have missed is not caught up by later years.
      if (one.returned === null)
        expect(papers(2070, parts.length).rows.find(({ holding }) => holding.id === 'thing')?.bookCents).toBe(
          0,
        )
    }),
    { numRuns: Number(process.env.PARTS_RUNS ?? 25) },
  )
})
