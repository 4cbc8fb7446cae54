// What the notebook says of sales: the price that one brought, what a market took in a trip, and which market sells most of a line.
import { type Day, monthOfDay } from '#calendar/day.ts'
import { type Month, monthOfYear } from '#calendar/month.ts'
import type { KeptMarketDay } from '#db/notebook/field-notes.ts'
import { farmCourse } from '#farm/course.ts'
import type { Farm } from '#farm/farm-document.ts'
import { heldEachMonth, type Level, yearTotal } from '#farm/seasonal.ts'
import { whereSold } from '#farm/selling/where-sold.ts'
import type { BatchRow } from './batch-figures.ts'
import { batchOf, endOf, fewestMarketDays, type Seen, scaled, shown, withEnterprise } from './seen-parts.ts'

/** What one of the newest ended batch brought, of those that were sold. */
export const seenPrices = (farm: Farm, rows: readonly BatchRow[]): Seen[] =>
  farm.enterprises.flatMap((one, at) => {
    const found = batchOf(one, rows, ({ result }) => result.salesCents > 0 && result.sold > 0)
    if (!found) return []
    const { batch, result } = found
    const plan = yearTotal(one.salesPerUnit)
    const seen = shown(result.salesCents / 100 / result.sold)
    return [
      {
        key: `enterprise.${one.id}.sales`,
        of: one.name,
        what: `Sales a ${one.unit}`,
        unit: 'dollars' as const,
        plan,
        seen,
        restsOn: `${result.sold} sold of the batch ${batch.name}, ended ${endOf(found)}`,
        taken: withEnterprise(farm, at, { salesPerUnit: scaled(one.salesPerUnit, plan, seen) }),
      },
    ]
  })

/** Where goods ran out before the customers did, the market would have taken more: the row says so. */
export const seenTakings = (farm: Farm, days: readonly KeptMarketDay[]): Seen[] =>
  farm.markets.flatMap((market, at) => {
    const mine = days.filter(({ marketId, takings }) => marketId === market.id && takings.length > 0)
    if (mine.length < fewestMarketDays) return []
    const held = heldEachMonth(market.salesPerTrip)
    const plan = mean(mine.map(({ day }) => held[monthOfYear(monthOfDay(day)) - 1]!))
    const seen = shown(mean(mine.map(takenIn)) / 100)
    return [
      {
        key: `market.${market.id}.salesPerTrip`,
        of: market.name,
        what: 'Most that one trip sells',
        unit: 'dollars' as const,
        plan,
        seen,
        restsOn: `takings of ${mine.length} market days; where you sold out, it would take more`,
        taken: {
          ...farm,
          markets: farm.markets.map((one, index) =>
            index === at ? { ...one, salesPerTrip: levelAs(one.salesPerTrip, plan, seen) } : one,
          ),
        },
      },
    ]
  })

/** Months keep their shape. */
const levelAs = (level: Level, plan: number, seen: number): Level =>
  typeof level === 'number' || plan <= 0 ? seen : level.map((one) => shown((one * seen) / plan))

const takenIn = ({ takings }: KeptMarketDay): number =>
  takings.reduce((sum, { amountCents }) => sum + amountCents, 0)

const mean = (values: readonly number[]): number => values.reduce((a, b) => a + b, 0) / values.length

/**
 * The share of a line's takings at the market that sold most of it, where the plan fills another one first. Taken over, the plan
 * fills its markets in the order of what they sold.
 */
export const seenShares = (farm: Farm, days: readonly KeptMarketDay[], today: Day): Seen[] => {
  const planned = sharesPlanned(farm, monthOfDay(today))
  return farm.enterprises.flatMap((one, at) => {
    const tag = one.tag ?? one.id
    const mine = days.filter(({ takings }) => takings.some(({ enterpriseId }) => enterpriseId === tag))
    const sold = new Map<string, number>()
    for (const { marketId, takings } of mine)
      for (const { enterpriseId, amountCents } of takings)
        if (enterpriseId === tag) sold.set(marketId, (sold.get(marketId) ?? 0) + amountCents)
    const order = [...one.markets].sort((a, b) => (sold.get(b) ?? 0) - (sold.get(a) ?? 0))
    const all = one.markets.reduce((sum, id) => sum + (sold.get(id) ?? 0), 0)
    const first = order[0]
    if (mine.length < fewestMarketDays || all <= 0 || first === one.markets[0]) return []
    return [
      {
        key: `enterprise.${one.id}.markets`,
        of: one.name,
        what: `Share sold at ${farm.markets.find(({ id }) => id === first)?.name ?? first}`,
        unit: 'share' as const,
        plan: planned(at, first!),
        seen: shown(sold.get(first!)! / all),
        restsOn: `takings of ${mine.length} market days; taken over, the plan fills it first`,
        taken: withEnterprise(farm, at, { markets: order }),
      },
    ]
  })
}

/** Of what a line sells at markets in the next twelve months. */
const sharesPlanned = (farm: Farm, from: Month) => {
  const rows = whereSold(farm, farmCourse(farm, from, 12), 0)
  return (row: number, market: string): number => {
    const { atMarkets } = rows[row]!
    const all = atMarkets.reduce((a, b) => a + b, 0)
    return all > 0 ? shown(atMarkets[farm.markets.findIndex(({ id }) => id === market)]! / all) : 0
  }
}
