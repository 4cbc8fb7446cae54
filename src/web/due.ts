// What is due: standing transfers, lines to sort, statements to reconcile, and the next tax dates.
import { addDays, type Day, dayName } from '#calendar/day.ts'
import { monthName } from '#calendar/month.ts'
import { listAccounts } from '#db/account-store.ts'
import { yearSums } from '#db/balances.ts'
import type { Books } from '#db/open.ts'
import { countWaiting } from '#db/sorting-desk.ts'
import { dueTransfers } from '#db/standing-store.ts'
import { farmSide } from '#ledger/account.ts'
import { formatCents, formatDollars } from '#money/format.ts'
import {
  farmerFilingDue,
  farmerInstalmentDue,
  isFarmerYear,
  quarterlyInstalmentsDue,
  returnDue,
} from '#rules/estimated-tax.ts'
import type { Projection } from '#runway/project.ts'
import type { DueItem } from '#views/now/figures.ts'

/** Oldest first within its kind: what waits longest stands on top. */
export const dueItems = (books: Books, today: Day, projection: Projection | null): DueItem[] => [
  ...standingDue(books, today),
  ...waitingLines(books),
  ...taxDates(books, today, projection),
]

const standingDue = (books: Books, today: Day): DueItem[] =>
  dueTransfers(books, today).map((due) => ({
    says: `${due.transfer.name}, ${formatCents(due.transfer.amountCents)}, for ${monthName(due.month)}`,
    href: '/crossings#due-title',
    day: due.day,
    standing: { id: due.transfer.id, month: due.month, name: due.transfer.name },
  }))

function waitingLines(books: Books): DueItem[] {
  const { waiting, doubtful } = countWaiting(books)
  if (waiting === 0) return []
  const lines = waiting === 1 ? '1 line of a statement waits' : `${waiting} lines of statements wait`
  return [
    {
      says: `${lines} to be sorted${doubtful > 0 ? `, ${doubtful} of them doubtful` : ''}`,
      href: '/books/sorting',
      day: null,
    },
  ]
}

const daysAhead = 75

/** Tax dates of the coming weeks. A farmer has one instalment in January, or none when filing by 1 March. */
function taxDates(books: Books, today: Day, projection: Projection | null): DueItem[] {
  const year = Number.parseInt(today.slice(0, 4), 10)
  const until = addDays(today, daysAhead)
  const dates = [year - 1, year].flatMap((taxYear) => {
    const tax = projection?.years.find((one) => one.year === taxYear)?.tax
    const amount =
      tax !== undefined && tax > 0 ? `, about ${formatDollars(tax)} for the year by the plan` : ''
    const farmer = isFarmer(books, taxYear)
    return farmer
      ? [
          {
            day: farmerInstalmentDue(taxYear),
            says: `Estimated tax for ${taxYear}: a farmer’s one instalment${amount}`,
          },
          {
            day: farmerFilingDue(taxYear),
            says: `File for ${taxYear} by now if no instalment was paid in January`,
          },
          { day: returnDue(taxYear), says: `Tax return for ${taxYear}` },
        ]
      : [
          ...quarterlyInstalmentsDue(taxYear).map((day) => ({
            day,
            says: `Estimated tax for ${taxYear}, a quarter${amount}`,
          })),
          { day: returnDue(taxYear), says: `Tax return for ${taxYear}` },
        ]
  })
  return dates
    .filter((date) => date.day >= today && date.day <= until)
    .map((date) => ({ says: `${date.says}: ${dayName(date.day)}`, href: '/cover', day: date.day }))
}

/** Two thirds of gross income from farming, this year or the one before, as the books have it. */
export function isFarmer(books: Books, taxYear: number): boolean {
  const income = new Map(
    listAccounts(books, { withArchived: true })
      .filter((account) => account.kind === 'income' && account.systemRole === null)
      .map((account) => [account.id, account.sideId === farmSide]),
  )
  return [taxYear, taxYear - 1].some((year) => {
    let farm = 0
    let total = 0
    for (const sum of yearSums(books, year, year)) {
      const isFarm = income.get(sum.accountId)
      if (isFarm === undefined) continue
      total -= sum.sumCents
      if (isFarm) farm -= sum.sumCents
    }
    return isFarmerYear({ farm: farm / 100, total: total / 100 })
  })
}
