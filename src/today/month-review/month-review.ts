// One review of the month that is over: what changed months left since it began. The plan of then is started from the books as they
// stood on the month's first day; what the month brought is put in place of what was expected, one thing after the other.
import { type Day, firstDayOf, monthOfDay } from '#calendar/day.ts'
import { type Month, monthName, monthText, parseMonth } from '#calendar/month.ts'
import { spanOfBooks } from '#db/ledger/balances.ts'
import { openingDay } from '#db/ledger/opening-day.ts'
import type { Books } from '#db/open.ts'
import { planRevision, revisionStandingAt } from '#db/plan-store.ts'
import { booksReach } from '#db/reconcile/books-reach.ts'
import { listSayings } from '#db/runway-history-store.ts'
import { centsToDollars, zeroCents } from '#money/cents.ts'
import type { Plan } from '#plan/plan.ts'
import { readPlan } from '#plan/upgrade.ts'
import { varianceOf } from '#runway/against-books/variance.ts'
import {
  isHouseholdCost,
  oneOffLine,
  openingOf,
  plannedMonths,
} from '#runway/against-books/variance-lines.ts'
import type { Projection } from '#runway/project.ts'
import { leakFigures } from '#today/crossings/crossing-figures.ts'
import { currentPlan, type PlanInUse } from '#today/current-plan.ts'
import { keptUntilChange } from '#today/kept.ts'
import { continuedPlan, startIn } from '#today/projection/continued-plan.ts'
import { projectionOf } from '#today/projection/courses.ts'
import { expectedStart } from '#today/projection/expected-start.ts'
import { actualMonths, monthsLeftFrom } from '#today/projection/months-left.ts'
import { startedAgain } from '#today/projection/start-of-month.ts'
import type { MonthReview, ReviewPart } from './figures.ts'
import { spendableIn, stepsTo } from './steps.ts'

export function monthReview(books: Books, today: Day): MonthReview {
  const held = heldFor(books, today)
  held.review ??= workedOut(books, today)
  return held.review
}

/** Whether it was worked out already: ten courses are run for it, which no page waits for. */
export const knowsReview = (books: Books, today: Day): boolean => heldFor(books, today).review !== undefined

const heldFor = (books: Books, today: Day): { review?: MonthReview } =>
  keptUntilChange(books, `review ${today}`, () => ({}))

const workedOut = (books: Books, today: Day): MonthReview => {
  const current = currentPlan(books)
  if (current.status === 'read') return reviewOf(books, current, today)
  return none(
    current.status === 'none'
      ? 'There is no plan yet. With one, this shows what the month did to months left.'
      : 'The plan cannot be read, so this cannot show what the month changed.',
  )
}

const none = (says: string): MonthReview => ({ status: 'none', says })

function reviewOf(books: Books, current: PlanInUse, today: Day): MonthReview {
  const month = monthOfDay(today)
  const last = (month - 1) as Month
  const missing = missingIn(books, last, today)
  if (missing) return none(missing)
  const revision = revisionThen(books, current, last)
  const start = startIn(books, revision.plan, last)
  const end = startIn(books, revision.plan, month)
  if (!start || !end) return none(outsidePlan(revision.plan, last))
  const then = startedAgain(revision.plan, last, start.from)
  const course = projectionOf(then)
  const actual = actualMonths(books, today).filter((one) => one.month === monthText(last))
  const { lines } = varianceOf(plannedMonths(then, course.months.slice(0, 1)), actual, 0)!
  const expected = expectedStart(then, course, end.from)
  const known = (['traditional', 'roth'] as const).filter((kind) => end.facts?.savings[kind] !== undefined)
  const steps = stepsTo(expected, end.from, lines, known)
  const startedFrom = (from: typeof expected) => projectionOf(startedAgain(revision.plan, month, from))
  const now = projectionOf(continuedPlan(books, current.plan, today).plan)
  const opening = openingOf(then)
  const before = spendableIn({
    ...start.from,
    savings: { cash: opening.cash, taxable: opening.taxable, ...start.from.savings },
  })
  const chain: Link[] = [
    { kind: 'time', savings: spendableIn(expected) - before, course },
    { kind: 'rest', savings: 0, course: startedFrom(expected) },
    ...steps.map(({ kind, savings, start: from }) => ({ kind, savings, course: startedFrom(from) })),
    { kind: 'plan', savings: 0, course: now },
  ]
  const thenLeft = monthsLeftFrom(firstDayOf(last), course)
  const sumOf = (some: typeof lines) => ({
    planned: some.reduce((sum, line) => sum + line.planned, 0),
    actual: some.reduce((sum, line) => sum + line.actual, 0),
  })
  return {
    status: 'read',
    month: last,
    monthsLeft: { before: thenLeft, now: monthsLeftFrom(today, now) },
    savings: { before, expected: spendableIn(expected), now: spendableIn(end.from) },
    yearAhead: { before: yearAheadIn(course, month), now: yearAheadIn(now, month) },
    parts: partsOf(chain, thenLeft, today),
    spending: sumOf(lines.filter(isHouseholdCost)),
    things: sumOf(lines.filter(({ name }) => name === oneOffLine)),
    inFarm: inFarmFigures(books, today, last),
    revisions: { before: revision.revisionNo, now: current.revisionNo },
    standsIn: revision.standsIn,
  }
}

