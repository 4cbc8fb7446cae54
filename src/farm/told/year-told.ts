// What one thing of a farm sells, costs and works in a usual year: as its form says it, and as it is taken out of a line that holds it.
import { month } from '#calendar/month.ts'
import { type Enterprise, farmSchema, type Market, type Overhead } from '#farm/farm-document.ts'
import type { Herd } from '#farm/herd/herd-document.ts'
import { steadyFemale } from '#farm/herd/herd-steady.ts'
import { youngWorth } from '#farm/herd/meat.ts'
import { yearTotal } from '#farm/seasonal.ts'
import { type MarketMonths, marketMonths } from '#farm/selling/market-months.ts'

/** Dollars at the plan's first prices, and hours. */
export interface ThingYear {
  sales: number
  costs: number
  hours: number
}

/** With the units of today, without months of starting up. */
export const enterpriseYear = (one: Enterprise): ThingYear => ({
  sales: yearTotal(one.salesPerUnit) * one.scale,
  costs: yearTotal(one.costsPerUnit) * one.scale,
  hours: yearTotal(one.hoursPerUnit) * one.scale,
})

export const overheadYear = (one: Overhead): ThingYear => ({
  sales: 0,
  costs: yearTotal(one.costs),
  hours: yearTotal(one.hours),
})

/** What it costs and takes: what is sold there stands with the lines that sell it. */
export const marketYear = (market: Market): ThingYear => {
  const { costs, hours } = usualMarketYear(market)
  return { sales: 0, costs: sum(costs), hours: sum(hours) }
}

/** Twelve months as it runs: without growth, seat or later trips. */
export const usualMarketYear = ({
  growth: _,
  seat: __,
  start: ___,
  end: ____,
  ...runs
}: Market): MarketMonths =>
  marketMonths(farmSchema.parse({ markets: [{ ...runs, tripsSteps: [] }] }), month(2001, 1), 12)

/** As many breeding females as it begins with, or as are carried, with the births of a whole year. Null for one that dies out. */
export const herdYear = (herd: Herd): ThingYear | null => {
  const most = Math.max(herd.carryingLimit, 1)
  const heads = herd.breedingFemales > 0 ? Math.min(Math.max(herd.breedingFemales, 1), most) : most
  const one = femaleYear(herd, heads)
  return one && { sales: one.sales * heads, costs: one.costs * heads, hours: one.hours * heads }
}

/** Of one breeding female of so many; `ready` are her young to sell, in heads. Costs are less culls. */
export const femaleYear = (herd: Herd, heads: number): (ThingYear & { ready: number }) | null => {
  const one = steadyFemale(herd, heads)
  if (one === null) return null
  const ready = sum(one.ready)
  return {
    ready,
    sales: sum(one.product) + ready * youngWorth(herd).perHead,
    costs: sum(one.costs),
    hours: sum(one.hours) + sum(one.hoursFixed) / heads,
  }
}

const sum = (values: ArrayLike<number>): number => Array.from(values).reduce((a, b) => a + b, 0)
