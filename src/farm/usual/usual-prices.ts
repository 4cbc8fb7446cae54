// Published dollars of an earlier year at the prices of the last whole year of the consumer price index.
import { consumerPriceIndex } from '#rules/data/consumer-prices.ts'
import { yearsOf } from '#rules/dated.ts'
import { isMoney, type UsualFigure } from './usual-figures.ts'

/** The last whole year of the index. */
export const lastPriceYear = (): number => yearsOf(consumerPriceIndex).last

/** The figure at a year's prices, to the cent; null for what is no money, or whose dollars or prices have no year in the index. */
export const atPricesOf = (figure: UsualFigure, year: number): UsualFigure | null => {
  const { dollarsYear } = figure
  if (!isMoney(figure) || dollarsYear === undefined || dollarsYear === null) return null
  const then = consumerPriceIndex.values[dollarsYear]
  const now = consumerPriceIndex.values[year]
  if (then === undefined || now === undefined) return null
  const times = (value: number) => Math.round(((value * now) / then) * 100) / 100
  return {
    ...figure,
    value: typeof figure.value === 'number' ? times(figure.value) : figure.value.map(times),
    ...(figure.low === undefined ? {} : { low: times(figure.low) }),
    ...(figure.high === undefined ? {} : { high: times(figure.high) }),
    dollarsYear: year,
  }
}
