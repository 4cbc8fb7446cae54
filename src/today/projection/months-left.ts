// What the runway says today, with the books' balances in place of the plan's past, and the months that the books hold whole.
import { type Day, lastDayOf, monthOfDay } from '#calendar/day.ts'
import { type Month, monthText, parseMonth } from '#calendar/month.ts'
import { spanOfBooks } from '#db/ledger/balances.ts'
import { householdMonths } from '#db/ledger/household-months.ts'
import type { Books } from '#db/open.ts'
import { gapsInBooks } from '#db/reconcile/books-gaps.ts'
import { reachOfBooks } from '#db/reconcile/books-reach.ts'
import type { HouseholdMonth } from '#ledger/household-month.ts'
import { centsToDollars } from '#money/cents.ts'
import type { ActualMonth } from '#runway/against-books/variance-lines.ts'
import { monthsLeftTo } from '#runway/compile/plan-of-day.ts'
import type { Projection } from '#runway/project.ts'
import { currentPlan } from '#today/current-plan.ts'
import { keptThrough } from '#today/kept.ts'
import { continuedPlan } from './continued-plan.ts'
import { projectionOf, withoutDrawsOf } from './courses.ts'

/** Whole months of the household's books, oldest first, as far as they reach: the month of `today` is left out. */
export const actualMonths = (books: Books, today: Day): ActualMonth[] => {
  const span = spanOfBooks(books)
  const reach = reachOfBooks(books, today)?.day ?? null
  if (!span || reach === null) return []
  // Months that nothing was booked in say nothing of what they cost.
  const last = Math.min(monthOfDay(today) - 1, monthOfDay(reach)) as Month
  if (span.first > last) return []
  return keptThrough(books, lastDayOf(last), 'household months', () =>
    householdMonths(books, span.first, last).map(actualMonth),
  )
}

/** Of these, those after the last month that the books pass over: it says nothing of what it cost. */
export const comparedMonths = (books: Books, today: Day): ActualMonth[] => {
  const gap = gapsInBooks(books, reachOfBooks(books, today)).findLast(({ accounts }) => accounts.length === 0)
  const months = actualMonths(books, today)
  return gap === undefined ? months : months.filter(({ month }) => month > monthText(gap.month))
}

const actualMonth = (one: HouseholdMonth): ActualMonth => ({
  month: monthText(one.month),
  living: centsToDollars(one.livingCents),
  livingBy: livingBy(one),
  care: centsToDollars(one.careCents),
  premiums: centsToDollars(one.premiumCents),
  taxes: centsToDollars(one.taxCents),
  loanPayments: centsToDollars(one.loanPaidCents),
  loansDrawn: centsToDollars(one.loanDrawnCents),
  cardsUnread: centsToDollars(one.cardUnreadCents),
  owed: centsToDollars(one.owedCents),
  things: centsToDollars(one.thingsCents),
  draws: centsToDollars(one.drawCents),
  contributions: centsToDollars(one.contributionCents),
  reimbursements: centsToDollars(one.reimbursementCents),
  ventures: centsToDollars(one.ventureCents),
  lent: centsToDollars(one.lentCents),
  pay: centsToDollars(one.payCents),
  benefits: centsToDollars(one.benefitCents),
  interest: centsToDollars(one.interestCents),
  otherIncome: centsToDollars(one.otherIncomeCents),
  setAside: centsToDollars(one.setAsideCents),
  other: centsToDollars(one.otherCents),
  spendable: centsToDollars(one.spendableCents),
  change: centsToDollars(one.changeCents),
})

const livingBy = ({ costs }: HouseholdMonth): Record<string, number> => {
  const spent: Record<string, number> = {}
  for (const { name, purpose, cents } of costs)
    if (purpose === 'living') spent[name] = (spent[name] ?? 0) + centsToDollars(cents)
  return spent
}

export interface SaidToday {
  planId: string
  revisionNo: number
  projection: Projection
  /** Months from today's month until the floor; null when savings last to the end. */
  monthsLeft: number | null
  monthsLeftWithoutDraws: number | null
  /** Whether savings are those that the books hold. */
  fromBooks: boolean
}

export const saidToday = (books: Books, today: Day): SaidToday | null => {
  const current = currentPlan(books)
  if (current.status !== 'read') return null
  const { plan, savingsFrom } = continuedPlan(books, current.plan, today)
  const projection = projectionOf(plan)
  return {
    planId: current.planId,
    revisionNo: current.revisionNo,
    projection,
    monthsLeft: projection.milestones.monthsLeft,
    monthsLeftWithoutDraws: withoutDrawsOf(plan).milestones.monthsLeft,
    fromBooks: savingsFrom.books.length > 0,
  }
}

/** The same by a course of another day, as a review of a month takes it up: counted from that day's month. */
export const monthsLeftFrom = (day: Day, { milestones }: Pick<Projection, 'milestones'>): number | null =>
  milestones.floorMonth === null ? null : monthsLeftTo(parseMonth(milestones.floorMonth)!, monthOfDay(day))
