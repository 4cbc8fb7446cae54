// Income that nobody said the line of, and sales that books and inventory tell differently.
import { incomePlaces } from '#ledger/tax/income-places.ts'
import type { PropertySales } from '#ledger/tax/property-sales.ts'
import { formatCents } from '#money/format.ts'
import type { BooksYear } from '#today/tax/books-year.ts'
import type { YearPackFigures } from './figures.ts'

type Gap = YearPackFigures['gaps'][number]

export const incomeGaps = ({ sides, farm, ventures }: BooksYear, year: number): Gap[] => [
  ...incomePlaces(sides)
    .filter(({ isAsked, goes, says }) => isAsked && !(goes === null && says.startsWith('Not sorted')))
    .map(({ account, accountId, side, amountCents, says }) => ({
      says: `${side}: ${formatCents(amountCents)} under “${account}”. ${says}`,
      href: `/settings/accounts/${accountId}`,
    })),
  ...(farm ? saleGap(farm.sales, 'Breeding stock and equipment sold', year) : []),
  ...ventures.flatMap(({ sales, books }) => saleGap(sales, `${books.name}, equipment sold`, year)),
]

const saleGap = (sold: PropertySales, what: string, year: number): Gap[] => {
  if (sold.bookedCents === sold.recordedCents) return []
  const both = `${what}: ${formatCents(sold.bookedCents)} in the books, ${formatCents(sold.recordedCents)} on the inventory.`
  return [
    {
      says:
        sold.bookedCents > sold.recordedCents
          ? `${both} The difference is taxed as held long enough and without cost until its sale stands there.`
          : `${both} The inventory counts: look whether the money is booked.`,
      href: `/year-pack/inputs?year=${year}`,
    },
  ]
}
