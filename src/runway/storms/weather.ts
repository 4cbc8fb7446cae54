// What a storm does to a plan month by month, beside the yearly shocks: factors and hours that are 1 and 0 in calm years.

import { weeksPerMonth } from '#farm/work-months.ts'
import type { Storm } from '#plan/assumption-plan.ts'
import type { Plan } from '#plan/plan.ts'

export interface Weather {
  /** Factor on what the farm offers for sale. */
  salesFactor: Float64Array
  livingFactor: Float64Array
  /** Person-major, on wages. */
  payFactor: Float64Array
  premiumFactor: Float64Array
  /** Hours of the crew that are lost. */
  hoursLost: Float64Array
  /** A fall of markets, whole and in its own month; month −1 for none. */
  marketFall: MarketFall
  /** A market closed to the farm in some months. */
  lostMarket: { id: string; from: number; months: number } | null
}

export interface MarketFall {
  month: number
  stocks: number
  bonds: number
}

export const calmWeather = (months: number): Weather => ({
  salesFactor: new Float64Array(months).fill(1),
  livingFactor: new Float64Array(months).fill(1),
  payFactor: new Float64Array(2 * months).fill(1),
  premiumFactor: new Float64Array(months).fill(1),
  hoursLost: new Float64Array(months),
  marketFall: { month: -1, stocks: 0, bonds: 0 },
  lostMarket: null,
})

/** Fills the weather of a storm that begins in month `from` of the plan. What a plan was compiled with can so be changed in place. */
export const fillWeather = (
  weather: Weather,
  { household }: Pick<Plan, 'household'>,
  storm: Storm,
  from: number,
): void => {
  const end = from + storm.months
  const months = weather.salesFactor.length
  weather.payFactor.fill(1)
  const unpaid = household.people.findIndex((one) => one.id === storm.payStops)
  if (unpaid >= 0)
    weather.payFactor.fill(
      0,
      unpaid * months + Math.min(months, Math.max(0, from)),
      unpaid * months + Math.min(months, Math.max(0, end)),
    )
  for (let m = 0; m < months; m += 1) {
    const lasts = m >= from && m < end
    weather.premiumFactor[m] = m >= from ? 1 + storm.premiumJump : 1
    weather.salesFactor[m] = lasts ? storm.salesShare : 1
    weather.livingFactor[m] = lasts ? storm.livingShare : 1
    weather.hoursLost[m] = lasts ? storm.hoursLostPerWeek * weeksPerMonth : 0
  }
  Object.assign(weather.marketFall, { month: from, stocks: storm.stockFall, bonds: storm.bondFall })
  if (storm.lostMarket !== undefined)
    weather.lostMarket = { id: storm.lostMarket, from: Math.max(0, from), months: end - Math.max(0, from) }
}