/** What keeps the books from telling of the month, in words; null when they can. */
function missingIn(books: Books, last: Month, today: Day): string | null {
  const span = spanOfBooks(books)
  const reach = booksReach(books, today)
  if (!span || reach === null)
    return 'The books hold nothing yet. You see what a month changed after the first full one.'
  if (span.first > last || (span.first === last && openingDay(books) !== firstDayOf(last)))
    return `The books begin in ${monthName(span.first)}. You see what changed after the first full month.`
  return monthOfDay(reach) < last
    ? `The books do not hold ${monthName(last)} yet. Read in the bank’s files, and this says what the month changed.`
    : null
}

const outsidePlan = (plan: Plan, last: Month): string => {
  const begins = parseMonth(plan.startMonth)!
  return begins > last
    ? `The plan begins in ${monthName(begins)}. You see what changed after its first month.`
    : `The plan was over by ${monthName(last)}, so this cannot show what the month changed.`
}

interface PlanThen {
  revisionNo: number
  plan: Plan
  /** Why it is not the plan that stood as the month began, for people; null where it is. */
  standsIn: string | null
}

/** The plan in use as it stood when the month before was closed, or else when the month began; where there was none, another stands in and is named. */
function revisionThen(books: Books, current: PlanInUse, last: Month): PlanThen {
  const begun = firstDayOf(last)
  const kept = listSayings(books).find((one) => one.month === last && one.isOfClosing)
  const closedWith = kept?.planId === current.planId ? kept.planRevisionNo : null
  const revisionNo = closedWith ?? revisionStandingAt(books, current.planId, begun)
  const revision = revisionNo === null ? undefined : planRevision(books, current.planId, revisionNo)
  const todays = { revisionNo: current.revisionNo, plan: current.plan }
  if (!revision) return { ...todays, standsIn: 'The plan of that time was not kept: today’s plan is used.' }
  const isLater = closedWith === null && revision.savedAt >= begun
  const standsIn = isLater
    ? `This plan was saved only after ${monthName(last)} had begun: its first version is used.`
    : null
  if (revision.revisionNo === current.revisionNo) return { ...todays, standsIn }
  const read = readPlan(revision.document)
  if (!read.ok)
    return {
      ...todays,
      standsIn: `The plan of then, version ${revision.revisionNo}, cannot be read any more: today’s plan is used.`,
    }
  const begins = parseMonth(read.plan.startMonth)!
  if (begins > last)
    return {
      ...todays,
      standsIn: `The plan of then was to begin in ${monthName(begins)}: today’s plan is used.`,
    }
  return { revisionNo: revision.revisionNo, plan: read.plan, standsIn }
}

const partNames: Record<ReviewPart['kind'], string> = {
  time: 'The month as it was expected',
  market: 'Markets and interest',
  spending: 'Spending',
  premiums: 'Premiums',
  tax: 'Tax, paid and still to pay',
  income: 'Pay, ventures and benefits',
  farm: 'The farm: draws, its cash and loans',
  moved: 'Put aside or taken out, borrowed, booked by hand',
  plan: 'Changes to the plan',
  rest: 'Everything else',
}

interface Link {
  kind: ReviewPart['kind']
  savings: number
  course: Projection
}

/** What each link of the chain changes against the one before it. */
function partsOf(chain: readonly Link[], thenLeft: number | null, today: Day): ReviewPart[] {
  const month = monthOfDay(today)
  let left = thenLeft
  let ahead = yearAheadIn(chain[0]!.course, month)
  return chain.map(({ kind, savings, course }) => {
    const before = { left, ahead }
    left = monthsLeftFrom(today, course)
    ahead = yearAheadIn(course, month)
    const months =
      left !== null && before.left !== null ? left - before.left : left === before.left ? 0 : null
    return { kind, name: partNames[kind], savings, yearAhead: ahead - before.ahead, months, monthsLeft: left }
  })
}

/** Spendable savings after twelve months from `month`, less what nothing could pay in them; at the plan's end where that comes first. */
function yearAheadIn({ months }: Projection, month: Month): number {
  const ahead = months.filter((one) => one.month >= monthText(month)).slice(0, 12)
  const missed = ahead.reduce((sum, one) => sum + one.unmetNeed, 0)
  return (ahead.at(-1)?.spendable ?? 0) - missed
}

function inFarmFigures(books: Books, today: Day, last: Month) {
  const months = leakFigures(books, today)
  const at = (month: number) =>
    centsToDollars(months.findLast((one) => one.month <= month)?.runningCents ?? zeroCents)
  return months.length === 0 ? null : { before: at(last - 1), now: at(last) }
}
