// The things of a side as a year's papers take them: parts that were sold by then apart, values of the day, and costs lowered by gains that were put off.
import type { Day } from '#calendar/day.ts'
import type { Books } from '#db/open.ts'
import { listHoldings } from '#db/year/holding-list.ts'
import { farmSide, type SideId } from '#ledger/account.ts'
import type { Holding } from '#ledger/reports/stock-inventory.ts'
import { withGainsPutOff } from '#ledger/tax/replaced-stock.ts'
import { farmSaid } from './said-of-year.ts'

export const yearHoldings = (books: Books, sideId: SideId, on: Day): Holding[] => {
  const holdings = listHoldings(books, sideId, on)
  return sideId === farmSide ? withGainsPutOff(holdings, (year) => farmSaid(books, year).said) : holdings
}
