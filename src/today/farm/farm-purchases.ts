// The purchases of the Farm page: the queue over the expected course of the plan, paybacks, and the depreciation that follows.
import type { Day } from '#calendar/day.ts'
import { addMonths, type Month, monthText, parseMonth, yearOf } from '#calendar/month.ts'
import { spanOfBooks } from '#db/ledger/balances.ts'
import type { Books } from '#db/open.ts'
import { purchasePayback } from '#farm/payback.ts'
import { purchaseDepreciation } from '#farm/purchase-depreciation.ts'
import { type CashAhead, queuePurchases } from '#farm/purchases.ts'
import type { Plan } from '#plan/plan.ts'
import type { Restart } from '#runway/compile/compiled-plan.ts'
import type { ProjectedMonth } from '#runway/project.ts'
import { projectionOf } from '#today/courses.ts'
import { farmCashOn, planFromBooks } from '#today/plan-from-books.ts'
import type { PurchaseFigures } from './figures.ts'

const discountYearly = 0.04

/** The queue begins at the plan's first month, or once the plan runs, this month: with the cash the books hold where they know it. */
export const purchaseFigures = (books: Books, plan: Plan, today: Day): PurchaseFigures => {
  const { farm } = plan
  const planStart = parseMonth(plan.startMonth)!
  const ground = groundOf(books, plan, today)
  const planned = queuePurchases(farm.purchases, cashAhead(plan, planStart, farm.cash, null))
  const boughtBefore = new Map(
    planned.queue.flatMap((one) =>
      one.bought !== null && one.bought < ground.firstMonth ? [[one.id, one.bought] as const] : [],
    ),
  )
  const found = queuePurchases(farm.purchases, {
    ...cashAhead(plan, ground.firstMonth, ground.cash, ground.restart),
    boughtBefore,
  })
  const ahead = new Map(found.queue.map((one) => [one.id, one]))
  const queue = planned.queue
    .map((one) => ahead.get(one.id) ?? one)
    .map((one) => {
      const purchase = farm.purchases.find(({ id }) => id === one.id)!
      const back = purchasePayback(
        purchase,
        one.bought ?? one.earliest,
        farm.hired.hourlyCost,
        discountYearly,
      )
      return { ...one, payback: { months: back.monthsToPayBack, yearlyReturn: back.yearlyReturn } }
    })
  const next = queue
    .filter((one) => one.bought !== null && one.bought >= ground.firstMonth)
    .sort((a, b) => a.bought! - b.bought!)
    .at(0)
  return {
    queue,
    affordableNow: found.affordableNow,
    cashNow: { dollars: ground.cash, isFromBooks: ground.isFromBooks },
    next: next ? { name: next.name, month: monthText(next.bought!), cost: next.cost } : null,
    depreciation: purchaseDepreciation(farm.purchases, queue, yearOf(planStart)),
    cash: Array.from(found.cash.subarray(0, 120), (dollars, m) => ({
      month: ground.firstMonth + m,
      dollars,
    })),
  }
}

/** Before the plan has begun, the cash of today opens it; without books, what the plan says it opens with. */
const groundOf = (books: Books, plan: Plan, today: Day) => {
  const { restart } = planFromBooks(books, plan, today)
  const planStart = parseMonth(plan.startMonth)!
  const isFromBooks = spanOfBooks(books) !== null
  return {
    restart,
    isFromBooks,
    firstMonth: restart ? addMonths(planStart, restart.month) : planStart,
    cash: restart?.farmCash ?? (isFromBooks ? farmCashOn(books, today) : plan.farm.cash),
  }
}

const cashAhead = (plan: Plan, firstMonth: Month, opening: number, restart: Restart | null): CashAhead => {
  const first = monthText(firstMonth)
  const months = projectionOf(plan, restart).months.filter((one) => one.month >= first)
  return {
    firstMonth,
    opening,
    reserve: plan.farm.reserve,
    netCash: row(months, (one) => one.farmSales - one.farmCosts + one.farmStock + one.farmLoans),
    draws: row(months, (one) => one.plannedDraw),
    calledOn: row(months, (one) => one.drawToHoldFloor),
    level: row(months, (one) => one.level),
    hourCost: plan.farm.hired.hourlyCost,
  }
}

const row = (months: readonly ProjectedMonth[], value: (one: ProjectedMonth) => number) =>
  Float64Array.from(months, value)
