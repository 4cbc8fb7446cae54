// Order statistics of many courses: percentiles, success share with its standard error, and simple counts by range.

/**
 * Percentiles by linear interpolation between order statistics (type 7 of R. J. Hyndman and Y. Fan, Sample Quantiles
 * in Statistical Packages, 1996). `shares` are from 0 to 1. Values that never happened are given as Infinity and sort
 * last. Sorts `values` in place.
 */
export function percentiles(values: Float32Array | Float64Array, shares: readonly number[]): number[] {
  if (values.length === 0) throw new Error('percentiles of no values')
  values.sort()
  return shares.map((share) => {
    const place = share * (values.length - 1)
    const below = values[Math.floor(place)]!
    const above = values[Math.ceil(place)]!
    // An interval with an end at infinity has no middle: half way to never is never.
    if (below === above || !Number.isFinite(below) || !Number.isFinite(above))
      return place % 1 === 0 ? below : above
    return below + (above - below) * (place % 1)
  })
}

export interface Share {
  share: number
  /** √(p(1 − p) / n): about two of three repetitions with another seed fall within one of it. */
  standardError: number
  /** 95 % interval of the share (Wilson 1927, cited from memory): stays within 0 and 1, also when every course held. */
  low: number
  high: number
  of: number
}

export function shareOf(successes: number, of: number): Share {
  if (of <= 0) throw new Error(`a share of ${of} courses`)
  const share = successes / of
  const z = 1.959963984540054
  const squared = (z * z) / of
  const centre = (share + squared / 2) / (1 + squared)
  const half = (z / (1 + squared)) * Math.sqrt((share * (1 - share)) / of + squared / (4 * of))
  return {
    share,
    standardError: Math.sqrt((share * (1 - share)) / of),
    low: Math.max(0, centre - half),
    high: Math.min(1, centre + half),
    of,
  }
}

/** 95 % interval of the percentile `share` of sorted values: the order statistics 1.96 binomial standard deviations away. */
export function percentileInterval(
  sorted: Float32Array | Float64Array,
  share: number,
): { low: number; high: number } {
  const spread = 1.959963984540054 * Math.sqrt(share * (1 - share) * sorted.length)
  const place = share * (sorted.length - 1)
  const last = sorted.length - 1
  return {
    low: sorted[Math.max(0, Math.floor(place - spread))]!,
    high: sorted[Math.min(last, Math.ceil(place + spread))]!,
  }
}
