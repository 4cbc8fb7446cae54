// The purchases of the Farm page: the queue over the expected course of the plan, paybacks, and the depreciation that follows.
import { dayInMonth } from '#calendar/day.ts'
import { type Month, monthText, parseMonth, yearOf } from '#calendar/month.ts'
import { purchasePayback } from '#farm/payback.ts'
import { type QueuedPurchase, queuePurchases } from '#farm/purchases.ts'
import type { Plan } from '#plan/plan.ts'
import { type DepreciableAsset, depreciationSchedule } from '#rules/depreciation/schedule.ts'
import type { ProjectedMonth } from '#runway/project.ts'
import type { PurchaseFigures } from '#views/farm/figures.ts'
import { projectionOf } from './courses.ts'

const scheduleYears = 12
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
    depreciation: depreciationOf(plan, queue, yearOf(firstMonth)),
    cash: Array.from(found.cash.subarray(0, 120), (dollars, m) => ({ month: firstMonth + m, dollars })),
  }
}

const row = (months: readonly ProjectedMonth[], value: (one: ProjectedMonth) => number) =>
  Float64Array.from(months, value)

/** Bonus depreciation is taken as elected out of, as in the projection: what goes at once is the plan's section 179 share. */
const depreciationOf = (
  plan: Plan,
  queue: readonly QueuedPurchase[],
  firstYear: number,
): PurchaseFigures['depreciation'] => {
  const boughtAt = new Map(queue.map((one) => [one.id, one]))
  const assets = plan.farm.purchases.flatMap((one): DepreciableAsset[] => {
    if (one.assetClass === 'land' || one.assetClass === 'supplies') return []
    const queued = boughtAt.get(one.id)
    const at = queued ? queued.bought : parseMonth(one.month)
    if (at === null) return []
    const cost = Math.round((queued?.cost ?? one.cost) * 100) / 100
    return [
      {
        name: one.name,
        assetClass: one.assetClass,
        cost,
        placedInService: dayInMonth(at as Month, 1),
        section179: Math.round(cost * one.section179Share * 100) / 100,
        bonus: false,
      },
    ]
  })
  const schedule = depreciationSchedule(assets, firstYear, firstYear + scheduleYears - 1)
  return {
    years: schedule.years,
    rows: schedule.assets.map(({ name, assetClass, cost, section179, deductions }) => ({
      name,
      assetClass,
      cost,
      section179,
      deductions,
    })),
    totals: schedule.totals,
  }
}
