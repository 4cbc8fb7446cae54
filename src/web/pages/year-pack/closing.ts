// How the closing of a year stands: what must come first, the copies that were kept, and what reads otherwise since.
import { lastDayOfYear } from '#calendar/day.ts'
import { month } from '#calendar/month.ts'
import { listSides } from '#db/ledger/account-store.ts'
import { openMonths } from '#db/reconcile/closing-store.ts'
import { keptPacksOf } from '#db/year/kept-packs.ts'
import { currentPlan } from '#today/current-plan.ts'
import { bookedSince, paidSince } from '#today/tax/paid-each.ts'
import type { ClosedYearFigures } from '#views/year-pack/whole/closed-year.tsx'
import type { PageContext } from '#web/forms/answer.tsx'
import { paidUntil, sinceClosed } from '#web/forms/pack/closed-years.ts'

/** What the page says of the closing of a year. */
export const closedYear = (c: PageContext, year: number): ClosedYearFigures => ({
  year,
  first: beforeClosing(c, year),
  copies: keptPacksOf(c.var.web.books, year).map(({ copyNo, keptAt, digest, note }) => ({
    copyNo,
    at: keptAt,
    digest,
    note,
  })),
  ...(sinceClosed(c, year) ?? { differences: [], newSheets: [] }),
  ...paidSinceClosed(c, year),
})

const paidSinceClosed = (
  c: PageContext,
  year: number,
): Pick<ClosedYearFigures, 'paidSince' | 'bookedSince'> => {
  const { books } = c.var.web
  const [newest] = keptPacksOf(books, year)
  if (!newest) return { paidSince: [], bookedSince: [] }
  const current = currentPlan(books)
  const plan = current.status === 'read' ? current.plan : null
  return {
    paidSince: paidSince(books, plan, year, paidUntil(newest)),
    bookedSince: bookedSince(books, plan, year, paidUntil(newest)),
  }
}

/** The months of all sides are closed first, so that nothing more is booked into the year unasked. */
export const beforeClosing = (c: PageContext, year: number): ClosedYearFigures['first'] => {
  const { books } = c.var.web
  if (c.var.web.today() <= lastDayOfYear(year))
    return [
      { says: `${year} still runs. It can be closed from January 1, ${year + 1} on.`, href: '/year-pack' },
    ]
  return listSides(books)
    .filter(({ id }) => openMonths(books, id, month(year, 12)).length > 0)
    .map(({ name }) => ({
      says: `Close the months of ${year} in the books of ${name}.`,
      href: '/books/close',
    }))
}
