// The purchases of the Farm page: the queue over the expected course of the plan, paybacks, and the depreciation that follows.
import { addDays, type Day, firstDayOf, monthOfDay } from '#calendar/day.ts'
import { type Month, monthText, parseMonth, yearOf } from '#calendar/month.ts'
import { standingOf } from '#db/change-log.ts'
import { spanOfBooks } from '#db/ledger/balances.ts'
import type { Books } from '#db/open.ts'
import { booksReach } from '#db/reconcile/books-reach.ts'
import type { Farm, Purchase } from '#farm/farm-document.ts'
import { costOfHour } from '#farm/hired-help.ts'
import { purchasePayback } from '#farm/payback.ts'
import { purchaseDepreciation } from '#farm/purchase-depreciation.ts'
import { type QueuedPurchase, queuePurchases } from '#farm/purchases.ts'
import { yearTotal } from '#farm/seasonal.ts'
import { keptWith } from '#kept/keeper.ts'
import { farmSide } from '#ledger/account.ts'
import { firstMonthOf } from '#plan/first-month.ts'
import type { Plan } from '#plan/plan.ts'
import { farmCashOn } from '#today/projection/book-facts.ts'
import { type ContinuedPlan, continuedIn, continuedPlan } from '#today/projection/continued-plan.ts'
import { baselineOf, projectionOf } from '#today/projection/courses.ts'
import { cashAhead } from '#today/projection/purchases-ahead.ts'
import type { PurchaseFigures } from './figures.ts'

const discountYearly = 0.04

/**
 * The queue goes on from where the projection does: from the farm's cash as its first month begins; where the farm's books reach further
 * than the household's, from the month that they reach. A plan not yet begun has today's.
 */
export const purchaseFigures = (books: Books, saved: Plan, today: Day): PurchaseFigures => {
  const { plan, farmCashFromBooks } = asFarmKnows(books, saved, today)
  const firstMonth = firstMonthOf(plan)
  const isToday = plan.continuesFrom === undefined && spanOfBooks(books) !== null
  const cash = isToday ? farmCashOn(books, today) : plan.farm.cash
  const { purchases, hired } = plan.farm
  const planned = keptWith(saved, 'purchases', () =>
    queuePurchases(saved.farm.purchases, cashAhead(saved, baselineOf(saved))),
  )
  const found = keptWith(plan, `purchases with ${cash}`, () =>
    queuePurchases(purchases, { ...cashAhead(plan, projectionOf(plan)), opening: cash }),
  )
  const ahead = new Map(found.queue.map((one) => [one.id, one]))
  const thisMonth = Math.max(firstMonth, monthOfDay(today))
  const asPlanned = new Map(planned.queue.map((one) => [one.id, one]))
  const queue = purchases
    .map((one) => ahead.get(one.id) ?? boughtBefore(one, asPlanned.get(one.id)))
    .map((one) => (isBehind(one, firstMonth, thisMonth) ? boughtAlready(one) : { ...one, isBought: false }))
    .map((one) => {
      const purchase = purchases.find(({ id }) => id === one.id)!
      const back = purchasePayback(purchase, one.bought ?? one.earliest, costOfHour(hired), discountYearly)
      return {
        ...one,
        payback: { months: back.monthsToPayBack, yearlyReturn: back.yearlyReturn },
        costThen: one.cost,
        gives: givenBy(plan.farm, purchase),
        behind: [] as string[],
      }
    })
    .map((one, place, all) => ({ ...one, behind: behindIt(one, all.slice(place + 1)) }))
  const next = queue
    .filter((one) => one.bought !== null && !one.isBought)
    .sort((a, b) => a.bought! - b.bought!)
    .at(0)
  return {
    queue,
    affordableNow: found.affordableNow,
    firstMonth,
    reserveNow: found.reserveNow,
    cashNow: {
      dollars: cash,
      isFromBooks: isToday || farmCashFromBooks,
      asOf: isToday ? today : addDays(firstDayOf(firstMonth), -1),
    },
    next: next ? { name: next.name, month: monthText(next.bought!), cost: next.cost } : null,
    depreciation: purchaseDepreciation(plan.farm, queue, yearOf(parseMonth(saved.startMonth)!)),
    cash: projectionOf(plan)
      .months.slice(0, 120)
      .map(({ farmCash }, m) => ({ month: firstMonth + m, dollars: farmCash })),
  }
}

const asFarmKnows = (books: Books, saved: Plan, today: Day): ContinuedPlan => {
  const continued = continuedPlan(books, saved, today)
  const reach = booksReach(books, today, farmSide)
  if (reach === null || continued.plan.continuesFrom === undefined) return continued
  const month = Math.min(monthOfDay(today), monthOfDay(reach) + 1) as Month
  return month <= firstMonthOf(continued.plan)
    ? continued
    : keptWith(saved, `farm from ${month} ${standingOf(books)}`, () => continuedIn(books, saved, month))
}

/** What the months ahead no longer hold: as the plan bought it, or on its date, before the plan began. */
const boughtBefore = (one: Purchase, planned: QueuedPurchase | undefined): QueuedPurchase => {
  if (planned) return planned
  const { id, name, timing, cost } = one
  const bought = parseMonth(one.month)!
  return { id, name, timing, cost, earliest: bought, bought, ...nothingAhead, because: '' }
}

/** A dated one has its day whatever cash the plan has; one that waits for cash has waited until the plan goes on. */
const isBehind = ({ timing, bought }: QueuedPurchase, firstMonth: Month, thisMonth: number): boolean =>
  bought !== null && bought < (timing === 'dated' ? thisMonth : firstMonth)

const boughtAlready = (one: QueuedPurchase) => ({
  ...one,
  ...nothingAhead,
  because: one.timing === 'dated' ? 'bought on its date' : 'bought when cash allowed it, by the plan',
  isBought: true,
})

/** Of what is bought nothing ahead is judged: the cash is gone, and no draw of months to come pays for it. */
const nothingAhead = {
  waitMonths: null,
  spareAfter: null,
  waitingCosts: 0,
  drawDisplaced: null,
  monthsOfDraws: null,
}

const givenBy = (farm: Farm, { addsCash, savesHours, addsCapacity }: Purchase) => {
  const facility = farm.facilities.find(({ id }) => id === addsCapacity?.facility)
  return {
    cash: yearTotal(addsCash),
    hours: yearTotal(savesHours),
    room:
      addsCapacity === undefined || facility === undefined
        ? null
        : `${addsCapacity.amount} ${facility.unit} of ${facility.name}`,
  }
}

/** Those below it in the list that wait for cash and get theirs after it. */
const behindIt = (one: QueuedPurchase & { isBought: boolean }, below: readonly QueuedPurchase[]): string[] =>
  below
    .filter(
      ({ timing, bought }) =>
        !one.isBought &&
        one.bought !== null &&
        timing === 'when cash allows' &&
        (bought === null || bought > one.bought),
    )
    .map(({ name }) => name)
