// THE plan of a day: continued from the first of this month (or the first that the books miss), from what they hold there. Every page, storm, run of chance and
// question that speaks of the plan projects this one; the plan as saved is its baseline and is only held against the books.
import { type Day, lastDayOf, monthOfDay } from '#calendar/day.ts'
import { type Month, yearOf } from '#calendar/month.ts'
import { standingOf } from '#db/change-log.ts'
import { headMoves } from '#db/notebook/field-notes.ts'
import type { Books } from '#db/open.ts'
import { booksReach } from '#db/reconcile/books-reach.ts'
import type { Loan } from '#farm/loan-document.ts'
import { firstMonthOf } from '#plan/first-month.ts'
import { lived } from '#plan/life/lived.ts'
import type { Plan } from '#plan/plan.ts'
import { tiedIn } from '#plan/savings/money-earns.ts'
import type { AccountKind } from '#plan/savings-plan.ts'
import { isDescribed } from '#runway/compile/compile-farm.ts'
import type { PlanOfDay } from '#runway/compile/plan-of-day.ts'
import type { ProjectedMonth, Projection } from '#runway/project.ts'
import { keptUntilChange } from '#today/kept.ts'
import { accountsIn, apartAsPlanned, heldApart, sharedIn, sharedInBooks } from './accounts-apart.ts'
import { type BookFacts, bookFacts } from './book-facts.ts'
import { ventureKey } from './cash-handed-over.ts'
import { projectionThrough, samePlan } from './courses.ts'
import { peopleNow } from './earnings-since.ts'
import { farmNetBefore } from './farm-net-before.ts'
import { lastYearDue } from './last-year-due.ts'
import { purchasesNow } from './purchases-ahead.ts'
import { putIntoFarm } from './put-into-farm.ts'
import { loanGoesOn, type StartOfMonth, startedAgain, ventureCashIn } from './start-of-month.ts'
import { taxFacts } from './tax-facts.ts'
import { writtenOff } from './written-off.ts'

export interface SavingsFrom {
  books: AccountKind[]
  plan: AccountKind[]
  /** Names of inherited accounts that go on as planned, of kinds that the books do hold. */
  apart: string[]
}

export interface ContinuedPlan {
  plan: PlanOfDay
  /** Which savings it starts from are those of the books, and which those of the plan, by kind of account. */
  savingsFrom: SavingsFrom
  /** The farm's cash it starts from is that of the books. */
  farmCashFromBooks: boolean
  /** Savings at the end of last month as the plan expected them, and how far the books are from that; null in its first month. */
  correction: { month: Month; expectedDollars: number; differenceDollars: number } | null
}

/**
 * A plan that begins later than this month, or has ended, stays as it is; one under way without books goes on as planned. The
 * same object as long as nothing it rests on has changed: what is worked out from a plan is kept with it.
 */
export function continuedPlan(books: Books, saved: Plan, today: Day): ContinuedPlan {
  const month = continuedFrom(books, saved, today)
  const notYetBegun = firstNotBegun(books, today)
  const standing = standingOf(books)
  const found = known.get(saved)
  const thisMonth = monthOfDay(today)
  if (
    found?.standing === standing &&
    found.notYetBegun === notYetBegun &&
    found.month === month &&
    found.thisMonth === thisMonth
  )
    return found.continued
  const made = continuedIn(books, saved, month)
  const plan = seenFrom(made.plan, thisMonth, notYetBegun)
  const continued = { ...made, plan: plan === saved ? saved : samePlan(saved, plan) }
  known.set(saved, { standing, month, thisMonth, notYetBegun, continued })
  return continued
}

/** From then on so little of a month is left that a bad year begun in it would spare the plan most of its first month. */
const lateInMonth = 16

const reachOn = (books: Books, today: Day): Day | null =>
  keptUntilChange(books, `reach of the household on ${today}`, () => booksReach(books, today))

/** This month, or the next once the books hold something of this one, or half of it is over. */
function firstNotBegun(books: Books, today: Day): Month {
  const thisMonth = monthOfDay(today)
  const reach = reachOn(books, today)
  const hasBegun = (reach !== null && monthOfDay(reach) >= thisMonth) || Number(today.slice(8)) >= lateInMonth
  return (hasBegun ? thisMonth + 1 : thisMonth) as Month
}

/**
 * This month, or the one after the last that the books hold where months are missing: those are projected too, since what they
 * cost is in no book. Never before the plan's first month.
 */
function continuedFrom(books: Books, saved: Plan, today: Day): Month {
  const thisMonth = monthOfDay(today)
  const reach = reachOn(books, today)
  const known = reach === null ? thisMonth : Math.min(thisMonth, monthOfDay(reach) + 1)
  return Math.min(thisMonth, Math.max(known, firstMonthOf(saved))) as Month
}

const known = new WeakMap<
  Plan,
  { standing: string; month: Month; thisMonth: Month; notYetBegun: Month; continued: ContinuedPlan }
>()

