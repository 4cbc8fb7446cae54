// Customers who follow when trips to a market are dropped: a share of what was sold there, at the markets that stay.
import { addMonths, type Month } from '#calendar/month.ts'
import type { Farm } from '#farm/farm-document.ts'
import { heldEachMonth, monthFromText, seasonIndex } from '#farm/seasonal.ts'
import { growthAt, type MarketMonths, seatAt } from './market-months.ts'

/**
 * Customers of dropped trips spread over the other markets by what those can take with every trip; the part of one that is
 * closed too is lost. A market that runs only part of its trips takes at most that part of all who could ever come.
 * `sold` is what each market sells with every trip, market-major, in the same months.
 */
export const addFollowers = (farm: Farm, firstMonth: Month, sold: Float64Array, out: MarketMonths): void => {
  const years = farm.markets.map((market) => ({
    market,
    base: heldEachMonth(market.trips),
    salesPerTrip: heldEachMonth(market.salesPerTrip),
    start: market.start === undefined ? Number.NEGATIVE_INFINITY : monthFromText(market.start),
  }))
  const monthCount = sold.length / years.length
  for (let m = 0; m < monthCount; m += 1) {
    const at = addMonths(firstMonth, m)
    const season = seasonIndex(at)
    const bases = years.map(({ market, base }) => base[season]! * seatAt(market, at))
    const usual = years.map(({ market, salesPerTrip, start }, k) =>
      at >= start ? bases[k]! * salesPerTrip[season]! * growthAt(market, at) : 0,
    )
    const arriving = new Array<number>(years.length).fill(0)
    const everArriving = new Array<number>(years.length).fill(0)
    const ran = (k: number) => out.trips[k * monthCount + m]! / bases[k]!
    for (const [from, { market }] of years.entries()) {
      const following = sold[from * monthCount + m]! * market.followShare
      if (following <= 0 || bases[from]! <= 0) continue
      const others = usual.map((dollars, to) => (to === from ? 0 : dollars))
      shareOut(everArriving, following, others)
      shareOut(arriving, following * Math.max(0, 1 - ran(from)), others)
    }
    for (const [to, come] of arriving.entries())
      if (come > 0) out.capacity[to * monthCount + m]! += Math.min(come, everArriving[to]! * ran(to))
  }
}

/** Whether any trip of a market whose customers follow is dropped in these months. */
export const dropsCustomers = (farm: Farm, every: MarketMonths, out: MarketMonths): boolean => {
  const monthCount = out.trips.length / farm.markets.length
  return farm.markets.some(
    ({ followShare }, k) =>
      followShare > 0 &&
      out.trips
        .subarray(k * monthCount, (k + 1) * monthCount)
        .some((trips, m) => trips < every.trips[k * monthCount + m]!),
  )
}

/** The farm before any trip was dropped and before slower years: what each market sold then is what its customers are. */
export const withEveryTrip = (farm: Farm): Farm => ({
  ...farm,
  phases: [],
  markets: farm.markets.map(({ end: _, ...market }) => ({ ...market, tripsSteps: [] })),
})

const shareOut = (to: number[], dollars: number, weights: readonly number[]) => {
  const whole = weights.reduce((a, b) => a + b, 0)
  if (whole <= 0) return
  weights.forEach((weight, k) => {
    to[k]! += (dollars * weight) / whole
  })
}
