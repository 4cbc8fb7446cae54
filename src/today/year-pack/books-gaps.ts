// What keeps the books of a year from being whole: a first day within it, lines that wait, months that are open.

import { dayName, firstDayOfYear, lastDayOfYear } from '#calendar/day.ts'
import { month, monthName, monthNames } from '#calendar/month.ts'
import { fromTo } from '#calendar/spell.ts'
import { listSides } from '#db/ledger/account-store.ts'
import { openingDay } from '#db/ledger/opening-day.ts'
import type { Books } from '#db/open.ts'
import { openMonths } from '#db/reconcile/closing-store.ts'
import { waitingBetween } from '#db/statements/waiting-lines.ts'
import { coveredMonths, isAheadOfPremium } from '#ledger/tax/cover-papers.ts'
import { savingReadingsOf } from '#ledger/tax/saving-move.ts'
import { formatDollars } from '#money/format.ts'
import type { CurrentPlan } from '#today/current-plan.ts'
import { booksYear } from '#today/tax/books-year.ts'
import { coverAsPaid } from '#today/tax/cover-as-paid.ts'
import { coverPapers } from '#today/tax/cover-papers.ts'
import { movesOfTax } from '#today/tax/paid-for.ts'
import { movesOfSavings } from '#today/tax/saved-for.ts'
import type { YearPackFigures } from './figures.ts'

type Gap = YearPackFigures['gaps'][number]

export const booksGaps = (books: Books, year: number, current: CurrentPlan): Gap[] => [
  ...beginsLate(books, year, current),
  ...waiting(books, year),
  ...open(books, year),
  ...undecidedPayments(books, year),
  ...undecidedSavings(books, year),
  ...coverPapersAsked(books, year, current),
  ...aheadOfPremium(books, year),
]

/** A year that is over, with premiums paid and somebody on the marketplace: its papers say what the return takes. */
const coverPapersAsked = (books: Books, year: number, current: CurrentPlan): Gap[] => {
  const wasCovered =
    current.status === 'read' &&
    coveredMonths(coverAsPaid(current.plan, booksYear(books, year).sides, year)).length > 0
  return wasCovered && coverPapers(books, year).papers.length === 0
    ? [
        {
          says: `Form 1095-A of ${year} is not entered: premium, second-lowest silver premium and advance credit are the plan’s, and a plan changed later changes this year’s credit.`,
          href: `/year-pack/cover-papers?year=${year}`,
        },
      ]
    : []
}

const aheadOfPremium = (books: Books, year: number): Gap[] => {
  const months = coverPapers(books, year).papers.flatMap((paper) =>
    paper.months.flatMap((one, i) => (isAheadOfPremium(one) ? [i] : [])),
  )
  const named = monthNames.filter((_, i) => months.includes(i))
  return named.length === 0
    ? []
    : [
        {
          says: `Form 1095-A of ${year}: in ${named.join(', ')} the credit in advance is more than the premium. Ask the marketplace for a corrected form, or enter it as it says.`,
          href: `/year-pack/cover-papers?year=${year}`,
        },
      ]
}

/** What was told of the months before stands in the tax worksheet and in no statement. */
const beginsLate = (books: Books, year: number, current: CurrentPlan): Gap[] => {
  const first = openingDay(books)
  if (first === null || first <= firstDayOfYear(year) || first > lastDayOfYear(year)) return []
  const { farmGross, farmProfit } =
    current.status === 'read' ? current.plan.tax.soFar : { farmGross: 0, farmProfit: 0 }
  const told =
    farmGross === 0 && farmProfit === 0
      ? 'Nothing was entered for the farm before that.'
      : `Farm sales of ${formatDollars(farmGross)} and costs of ${formatDollars(farmGross - farmProfit)} before that, as entered in the first steps, are in the tax worksheet only.`
  return [
    {
      says: `The books begin on ${dayName(first)}: statements and forms here hold ${year} from that day on. ${told}`,
      href: '/start/year',
    },
  ]
}

const waiting = (books: Books, year: number): Gap[] => {
  const count = waitingBetween(books, firstDayOfYear(year), lastDayOfYear(year))
  return count === 0
    ? []
    : [
        {
          says: `${count} ${count === 1 ? 'transaction waits' : 'transactions wait'} to be sorted and ${count === 1 ? 'is' : 'are'} in none of these figures.`,
          href: '/books/sorting',
        },
      ]
}

const open = (books: Books, year: number): Gap[] =>
  listSides(books).flatMap(({ id, name }) => {
    const months = openMonths(books, id, month(year, 12)).filter((one) => one >= month(year, 1))
    const [first, last] = [months[0], months.at(-1)]
    return first === undefined || last === undefined
      ? []
      : [
          {
            says: `${name}: ${fromTo(monthName(first), monthName(last))} ${first === last ? 'is' : 'are'} not closed, so what is printed can still change.`,
            href: '/books/close',
          },
        ]
  })

/** The month of a return has the first installment of its own year too. */
const undecidedPayments = (books: Books, year: number): Gap[] => {
  const count = movesOfTax(books).filter(
    ({ readings }) => readings.length > 1 && readings.some(({ taxYear }) => taxYear === year),
  ).length
  return count === 0
    ? []
    : [
        {
          says: `${count} ${count === 1 ? 'payment' : 'payments'} of tax may be for this year or another: say which. Until then what the year before owed is taken as settled first.`,
          href: `/year-pack/payments?year=${year}`,
        },
      ]
}

/** Up to the day of the return a contribution may be for the year before. */
const undecidedSavings = (books: Books, year: number): Gap[] => {
  const count = movesOfSavings(books).filter((move) => {
    const readings = savingReadingsOf(move)
    return readings.length > 1 && readings.some(({ taxYear }) => taxYear === year)
  }).length
  return count === 0
    ? []
    : [
        {
          says: `${count} ${count === 1 ? 'contribution' : 'contributions'} to retirement or health savings may be for this year or another: say which. Until then ${count === 1 ? 'it counts' : 'they count'} for the year of the day.`,
          href: `/year-pack/contributions?year=${year}`,
        },
      ]
}
