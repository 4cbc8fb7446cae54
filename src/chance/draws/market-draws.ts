// Drawn years of markets and prices: whole years of published history in blocks, or a lognormal of stated moments. Pure: the streams are given.
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

/**
 * The lognormal of 1 + r whose r has this mean and standard deviation:
 * v = ln(1 + s² / (1 + a)²), log mean = ln(1 + a) − v / 2, log sd = √v.
 */
export function lognormalOf(mean: number, sd: number): { logMean: number; logSd: number } {
  const variance = Math.log1p((sd * sd) / (1 + mean) ** 2)
  return { logMean: Math.log1p(mean) - variance / 2, logSd: Math.sqrt(variance) }
}
