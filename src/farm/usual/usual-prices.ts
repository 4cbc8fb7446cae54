// Published dollars of an earlier year at the prices of the last whole year of the consumer price index.
import { consumerPriceIndex } from '#rules/data/consumer-prices.ts'
import { yearsOf } from '#rules/dated.ts'
import { isMoney, type UsualFigure } from './usual-figures.ts'

/** The last whole year of the index. */
export const lastPriceYear = (): number => yearsOf(consumerPriceIndex).last

/** The figure at that year's prices, to the cent; null for what is no money, or whose dollars have no year in the index. */
export const atLastPrices = (figure: UsualFigure): UsualFigure | null => {
  const { dollarsYear } = figure
  if (!isMoney(figure) || dollarsYear === undefined || dollarsYear === null) return null
  const then = consumerPriceIndex.values[dollarsYear]
  if (then === undefined) return null
  const times = (value: number) =>
    Math.round(((value * consumerPriceIndex.values[lastPriceYear()]!) / then) * 100) / 100
  return {
    ...figure,
    value: typeof figure.value === 'number' ? times(figure.value) : figure.value.map(times),
    ...(figure.low === undefined ? {} : { low: times(figure.low) }),
    ...(figure.high === undefined ? {} : { high: times(figure.high) }),
    dollarsYear: lastPriceYear(),
  }
}
