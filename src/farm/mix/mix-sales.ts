// The market part of the mix: what is grown, what each market's trips and followers buy, and nothing at a closed market.

import type { Row } from '#farm/program.ts'
import { addStock } from './add-stock.ts'
import type { MixFrame, MixMarket, Period } from './mix-frame.ts'
import { addColumn, addRow, type MixProgram, sumOver, total, tripColumn } from './mix-parts.ts'

/** What each market sells of each line: no more than is grown, no more than its trips and followers buy, nothing when closed. */
export const addSales = (
  mix: MixProgram,
  frame: MixFrame,
  periods: readonly Period[],
  seasons: readonly Period[],
) => {
  const stocks = frame.lines.map((line, l) =>
    line.markets.length === 0 ? [] : addStock(mix, line, mix.lineColumns[l]!, periods),
  )
  for (const [p, period] of periods.entries()) {
    const season = seasons.findIndex((one) => period.every((k) => one.includes(k)))
    if (season < 0) throw new Error(`A period of the mix lies in two seasons: ${period}`)
    const soldAt: Row['terms'][] = frame.markets.map(() => [])
    frame.lines.forEach((line, l) => {
      const grown = sumOver(line.sales, period)
      if (line.markets.length === 0 || (grown <= 0 && line.stock === null)) return
      const offered: Row['terms'] = [[mix.lineColumns[l]!, -Math.max(0, grown)]]
      const terms = line.stock === null ? offered : soldOf(mix, line.name, offered, stocks[l]![p]!)
      frame.markets.forEach((market, m) => {
        if (!line.markets.includes(market.id) || !tripColumn(mix, m, season)) return
        const sold = addColumn(mix)
        mix.netTerms.push([sold, 1])
        terms.push([sold, 1])
        soldAt[m]!.push([sold, 1])
      })
      addRow(mix, `${line.name} grown`, terms, line.stock === null ? '<=' : '=', 0, true)
    })
    frame.markets.forEach((_, m) => {
      if (soldAt[m]!.length > 0) addMarketRoom(mix, frame, period, seasons[season]!, season, m, soldAt[m]!)
    })
  }
}

/** What leaves a stock is sold: no more of what does not keep than is grown, and all that is taken out. */
const soldOf = (mix: MixProgram, name: string, offered: Row['terms'], stock: Row['terms']): Row['terms'] => {
  const fresh = addColumn(mix)
  addRow(mix, `${name} fresh`, [[fresh, 1], ...offered], '<=', 0, true)
  return [[fresh, -1], ...stock.map(([column, dollars]): [number, number] => [column, -dollars])]
}

const addMarketRoom = (
  mix: MixProgram,
  frame: MixFrame,
  period: Period,
  seasonMonths: Period,
  season: number,
  m: number,
  sold: Row['terms'],
) => {
  const own = tripColumn(mix, m, season)!
  const market = frame.markets[m]!
  const perTrip = buysPerTrip(market, period, seasonMonths)
  const room: Row['terms'] = [...sold, [own.column, -perTrip]]
  let followers = 0
  frame.markets.forEach((other, from) => {
    const trips = tripColumn(mix, from, season)
    if (from === m || !trips || other.followShare === 0) return
    const following = period.reduce(
      (sum, k) => sum + other.sold[k]! * other.followShare * followWeight(frame, from, m, k),
      0,
    )
    if (following <= 0) return
    followers += following
    room.push([trips.column, following / sumOver(other.full, seasonMonths)])
  })
  addRow(mix, `room at ${market.name}`, room, '<=', followers, true)
  const perTripWithFollowers = perTrip + followers / sumOver(market.full, seasonMonths)
  if (followers > 0)
    addRow(mix, `${market.name} runs`, [...sold, [own.column, -perTripWithFollowers]], '<=', 0, true)
}

/** Dollars that one trip of the season sells in these months. */
const buysPerTrip = (market: MixMarket, period: Period, season: Period): number => {
  const trips = sumOver(market.full, season)
  return period.reduce((sum, k) => sum + (market.full[k]! / trips) * market.salesPerTrip[k]!, 0)
}

/** The part of a market's followers that goes to another, by what the others can take at full trips. */
const followWeight = (frame: MixFrame, from: number, to: number, k: number): number => {
  const others = frame.markets.map((one, m) => (m === from ? 0 : one.full[k]! * one.salesPerTrip[k]!))
  const whole = total(others)
  return whole > 0 ? others[to]! / whole : 0
}
