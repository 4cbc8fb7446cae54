// A herd once it has grown up: what one breeding female takes in, costs and needs in a usual year, month by month.
import { month } from '#calendar/month.ts'
import { heldEachMonth } from '#farm/seasonal.ts'
import type { Herd } from './herd-document.ts'
import { herdMonths } from './herd-months.ts'

/** January to December, per breeding female; stock that enters equals stock that leaves. */
export interface SteadyFemale {
  /** Young, products and culls sold, less males and replacements bought. Dollars. */
  sales: number[]
  costs: number[]
  hours: number[]
  /** Hours of the herd whatever its size. */
  hoursFixed: number[]
  /** Females that stand on the farm on average when the carrying limit is reached. */
  females: number
}

const years = 24
const measured = 12

/** `null` for a herd that dies out: no births, and none bought. */
export const steadyFemale = (herd: Herd): SteadyFemale | null => {
  const limit = Math.max(herd.carryingLimit, 1)
  const grown = {
    ...herd,
    start: '2001-01',
    end: undefined,
    carryingLimit: limit,
    breedingFemales: limit,
    ownedAlready: true,
    counts: [],
  }
  const months = herdMonths(grown, month(2001, 1), years * 12)
  const from = (years - measured) * 12
  let females = 0
  for (let m = from; m < years * 12; m += 1) females += months.breedingFemales[m]! / (measured * 12)
  if (females < limit * 0.05) return null
  const hoursFixed = heldEachMonth(herd.hoursFixed)
  const perFemale = (value: (m: number) => number) =>
    Array.from({ length: 12 }, (_, season) => {
      let sum = 0
      for (let m = from + season; m < years * 12; m += 12) sum += value(m)
      return sum / measured / females
    })
  return {
    sales: perFemale((m) => months.sales[m]! + months.cullSales[m]! - months.stockBought[m]!),
    costs: perFemale((m) => months.costs[m]!),
    hours: perFemale((m) => months.hours[m]! - hoursFixed[m % 12]!),
    hoursFixed,
    females,
  }
}
