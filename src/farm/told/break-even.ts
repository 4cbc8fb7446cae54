// The price and the yield that just cover the costs of a unit: of an enterprise by its budget, of a herd by a full year of its months.
import type { Enterprise, Farm } from '../farm-document.ts'
import { herdYields } from '../herd/herd-yields.ts'
import { yearTotal } from '../seasonal.ts'

/** By one measure of what a unit yields: a pound, a dozen, a head. */
export interface BreakEven {
  measure: string
  yieldPerUnit: number
  priceNow: number
  /** Price by measure at which direct costs are covered; and with every hour paid at the given wage. */
  price: number
  priceWithWage: number
  /** At which its share of markets and overheads is covered too, and all of its hours are paid; null where nothing of it is grown. */
  priceWithAll: number | null
  /** Yield by unit at which direct costs are covered at today's price; null where nothing is taken for it. */
  yieldNeeded: number | null
}

/** What all units of a line have to cover in the year beside their direct costs: shares of markets and overheads, and all hours at the wage. */
export interface Whole {
  wage: number
  units: number
  /** Direct costs of an enterprise's year as it is run. */
  directCosts: number
  beside: number
}

/** None for an enterprise whose yield is not entered, and for a herd that dies out. A herd that gives several things has one of each. */
export const breakEvensOf = (farm: Farm, row: number, whole: Whole): BreakEven[] => {
  const one = farm.enterprises[row]
  return one ? ofEnterprise(one, whole) : ofHerd(farm, row, whole)
}

const ofEnterprise = (one: Enterprise, { wage, units, directCosts, beside }: Whole): BreakEven[] => {
  if (!one.yieldPerUnit) return []
  const sales = yearTotal(one.salesPerUnit)
  const costs = yearTotal(one.costsPerUnit)
  const priceNow = sales / one.yieldPerUnit
  return [
    {
      measure: one.yieldMeasure ?? 'measure',
      yieldPerUnit: one.yieldPerUnit,
      priceNow,
      price: breakEvenPrice(costs, one.yieldPerUnit),
      priceWithWage: breakEvenPrice(costs + wage * yearTotal(one.hoursPerUnit), one.yieldPerUnit),
      priceWithAll: units > 0 ? breakEvenPrice(directCosts + beside, units * one.yieldPerUnit) : null,
      yieldNeeded: priceNow > 0 ? breakEvenYield(costs, priceNow) : null,
    },
  ]
}

const ofHerd = (farm: Farm, row: number, { wage, units, beside }: Whole): BreakEven[] => {
  const herd = farm.herds[row - farm.enterprises.length]!
  return herdYields(herd, units).map((one) => {
    const priceOf = (more: number) => Math.max(0, one.priceToCover(more))
    const price = priceOf(0)
    return {
      measure: one.measure,
      yieldPerUnit: one.yieldPerFemale,
      priceNow: one.priceNow,
      price,
      priceWithWage: priceOf(wage * one.hours),
      priceWithAll: units > 0 ? priceOf(beside / units) : null,
      yieldNeeded: one.priceNow > 0 ? (one.yieldPerFemale * price) / one.priceNow : null,
    }
  })
}

/** Price at which a yield covers an amount. */
export const breakEvenPrice = (toCover: number, quantity: number): number => toCover / quantity
/** Quantity that covers an amount at a price. */
export const breakEvenYield = (toCover: number, price: number): number => toCover / price
