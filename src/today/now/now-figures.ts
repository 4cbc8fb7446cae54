// The figures of Now: what they rest on, the pace of the books, cover, leak, what is due, and savings past and to come.
import { type Day, lastDayOf, monthOfDay } from '#calendar/day.ts'
import { type Month, parseMonth, yearOf } from '#calendar/month.ts'
import { listAccounts } from '#db/ledger/account-store.ts'
import { balancesOn, spanOfBooks } from '#db/ledger/balances.ts'
import { cardCredits } from '#db/ledger/card-credits.ts'
import { householdMonths } from '#db/ledger/household-months.ts'
import type { Books } from '#db/open.ts'
import { type BehindAccount, behindOthers } from '#db/reconcile/books-behind.ts'
import { type BooksGap, gapsInBooks } from '#db/reconcile/books-gaps.ts'
import { type BooksReach, reachOfBooks } from '#db/reconcile/books-reach.ts'
import { waitingSums } from '#db/statements/waiting-lines.ts'
import { byPart, lazily } from '#kept/by-part.ts'
import { farmSide, householdSide } from '#ledger/account.ts'
import type { HouseholdMonth } from '#ledger/household-month.ts'
import type { LeakMonth } from '#ledger/leak.ts'
import { unreadOnCard } from '#ledger/money-held.ts'
import { coverByMonth, pacesOf } from '#ledger/pace.ts'
import { type Cents, cents, sumCents } from '#money/cents.ts'
import { firstMonthOf } from '#plan/first-month.ts'
import type { Plan } from '#plan/plan.ts'
import { type Dollars, pricesIn, todaysDollars } from '#runway/dollars/dollars.ts'
import { leakFigures } from '#today/crossings/crossing-figures.ts'
import { currentPlan } from '#today/current-plan.ts'
import { keptUntilChange } from '#today/kept.ts'
import { knowsReview, monthReview } from '#today/month-review/month-review.ts'
import { type ContinuedPlan, continuedPlan } from '#today/projection/continued-plan.ts'
import {
  baselineBeside,
  knowsStorms,
  projectionIn,
  projectionOf,
  type StormSpread,
  stormSpreadOf,
} from '#today/projection/courses.ts'
import { taxSoFarFigures } from '#today/tax/tax-so-far.ts'
import { cardFigures } from './card-figures.ts'
import { dueItems } from './due.ts'
import type { NowFigures } from './figures.ts'
import { firstSteps, loansWithoutTerms } from './first-steps.ts'
import { incomeEnds } from './income-ends.ts'
import { hasCosts, planFigures } from './plan-figures.ts'
import { reachWords } from './reach-words.ts'
import { stepsAhead } from './steps-ahead.ts'

const monthsShown = 48
const trendMonths = 12
/** Those shown, and the twelve that the first cover ratio trails. */
const monthsLookedAt = 60

/**
 * What is not waited for, the storms' band or the month's review, is left out unless it was worked out already. What the books
 * hold stays as it is booked, in whichever dollars the plan is shown.
 */
