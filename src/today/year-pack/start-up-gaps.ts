// What was paid before a business began: how it counts, what a preparer must look at, and of a new one the question when it began.
import { dayName } from '#calendar/day.ts'
import { yearIn } from '#calendar/month.ts'
import { isCash } from '#ledger/account.ts'
import { type BookYear, isResult } from '#ledger/reports/book-year.ts'
import type { StockInventory } from '#ledger/reports/stock-inventory.ts'
import type { BusinessSaid } from '#ledger/tax/form-said.ts'
import type { StartUp } from '#ledger/tax/start-up.ts'
import { type Cents, sumCents } from '#money/cents.ts'
import { formatCents } from '#money/format.ts'
import type { BooksYear } from '#today/tax/books-year.ts'
import type { YearPackFigures } from './figures.ts'

type Gap = YearPackFigures['gaps'][number]

interface Business {
  books: BookYear
  inventory: StockInventory
  said: BusinessSaid
  form: { startUp: StartUp | null }
}

/** How sentences say it. */
interface Words {
  form: string
  what: string
  /** Its costs and income. */
  of: string
  /** What of its costs must be looked at. */
  notFor: string
}

export const startUpGaps = ({ farm, ventures }: BooksYear, year: number): Gap[] => [
  ...(farm
    ? gapsOf(farm, `/year-pack/schedule-f?year=${year}`, {
        form: 'Schedule F',
        what: 'the farm',
        of: 'farm',
        notFor: 'stock, trees or things that last',
      })
    : []),
  ...ventures.flatMap((venture) => {
    const { name, sideId } = venture.books
    return gapsOf(venture, `/year-pack/schedule-c/${sideId}?year=${year}`, {
      form: `Schedule C of ${name}`,
      what: name,
      of: name,
      notFor: 'goods to sell or things that last',
    })
  }),
]

const gapsOf = (business: Business, href: string, words: Words): Gap[] => {
  const says = business.said.beganOn === null ? askedOf(business, words) : toldOf(business, words)
  return says.map((text) => ({ says: text, href }))
}

const toldOf = ({ form: { startUp }, inventory, books }: Business, words: Words): string[] => {
  if (startUp === null) return []
  const { what, beganOn, movedCents, costsCents, isFirstYear, takenInBeforeCents } = startUp
  const began = yearIn(beganOn)
  const early = inventory.rows.filter(
    ({ writeOff, holding }) => writeOff !== null && (holding.inServiceDay ?? holding.acquiredDay) < beganOn,
  )
  return [
    ...(began > books.year && movedCents > 0
      ? [
          `${formatCents(movedCents)} of ${books.year} was paid before ${what} began on ${dayName(beganOn)}: it is on no line of ${words.form}, and waits for the return of ${began} (26 USC 195). A preparer should look at it, and at interest and taxes, which stay.`,
        ]
      : []),
    ...(isFirstYear && costsCents > 0
      ? [
          `${formatCents(costsCents)} paid before ${what} began on ${dayName(beganOn)} count as start-up costs. A preparer should look at that day, and whether any of it was for ${words.notFor} (26 USC 195(c), 263A). Deducting them is an election of this year’s return.`,
        ]
      : []),
    ...(takenInBeforeCents > 0
      ? [
          `${formatCents(takenInBeforeCents)} of ${words.of} income is booked before ${dayName(beganOn)}, the day on which ${what} is said to have begun. Look at that day again.`,
        ]
      : []),
    ...(began >= books.year && early.length > 0
      ? [
          `${[...new Set(early.map(({ holding }) => holding.name))].join(', ')}: in use before ${what} began on ${dayName(beganOn)}. Depreciation begins no earlier than the business does: enter that day as the one it came into use (26 CFR 1.167(a)-11(e)(1)(i), from memory).`,
        ]
      : []),
  ]
}

/** Of a business without anything of earlier years: costs of the months before the first income. */
const askedOf = ({ books: side, inventory }: Business, words: Words): string[] => {
  const isFirst = side.accounts.filter(isResult).every(({ openingCents }) => openingCents === 0)
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
        `${formatCents(before)} of ${words.of} costs is booked before the first ${words.of} income. If ${words.what} began only in these books, enter the day: what was paid before it is no ${words.of} expense but start-up costs (26 USC 195). If it began earlier, enter that day.`,
      ]
}
