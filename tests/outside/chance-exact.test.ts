// Whole chance runs of savings-only plans against results that are known exactly: the same kernel that runs a farm's plan. Four times as
// many simulations by `npm run fuzz`, and margins half as wide.
import { describe, expect, test } from 'vitest'
import type { ChanceModel } from '#chance/chance-model.ts'
import { type CourseRun, courseMemory, figureOf } from '#chance/course-run.ts'
import { makeWorkspace, takePaths } from '#chance/paths.ts'
import { percentiles } from '#chance/percentiles.ts'
import { prepareChance } from '#chance/prepare.ts'
import { type PlanInput, planSchema } from '#plan/plan.ts'
import { publishedRules } from '#runway/published-rules.ts'
import { drawnOf, fewOrAll } from '../fuzz/batches.ts'

const seed = 1_987
const timesMore = fewOrAll(1, 4)

/** One account of stocks, no taxes, no price rises but the stated ones. */
function savingsRun(savings: number, rest: Partial<PlanInput>, paths: number): CourseRun {
  const plan = planSchema.parse({
    startMonth: '2026-01',
    savings: {
      accounts: [{ id: 'all', name: 'Savings', kind: 'cash', balance: savings, mix: { stocks: 1 } }],
    },
    tax: { method: 'none' },
    ...rest,
    household: { floor: { kind: 'dollars', dollars: 0 }, ...rest.household },
    assumptions: { inflation: 0, ...rest.assumptions },
    chance: {
      markets: 'stated',
      centre: 'source',
      inflationMean: 0,
      inflationSpread: 0,
      ...rest.chance,
    },
  })
  return prepareChance(plan, publishedRules(plan), { seed, paths, keepsMonths: false })
}

function figuresOf(run: CourseRun): Float64Array {
  const memory = courseMemory(run)
  takePaths(run, memory, makeWorkspace(run))
  return memory.figures
}

/** Mean and spread of the yearly return whose logarithm is normal with drift μ − σ²/2 and spread σ. */
const yearlyOf = (mu: number, sigma: number) => ({
  stocksMean: Math.expm1(mu),
  stocksSpread: Math.exp(mu) * Math.sqrt(Math.expm1(sigma * sigma)),
})

const mean = (values: Float64Array) => values.reduce((sum, each) => sum + each, 0) / values.length

describe('savings left alone', () => {
  // Geometric Brownian wealth: W(T) = W0 exp((μ − σ²/2)T + σ√T Z). Standard lognormal result (from memory; figures
  // computed apart from this program).
  test.for(
    drawnOf(
      [
        {
          savings: 100_000,
          mu: 0.07,
          sigma: 0.2,
          years: 30,
          mean: 816616.9913,
          sd: 1243865.287,
          quantiles: [
            [0.1, 110090.283],
            [0.25, 214070.1327],
            [0.5, 448168.907],
            [0.75, 938268.9997],
            [0.9, 1824460.468],
          ],
          belowStart: 0.08545176012,
        },
        {
          savings: 250_000,
          mu: 0.05,
          sigma: 0.12,
          years: 10,
          mean: 412180.3177,
          sd: 162214.8763,
          quantiles: [
            [0.05, 205466.4689],
            [0.5, 383546.5202],
            [0.95, 715970.5131],
          ],
          belowStart: 0.1296855051,
        },
      ] as const,
      1,
    ),
  )('end as geometric Brownian motion does over $years years', (row) => {
    const n = 3_000 * timesMore
    const { savings, mu, sigma, years } = row
    const ends = figureOf(figuresOf(savingsRun(savings, { years, chance: yearlyOf(mu, sigma) }, n)), 'atEnd')
    expect(Math.abs(mean(ends) - row.mean)).toBeLessThan((4 * row.sd) / Math.sqrt(n))
    const below = ends.filter((end) => end < savings).length / n
    const standardError = Math.sqrt((row.belowStart * (1 - row.belowStart)) / n)
    expect(Math.abs(below - row.belowStart)).toBeLessThan(4 * standardError)
    for (const [share, quantile] of row.quantiles) {
      // Standard error of a quantile: √(q(1 − q)/n) over the lognormal density there.
      const z = (Math.log(quantile / savings) - (mu - sigma ** 2 / 2) * years) / (sigma * Math.sqrt(years))
      const density = Math.exp((-z * z) / 2) / Math.sqrt(2 * Math.PI) / (sigma * Math.sqrt(years) * quantile)
      const error = Math.sqrt((share * (1 - share)) / n) / density
      expect(Math.abs(percentiles(ends.slice(), [share])[0]! - quantile)).toBeLessThan(4 * error)
    }
  })

  // Wealth with a yearly deposit at the end of each year and independent returns of any law: M1 ← M1(1 + a) + 5,000,
  // M2 ← M2((1 + a)² + s²) + 10,000(1 + a)M1 + 5,000². Elementary (from memory; figures computed apart).
  test('grow with a deposit every year to the mean and spread of the recursion', () => {
    const n = 15_000
    const oneOffs = Array.from({ length: 20 }, (_, year) => ({
      id: `deposit-${year}`,
      name: 'Deposit',
      month: `${2026 + year}-12`,
      cost: -5_000,
      todaysPrices: false,
    }))
    const run = savingsRun(
      500_000,
      {
        years: 20,
        household: { oneOffs },
        assumptions: { timing: 'end' },
        // All of it stays in the one account: the reserve is never full.
        chance: { stocksMean: 0.06, stocksSpread: 0.15 },
      },
      n,
    )
    const ends = figureOf(figuresOf(run), 'atEnd')
    expect(Math.abs(mean(ends) - 1787495.69212)).toBeLessThan((4 * 1188116.62294) / Math.sqrt(n))
    const sd = Math.sqrt(mean(ends.map((end) => (end - 1787495.69212) ** 2)))
    // Three percent at 100,000 courses, as the tails are heavy: 3 × √6.7 at 15,000.
    expect(Math.abs(sd / 1188116.62294 - 1)).toBeLessThan(0.077)
  })
})

