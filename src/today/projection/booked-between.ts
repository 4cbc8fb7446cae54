// A year's income by the books from one month to another: its books with the other months left out.
import { lastDayOfYear, monthOfDay } from '#calendar/day.ts'
import { type Month, monthOfYear, yearOf } from '#calendar/month.ts'
import type { Books } from '#db/open.ts'
import type { BookYear } from '#ledger/reports/book-year.ts'
import { incomeOfYear, type YearIncome } from '#ledger/reports/income-of-year.ts'
import { noVentureChoices, scheduleC, type VentureChoices } from '#ledger/reports/schedule-c.ts'
import { type FarmChoices, noFarmChoices, scheduleF } from '#ledger/reports/schedule-f.ts'
import type { StockInventory } from '#ledger/reports/stock-inventory.ts'
import type { BusinessSaid } from '#ledger/tax/form-said.ts'
import { propertySales } from '#ledger/tax/property-sales.ts'
import { type Cents, zeroCents } from '#money/cents.ts'
import { keptThrough } from '#today/kept.ts'
import { booksYear } from '#today/tax/books-year.ts'

/** Social Security is not in it: how much of it is taxed hangs on all the rest. */
export const unearned = ({ interest, lines }: YearIncome): number =>
  interest + lines.ordinaryDividends + lines.other + lines.pensions + lines.iraDistributions

interface Booked {
  sides: BookYear[]
  income: YearIncome
}

/** From the first of `from` to the eve of `month`, of one year. Null without farm books. */
export const bookedBetween = (books: Books, from: Month, month: Month): Booked | null =>
  keptThrough(books, lastDayOfYear(yearOf(from)), `from ${from} to ${month}`, () =>
    readBetween(books, from, month),
  )

function readBetween(books: Books, from: Month, month: Month): Booked | null {
  const { sides: whole, farm, ventures } = booksYear(books, yearOf(from))
  if (!farm) return null
  const sides = whole.map((side) => between(side, monthOfYear(from) - 1, monthOfYear(month) - 1))
  const own = sides.find((side) => side.kind === 'farm')!
  const form = scheduleF(own, null, undefined, { ...noFarmChoices, ...byRateOfFarm(farm.choices) })
  const salesOf = (inventory: StockInventory, bookedCents: Cents) =>
    propertySales(soldBetween(inventory, from, month), bookedCents)
  const sales = salesOf(farm.inventory, form.capitalSalesCents)
  return {
    sides,
    income: incomeOfYear(
      sides,
      form,
      sales,
      ventures.map(({ books: { sideId }, inventory, choices }) => {
        const side = sides.find((side) => side.sideId === sideId)!
        const form = scheduleC(side, null, undefined, { ...noVentureChoices, ...byRateOfVenture(choices) })
        return { form, person: null, sales: salesOf(inventory, form.capitalSalesCents) }
      }),
    ),
  }
}

/**
 * Miles as said of the year so far, the business's share of a car or truck, and the home of the whole year: what the months ahead bring
 * is in the plan as costs alone. All else that a year's form takes beside the books is said once the year is over.
 */
const byRateOfFarm = ({ said, vehicleShares }: FarmChoices): Pick<FarmChoices, 'said' | 'vehicleShares'> => ({
  said: { ...noFarmChoices.said, ...byRate(said) },
  vehicleShares,
})

const byRateOfVenture = ({
  said,
  vehicleShares,
  homeTaken,
}: VentureChoices): Pick<VentureChoices, 'said' | 'vehicleShares' | 'homeTaken'> => ({
  said: { ...noVentureChoices.said, ...byRate(said) },
  vehicleShares,
  homeTaken,
})

const byRate = ({ vehicle, homeSquareFeet, homeFrom, homeUntil }: BusinessSaid) => ({
  vehicle,
  homeSquareFeet,
  homeFrom,
  homeUntil,
})

/** What is sold later comes with its own month, as its cash does. */
const soldBetween = (inventory: StockInventory, from: Month, month: Month): StockInventory => ({
  ...inventory,
  rows: inventory.rows.filter(
    ({ holding: { disposedDay } }) =>
      disposedDay !== null && monthOfDay(disposedDay) >= from && monthOfDay(disposedDay) < month,
  ),
})

const between = (side: BookYear, from: number, to: number): BookYear => ({
  ...side,
  accounts: side.accounts.map(({ unpaidCents: _, ...row }) => ({
    ...row,
    monthsCents: within(row.monthsCents, from, to),
    ...(row.takenOutCents ? { takenOutCents: within(row.takenOutCents, from, to) } : {}),
    ...(row.fromPayCents ? { fromPayCents: within(row.fromPayCents, from, to) } : {}),
    ...(row.beforeTaxCents
      ? {
          beforeTaxCents: {
            premium: within(row.beforeTaxCents.premium, from, to),
            deferred: within(row.beforeTaxCents.deferred, from, to),
          },
        }
      : {}),
    ...(row.paidOutCents ? { paidOutCents: within(row.paidOutCents, from, to) } : {}),
  })),
})

const within = (months: readonly Cents[], from: number, to: number): Cents[] =>
  months.map((sum, place) => (place >= from && place < to ? sum : zeroCents))
