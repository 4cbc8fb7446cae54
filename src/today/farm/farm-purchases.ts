// The purchases of the Farm page: the queue over the expected course of the plan, paybacks, and the depreciation that follows.
import { monthText, parseMonth, yearOf } from '#calendar/month.ts'
import { purchasePayback } from '#farm/payback.ts'
import { purchaseDepreciation } from '#farm/purchase-depreciation.ts'
import { queuePurchases } from '#farm/purchases.ts'
import type { Plan } from '#plan/plan.ts'
import type { ProjectedMonth } from '#runway/project.ts'
import { projectionOf } from '#today/courses.ts'
import type { PurchaseFigures } from './figures.ts'

const discountYearly = 0.04

export const purchaseFigures = (plan: Plan): PurchaseFigures => {
  const { farm } = plan
  const firstMonth = parseMonth(plan.startMonth)!
  const { months } = projectionOf(plan)
  const found = queuePurchases(farm.purchases, {
    firstMonth,
    opening: farm.cash,
    reserve: farm.reserve,
    netCash: row(months, (one) => one.farmSales - one.farmCosts + one.farmStock + one.farmLoans),
    draws: row(months, (one) => one.plannedDraw),
    calledOn: row(months, (one) => one.drawToHoldFloor),
    level: row(months, (one) => one.level),
    hourCost: farm.hired.hourlyCost,
  })
  const queue = found.queue.map((one) => {
    const purchase = farm.purchases.find(({ id }) => id === one.id)!
    const back = purchasePayback(purchase, one.bought ?? one.earliest, farm.hired.hourlyCost, discountYearly)
    return { ...one, payback: { months: back.monthsToPayBack, yearlyReturn: back.yearlyReturn } }
  })
  const next = queue
    .filter((one) => one.bought !== null)
    .sort((a, b) => a.bought! - b.bought!)
    .at(0)
  return {
    queue,
    affordableNow: found.affordableNow,
    next: next ? { name: next.name, month: monthText(next.bought!), cost: next.cost } : null,
    depreciation: purchaseDepreciation(farm.purchases, queue, yearOf(firstMonth)),
    cash: Array.from(found.cash.subarray(0, 120), (dollars, m) => ({ month: firstMonth + m, dollars })),
  }
}

const row = (months: readonly ProjectedMonth[], value: (one: ProjectedMonth) => number) =>
  Float64Array.from(months, value)