export function nowFigures(
  books: Books,
  today: Day,
  waits: { storms: boolean; review: boolean } = { storms: true, review: true },
  dollars: Dollars = todaysDollars(today),
): NowFigures {
  const month = monthOfDay(today)
  const current = currentPlan(books)
  const span = spanOfBooks(books)
  /** Of the books and the plan in use as they are on this day. */
  const kept = <Value>(what: string, make: () => Value): Value =>
    keptUntilChange(books, `${what} of now, ${today}`, make)
  const months = lazily(() => kept('months', () => monthsOfBooks(books, span, month)))
  const reach = reachOfBooks(books, today)
  const lastKnown = reach === null ? month : Math.min(month, monthOfDay(reach.day))
  const full = lazily(() =>
    months().filter((one) => one.month <= lastKnown && (one.month < month || today === lastDayOf(month))),
  )
  const gaps = lazily(() => kept('gaps', () => gapsInBooks(books, reach)))
  /** Months in which nothing was booked at all say nothing of what a month costs. */
  const known = lazily(() => full().filter((one) => !gaps().some((gap) => isWholeGap(gap, one.month))))
  const leak = lazily(() => kept('leak', () => leakFigures(books, today)))
  const spendable = lazily(() => kept('spendable', () => spendableFigures(books, today)))
  const fromBooks = lazily(() =>
    current.status === 'read' && hasCosts(current.plan) ? continuedPlan(books, current.plan, today) : null,
  )
  const reviewWaits = () => !waits.review && !knowsReview(books, today)
  const spread = lazily(() => spreadOf(fromBooks(), waits.storms))
  const plan = lazily(() => planFigures(current, fromBooks(), { today, dollars, spread: spread(), span }))
  const figures: NowFigures = byPart<NowFigures>({
    today: () => today,
    reach: () => reachFigures(reach, month, gaps()),
    month: () => month,
    spendable,
    farmGaps: () => kept('farm gaps', () => gapsOfFarm(books, today)),
    behind: () => kept('behind', () => behindOf(books, today, reach)),
    loansUntold: () => kept('loans untold', () => loansUntold(books, fromBooks())),
    reachSays: () => reachWords(figures),
    plan,
    paces: () => pacesIn(fromBooks(), known(), spendable().cents, month),
    ahead: () => (fromBooks() ? stepsAhead(projectionIn(fromBooks()!.plan, dollars), month) : []),
    cover: () => coverByMonth(known().length > 0 ? known() : months()),
    leak: () => leakSums(leak(), span?.first ?? null),
    spending: () => spendingOf(known().slice(-trendMonths)),
    houseMoney: () => lastOf(leak(), trendMonths, (one) => one.runningCents),
    past: () => lastOf(full(), monthsShown, (one) => one.spendableCents),
    future: () => (fromBooks() ? futureSavings(fromBooks()!, spread(), dollars) : []),
    baseline: () =>
      fromBooks() && current.status === 'read' ? baselineOfNow(current.plan, fromBooks()!, dollars) : null,
    stormsWait: () => fromBooks() !== null && spread() === null,
    review: () => (fromBooks() && !reviewWaits() ? monthReview(books, today) : null),
    reviewWaits: () => fromBooks() !== null && reviewWaits(),
    due: () => kept('due', () => dueItems(books, current, today, courseOf(fromBooks()))),
    firstSteps: () =>
      kept('first steps', () => (fromBooks() ? firstSteps(books, fromBooks()!.plan, today) : [])),
    tax: () =>
      kept('tax', () =>
        fromBooks() && current.status === 'read' ? taxSoFarFigures(books, current.plan, today) : null,
      ),
  })
  return figures
}

const spendingOf = (months: readonly HouseholdMonth[]): NowFigures['spending'] =>
  months.map(({ month, costCents, thingsCents }) => ({ month, cents: costCents, thingsCents }))

const lastOf = <One extends { month: Month }>(
  months: readonly One[],
  count: number,
  pick: (one: One) => Cents,
): { month: Month; cents: Cents }[] =>
  months.slice(-count).map((one) => ({ month: one.month, cents: pick(one) }))

/** Whole months before this one in which nothing was booked any more, and those before them that the books pass over. */
const reachFigures = (
  reach: BooksReach | null,
  month: Month,
  gaps: readonly BooksGap[],
): NowFigures['reach'] =>
  reach === null ? null : { ...reach, missingMonths: Math.max(0, month - 1 - monthOfDay(reach.day)), gaps }

const gapsOfFarm = (books: Books, today: Day): BooksGap[] =>
  gapsInBooks(books, reachOfBooks(books, today, farmSide), farmSide)

const behindOf = (books: Books, today: Day, reach: BooksReach | null): BehindAccount[] => [
  ...behindOthers(books, reach, today),
  ...behindOthers(books, reachOfBooks(books, today, farmSide), today, farmSide),
]

const loansUntold = (books: Books, fromBooks: ContinuedPlan | null): NowFigures['loansUntold'] =>
  fromBooks ? loansWithoutTerms(books, fromBooks.plan).map(({ id, name }) => ({ id, name })) : []

