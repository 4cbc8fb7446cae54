// Where each line of a farm's course sells, and what of it finds no buyer.
import type { FarmCourse } from '#farm/course.ts'
import type { Farm } from '#farm/farm-document.ts'
import { assignSales } from './market-months.ts'

/** One line in twelve months, in the dollars of the course. */
export interface SoldWhere {
  id: string
  name: string
  /** In the order of the farm's markets. */
  atMarkets: number[]
  withoutMarket: number
  atAuction: number
  /** Grown, and no market took it. */
  lost: number
  /** Not grown: nobody was there to do the work. */
  undone: number
}

export const whereSold = (farm: Farm, course: FarmCourse, from: number): SoldWhere[] => {
  const { monthCount, rows } = course
  const lines = [...farm.enterprises, ...farm.herds]
  const outlets = lines.map(({ markets }) =>
    markets.flatMap((id) => {
      const at = farm.markets.findIndex((one) => one.id === id)
      return at < 0 ? [] : [at]
    }),
  )
  const found = rows.map(
    ({ id, name }): SoldWhere => ({
      id,
      name,
      atMarkets: farm.markets.map(() => 0),
      withoutMarket: 0,
      atAuction: 0,
      lost: 0,
      undone: 0,
    }),
  )
  for (let m = from; m < from + 12; m += 1) {
    const auctioned = rows.map((_, row) => course.auctionSales[row * monthCount + m]!)
    const sold = rows.map((_, row) => Math.max(0, course.sales[row * monthCount + m]! - auctioned[row]!))
    const capacity = farm.markets.map((_, k) => course.marketCapacity[k * monthCount + m]!)
    const { flow } = assignSales(sold, outlets, capacity)
    found.forEach((one, row) => {
      const dollars = sold[row]!
      one.atAuction += auctioned[row]!
      const offered = course.offered[row * monthCount + m]!
      const grown = offered * course.work.share[m]!
      one.undone += offered - grown
      one.lost += Math.max(0, grown - course.sales[row * monthCount + m]!)
      if (outlets[row]!.length === 0) one.withoutMarket += dollars
      else one.atMarkets = one.atMarkets.map((before, k) => before + flow[row]![k]!)
    })
  }
  return found
}
