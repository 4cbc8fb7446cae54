// Season factors: one common to the whole farm and one for each enterprise, lognormal with mean one, so that the
// average over all paths is the expected course.
import type { RandomStream } from './random-stream.ts'

export interface SeasonSpread {
  /** Standard deviation of the logarithm of an enterprise's yearly yield: 0.15 is about 15 %. */
  logSd: number
  /** Correlation of the logarithms of two enterprises of the farm, 0 to 1: one season is on all of them. */
  together: number
}

/** Standard normals of the common season, one per year. */
export function drawCommonSeason(stream: RandomStream, years: number): Float64Array {
  const common = new Float64Array(years)
  for (let year = 0; year < years; year += 1) common[year] = stream.normal()
  return common
}

/**
 * Yield factors of one enterprise, one per year, mean one: exp(σz − σ²/2) with z = √ρ·common + √(1−ρ)·own.
 * Its own stream is spent one normal a year, whatever the spread.
 */
export function drawSeasons(
  common: Float64Array,
  spread: SeasonSpread,
  own: RandomStream,
  into: Float64Array,
): void {
  const sigma = spread.logSd
  const sharedPart = Math.sqrt(spread.together)
  const ownPart = Math.sqrt(1 - spread.together)
  for (let year = 0; year < into.length; year += 1) {
    const z = sharedPart * common[year]! + ownPart * own.normal()
    into[year] = Math.exp(sigma * z - (sigma * sigma) / 2)
  }
}

/** Factors of mean one, independent from year to year, with this standard deviation. */
export function drawFactors(sd: number, stream: RandomStream, into: Float64Array): void {
  const variance = Math.log1p(sd * sd)
  const sigma = Math.sqrt(variance)
  for (let year = 0; year < into.length; year += 1)
    into[year] = Math.exp(sigma * stream.normal() - variance / 2)
}
