// Drawn years of markets and prices: whole years of published history in blocks, or stated moments. Pure: the streams are given.
import type { MarketHistory } from './market-history.ts'
import type { RandomStream } from './random-stream.ts'

/**
 * Stationary block bootstrap: places in a history of `historyYears` years, one for each of `years` drawn years.
 * A block goes on to the next year of history (wrapping at the end) and stops with chance 1 / `meanBlockYears`, so that
 * block lengths are geometric and every drawn year has the distribution of the whole history.
 * D. N. Politis and J. P. Romano, The Stationary Bootstrap, JASA 89 (1994); cited from memory.
 * Two uniforms are spent every year, used or not: a longer plan keeps the years drawn for a shorter one.
 */
export function drawBlocks(
  stream: RandomStream,
  historyYears: number,
  meanBlockYears: number,
  years: number,
): Int32Array {
  const places = new Int32Array(years)
  const stop = 1 / Math.max(1, meanBlockYears)
  let place = 0
  for (let year = 0; year < years; year += 1) {
    const isNewBlock = stream.uniform() < stop || year === 0
    const start = Math.floor(stream.uniform() * historyYears)
    place = isNewBlock ? start : (place + 1) % historyYears
    places[year] = place
  }
  return places
}

/** Places of history as it happened: from the year at `start` on, wrapping past the end. */
export function replayPlaces(historyYears: number, start: number, years: number): Int32Array {
  return Int32Array.from({ length: years }, (_, year) => (start + year) % historyYears)
}

/** One figure per drawn year. */
export interface MarketYears {
  stocks: Float64Array
  bonds: Float64Array
  /** Null where the history has no bills dated alike: the plan's own rate then stands. */
  bills: Float64Array | null
  inflation: Float64Array
}

/** Reads the same places from every series, so that what happened together stays together. */
export function yearsAt(history: MarketHistory, places: Int32Array): MarketYears {
  const read = (series: readonly number[]) => Float64Array.from(places, (place) => series[place]!)
  return {
    stocks: read(history.stocks),
    bonds: read(history.bonds),
    bills: history.bills === null ? null : read(history.bills),
    inflation: read(history.inflation),
  }
}

/** Yearly moments as fractions: mean and standard deviation of the yearly return, not of its logarithm. */
export interface StatedMoments {
  stocks: { mean: number; sd: number }
  bonds: { mean: number; sd: number }
  bills: { mean: number; sd: number }
  inflation: { mean: number; sd: number }
  /** Correlation of the logarithms of stock and bond growth, −1 to 1. */
  stocksWithBonds: number
  /** Share of last year's distance from the mean that prices, and bills with them, keep: 0 to below 1. */
  persistence: number
}

/**
 * Lognormal stocks and bonds, independent from year to year; inflation and bills first-order autoregressive about their
 * means, started from their stationary distribution and moved by the same shock: bills follow prices.
 * Three normals are spent every year.
 */
export function drawStated(moments: StatedMoments, stream: RandomStream, years: number): MarketYears {
  const stocks = lognormalOf(moments.stocks.mean, moments.stocks.sd)
  const bonds = lognormalOf(moments.bonds.mean, moments.bonds.sd)
  const shared = moments.stocksWithBonds
  const own = Math.sqrt(1 - shared * shared)
  const kept = moments.persistence
  const fresh = Math.sqrt(1 - kept * kept)
  const drawn = {
    stocks: new Float64Array(years),
    bonds: new Float64Array(years),
    bills: new Float64Array(years),
    inflation: new Float64Array(years),
  }
  let prices = 0
  for (let year = 0; year < years; year += 1) {
    const first = stream.normal()
    const second = stream.normal()
    const third = stream.normal()
    drawn.stocks[year] = Math.exp(stocks.logMean + stocks.logSd * first) - 1
    drawn.bonds[year] = Math.exp(bonds.logMean + bonds.logSd * (shared * first + own * second)) - 1
    prices = year === 0 ? third : kept * prices + fresh * third
    drawn.inflation[year] = moments.inflation.mean + moments.inflation.sd * prices
    drawn.bills[year] = moments.bills.mean + moments.bills.sd * prices
  }
  return drawn
}

/**
 * The lognormal of 1 + r whose r has this mean and standard deviation:
 * v = ln(1 + s² / (1 + a)²), log mean = ln(1 + a) − v / 2, log sd = √v.
 */
export function lognormalOf(mean: number, sd: number): { logMean: number; logSd: number } {
  const variance = Math.log1p((sd * sd) / (1 + mean) ** 2)
  return { logMean: Math.log1p(mean) - variance / 2, logSd: Math.sqrt(variance) }
}
