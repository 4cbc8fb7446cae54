// A herd once it has grown up: what each breeding female that is carried brings, costs and needs in a usual year, month by month. The
// months are those of the plan (`herdMonths`), of a herd that has stood at its limit for years; of one that keeps too few young to hold
// itself, a full year of its heads. Mix, forms, break-even prices and what is counted once all read it.
import { month } from '#calendar/month.ts'
import { heldEachMonth } from '#farm/seasonal.ts'
import type { Herd } from './herd-document.ts'
import { type HerdMonths, herdMonths } from './herd-months.ts'
import { cullTax } from './herd-tax.ts'
import { youngWorth } from './meat.ts'

/** January to December, for one of the carrying limit; stock that enters equals stock that leaves. Dollars, heads, hours. */
export interface SteadyFemale {
  /** Sold by markets in their month or not at all: wool, milk, eggs, and culls of poultry. */
  product: number[]
  /** Young that become ready to sell. */
  ready: number[]
  /** Keep and stock bought, less culls that need no market. */
  costs: number[]
  hours: number[]
  /** Hours of the herd whatever its size. */
  hoursFixed: number[]
  /** Breeding females that stand there. */
  standing: number[]
}

const years = 24
const measured = 12

/** `limit`: what is carried, from one up. `null` for a herd that dies out: no births, and none bought. */
export const steadyFemale = (herd: Herd, limit = Math.max(herd.carryingLimit, 1)): SteadyFemale | null => {
  const months = monthsAtLimit(herd, limit)
  const from = (years - measured) * 12
  const part = strength(months, limit)
  if (part <= 0) return null
  const each = (value: (m: number) => number) =>
    Array.from({ length: 12 }, (_, season) => {
      let sum = 0
      for (let m = from + season; m < years * 12; m += 12) sum += value(m)
      return sum / measured / limit / part
    })
  const standing = each((m) => months.breedingFemales[m]!)
  if (Math.max(...standing) * part < 0.05) return null
  const hoursFixed = heldEachMonth(herd.hoursFixed)
  return {
    ...sold(herd, months, each),
    hours: each((m) => months.hours[m]! - hoursFixed[m % 12]!),
    hoursFixed,
    standing,
  }
}

/**
 * The part of the limit that stands, on average of the years measured, of a herd that keeps too few young to hold itself: what it comes
 * to in a full year is what it comes to then, over this. What a year sells was born in it and in the year before. 1 for all others.
 */
const strength = ({ breedingFemales }: HerdMonths, limit: number): number => {
  const most = Array.from({ length: years }, (_, y) =>
    Math.max(...breedingFemales.slice(y * 12, y * 12 + 12)),
  )
  const from = years - measured
  if (most.at(-1)! >= most[from]! * 0.98) return 1
  const stood = most.slice(from).map((heads, y) => (heads + most[from + y - 1]!) / 2)
  return stood.reduce((sum, heads) => sum + heads, 0) / measured / limit
}

const monthsAtLimit = (herd: Herd, limit: number): HerdMonths =>
  herdMonths(
    {
      ...herd,
      start: '2001-01',
      end: undefined,
      carryingLimit: limit,
      breedingFemales: limit,
      ownedAlready: true,
      counts: [],
    },
    month(2001, 1),
    years * 12,
  )

const sold = (herd: Herd, months: HerdMonths, each: (value: (m: number) => number) => number[]) => {
  const { perHead } = youngWorth(herd)
  const { isGoods } = cullTax(herd)
  const culls = (m: number) => months.cullSales[m]!
  return {
    product: each((m) => months.sales[m]! - months.soldYoungHeads[m]! * perHead + (isGoods ? culls(m) : 0)),
    ready: each((m) => months.soldYoungHeads[m]!),
    costs: each((m) => months.costs[m]! + months.stockBought[m]! - (isGoods ? 0 : culls(m))),
  }
}