describe('savings drawn down', () => {
  // Returns of two values, a draw at the start of every year, ruin when the draw exceeds what is left: enumerated over
  // all paths with exact fractions, apart from this program.
  test.for(
    drawnOf(
      [
        { draw: 10, growth: 0.03, up: 0.25, down: -0.15, ups: 1, of: 2, years: 10, ruin: 0.517578125 },
        { draw: 12, growth: 0, up: 0.2, down: -0.1, ups: 11, of: 20, years: 12, ruin: 0.653750933127 },
        { draw: 9, growth: 0.05, up: 0.3, down: -0.2, ups: 1, of: 2, years: 12, ruin: 0.71923828125 },
      ],
      1,
    ),
  )('by $draw percent, rising $growth, run out within $years years in a share of $ruin', (row) => {
    const n = 4_000 * timesMore
    const run = savingsRun(
      100_000,
      {
        years: row.years,
        household: {
          living: [{ id: 'draw', name: 'Draw', perMonth: row.draw * 1_000, months: [1] }],
        },
        assumptions: { inflation: row.growth },
        chance: { inflationMean: row.growth },
      },
      n,
    )
    const short =
      n - figureOf(figuresOf({ ...run, model: twoValued(run.model, row) }), 'held').reduce((a, b) => a + b, 0)
    expect(Math.abs(short / n - row.ruin)).toBeLessThan(4 * Math.sqrt((row.ruin * (1 - row.ruin)) / n))
  })

  // Probability of outliving savings: exponential lifetime, Brownian returns, constant continuous spending. With
  // A = 2μ/σ² − 1, k = (A + √(A² + 8λ/σ²))/2, b = 2k + 2 − 2μ/σ², y = 2·spending/(σ²·savings):
  // ruin = Γ(b − k)/Γ(b) · y^k · 1F1(k; b; −y). Own derivation, 40-digit arithmetic, confirmed apart by weekly steps; the
  // reciprocal-gamma formula often quoted is only an approximation of it. Here spending is monthly and a year's return
  // even within the year, which understates the worth of a year's spending by e^(σ²/12) on average: it is raised by that.
  // The lifetime is integrated: each course counts by the chance to live to its first short month. Courses stop after 80
  // years; who lives longer without having run out by then is taken not to run out.
  test.for(
    drawnOf(
      [
        { mu: 0.07, sigma: 0.2, median: 18.9, rate: 0.03, ruin: 0.080528928167 },
        { mu: 0.07, sigma: 0.2, median: 18.9, rate: 0.05, ruin: 0.220014941843 },
        { mu: 0.07, sigma: 0.2, median: 28.1, rate: 0.05, ruin: 0.293307540686 },
        { mu: 0.05, sigma: 0.12, median: 20, rate: 0.05, ruin: 0.228804576917 },
      ],
      1,
    ),
  )('at $rate for a median of $median years run out before death in a share of $ruin', (row) => {
    const n = 1_000 * timesMore
    const perMonth = (row.rate * 1_000_000 * Math.exp(row.sigma ** 2 / 12)) / 12
    const run = savingsRun(
      1_000_000,
      {
        years: 80,
        household: { living: [{ id: 'all', name: 'Spending', perMonth }] },
        chance: yearlyOf(row.mu, row.sigma),
      },
      n,
    )
    const deathRate = Math.LN2 / row.median
    const living = figureOf(figuresOf(run), 'firstShortMonth').map((month) =>
      Number.isFinite(month) ? Math.exp((-deathRate * (month + 0.5)) / 12) : 0,
    )
    const found = mean(living)
    const sd = Math.sqrt(mean(living.map((each) => (each - found) ** 2)))
    // Three standard errors and 0.003, as for any engine with steps.
    expect(Math.abs(found - row.ruin)).toBeLessThan((3 * sd) / Math.sqrt(n) + 0.003)
  })
})

/** The model with yearly returns of two values, as a history whose years are drawn one by one. */
function twoValued(
  model: ChanceModel,
  row: { up: number; down: number; ups: number; of: number; growth: number },
): ChanceModel {
  const logs = Float64Array.from({ length: row.of }, (_, year) =>
    Math.log1p(year < row.ups ? row.up : row.down),
  )
  const still = new Float64Array(row.of)
  const stocks = logs.map((each) => each - Math.log1p(model.shape.expected.stocks))
  return {
    ...model,
    markets: {
      kind: 'history',
      years: row.of,
      firstYear: 1,
      meanBlockYears: 1,
      stocks,
      bonds: still,
      bills: null,
      inflation: still,
    },
  }
}
