// What the markets can take in each month, and who sells where.
import { addMonths, type Month } from '#calendar/month.ts'
import type { Farm, Market } from '#farm/farm-document.ts'
import { heldEachMonth, type Level, monthFromText, seasonIndex, stepInForce } from '#farm/seasonal.ts'

/** Market-major arrays: market × monthCount + month. Dollars at plan prices; customers who follow from another market are added apart. */
export interface MarketMonths {
  trips: Float64Array
  capacity: Float64Array
  costs: Float64Array
  hours: Float64Array
}

/** A market shut from one month to another, both with it. */
export interface ClosedMarket {
  market: string
  from: Month
  to: Month
}

export const marketMonths = (
  farm: Farm,
  firstMonth: Month,
  monthCount: number,
  closed: ClosedMarket | null = null,
): MarketMonths => {
  const size = farm.markets.length * monthCount
  const out: MarketMonths = {
    trips: new Float64Array(size),
    capacity: new Float64Array(size),
    costs: new Float64Array(size),
    hours: new Float64Array(size),
  }
  const years = farm.markets.map((market) => readMarket(farm, market))
  for (let m = 0; m < monthCount; m += 1) {
    const at = addMonths(firstMonth, m)
    const season = seasonIndex(at)
    years.forEach((market, index) => {
      const isShut = closed !== null && market.id === closed.market && at >= closed.from && at <= closed.to
      const had = seatAt(market, at)
      const trips = isShut ? 0 : tripsAt(market, at) * had
      const cell = index * monthCount + m
      out.trips[cell] = trips
      out.capacity[cell] = trips * market.salesPerTrip[season]! * growthAt(market, at)
      out.costs[cell] =
        trips * (market.feePerTrip[season]! + market.miles) +
        (trips > 0 ? market.feePerMonth[season]! * had : 0)
      out.hours[cell] = trips * market.hoursPerTrip
    })
  }
  return out
}

interface ReadMarket {
  id: string
  base: number[]
  steps: { from: string; value: Level }[]
  start: number
  end: number
  salesPerTrip: number[]
  feePerTrip: number[]
  feePerMonth: number[]
  miles: number
  hoursPerTrip: number
  seat: Market['seat']
  growth: Market['growth']
}

const readMarket = (farm: Farm, market: Market): ReadMarket => ({
  id: market.id,
  base: heldEachMonth(market.trips),
  steps: [
    ...market.tripsSteps,
    ...farm.phases.flatMap((phase) =>
      phase.trips
        .filter((one) => one.market === market.id)
        .map((one) => ({ from: phase.from, value: one.value })),
    ),
  ],
  start: market.start === undefined ? Number.NEGATIVE_INFINITY : monthFromText(market.start),
  end: market.end === undefined ? Number.POSITIVE_INFINITY : monthFromText(market.end),
  salesPerTrip: heldEachMonth(market.salesPerTrip),
  feePerTrip: heldEachMonth(market.feePerTrip),
  feePerMonth: heldEachMonth(market.feePerMonth),
  miles: market.milesPerTrip * market.costPerMile,
  hoursPerTrip: market.hoursPerTrip,
  seat: market.seat,
  growth: market.growth,
})

/** The part of a market that the plan counts on: all of one without a waiting list, of a seat its chance from its month on. */
export const seatAt = ({ seat }: Pick<Market, 'seat'>, at: Month): number =>
  seat === undefined ? 1 : at >= monthFromText(seat.from) ? seat.chance : 0

/** Growth of customers ends by itself where the plan does not say when. Our own assumption. */
export const usualGrowthYears = 3

/** How many times what is given for a trip one sells: compounded month by month, so that no January makes a step. */
export const growthAt = ({ growth }: Pick<Market, 'growth'>, at: Month): number => {
  if (growth === undefined) return 1
  const years = Math.min(growth.years ?? usualGrowthYears, Math.max(0, at - monthFromText(growth.from)) / 12)
  return (1 + growth.perYear) ** years
}

const tripsAt = (market: ReadMarket, at: Month): number => {
  if (at < market.start || at > market.end) return 0
  if (market.steps.length === 0) return market.base[seasonIndex(at)]!
  return heldEachMonth(stepInForce<Level>(market.base, market.steps, at))[seasonIndex(at)]!
}

export interface MarketAssignment {
  /** Dollars sold by each seller, and by each market. */
  sold: number[]
  soldAt: number[]
  /** Dollars by seller, then market. */
  flow: number[][]
}

/**
 * Spreads what is offered over the markets so that as much as possible is sold (largest flow). `outlets[seller]` lists the
 * markets that may sell its goods, first choice first; an empty list sells all.
 */
export const assignSales = (
  offered: readonly number[],
  outlets: readonly (readonly number[])[],
  capacity: readonly number[],
): MarketAssignment => {
  const left = [...capacity]
  const unsold = [...offered]
  const flow = offered.map(() => new Array<number>(capacity.length).fill(0))
  outlets.forEach((markets, seller) => {
    for (const market of markets) {
      const dollars = Math.min(unsold[seller]!, left[market]!)
      flow[seller]![market]! += dollars
      unsold[seller]! -= dollars
      left[market]! -= dollars
    }
    if (markets.length === 0) unsold[seller] = 0
  })
  outlets.forEach((markets, seller) => {
    while (markets.length > 0 && unsold[seller]! > 1e-9) {
      const moved = makeRoom(seller, unsold[seller]!, outlets, flow, left, new Set())
      if (moved <= 1e-9) break
      unsold[seller]! -= moved
    }
  })
  return {
    sold: offered.map((dollars, seller) => dollars - unsold[seller]!),
    soldAt: capacity.map((_, market) => flow.reduce((sum, row) => sum + row[market]!, 0)),
    flow,
  }
}

/** One augmenting path: sells more of a seller's goods by moving others' goods to another of their markets. */
const makeRoom = (
  seller: number,
  wanted: number,
  outlets: readonly (readonly number[])[],
  flow: number[][],
  left: number[],
  tried: Set<number>,
): number => {
  for (const market of outlets[seller]!) {
    if (tried.has(market)) continue
    tried.add(market)
    let room = Math.min(wanted, left[market]!)
    if (room > 1e-9) left[market]! -= room
    else {
      room = 0
      for (const [other, row] of flow.entries()) {
        if (other === seller || row[market]! <= 1e-9) continue
        const moved = makeRoom(other, Math.min(wanted, row[market]!), outlets, flow, left, tried)
        if (moved <= 1e-9) continue
        row[market]! -= moved
        room = moved
        break
      }
    }
    if (room > 1e-9) {
      flow[seller]![market]! += room
      return room
    }
  }
  return 0
}
