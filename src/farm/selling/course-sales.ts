// What the markets take of what the farm offers, month by month. Young stock that finds no market waits at its cost, and goes to auction
// when it has waited as long as it may; all else that is not sold in its month is lost.
import { addMonths, type Month } from '#calendar/month.ts'
import type { Farm } from '#farm/farm-document.ts'
import { auctionPriceOf } from '#farm/herd/auction-price.ts'
import type { HerdMonths } from '#farm/herd/herd-months.ts'
import { type YoungWorth, youngWorth } from '#farm/herd/meat.ts'
import { heldEachMonth, seasonIndex } from '#farm/seasonal.ts'
import { assignSales, type MarketAssignment } from './market-months.ts'

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
  auctionSales: Float64Array
  freezer: Float64Array
  marketSales: Float64Array
  marketCapacity: Float64Array
  herds: readonly HerdMonths[]
}

/** Months that stock may wait for a market, or its cuts lie in the freezer: 0 where nothing does. */
export const longestWait = (farm: Farm): number =>
  Math.max(
    0,
    ...farm.herds.map((herd) =>
      Math.max(herd.markets.length > 0 ? herd.waitMonths : 0, youngWorth(herd).cutsMonths),
    ),
  )

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
  const taken = takenByMarkets(outlets)
  for (let m = 0; m < monthCount; m += 1) {
    for (let k = 0; k < capacity.length; k += 1) capacity[k] = course.marketCapacity[k * monthCount + m]!
    const offered = outlets.map((_, row) => course.offered[row * monthCount + m]!)
    for (const pen of pens) offered[pen.row] = takeIn(pen, course, m)
    const { sold, soldAt, most } = taken(seasonIndex(addMonths(course.firstMonth, m)), offered, capacity)
    for (let k = 0; k < soldAt.length; k += 1) course.marketSales[k * monthCount + m] = soldAt[k]!
    for (let row = 0; row < sold.length; row += 1) {
      course.sales[row * monthCount + m] = sold[row]!
      course.ceiling[row * monthCount + m] = most[row]!
    }
    for (const pen of pens) letOut(pen, course, m)
  }
  return pens.map(({ groups }) => groups.map((one) => ({ ...one, since: one.since - monthCount })))
}

interface Taken extends Pick<MarketAssignment, 'sold' | 'soldAt'> {
  offered: readonly number[]
  capacity: readonly number[]
  /** Dollars that each seller could sell at most. */
  most: number[]
}

/** What markets take of a month's offer. At plan prices most years are like the one before: what it gave is given again. */
const takenByMarkets = (outlets: readonly (readonly number[])[]) => {
  const yearBefore = new Array<Taken | undefined>(12)
  return (season: number, offered: readonly number[], capacity: readonly number[]): Taken => {
    const known = yearBefore[season]
    if (known && isSame(known.offered, offered) && isSame(known.capacity, capacity)) return known
    const { sold, soldAt } = assignSales(offered, outlets, capacity)
    const most = outlets.map((markets, row) =>
      markets.length === 0
        ? Number.POSITIVE_INFINITY
        : sold[row]! +
          (sold[row]! < offered[row]! - 1e-9 ? 0 : slackFor(row, offered, outlets, capacity, soldAt)),
    )
    const taken = { offered, capacity: [...capacity], sold, soldAt, most }
    yearBefore[season] = taken
    return taken
  }
}

const isSame = (some: readonly number[], others: readonly number[]): boolean => {
  for (let k = 0; k < some.length; k += 1) if (some[k] !== others[k]) return false
  return true
}

/** Young that became ready together: their month, counted from the course's first, below zero before it; heads alive, and frozen cuts. */
export interface WaitingGroup {
  since: number
  heads: number
  pounds: number
}

/** What of one herd is ready to sell, by the month in which it became so. */
interface Pen {
  row: number
  index: number
  worth: YoungWorth
  auctionPrice: number
  waitMonths: number
  costs: number[]
  groups: WaitingGroup[]
  /** Dollars of the month: what does not keep, and the cuts that are offered. */
  perishable: number
  cuts: number
}

const newPen = (farm: Farm, index: number, groups: readonly WaitingGroup[]): Pen => {
  const herd = farm.herds[index]!
  const worth = youngWorth(herd)
  return {
    row: farm.enterprises.length + index,
    index,
    worth,
    auctionPrice: auctionPriceOf(herd),
    waitMonths: herd.waitMonths,
    costs: heldEachMonth(herd.costPerYoung),
    groups: groups.map((one) => ({ ...one })),
    perishable: 0,
    cuts: 0,
  }
}

/** The young of the month join those that wait, cut and frozen as far as they are sold by the cut. Gives back all that is offered. */
const takeIn = (pen: Pen, course: OfferedCourse, m: number): number => {
  const { worth } = pen
  const cell = pen.row * course.monthCount + m
  const heads = course.herds[pen.index]!.soldYoungHeads[m]!
  pen.perishable = course.offered[cell]! - heads * worth.perHead
  if (heads > 0) {
    const cut = heads * (1 - worth.byWeight)
    // Without a price there is nothing to wait for.
    const alive = worth.price > 0 ? heads - cut : 0
    pen.groups.push({ since: m, heads: alive, pounds: cut * worth.pounds })
    course.directCosts[cell]! += cut * worth.processing
  }
  pen.cuts = pen.groups.reduce(
    (sum, one) => sum + (one.pounds / Math.max(1, worth.cutsMonths - (m - one.since))) * worth.cutPrice,
    0,
  )
  return pen.perishable + worth.price * headsIn(pen) + pen.cuts
}

/** What found a market leaves, the longest waiting first; so do heads that waited long enough. The others cost their keep. */
const letOut = (pen: Pen, course: OfferedCourse, m: number) => {
  if (pen.groups.length === 0) return
  const { worth } = pen
  const cell = pen.row * course.monthCount + m
  const sold = course.sales[cell]!
  // Wool, milk and eggs do not keep: they are sold first. Heads that eat come before cuts that lie frozen.
  const left = Math.max(0, sold - Math.min(pen.perishable, sold))
  const forHeads = Math.min(left, worth.price * headsIn(pen))
  if (forHeads > 0) takeOut(pen.groups, 'heads', forHeads / worth.price)
  if (left > forHeads) takeOut(pen.groups, 'pounds', (left - forHeads) / worth.cutPrice)
  const isDue = (group: WaitingGroup) => m - group.since >= pen.waitMonths
  const due = pen.groups.filter(isDue)
  const auctioned = due.reduce((sum, { heads }) => sum + heads, 0)
  for (const group of due) group.heads = 0
  pen.groups = pen.groups.filter(({ heads, pounds }) => heads > 1e-9 || pounds > 1e-9)
  const brought = auctioned * pen.auctionPrice
  course.offered[cell] = pen.perishable + left + brought
  course.sales[cell]! += brought
  course.ceiling[cell]! += brought
  course.atAuction[cell] = auctioned
  course.auctionSales[cell] = brought
  course.waiting[cell] = headsIn(pen)
  course.freezer[cell] = pen.groups.reduce((sum, { pounds }) => sum + pounds, 0)
  course.directCosts[cell]! +=
    course.waiting[cell]! * pen.costs[seasonIndex(addMonths(course.firstMonth, m))]! +
    course.freezer[cell]! * worth.freezerPerPound
}

const takeOut = (groups: readonly WaitingGroup[], what: 'heads' | 'pounds', wanted: number) => {
  let left = wanted
  for (const group of groups) {
    const leaving = Math.min(group[what], left)
    group[what] -= leaving
    left -= leaving
  }
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
