// For random books of two years and random choices: no dollar is lost between books and form, between owners, or between the years.
import fc from 'fast-check'
import { expect, test } from 'vitest'
import type { Account } from '#ledger/account.ts'
import { type BookYear, changeOf } from '#ledger/reports/book-year.ts'
import { formsOfTwo } from '#ledger/reports/form-lines.ts'
import { scheduleFRows } from '#ledger/reports/form-rows.ts'
import { type ScheduleF, scheduleF } from '#ledger/reports/schedule-f.ts'
import { linesFor } from '#ledger/schedule-lines.ts'
import { type FarmSaid, noFarmCarried, nothingOfFarm, prepaidLines } from '#ledger/tax/form-said.ts'
import { incomePlaces } from '#ledger/tax/income-places.ts'
import { nothingBefore } from '#ledger/tax/start-up.ts'
import { type Cents, cents, sumCents, zeroCents } from '#money/cents.ts'
import { blankAccount } from '../blank-account.ts'

const row = (kind: 'income' | 'expense') =>
  fc.record({
    kind: fc.constant(kind),
    scheduleLine: fc.constantFrom(null, ...linesFor('farm', kind).map(({ line }) => line)),
    cents: fc.integer({ min: 0, max: 3_000_000 }),
  })

type Row = { kind: 'income' | 'expense'; scheduleLine: string | null; cents: number }

const farmOf = (year: number, rows: readonly Row[]): BookYear => ({
  sideId: 'farm',
  kind: 'farm',
  name: 'farm',
  year,
  accounts: rows.map(({ kind, scheduleLine, cents: amount }, i) => ({
    account: { ...blankAccount, id: i + 1, name: `${kind} ${i}`, kind, scheduleLine } as Account,
    openingCents: zeroCents,
    monthsCents: Array.from({ length: 12 }, (_, month) =>
      month === 5 ? cents(kind === 'income' ? -amount : amount) : zeroCents,
    ),
    paidDownCents: zeroCents,
    termInterestCents: zeroCents,
    withoutMoneyCents: zeroCents,
  })),
})

const bookedOn = (farm: BookYear, line: string): number =>
  Math.abs(sumCents(farm.accounts.filter(({ account }) => account.scheduleLine === line).map(changeOf)))

/** Choices within what the books of the year hold, as the form takes them. */
const choicesOf = (farm: BookYear, parts: readonly number[], sold: number, usual: number): FarmSaid => {
  const part = (line: string, i: number) => cents(Math.floor(bookedOn(farm, line) * parts[i]!))
  return {
    ...nothingOfFarm,
    untaxed: { '3a': part('3a', 0), '4a': part('4a', 1), '5b': part('5b', 2), '6a': zeroCents },
    cropPutOffCents: part('6a', 3),
    weatherSales: [{ what: 'sheep', origin: 'raised', sold, usual, incomeCents: part('2', 4) }],
    prepaid: Object.fromEntries(prepaidLines.map((line, i) => [line, part(line, i)])) as FarmSaid['prepaid'],
  }
}

const years = fc.record({
  first: fc.array(fc.oneof(row('income'), row('expense')), { maxLength: 20 }),
  second: fc.array(fc.oneof(row('income'), row('expense')), { maxLength: 20 }),
  parts: fc.array(fc.double({ min: 0, max: 1, noNaN: true }), { minLength: 5, maxLength: 5 }),
  sold: fc.integer({ min: 1, max: 300 }),
  usual: fc.integer({ min: 0, max: 300 }),
  share: fc.double({ min: 0, max: 1, noNaN: true }),
})

const resold = (form: ScheduleF): number => form.income.find(({ line }) => line === '1b')?.amountCents ?? 0

test('books, form, owners and the next year hold the same dollars', () => {
  fc.assert(
    fc.property(years, ({ first, second, parts, sold, usual, share }) => {
      const [farm, next] = [farmOf(2024, first), farmOf(2025, second)]
      const said = choicesOf(farm, parts, sold, usual)
      const form = scheduleF(farm, null, undefined, {
        said,
        before: noFarmCarried,
        stockGainsCents: zeroCents,
        fallsBackCents: cents(usual),
        vehicleShares: [],
        beforeBeginning: nothingBefore,
      })
      const after = scheduleF(next, null, undefined, {
        said: nothingOfFarm,
        before: form.carried,
        stockGainsCents: zeroCents,
        fallsBackCents: cents(usual),
        vehicleShares: [],
        beforeBeginning: nothingBefore,
      })

      // Income in the books is income on the form, and what is told between the two.
      for (const [one, of] of [
        [farm, form],
        [next, after],
      ] as const) {
        const placed = sumCents(
          incomePlaces([one])
            .filter(({ goes }) => goes?.form === 'Schedule F')
            .map(({ amountCents }) => amountCents),
        )
        const between = sumCents(of.between.map(({ amountCents }) => amountCents))
        expect(placed + between).toBe(of.grossIncomeCents + resold(of))
      }

      // What was put off comes back in the next year: over both years only the untaxed part is missing, and what fell back is there.
      const untaxed = sumCents(Object.values(said.untaxed))
      const booked = (one: BookYear) =>
        sumCents(
          incomePlaces([one])
            .filter(({ goes }) => goes?.form === 'Schedule F')
            .map(({ amountCents }) => amountCents),
        )
      expect(form.grossIncomeCents + after.grossIncomeCents + resold(form) + resold(after)).toBe(
        booked(farm) + booked(next) - untaxed + 2 * usual,
      )

      // Costs in the books are deducted, stand beside the form, or wait.
      const costs = sumCents(
        [farm, next].flatMap(({ accounts }) =>
          accounts
            .filter(({ account }) => account.kind === 'expense' && account.scheduleLine !== '1b')
            .map(changeOf),
        ),
      )
      const beside = (of: ScheduleF) =>
        sumCents(
          of.beside.filter(({ label }) => label.startsWith('expense')).map(({ amountCents }) => amountCents),
        )
      const waits = (of: ScheduleF): Cents =>
        cents(of.carried.conservationCents + sumCents(Object.values(of.carried.prepaid)))
      expect(
        form.totalExpensesCents + beside(form) + after.totalExpensesCents + beside(after) + waits(after),
      ).toBe(costs)

      // Two owners: each line and each sum adds up to the whole.
      const two = formsOfTwo(form, share)
      expect(two[0].netProfitCents + 0).toBe(Math.round(form.netProfitCents * share) + 0)
      for (const { amountCents, owners, line } of scheduleFRows(form, two))
        expect(owners![0] + owners![1], line).toBe(amountCents)
    }),
    { numRuns: 300 },
  )
})