const isWholeGap = (gap: BooksGap, month: Month): boolean => gap.month === month && gap.accounts.length === 0

const monthsOfBooks = (books: Books, span: ReturnType<typeof spanOfBooks>, month: Month) =>
  span
    ? householdMonths(
        books,
        Math.max(span.first, month - monthsLookedAt) as Month,
        Math.max(month, span.first) as Month,
      )
    : []

const spreadOf = (fromBooks: ContinuedPlan | null, withStorms: boolean): StormSpread | null =>
  fromBooks && (withStorms || knowsStorms(fromBooks.plan)) ? stormSpreadOf(fromBooks.plan) : null

const courseOf = (fromBooks: ContinuedPlan | null) =>
  fromBooks && { plan: fromBooks.plan, projection: projectionOf(fromBooks.plan) }

const leakSums = (leak: readonly LeakMonth[], since: Month | null): NowFigures['leak'] => {
  const sum = (pick: (one: LeakMonth) => number) => cents(leak.reduce((total, one) => total + pick(one), 0))
  return {
    since,
    cents: leak.at(-1)?.runningCents ?? cents(0),
    contributionCents: sum((one) => one.contributionCents),
    drawCents: sum((one) => one.drawCents),
    reimbursementCents: sum((one) => one.reimbursementCents),
  }
}

function spendableFigures(books: Books, today: Day): NowFigures['spendable'] {
  const balances = balancesOn(books, today)
  const credits = cardCredits(books)
  const accounts = listAccounts(books, { sideId: householdSide, withArchived: true })
    .filter((account) => account.cashRole === 'spendable')
    .map((account) => {
      const balance = balances.get(account.id) ?? cents(0)
      const counted = cents(balance - unreadOnCard(account, balance, credits))
      return { id: account.id, name: account.name, cents: counted }
    })
  const waiting = waitingSums(books).filter((one) => accounts.some((account) => account.id === one.accountId))
  return {
    cents: sumCents(accounts.map((account) => account.cents)),
    accounts: accounts.filter((account) => account.cents !== 0),
    cards: cardFigures(books, today),
    waiting: {
      lines: waiting.reduce((total, one) => total + one.lines, 0),
      cents: sumCents(waiting.map((one) => one.sumCents)),
    },
  }
}

const futureYears = 8

function futureSavings(
  { plan }: ContinuedPlan,
  spread: StormSpread | null,
  dollars: Dollars,
): NowFigures['future'] {
  const from = firstMonthOf(plan)
  const { ofMonth } = pricesIn(projectionOf(plan), dollars)
  return projectionIn(plan, dollars).months.flatMap((one, index) => {
    const month = parseMonth(one.month)!
    if (month < from || month >= from + futureYears * 12) return []
    const band = spread?.band[index]
    const inBand = (edge: 'low' | 'high') => (band ? band[edge] * ofMonth(one.month) : one.spendable)
    return [{ month, dollars: one.spendable, low: inBand('low'), high: inBand('high'), floor: one.floor }]
  })
}

const baselineOfNow = (saved: Plan, { plan }: ContinuedPlan, dollars: Dollars): NowFigures['baseline'] =>
  baselineBeside(saved, plan, dollars, yearOf(firstMonthOf(plan)) + futureYears)
    ?.slice(0, futureYears * 12)
    .map(({ month, spendable }) => ({ month: parseMonth(month)!, dollars: spendable })) ?? null

const pacesIn = (
  fromBooks: ContinuedPlan | null,
  known: readonly HouseholdMonth[],
  spendable: Cents,
  month: Month,
) => pacesOf(known, spendable, floorOf(fromBooks, month), fromBooks ? incomeEnds(fromBooks.plan, month) : [])

/** The plan's floor of this month, in dollars of it; none without a plan. */
const floorOf = (fromBooks: ContinuedPlan | null, month: Month): Cents => {
  const months = fromBooks ? projectionOf(fromBooks.plan).months : []
  const now = months.find((one) => parseMonth(one.month) === month) ?? months[0]
  return cents(Math.round((now?.floor ?? 0) * 100))
}
