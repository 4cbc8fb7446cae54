// What the markets take of what the farm offers, month by month. Young stock that finds no market waits at its cost, and goes to auction
// when it has waited as long as it may; all else that is not sold in its month is lost.
import { addMonths, type Month } from '#calendar/month.ts'
import type { Farm } from '#farm/farm-document.ts'
import type { HerdMonths } from '#farm/herd/herd-months.ts'
import { heldEachMonth, seasonIndex } from '#farm/seasonal.ts'
import { assignSales } from './market-months.ts'

/** What of the farm's course selling reads and fills. */
interface OfferedCourse {
  firstMonth: Month
  monthCount: number
  offered: Float64Array
  ceiling: Float64Array
  sales: Float64Array
  directCosts: Float64Array
  waiting: Float64Array
  atAuction: Float64Array
  marketSales: Float64Array
  marketCapacity: Float64Array
  herds: readonly HerdMonths[]
}

/** Months that young stock may wait for a market: 0 where none is sold at one. */
export const longestWait = (farm: Farm): number =>
  Math.max(0, ...farm.herds.map((herd) => (herd.markets.length > 0 ? herd.waitMonths : 0)))

/** Fills what is sold, and gives back what waits of each herd as the course ends; `waiting` is what waited as it began. */
export const sellThroughMarkets = (
  farm: Farm,
  course: OfferedCourse,
  waiting: readonly WaitingGroup[][],
): WaitingGroup[][] => {
  const { monthCount } = course
  const position = new Map(farm.markets.map((market, index) => [market.id, index]))
  const outlets = [...farm.enterprises, ...farm.herds].map((seller) =>
    seller.markets.flatMap((id) => position.get(id) ?? []),
  )
  const pens = farm.herds.map((_, index) => newPen(farm, index, waiting[index] ?? []))
  const capacity = new Array<number>(farm.markets.length).fill(0)
  for (let m = 0; m < monthCount; m += 1) {
    for (let k = 0; k < capacity.length; k += 1) capacity[k] = course.marketCapacity[k * monthCount + m]!
    for (const pen of pens) takeIn(pen, course, m)
    const offered = outlets.map((_, row) => course.offered[row * monthCount + m]! + waitedFor(pens, row))
    const { sold, soldAt } = assignSales(offered, outlets, capacity)
    soldAt.forEach((dollars, market) => {
      course.marketSales[market * monthCount + m] = dollars
    })
    outlets.forEach((markets, row) => {
      const cell = row * monthCount + m
      course.sales[cell] = sold[row]!
      course.ceiling[cell] =
        markets.length === 0
          ? Number.POSITIVE_INFINITY
          : sold[row]! +
            (sold[row]! < offered[row]! - 1e-9 ? 0 : slackFor(row, offered, outlets, capacity, soldAt))
    })
    for (const pen of pens) letOut(pen, course, m)
  }
  return pens.map(({ groups }) => groups.map((one) => ({ ...one, since: one.since - monthCount })))
}

/** Young that became ready together: their month, counted from the course's first, below zero before it. */
export interface WaitingGroup {
  since: number
  heads: number
}

/** Young of one herd that are ready to sell, by the month in which they became so. */
interface Pen {
  row: number
  index: number
  price: number
  auctionPrice: number
  waitMonths: number
  costs: number[]
  groups: WaitingGroup[]
  /** Dollars at the price of those that wait from earlier months. */
  worth: number
}

const newPen = (farm: Farm, index: number, groups: readonly WaitingGroup[]): Pen => {
  const { prices, waitMonths, costPerYoung } = farm.herds[index]!
  return {
    row: farm.enterprises.length + index,
    index,
    price: prices.youngSold,
    auctionPrice: prices.atAuction ?? prices.youngSold / 2,
    waitMonths,
    costs: heldEachMonth(costPerYoung),
    groups: groups.map((one) => ({ ...one })),
    worth: 0,
  }
}

const waitedFor = (pens: readonly Pen[], row: number): number =>
  pens.find((pen) => pen.row === row)?.worth ?? 0

/** The young of the month join those that wait. Without a price there is nothing to wait for. */
const takeIn = (pen: Pen, course: OfferedCourse, m: number) => {
  pen.worth = pen.price * headsIn(pen)
  const heads = course.herds[pen.index]!.soldYoungHeads[m]!
  if (heads > 0 && pen.price > 0) pen.groups.push({ since: m, heads })
}

/** Those that found a market leave, the longest waiting first; so do those that waited long enough. The others cost their keep. */
const letOut = (pen: Pen, course: OfferedCourse, m: number) => {
  if (pen.groups.length === 0) return
  const cell = pen.row * course.monthCount + m
  const offeredYoung = pen.price * headsIn(pen)
  // Wool, milk and eggs do not keep: they are sold first.
  const other = course.offered[cell]! + pen.worth - offeredYoung
  const soldOther = Math.min(other, course.sales[cell]!)
  let left = Math.max(0, course.sales[cell]! - soldOther) / pen.price
  for (const group of pen.groups) {
    const leaving = Math.min(group.heads, left)
    group.heads -= leaving
    left -= leaving
  }
  const isDue = (group: WaitingGroup) => m - group.since >= pen.waitMonths
  const auctioned = pen.groups.filter(isDue).reduce((sum, { heads }) => sum + heads, 0)
  pen.groups = pen.groups.filter((group) => group.heads > 1e-9 && !isDue(group))
  const brought = auctioned * pen.auctionPrice
  course.offered[cell] = other + (course.sales[cell]! - soldOther) + brought
  course.sales[cell]! += brought
  course.ceiling[cell]! += brought
  course.atAuction[cell] = auctioned
  course.waiting[cell] = headsIn(pen)
  course.directCosts[cell]! +=
    course.waiting[cell]! * pen.costs[seasonIndex(addMonths(course.firstMonth, m))]!
}

const headsIn = ({ groups }: Pen): number => groups.reduce((sum, { heads }) => sum + heads, 0)

/** A seller's part of the room its markets still have: each market's room is shared by what its sellers offer. */
const slackFor = (
  row: number,
  offered: readonly number[],
  outlets: readonly (readonly number[])[],
  capacity: readonly number[],
  soldAt: readonly number[],
): number => {
  let slack = 0
  for (const market of outlets[row]!) {
    let rivals = 0
    for (const [other, markets] of outlets.entries()) if (markets.includes(market)) rivals += offered[other]!
    if (rivals > 0) slack += ((capacity[market]! - soldAt[market]!) * offered[row]!) / rivals
  }
  return Math.max(0, slack)
}
