// What the purchases and the bought breeding stock of the plan may be written off by year, each from the month in which it is bought.
import { dayInMonth } from '#calendar/day.ts'
import { type Month, parseMonth, yearOf } from '#calendar/month.ts'
import { firstRecoveryYear } from '#rules/depreciation/recovery.ts'
import { type DepreciableAsset, depreciationSchedule } from '#rules/depreciation/schedule.ts'
import type { Farm } from './farm-document.ts'
import { stockAssets } from './herd/stock-assets.ts'
import type { QueuedPurchase } from './purchases.ts'

/** Deductions in dollars, one for each of `years`. */
export interface PurchaseDepreciation {
  years: number[]
  rows: { name: string; assetClass: string; cost: number; section179: number; deductions: number[] }[]
  totals: number[]
}

const scheduleYears = 12

/** What goes at once is the plan's section 179 share, and bonus on the rest where the purchase takes it. */
export const purchaseDepreciation = (
  farm: Farm,
  queue: readonly QueuedPurchase[],
  firstYear: number,
): PurchaseDepreciation => {
  const boughtAt = new Map(queue.map((one) => [one.id, one]))
  const assets = farm.purchases.flatMap((one): DepreciableAsset[] => {
    if (one.assetClass === 'land' || one.assetClass === 'supplies') return []
    const queued = boughtAt.get(one.id)
    const at = queued ? queued.bought : parseMonth(one.month)
    if (at === null || yearOf(at as Month) < firstRecoveryYear) return []
    const cost = Math.round((queued?.cost ?? one.cost) * 100) / 100
    return [
      {
        name: one.name,
        assetClass: one.assetClass,
        cost,
        placedInService: dayInMonth(at as Month, 1),
        section179: Math.round(cost * one.section179Share * 100) / 100,
        bonus: one.bonus,
      },
    ]
  })
  const lastYear = firstYear + scheduleYears - 1
  const schedule = depreciationSchedule([...assets, ...stockAssets(farm, lastYear)], firstYear, lastYear)
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
