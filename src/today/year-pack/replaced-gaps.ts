// Gains on stock sold because of weather that were put off: whether stock in its place is on the inventory, and until when it must be.

import { yearsOfBooks } from '#db/ledger/report-store.ts'
import type { Books } from '#db/open.ts'
import { listHoldings } from '#db/year/holding-list.ts'
import { farmSide } from '#ledger/account.ts'
import { sumCents } from '#money/cents.ts'
import { formatCents } from '#money/format.ts'
import { weatherReplacementYears } from '#rules/data/farm-timing.ts'
import { inForce } from '#rules/in-force.ts'
import { booksYear } from '#today/tax/books-year.ts'
import { farmSaid } from '#today/tax/said-of-year.ts'
import type { YearPackFigures } from './figures.ts'

type Gap = YearPackFigures['gaps'][number]

/** Of this year's sales and of those whose time to replace is not long over. */
export const replacedGaps = (books: Books, year: number): Gap[] =>
  yearsOfBooks(books)
    .filter((sold) => sold <= year && year <= sold + mostYears)
    .flatMap((sold) => {
      const { said } = farmSaid(books, sold)
      if (Object.keys(said.replaced).length === 0) return []
      const { usual, declaredArea } = inForce(weatherReplacementYears, sold)
      const until = sold + (said.weatherArea === 'yes' ? declaredArea : usual)
      const holdings = listHoldings(books, farmSide)
      const sales = booksYear(books, sold).farm?.sales.sales ?? []
      return sales.flatMap(({ holdingId, name, putOffCents }): Gap[] => {
        const told = said.replaced[holdingId ?? '']
        if (told === undefined || putOffCents === 0) return []
        const bought = sumCents(
          holdings
            .filter(({ depreciation }) => depreciation?.takesPlaceOf === holdingId)
            .map(({ costCents }) => costCents),
        )
        if (bought >= told) return []
        const late =
          year >= until
            ? ' That time is over with this year: what is not replaced is taxed by an amended return.'
            : ''
        return [
          {
            says: `${name}, sold in ${sold} because of weather: ${formatCents(putOffCents)} of gain are put off for stock of ${formatCents(told)}, and ${formatCents(bought)} of it are on the inventory as taking its place. It must be bought by the end of ${until}.${late}`,
            href: `/year-pack/inputs?year=${year}#holdings`,
          },
        ]
      })
    })

const mostYears = 5
