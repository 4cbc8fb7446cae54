import { describe, expect, test } from 'vitest'
import { openStream } from '#chance/draws/random-stream.ts'
import { percentileInterval, percentiles, shareOf } from '#chance/percentiles.ts'
import { separateBadTenth } from '#chance/separating.ts'

describe('percentiles', () => {
  test('interpolate between the values on either side', () => {
    // Hand count: of 10, 20, 30, 40, 50 the tenth percentile is 10 + 0.4 × 10, the median 30.
    expect(percentiles(Float64Array.of(50, 10, 40, 20, 30), [0, 0.1, 0.5, 0.9, 1])).toEqual([
      10, 14, 30, 46, 50,
    ])
  })

  test('are never where the next value never came', () => {
    expect(percentiles(Float64Array.of(12, Infinity, 24), [0.25, 0.5, 0.75])).toEqual([18, 24, Infinity])
  })

  test('have an interval of order statistics about them', () => {
    const sorted = Float64Array.from({ length: 1001 }, (_, place) => place)
    // 1.96 × √(0.25 × 1001) is 31.01 places.
    expect(percentileInterval(sorted, 0.5)).toEqual({ low: 468, high: 532 })
  })
})

describe('a success share', () => {
  // Standard errors √(p(1 − p) / N), elementary; the two rows are printed in many textbooks (from memory).
  test.for([
    [500, 10_000, 0.0021794495],
    [900, 1_000, 0.009486833],
    [5_000, 10_000, 0.005],
  ] as const)('of %i in %i has standard error %f', ([held, of, error]) => {
    expect(shareOf(held, of).standardError).toBeCloseTo(error, 9)
  })

  test('has an interval even when every course held', () => {
    // Wilson's interval for 100 of 100 is 0.9630 to 1 (worked by hand: 1 / (1 + 3.8415 / 100)).
    const all = shareOf(100, 100)
    expect(all.low).toBeCloseTo(0.963, 4)
    expect(all.high).toBe(1)
  })
})

describe('what the bad tenth have in common', () => {
  const courses = 2_000
  const draw = (part: number) =>
    Float64Array.from({ length: courses }, (_, path) => openStream(99, path, 'resample', part).normal())

  test('is the factor that moves the outcome, with its direction', () => {
    const [returns, prices, chaff] = [draw(1), draw(2), draw(3)]
    const outcome = Float64Array.from(returns, (value, course) => value - 0.4 * prices[course]!)
    const ranked = separateBadTenth(outcome, [chaff, returns, prices])
    expect(ranked.map((each) => each.factor)).toEqual([1, 2, 0])
    expect(ranked[0]!.lowerWhenBad).toBeGreaterThan(0.9)
    expect(ranked[0]!.meanOfBad).toBeLessThan(ranked[0]!.meanOfRest - 1)
    expect(ranked[1]!.lowerWhenBad).toBeLessThan(0.4)
    // A factor with no effect: sd of the statistic is √((n + 1) / (12 · bad · rest)) = 0.0215.
    expect(Math.abs(ranked[2]!.lowerWhenBad - 0.5)).toBeLessThan(5 * 0.0215)
  })

  test('counts ties as half', () => {
    const outcome = Float64Array.from({ length: 20 }, (_, course) => course)
    expect(separateBadTenth(outcome, [new Float64Array(20)])[0]!.lowerWhenBad).toBe(0.5)
  })

  test('is complete when the factor is the outcome', () => {
    const outcome = Float64Array.from({ length: 50 }, (_, course) => course)
    expect(separateBadTenth(outcome, [outcome])[0]!.lowerWhenBad).toBe(1)
  })
})
