// One forecast a closed month: what was expected as the next one began, kept as it stood. Plan against the books compares with it.
import { addDays, type Day, firstDayOf, monthOfDay } from '#calendar/day.ts'
import { addMonths, type Month, parseMonth } from '#calendar/month.ts'
import { spanOfBooks } from '#db/ledger/balances.ts'
import { spendableOn } from '#db/ledger/household-months.ts'
import { type Act, atomically } from '#db/once.ts'
import type { Books } from '#db/open.ts'
import { closeMonth, standingClosing } from '#db/reconcile/closing-store.ts'
import { listSayings, recordSaying } from '#db/runway-history-store.ts'
import { householdSide } from '#ledger/account.ts'
import { dollarsToCents } from '#money/cents.ts'
import type { Plan } from '#plan/plan.ts'
import { type PlannedMonth, plannedMonthSchema, plannedMonths } from '#runway/against-books/variance-lines.ts'
import { currentPlan, type PlanInUse } from '#today/current-plan.ts'
import { keptUntilChange } from '#today/kept.ts'
import { type ContinuedPlan, continuedIn, continuedPlan } from './continued-plan.ts'
import { baselineOf, projectionOf, withoutDrawsOf } from './courses.ts'

/** Months that a forecast keeps, and closed months of one act that get one. */
const monthsKept = 24
const monthsForecast = 12

/** Closes a side's month; the household's closing keeps, in the same act, a forecast for each month it closes. */
export const closeWithForecast = (
  books: Books,
  act: Act,
  draft: Parameters<typeof closeMonth>[2],
  today: Day,
): ReturnType<typeof closeMonth> =>
  atomically(books, () => {
    const closedBefore =
      standingClosing(books, draft.sideId)?.month ?? (spanOfBooks(books)?.first ?? draft.month) - 1
    const closed = closeMonth(books, act, draft, today)
    if (!closed.ok || closed.repeated || draft.sideId !== householdSide) return closed
    const last = Math.max(closedBefore, draft.month - monthsForecast) as Month
    for (let month = addMonths(last, 2); month <= draft.month + 1; month = addMonths(month, 1))
      keepForecast(books, act, month)
    return closed
  })

/** Writes down what is said today, unless a closing has said it for this month. */
export const writeDownToday = (
  books: Books,
  act: Pick<Act, 'at' | 'actor'>,
  today: Day,
): 'written' | 'closing stands' | 'no plan' =>
  keep(books, act, { month: monthOfDay(today), day: today, isOfClosing: false }, (saved) =>
    continuedPlan(books, saved, today),
  )

/** From the books at the start of `month`, which the one closed before it leads up to. */
const keepForecast = (books: Books, act: Act, month: Month) =>
  keep(books, act, { month, day: addDays(firstDayOf(month), -1), isOfClosing: true }, (saved) =>
    continuedIn(books, saved, month),
  )

function keep(
  books: Books,
  act: Pick<Act, 'at' | 'actor'>,
  { month, day, isOfClosing }: { month: Month; day: Day; isOfClosing: boolean },
  goesOn: (saved: Plan) => ContinuedPlan,
): 'written' | 'closing stands' | 'no plan' {
  const current = currentPlan(books)
  if (current.status !== 'read') return 'no plan'
  const { plan } = goesOn(current.plan)
  const course = projectionOf(plan)
  const { carryMonth, floorMonth } = course.milestones
  const isKept = recordSaying(books, act, {
    month,
    monthsLeft: course.milestones.monthsLeft,
    monthsLeftWithoutDraws: withoutDrawsOf(plan).milestones.monthsLeft,
    carryMonth: carryMonth === null ? null : parseMonth(carryMonth),
    floorMonth: floorMonth === null ? null : parseMonth(floorMonth),
    spendableCents: spanOfBooks(books)
      ? spendableOn(books, day)
      : dollarsToCents(course.months[0]?.spendable ?? 0),
    planId: current.planId,
    planRevisionNo: current.revisionNo,
    isOfClosing,
    expected: plannedMonths(plan, course.months).slice(0, monthsKept).map(toTheCent),
  })
  return isKept ? 'written' : 'closing stands'
}

const toTheCent = (month: PlannedMonth): PlannedMonth =>
  Object.fromEntries(
    Object.entries(month).map(([name, value]) => [
      name,
      typeof value === 'number' ? Math.round(value * 100) / 100 : value,
    ]),
  ) as PlannedMonth

/** What was expected of each month: by the newest forecast kept at a closing before it, else by the plan as it was saved. */
export const expectedMonths = (books: Books, { plan, planId, revisionNo }: PlanInUse): PlannedMonth[] =>
  keptUntilChange(books, `expected ${planId} ${revisionNo}`, () => {
    const months = new Map(plannedMonths(plan, baselineOf(plan).months).map((one) => [one.month, one]))
    for (const { isOfClosing, expected } of listSayings(books))
      if (isOfClosing) for (const one of expected) months.set(one.month, plannedMonthSchema.parse(one))
    return [...months.values()].sort((a, b) => (a.month < b.month ? -1 : 1))
  })
