// For random things used in part, random stock sold and bought again, and random pay: no dollar is lost between cost, sale and form.
import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { day } from '#calendar/day.ts'
import { costLeft, type Holding, stockInventory } from '#ledger/reports/stock-inventory.ts'
import { netOf, payEntry, proposedPay } from '#ledger/tax/pay-entry.ts'
import type { PaidOn, PayeeSaid } from '#ledger/tax/payee-totals.ts'
import { form940, form943 } from '#ledger/tax/payroll-forms.ts'
import { propertySales, wholeCostOf } from '#ledger/tax/property-sales.ts'
import { withGainsPutOff } from '#ledger/tax/replaced-stock.ts'
import { workersPaid } from '#ledger/tax/wages.ts'
import { cents, sumCents, zeroCents } from '#money/cents.ts'

const runs = { numRuns: 150 }
const amount = (most: number) => fc.integer({ min: 1, max: most })
const blank: Holding = {
  id: '',
  kind: 'equipment',
  name: 'Thing',
  quantity: 1,
  unit: '',
  accountId: null,
  acquiredDay: day('2022-05-01'),
  inServiceDay: null,
  raised: false,
  costCents: zeroCents,
  depreciation: null,
  marketValueCents: null,
  disposedDay: null,
  disposedForCents: null,
}

describe('things used in part', () => {
  const thing = fc.record({
    assetClass: fc.constantFrom('pickup' as const, 'vehicle' as const, 'suv' as const),
    cost: amount(9_000_000),
    price: amount(9_000_000),
    shares: fc.array(fc.integer({ min: 5, max: 99 }), { minLength: 1, maxLength: 4 }),
    section179: fc.double({ min: 0, max: 0.3, noNaN: true }),
    bought: fc.constantFrom('2022-05-01', '2023-11-20', '2024-02-10'),
  })

  test('both parts of a sale are the whole; what was deducted, less what fell back, is what cost and rest lack', () => {
    fc.assert(
      fc.property(thing, ({ assetClass, cost, price, shares, section179, bought }) => {
        const first = Number(bought.slice(0, 4))
        const holding: Holding = {
          ...blank,
          id: 't',
          acquiredDay: day(bought),
          costCents: cents(cost),
          depreciation: {
            assetClass,
            section179Cents: cents(Math.floor((cost * section179 * shares[0]!) / 100)),
            bonus: false,
            useShares: Object.fromEntries(shares.map((share, i) => [String(first + i), share / 100])),
          },
          disposedDay: day('2026-08-15'),
          disposedForCents: cents(price),
        }
        let [deducted, fallen] = [0, 0]
        for (let year = first; year <= 2026; year++) {
          const inventory = stockInventory([holding], year)
          const [row] = inventory.rows
          deducted += row!.deductedThisYearCents
          fallen += inventory.fallsBackCents
          expect(row!.deductedBeforeCents + row!.deductedThisYearCents).toBe(deducted)
          expect(row!.fellBackCents).toBe(fallen)
          expect(inventory.fallsBackCents).toBeGreaterThanOrEqual(0)
          if (year < 2026) expect(row!.bookCents).toBe(cost - deducted + fallen)
        }
        const { sales, ordinaryCents, section1231Cents, recordedCents, personalGains } = propertySales(
          stockInventory([holding], 2026),
          zeroCents,
        )
        const [sale] = sales
        const own = sale!.personal!
        expect(recordedCents).toBe(price)
        expect(sale!.priceCents + own.priceCents).toBe(price)
        expect(wholeCostOf(sale!)).toBe(cost)
        expect(sale!.deductedCents).toBe(deducted - fallen)
        expect(sale!.costCents).toBeGreaterThanOrEqual(sale!.deductedCents)
        const all = sale!.gainCents + own.gainCents - own.lossNotAllowedCents
        expect(all).toBe(price - (cost - deducted + fallen))
        expect(ordinaryCents + section1231Cents).toBe(sale!.gainCents)
        expect(ordinaryCents).toBeLessThanOrEqual(Math.max(0, sale!.deductedCents))
        expect(personalGains.longCents + personalGains.shortCents).toBe(own.gainCents)
      }),
      runs,
    )
  })
})

