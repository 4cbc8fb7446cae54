// Whether the household has put money into the farm in the part of a year that is behind a plan.
import { type Month, month as monthOf, yearOf } from '#calendar/month.ts'
import { spanOfBooks } from '#db/ledger/balances.ts'
import { farmCrossingMonths } from '#db/ledger/farm-months.ts'
import type { Books } from '#db/open.ts'
import { firstMonthOf } from '#plan/first-month.ts'
import type { Plan } from '#plan/plan.ts'
import type { Projection } from '#runway/project.ts'
import { keptUntilChange } from '#today/kept.ts'

/** From January to the eve of `month`: by the books where they hold the months, else as planned. What was taken back counts as never put in. */
export function putIntoFarm(books: Books, saved: Plan, month: Month, baseline: Projection | null): boolean {
  const january = monthOf(yearOf(month), 1)
  const start = firstMonthOf(saved)
  const first = Math.max(january, spanOfBooks(books)?.first ?? month) as Month
  const planned = baseline?.months.slice(Math.max(0, january - start), Math.max(0, first - start)) ?? []
  const booked = first < month ? putInSince(books, first, month) : 0
  return planned.some(({ contribution }) => contribution > leastPut) || booked > 0
}

/** Cents. */
const putInSince = (books: Books, first: Month, month: Month): number =>
  keptUntilChange(books, `put into the farm from ${first} to ${month}`, () =>
    farmCrossingMonths(books, first, (month - 1) as Month).reduce(
      (sum, one) => sum + one.contributionCents,
      0,
    ),
  )

/** Dollars: less than this is a rounding of cents. */
export const leastPut = 0.005
