// What the statements and open points of a year's pack are made from: the books of the year, things with their values, and year-end items.
import { type Day, lastDayOfYear } from '#calendar/day.ts'
import { yearIn } from '#calendar/month.ts'
import { openingDay, openingDayOfSide } from '#db/ledger/opening-day.ts'
import type { Books } from '#db/open.ts'
import { thingValues } from '#db/year/holding-list.ts'
import { listAccruals, marketValuesOn } from '#db/year-store.ts'
import type { AccrualItem } from '#ledger/reports/accrual.ts'
import type { BookYear } from '#ledger/reports/book-year.ts'
import type { DatedValue } from '#ledger/reports/market-values.ts'
import { type Holding, stockInventory } from '#ledger/reports/stock-inventory.ts'
import { type Cents, cents } from '#money/cents.ts'
import { carriedBatches } from '#today/farm/batch-figures.ts'
import { type BooksYear, booksYear } from '#today/tax/books-year.ts'
import { yearHoldings } from '#today/tax/year-holdings.ts'
import { type PackYear, packYear } from './year-pack-settings.ts'

export interface PackGround {
  books: Books
  year: number
  /** The day whose end is the year's beginning: the last one before it, or, in the year in which the books begin, that of their opening balances. */
  beginsOn: Day
  read: BooksYear
  sides: readonly BookYear[]
  said: PackYear
  /** What was said of the year before, for its end is this one's beginning. */
  saidBefore: PackYear
  things: ReadonlyMap<string, readonly KnownThing[]>
  market: Record<End, ReadonlyMap<number, DatedValue>>
  items: Record<End, ReadonlyMap<string, readonly AccrualItem[]>>
}

export type End = 'begin' | 'end'
export interface KnownThing {
  holding: Holding
  values: readonly DatedValue[]
  deducted: Record<End, Cents>
}

export const packGround = (books: Books, year: number): PackGround => {
  const read = booksYear(books, year)
  const { sides } = read
  const beginsOn = beginOf(books, year, sides)
  const perSide = <Value>(of: (sideId: string) => Value) =>
    new Map(sides.map(({ sideId }) => [sideId, of(sideId)] as const))
  return {
    books,
    year,
    beginsOn,
    read,
    sides,
    said: packYear(books, year).saved,
    saidBefore: packYear(books, year - 1).saved,
    things: perSide((sideId) => knownThings(books, sideId, year)),
    market: {
      begin: marketValuesOn(books, beginsOn),
      end: marketValuesOn(books, lastDayOfYear(year)),
    },
    items: {
      begin: perSide((sideId) => itemsAt(books, sideId, year - 1)),
      end: perSide((sideId) => itemsAt(books, sideId, year)),
    },
  }
}

/** Opening balances of the year are what it began with (`bookYears`), and so are values of their day. */
const beginOf = (books: Books, year: number, sides: readonly BookYear[]): Day => {
  const first = openingDay(books)
  const opens =
    first !== null &&
    yearIn(first) === year &&
    sides.some(({ sideId }) => openingDayOfSide(books, sideId) === first)
  return opens ? first : lastDayOfYear(year - 1)
}

/** What stands beside the cash books at the end of a year: what people entered, and costs that lie in batches. */
const itemsAt = (books: Books, sideId: string, year: number): AccrualItem[] => [
  ...listAccruals(books, sideId, year),
  ...(sideId === 'farm' ? carriedBatches(books, year) : []),
]

const knownThings = (books: Books, sideId: string, year: number): KnownThing[] => {
  const holdings = yearHoldings(books, sideId, lastDayOfYear(year))
  const values = thingValues(books, sideId, lastDayOfYear(year))
  const rows = new Map(stockInventory(holdings, year).rows.map((row) => [row.holding.id, row]))
  return holdings.map((holding) => {
    const row = rows.get(holding.id)
    const before = row?.deductedBeforeCents ?? 0
    const fellBack = row?.fellBackCents ?? 0
    return {
      holding,
      values: values.get(holding.id) ?? [],
      // What became income again is deducted no more.
      deducted: {
        begin: cents(before - fellBack + (row?.writeOff?.excessCents ?? 0)),
        end: cents(before - fellBack + (row?.deductedThisYearCents ?? 0)),
      },
    }
  })
}