describe('stock bought in the place of stock sold because of weather', () => {
  const herd = fc.record({
    price: amount(3_000_000),
    told: amount(3_000_000),
    bought: fc.array(amount(1_500_000), { maxLength: 4 }),
  })

  test('the gain put off is found in the costs again, and over all years no gain is lost or taxed twice', () => {
    fc.assert(
      fc.property(herd, ({ price, told, bought }) => {
        const sold: Holding = {
          ...blank,
          id: 'sold',
          kind: 'breeding_stock',
          acquiredDay: day('2018-01-01'),
          raised: true,
          disposedDay: day('2024-08-01'),
          disposedForCents: cents(price),
        }
        const inPlace = bought.map(
          (cost, i): Holding => ({
            ...blank,
            id: `r${i}`,
            kind: 'breeding_stock',
            acquiredDay: day('2025-03-01'),
            costCents: cents(cost),
            depreciation: {
              assetClass: 'cattle',
              section179Cents: zeroCents,
              bonus: false,
              takesPlaceOf: 'sold',
            },
            disposedDay: day('2026-09-01'),
            disposedForCents: cents(cost),
          }),
        )
        const replaced = { sold: cents(told) }
        const known = withGainsPutOff([sold, ...inPlace], () => ({ replaced }))
        const lowered = sumCents(known.map((one) => one.loweredCents ?? zeroCents))
        const first = propertySales(stockInventory(known, 2024), zeroCents, replaced)
        const putOff = sumCents(first.sales.map((sale) => sale.putOffCents))
        expect(first.ordinaryCents + first.section1231Cents + putOff).toBe(price)
        expect(lowered).toBe(Math.min(putOff, sumCents(inPlace.map(({ costCents }) => costCents))))
        for (const one of known) expect(costLeft(one)).toBeGreaterThanOrEqual(0)
        // Sold again for what they cost: the gain is what was put off and what was written off.
        const written = [2025, 2026].map((year) => stockInventory(known, year).depreciationCents)
        const last = propertySales(stockInventory(known, 2026), zeroCents)
        const gains = sumCents(last.sales.map(({ gainCents }) => gainCents))
        expect(gains).toBe(lowered + written[0]! + written[1]!)
        for (const sale of last.sales) expect(wholeCostOf(sale)).toBe(sale.priceCents)
      }),
      runs,
    )
  })
})

describe('pay', () => {
  const pays = fc.array(
    fc.record({
      worker: fc.constantFrom('Ann', 'Bo', 'Cy'),
      month: fc.integer({ min: 1, max: 12 }),
      gross: amount(2_500_000),
      federal: fc.integer({ min: 0, max: 5000 }),
    }),
    { minLength: 1, maxLength: 14 },
  )
  const account = (
    kind: 'expense' | 'liability',
    taxKind: 'federal' | 'payroll' | null,
    line: string | null,
  ) => ({
    sideId: 'farm',
    kind,
    taxKind,
    scheduleLine: line,
  })

  test('booked as proposed, each entry balances, the last pay settles the year, and the months of Form 943 are its total', () => {
    fc.assert(
      fc.property(pays, (drawn) => {
        const said: PayeeSaid[] = ['Ann', 'Bo', 'Cy'].map((name) => ({
          name,
          kind: 'worker',
          sameAs: null,
          formOnFile: true,
        }))
        const paid: PaidOn[] = []
        const inOrder = drawn.toSorted((a, b) => a.month - b.month)
        for (const { worker, month, gross, federal } of inOrder) {
          const before = workersPaid(paid, said, 2025)
          const { keptCents, employerCents } = proposedPay('farm', worker, cents(gross), before, 2025)
          const on = day(`2025-${String(month).padStart(2, '0')}-15`)
          const most = Math.max(0, gross - keptCents)
          const pay = {
            id: 'x',
            sideId: 'farm',
            worker,
            day: on,
            grossCents: cents(gross),
            federalCents: cents(Math.min(federal, most)),
            stateCents: zeroCents,
            keptCents,
            employerCents,
          }
          const numbers = { wages: 1, money: 2, federal: 3, state: null, payroll: 4, employer: 5 }
          const { lines } = payEntry(pay, numbers)
          expect(sumCents(lines.map(({ amountCents }) => amountCents))).toBe(0)
          expect(netOf(pay)).toBe(pay.grossCents - pay.federalCents - keptCents)
          const of = (id: number) =>
            sumCents(lines.filter((l) => l.accountId === id).map((l) => l.amountCents))
          const head = { payee: worker, isByCard: false, day: on }
          paid.push(
            { ...head, account: account('expense', null, '22'), amountCents: of(1) },
            { ...head, account: account('liability', 'federal', null), amountCents: of(3) },
            { ...head, account: account('liability', 'payroll', null), amountCents: of(4) },
            { ...head, account: account('expense', 'payroll', '29'), amountCents: of(5) },
          )
        }
        const workers = workersPaid(paid, said, 2025)
        const all = sumCents(drawn.map(({ gross }) => cents(gross)))
        expect(sumCents(workers.map(({ grossCents }) => grossCents))).toBe(all)
        // Whoever is paid last in the year is settled by that pay.
        const last = workers.find(({ name }) => name === inOrder.at(-1)!.worker)!
        const due = last.due.socialSecurityCents + last.due.medicareCents
        expect([last.payrollCents, last.employerCents]).toEqual([due, due])
        const form = form943(workers, 2025)
        expect(sumCents(form.monthsCents)).toBe(form.totalCents)
        const unemployment = form940(workers, [], { paid, said }, 2025)
        expect(sumCents(unemployment.quartersCents)).toBe(all)
        expect(unemployment.taxableCents + unemployment.overCents).toBe(all)
      }),
      runs,
    )
  })
})
