// Reads the answer for any confidence off the thresholds of many courses, with the interval that another seed would keep to.
import { shareOf } from '#chance/percentiles.ts'
import type { Amount, CurvePoint } from './question.ts'

/**
 * Thresholds are one per course: where more is better, the least good setting; else the greatest. The answer for a
 * confidence c is the setting that is good in at least c of the courses. Its 95 % interval lies between the order
 * statistics 1.96 binomial standard deviations either side (distribution-free; W. J. Conover, Practical Nonparametric
 * Statistics, cited from memory). An infinite value says that no setting tried is good in so many courses.
 */
export function amountFor(thresholds: Float64Array, confidence: number, moreIsBetter: boolean): Amount {
  const sorted = thresholds.slice().sort()
  if (!moreIsBetter) sorted.reverse()
  const last = sorted.length - 1
  const strays = 1.959963984540054 * Math.sqrt(confidence * (1 - confidence) * sorted.length)
  const place = Math.ceil(confidence * sorted.length) - 1
  const sooner = sorted[Math.max(0, Math.floor(place - strays))]!
  const later = sorted[Math.min(last, Math.ceil(place + strays))]!
  return { value: sorted[place]!, low: Math.min(sooner, later), high: Math.max(sooner, later) }
}

/** The share of courses that hold at each of these settings. */
export function curveOf(
  thresholds: Float64Array,
  settings: readonly number[],
  moreIsBetter: boolean,
): CurvePoint[] {
  return settings.map((at) => {
    let good = 0
    for (const threshold of thresholds) if (moreIsBetter ? threshold <= at : threshold >= at) good += 1
    return { at, held: shareOf(good, thresholds.length) }
  })
}

/** `count` settings from the first to the last, evenly apart, on round numbers where the range is wide enough. */
export function evenly(from: number, to: number, count: number): number[] {
  return Array.from({ length: count }, (_, place) => from + ((to - from) * place) / (count - 1))
}
