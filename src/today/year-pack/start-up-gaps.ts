// What was paid before the farm began: how it counts, what a preparer must look at, and of a new farm the question when it began.
import { dayName } from '#calendar/day.ts'
import { yearIn } from '#calendar/month.ts'
import { yearsOfBooks } from '#db/ledger/report-store.ts'
import type { Books } from '#db/open.ts'
import { isCash } from '#ledger/account.ts'
import { type Cents, sumCents } from '#money/cents.ts'
import { formatCents } from '#money/format.ts'
import type { BooksYear } from '#today/tax/books-year.ts'
import type { YearPackFigures } from './figures.ts'

type Gap = YearPackFigures['gaps'][number]
type Farm = NonNullable<BooksYear['farm']>

export const startUpGaps = (books: Books, { farm }: BooksYear, year: number): Gap[] => {
  if (!farm) return []
  const says = farm.said.beganOn === null ? askedOf(books, farm) : toldOf(farm)
  return says.map((text) => ({ says: text, href: `/year-pack/schedule-f?year=${year}` }))
}

const toldOf = ({ form, inventory, books }: Farm): string[] => {
  const { startUp } = form
  if (startUp === null) return []
  const { beganOn, movedCents, costsCents, isFirstYear, takenInBeforeCents } = startUp
  const began = yearIn(beganOn)
  const early = inventory.rows.filter(
    ({ writeOff, holding }) => writeOff !== null && (holding.inServiceDay ?? holding.acquiredDay) < beganOn,
  )
  return [
    ...(began > books.year && movedCents > 0
      ? [
          `${formatCents(movedCents)} of ${books.year} was paid before the farm began on ${dayName(beganOn)}: it is on no line of Schedule F, and waits for the return of ${began} (26 USC 195). A preparer should look at it, and at interest and taxes, which stay.`,
        ]
      : []),
    ...(isFirstYear && costsCents > 0
      ? [
          `${formatCents(costsCents)} paid before the farm began on ${dayName(beganOn)} count as start-up costs. A preparer should look at that day, and whether any of it was for stock, trees or things that last (26 USC 195(c), 263A). Deducting them is an election of this year’s return.`,
        ]
      : []),
    ...(takenInBeforeCents > 0
      ? [
          `${formatCents(takenInBeforeCents)} of farm income is booked before ${dayName(beganOn)}, the day on which the farm is said to have begun. Look at that day again.`,
        ]
      : []),
    ...(began >= books.year && early.length > 0
      ? [
          `${[...new Set(early.map(({ holding }) => holding.name))].join(', ')}: in use before the farm began on ${dayName(beganOn)}. Depreciation begins no earlier than the business does: enter that day as the one it came into use (26 CFR 1.167(a)-11(e)(1)(i), from memory).`,
        ]
      : []),
  ]
}

/** Of books without anything of earlier years: costs of the months before the first income. */
const askedOf = (books: Books, { books: side, inventory }: Farm): string[] => {
  const isFirst = yearsOfBooks(books).every((year) => year >= side.year)
  const hadThings =
    side.accounts.some(({ account, openingCents }) => !isCash(account) && openingCents !== 0) ||
    inventory.rows.some(({ holding }) => yearIn(holding.acquiredDay) < side.year)
  if (!isFirst || hadThings) return []
  const of = (kind: 'income' | 'expense') =>
    side.accounts.filter(({ account }) => account.kind === kind && account.systemRole === null)
  const firstIncome = of('income')
    .flatMap(({ monthsCents }) => monthsCents.findIndex((sum) => sum < 0))
    .filter((at) => at >= 0)
    .reduce((least, at) => Math.min(least, at), 12)
  const before: Cents = sumCents(
    of('expense').flatMap(({ monthsCents }) => monthsCents.slice(0, firstIncome)),
  )
  return before <= 0
    ? []
    : [
        `${formatCents(before)} of farm costs is booked before the first farm income. If the farm began only in these books, enter the day: what was paid before it is no farm expense but start-up costs (26 USC 195). If it began earlier, enter that day.`,
      ]
}