/** The same plan where both are its own first month. */
const seenFrom = (plan: Plan, leftFrom: Month, badYearsFrom: Month): PlanOfDay => {
  const first = firstMonthOf(plan)
  return leftFrom === first && badYearsFrom <= first
    ? plan
    : { ...plan, seenFrom: { leftFrom, badYearsFrom } }
}

/** The plan as it goes on from the start of `month`, whatever today is. */
export function continuedIn(books: Books, saved: Plan, month: Month): ContinuedPlan {
  const start = startIn(books, saved, month)
  if (start === null)
    return {
      plan: lived(saved),
      savingsFrom: savingsFrom(saved, null),
      farmCashFromBooks: false,
      correction: null,
    }
  const { from, facts, before } = start
  return {
    plan: lived(startedAgain(saved, month, from)),
    savingsFrom: savingsFrom(saved, facts),
    farmCashFromBooks: facts?.farmCash != null && isDescribed(saved.farm),
    correction: correctionOf(month, facts, before),
  }
}

const kinds: readonly AccountKind[] = ['cash', 'taxable', 'traditional', 'roth', 'health']

/** A kind that neither knows anything of is left out. */
function savingsFrom(planned: Plan, facts: BookFacts | null): SavingsFrom {
  const books = kinds.filter((kind) => facts?.savings[kind] !== undefined)
  const plan = kinds.filter(
    (kind) =>
      !books.includes(kind) &&
      planned.savings.accounts.some((account) => account.kind === kind && account.balance > 0),
  )
  const apart = facts === null ? [] : apartAsPlanned(planned, facts)
  return { books, plan, apart: apart.filter(({ kind }) => books.includes(kind)).map(({ name }) => name) }
}

interface KnownStart {
  from: StartOfMonth
  facts: BookFacts | null
  /** The month before as the plan expected it when it was saved; none in its first month. */
  before: ProjectedMonth | undefined
}

/** What is so as a month begins, by the books and else as planned; null before the plan has begun or when it is over. */
export function startIn(books: Books, saved: Plan, month: Month): KnownStart | null {
  const start = firstMonthOf(saved)
  const facts = month < start ? null : bookFacts(books, month)
  const baseline = month > start ? projectionThrough(saved, yearOf(month)) : null
  const before = baseline?.months[month - start - 1]
  if (month < start || (baseline ? !before : !facts)) return null
  const planned = accountsIn(saved, baseline ?? { parts: null }, month - start - 1)
  const apart = heldApart(saved, planned, facts)
  const due = lastYearDue(books, saved, month, baseline)
  const from: StartOfMonth = {
    savings: {
      ...(before && sharedIn(saved, before, planned, apart)),
      ...(facts && sharedInBooks(saved, facts, apart)),
    },
    inAccounts: facts?.cashIn ?? tiedIn(saved, planned),
    apart,
    farmCash: facts?.farmCash ?? before?.farmCash ?? saved.farm.cash,
    ventureCash: ventureCashNow(saved, facts, baseline, month),
    farmNetBefore: farmNetBefore(books, saved, month, baseline),
    loans: {
      household: loansNow(saved.household.loans, month, facts?.loans.household),
      farm: loansNow(saved.farm.loans, month, facts?.loans.farm),
    },
    people: peopleNow(books, saved, month, baseline),
    purchases: purchasesNow(saved, baseline, month),
    headMoves: keptUntilChange(books, `head moves to ${month}`, () => headMoves(books, lastDayOf(month))),
    tax: taxFacts(books, saved, month, baseline, due.stillDue),
    settles: due.settles,
    hasPutIn: putIntoFarm(books, saved, month, baseline),
    writtenOff: writtenOff(books, saved, month),
  }
  return { from, facts, before }
}

/** By the books where they keep a venture of that name, else as planned. */
const ventureCashNow = (
  saved: Plan,
  facts: BookFacts | null,
  baseline: Projection | null,
  month: Month,
): number[] => {
  const planned = ventureCashIn(saved, baseline ?? { parts: null }, month - firstMonthOf(saved) - 1)
  return saved.household.sideVentures.map(
    ({ name }, place) => facts?.ventures.get(ventureKey(name)) ?? planned[place]!,
  )
}

const loansNow = (
  loans: readonly Loan[],
  month: Month,
  booked: ReadonlyMap<number, number> | undefined,
): Loan[] =>
  loans.map((loan) =>
    loanGoesOn(loan, month, loan.bookAccount === undefined ? undefined : booked?.get(loan.bookAccount)),
  )

function correctionOf(
  month: Month,
  facts: BookFacts | null,
  before: ProjectedMonth | undefined,
): ContinuedPlan['correction'] {
  if (!before || !facts) return null
  // A kind that the books do not know goes on as it was planned, and differs by nothing.
  const spendable = (facts.savings.cash ?? before.cash) + (facts.savings.taxable ?? before.taxable)
  return {
    month: (month - 1) as Month,
    expectedDollars: before.spendable,
    differenceDollars: spendable - before.spendable,
  }
}
