// What each market of the plan takes, costs and asks in a year, and what would be lost without it.
import { addMonths, type Month, yearOf } from '#calendar/month.ts'
import { type FarmCourse, farmCourse } from '#farm/course.ts'
import { yearOfCourse } from '#farm/farm-year.ts'
import { marketsNamed } from '#farm/references.ts'
import { seatsByChance } from '#farm/selling/seats.ts'
import { keptWith } from '#kept/keeper.ts'
import type { Plan } from '#plan/plan.ts'
import { grownCourse } from '#runway/farm/grown-course.ts'
import type { MarketFigures } from './figures.ts'

/** Of the calendar year that begins with month `from` of a grown course. */
export const marketFigures = (plan: Plan, course: FarmCourse, from: number): MarketFigures[] => {
  const { farm } = plan
  const first = addMonths(course.firstMonth, from)
  const netOf = (one: FarmCourse) => yearOfCourse(one, yearOf(first)).net
  const byChance = seatsByChance(farm)
  const named = marketsNamed(farm)
  const soldBeside = (one: FarmCourse, start: number, own: number) =>
    farm.markets.reduce((sum, _, k) => (k === own ? sum : sum + yearAt(one, one.marketSales, k, start)), 0)
  return farm.markets.map((market, k) => {
    const dropped = without(plan, market.id, first)
    const of = (values: Float64Array, start = from) => yearAt(course, values, k, start)
    const [trips, hours, sold, costs] = [
      of(course.marketTrips),
      of(course.marketHours),
      of(course.marketSales),
      of(course.marketCostsEach),
    ]
    const later = Array.from({ length: 10 }, (_, y) =>
      of(course.marketTrips, Math.min(from + 12 * (y + 1), course.monthCount - 12)),
    )
    return {
      id: market.id,
      name: market.name,
      trips,
      capacity: of(course.marketCapacity),
      sold,
      costs,
      hours,
      perHour: hours > 0 ? (sold - costs) / hours : null,
      followShare: market.followShare,
      growth: market.growth ?? null,
      seat: market.seat ?? null,
      seatIsByChance: byChance.some((one) => one.market === market.id),
      netLostIfDropped: netOf(course) - netOf(dropped),
      thenSoldElsewhere: soldBeside(dropped, 0, k) - soldBeside(course, from, k),
      tripsLaterChange: later.some((one) => Math.abs(one - trips) > 0.5),
      isNamed: named.has(market.id),
    }
  })
}

/** Twelve months of a market-major row from month `start` on. */
const yearAt = ({ monthCount }: FarmCourse, values: Float64Array, market: number, start: number): number => {
  const at = market * monthCount + start
  return values.subarray(at, at + 12).reduce((a, b) => a + b, 0)
}

/** The year with a market shut in all of it. */
const without = (plan: Plan, market: string, first: Month): FarmCourse =>
  keptWith(plan.farm, `course ${first} without ${market}`, () =>
    grownCourse(plan, farmCourse(plan.farm, first, 12, { market, from: first, to: addMonths(first, 11) })),
  )
