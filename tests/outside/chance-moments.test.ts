// Drawn years against the closed forms of the processes they follow and the statistics of the published history.
import { describe, expect, test } from 'vitest'
import { chanceModel } from '#chance/chance-model.ts'
import { drawCourse } from '#chance/draw-course.ts'
import { lognormalOf } from '#chance/draws/market-draws.ts'
import { type PlanInput, planSchema } from '#plan/plan.ts'
import { type CourseShocks, expectedShocks } from '#runway/shocks.ts'

const seed = 1_994

/** Calls `read` with each drawn course of a plan without people or farm, history or means as they stand. */
function drawMany(
  chance: NonNullable<PlanInput['chance']>,
  years: number,
  paths: number,
  read: (shocks: CourseShocks) => void,
) {
  const plan = planSchema.parse({ startMonth: '2026-01', chance: { centre: 'source', ...chance } })
  const expected = {
    stocks: 0.065,
    bonds: 0.04,
    bills: 0.03,
    inflation: 0.025,
    premiumGrowth: 0.06,
    medicareGrowth: 0.055,
    careGrowth: 0.045,
  }
  const shape = { years, enterprises: 0, expected, plannedDeathMonth: [] }
  const model = chanceModel(plan, shape)
  const shocks = expectedShocks(shape)
  for (let path = 0; path < paths; path += 1) {
    drawCourse(model, seed, path, shocks)
    read(shocks)
  }
}

describe('the stationary block bootstrap of January-to-January history', () => {
  // Mean: exactly the mean of the 152 years. Standard deviation of the mean of 30 drawn years: the closed form with
  // circular autocovariances, Var = (C0 + 2 Σ (1 − i/N)(1 − 1/b)^i Ci) / N (Politis and Romano 1994; formula from
  // memory, its figures computed apart from this program and confirmed there by 200,000 resamples).
  const n = 20_000
  test.for([
    { series: 'stocks', block: 1, mean: 0.1066409934, sd: 0.03281239435 },
    { series: 'stocks', block: 5, mean: 0.1066409934, sd: 0.02852479528 },
    { series: 'stocks', block: 10, mean: 0.1066409934, sd: 0.02634001826 },
    { series: 'inflation', block: 1, mean: 0.02279405921, sd: 0.010668403 },
    { series: 'inflation', block: 5, mean: 0.02279405921, sd: 0.01543983367 },
    { series: 'inflation', block: 10, mean: 0.02279405921, sd: 0.01683190789 },
  ] as const)('with blocks of $block years has $series whose thirty-year mean strays by $sd', (row) => {
    let sum = 0
    let squares = 0
    drawMany({ markets: 'january', blockYears: row.block }, 30, n, (shocks) => {
      const mean = shocks[row.series].reduce((total, year) => total + year, 0) / 30
      sum += mean
      squares += (mean - row.mean) ** 2
    })
    expect(Math.abs(sum / n - row.mean)).toBeLessThan((4 * row.sd) / Math.sqrt(n))
    // Four standard errors of a standard deviation, 1 / √(2n) each.
    expect(Math.abs(Math.sqrt(squares / n) / row.sd - 1)).toBeLessThan(4 / Math.sqrt(2 * n))
  })
})

describe('stated moments', () => {
  // v = ln(1 + s² / (1 + a)²); log mean ln(1 + a) − v / 2; log sd √v (standard, from memory; figures computed apart).
  test.for([
    [0.1, 0.18, 0.08209786318, 0.162556554],
    [0.05, 0.065, 0.04687772648, 0.06184557685],
    [0.0327, 0.0475, 0.03112003616, 0.04597163328],
  ] as const)(
    'of mean %f and spread %f give the lognormal of the closed form',
    ([mean, sd, logMean, logSd]) => {
      const found = lognormalOf(mean, sd)
      expect(Math.abs(found.logMean / logMean - 1)).toBeLessThan(1e-9)
      expect(Math.abs(found.logSd / logSd - 1)).toBeLessThan(1e-9)
    },
  )

  // First-order autoregression: stationary sd s / √(1 − φ²), variance of an n-year sum as in any text on time series
  // (from memory; figures computed apart): mean 3 %, φ 0.6, shock sd 3 %, so stationary sd 3.75 %.
  test('have prices with the variance of sums of an autoregression', () => {
    const n = 20_000
    let squares = 0
    let lagOne = 0
    let lagFive = 0
    const chance = {
      markets: 'stated',
      inflationMean: 0.03,
      inflationSpread: 0.0375,
      inflationPersistence: 0.6,
    } as const
    drawMany(chance, 10, n, (shocks) => {
      const away = shocks.inflation.map((year) => year - 0.03)
      squares += away.reduce((total, year) => total + year, 0) ** 2
      lagOne += away[4]! * away[5]!
      lagFive += away[4]! * away[9]!
    })
    expect(Math.abs(squares / n / 0.04576689792 - 1)).toBeLessThan(4 * Math.sqrt(2 / n))
    // The sd of a product of two normals with correlation r is σ²√(1 + r²).
    expect(Math.abs(lagOne / n - 0.00084375)).toBeLessThan((4 * 0.00140625 * 1.17) / Math.sqrt(n))
    expect(Math.abs(lagFive / n - 0.00010935)).toBeLessThan((4 * 0.00140625 * 1.01) / Math.sqrt(n))
  })
})
