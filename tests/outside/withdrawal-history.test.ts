// Published studies of how long savings lasted in history, replayed through the projection with a plan of one account.
// Timing: 'start' takes each year's withdrawal in January before the year's return; 'end' takes it after the return, with the
// amount already raised by that year's prices (the timing the 1998 tables follow from). Rebalanced to the mix every year.
// Market figures: R. Shiller's series from January to January (stocks, ten-year Treasuries, consumer prices), in src/chance.
// The studies used year-end stock returns and corporate bonds, which are not carried here: hence the stated tolerances, and only
// mixes with at least half in stocks, where the kind of bond moves a cell by a few points and not by tens.
import { expect, test } from 'vitest'
import { januaryHistory } from '#chance/market-history.ts'
import { compilePlan } from '#runway/compile/compile.ts'
import { makeBuffers } from '#runway/course-buffers.ts'
import { publishedRules } from '#runway/published-rules.ts'
import { runCourse } from '#runway/run-course.ts'
import { expectedShocks } from '#runway/shocks.ts'
import { drawnOf } from '../fuzz/batches.ts'
import { marketPlan } from '../runway/market-plan.ts'

type Timing = 'start' | 'end'
interface Study {
  stocks: number
  /** Percent of the starting savings. */
  rate: number
  years: number
  timing: Timing
  adjusted: boolean
}

/** A study's plan, compiled once, and a run of it from a starting year: withdrawals paid in full before the first short one. */
const replay = (study: Study) => {
  const plan = marketPlan({
    balance: 100,
    years: study.timing === 'end' ? study.years + 1 : study.years,
    stocks: study.stocks,
    yearly: {
      amount: study.rate,
      month: 1,
      firstYear: study.timing === 'end' ? 1 : 0,
      times: study.years,
      todaysPrices: study.adjusted,
    },
  })
  const compiled = compilePlan(plan, publishedRules(plan))
  const buffers = makeBuffers(compiled, ['oneOffs', 'unmetNeed'])
  const shocks = expectedShocks(compiled.shape)
  return (startYear: number): number => {
    for (let y = 0; y < compiled.shape.years; y += 1) {
      const place = startYear + y - januaryHistory.firstYear
      shocks.stocks[y] = januaryHistory.stocks[place] ?? 0
      shocks.bonds[y] = januaryHistory.bonds[place] ?? 0
      shocks.inflation[y] = januaryHistory.inflation[place] ?? 0
    }
    runCourse(compiled, shocks, buffers)
    const { oneOffs, unmetNeed } = buffers.months
    const shortIn = Array.from(unmetNeed)
      .filter((_, m) => oneOffs[m]! > 0)
      .map((need) => need > 1e-9)
    return shortIn.includes(true) ? shortIn.indexOf(true) : shortIn.length
  }
}

const startYears = (first: number, last: number) =>
  Array.from({ length: last - first + 1 }, (_, k) => first + k)

/** Percent of starting years in which all withdrawals of each horizon were paid. */
const success = (study: Study, horizons: readonly number[], first: number, lastYear: number): number[] => {
  const run = replay({ ...study, years: Math.max(...horizons) })
  const lasted = startYears(first, lastYear).map((year) => ({ year, paid: run(year) }))
  return horizons.map((years) => {
    const counted = lasted.filter(({ year }) => year + years - 1 <= lastYear)
    return (100 * counted.filter(({ paid }) => paid >= years).length) / counted.length
  })
}

/** Cooley, Hubbard, Walz, "Retirement Savings: Choosing a Withdrawal Rate That Is Sustainable", AAII Journal, February 1998, 1926-1995. */
const horizons = [15, 20, 25, 30]
const rates = [3, 4, 5, 6, 7, 8, 9, 10, 11, 12]

/** Table 1, fixed withdrawals (read, on a page that reproduces it): stock share → horizon → success at 3 to 12 percent. */
const fixed: Record<number, number[][]> = {
  100: [
    [100, 100, 98, 98, 93, 91, 88, 77, 63, 55],
    [100, 98, 96, 94, 92, 84, 73, 61, 47, 43],
    [100, 98, 96, 91, 87, 78, 70, 50, 43, 35],
    [100, 98, 95, 90, 85, 78, 68, 54, 49, 34],
  ],
  75: [
    [100, 100, 100, 100, 96, 95, 91, 79, 63, 46],
    [100, 100, 100, 96, 94, 88, 71, 51, 41, 33],
    [100, 100, 98, 96, 91, 78, 57, 46, 33, 26],
    [100, 100, 98, 95, 88, 73, 54, 46, 37, 24],
  ],
  50: [
    [100, 100, 100, 100, 100, 98, 91, 71, 50, 36],
    [100, 100, 100, 100, 96, 88, 61, 41, 25, 10],
    [100, 100, 100, 98, 96, 70, 43, 22, 7, 0],
    [100, 100, 100, 98, 90, 51, 37, 15, 0, 0],
  ],
}

/** Table 3, raised with prices (from memory, three cells read: 95 and 98 at 4 percent over 30 years with 100 and 75 percent stocks, 95 with 50). */
const raised: Record<number, number[][]> = {
  100: [
    [100, 100, 100, 91, 79, 70, 63, 55, 43, 34],
    [100, 100, 88, 75, 63, 53, 43, 33, 29, 24],
    [100, 100, 87, 70, 59, 46, 35, 30, 26, 20],
    [100, 95, 85, 68, 59, 41, 34, 34, 27, 15],
  ],
  75: [
    [100, 100, 100, 95, 82, 68, 64, 46, 36, 27],
    [100, 100, 90, 75, 61, 51, 37, 27, 20, 12],
    [100, 100, 85, 65, 50, 37, 30, 22, 7, 2],
    [100, 98, 83, 68, 49, 34, 22, 7, 2, 0],
  ],
  50: [
    [100, 100, 100, 93, 79, 64, 50, 32, 23, 13],
    [100, 100, 90, 75, 55, 33, 22, 10, 0, 0],
    [100, 100, 80, 57, 37, 20, 7, 0, 0, 0],
    [100, 95, 76, 51, 17, 5, 0, 0, 0, 0],
  ],
}

const compare = (table: Record<number, number[][]>, adjusted: boolean, timing: Timing) => {
  const differences: { cell: string; rate: number; off: number }[] = []
  for (const [stocks, published] of Object.entries(table)) {
    for (const [place, rate] of rates.entries()) {
      const own = success(
        { stocks: Number(stocks) / 100, rate, years: 30, timing, adjusted },
        horizons,
        1926,
        1995,
      )
      own.forEach((percent, horizon) => {
        differences.push({
          cell: `${stocks} % stocks, ${horizons[horizon]} years, ${rate} %`,
          rate,
          off: percent - published[horizon]![place]!,
        })
      })
    }
  }
  const sizes = differences.map(({ off }) => Math.abs(off))
  return {
    differences,
    mean: sizes.reduce((a, b) => a + b, 0) / sizes.length,
    bias: differences.reduce((a, b) => a + b.off, 0) / sizes.length,
    worst: differences.reduce((a, b) => (Math.abs(b.off) > Math.abs(a.off) ? b : a)),
    worstTo6: differences
      .filter(({ rate }) => rate <= 6)
      .reduce((a, b) => (Math.abs(b.off) > Math.abs(a.off) ? b : a)),
  }
}

// Measured: mean 1.4 and 1.7 points over the 120 cells, worst 10.2 and 8.6, worst at 3 to 6 percent 2.9 and 7.7. With year-end
// stock returns and corporate bonds the same replay is within 0.9 on average and 6.3 at worst, so what is left is the series.
test.for(
  drawnOf(
    [
      { name: 'fixed', table: fixed, adjusted: false },
      { name: 'raised with prices', table: raised, adjusted: true },
    ],
    1,
  ),
)('the 1998 success table, $name, follows from withdrawals at the end of the year', ({ table, adjusted }) => {
  const found = compare(table, adjusted, 'end')
  expect(found.mean).toBeLessThan(2)
  expect(Math.abs(found.worst.off), found.worst.cell).toBeLessThan(11)
  expect(Math.abs(found.worstTo6.off), found.worstTo6.cell).toBeLessThan(8)
})

test.for(
  drawnOf(
    [
      { name: 'fixed', table: fixed, adjusted: false },
      { name: 'raised with prices', table: raised, adjusted: true },
    ],
    1,
  ),
)(
  'withdrawals at the start of the year do no better than the 1998 table, $name, and worse by some points',
  ({ table, adjusted }) => {
    const found = compare(table, adjusted, 'start')
    const best = found.differences.reduce((a, b) => (b.off > a.off ? b : a))
    expect(best.off, best.cell).toBeLessThanOrEqual(4)
    expect(found.bias).toBeGreaterThan(-7)
    expect(found.bias).toBeLessThan(0)
  },
)

/** Largest first-year percent, raised with prices, that lasts 30 years from one starting year: by halving, through whole projections. */
const largestRate = (stocks: number, timing: Timing, startYear: number): number => {
  let low = 2
  let high = 8
  while (high - low > 0.0005) {
    const rate = (low + high) / 2
    if (replay({ stocks, rate, years: 30, timing, adjusted: true })(startYear) >= 30) low = rate
    else high = rate
  }
  return low
}

/** Computed outside this project in closed form from the same series: percent of the starting savings, worst start 1966. */
test.for(
  drawnOf(
    [
      { stocks: 0.5, timing: 'start' as Timing, worst: 3.686 },
      { stocks: 0.5, timing: 'end' as Timing, worst: 3.782 },
      { stocks: 0.75, timing: 'start' as Timing, worst: 3.782 },
      { stocks: 0.75, timing: 'end' as Timing, worst: 3.89 },
    ],
    1,
  ),
)(
  'with $stocks in stocks and withdrawals at the $timing of the year, a start in 1966 bears $worst percent for 30 years',
  ({ stocks, timing, worst }) => {
    expect(largestRate(stocks, timing, 1966)).toBeCloseTo(worst, 2)
  },
)

// W. P. Bengen, Journal of Financial Planning, October 1994: 4.15 percent at worst (read on pages that cite it), start 1966 (memory).
// He held intermediate Treasuries; ten-year ones give 3.6 to 4.2 by the timing, and the same worst start.
test('1966 is the worst year to have started since 1926, with half in stocks', () => {
  const run = replay({ stocks: 0.5, rate: 3.7, years: 30, timing: 'start', adjusted: true })
  const failed = startYears(1926, 1993).filter((year) => run(year) < 30)
  expect(failed).toEqual([1966])
})

/** Success over 1871 to 2022, start of the year, raised with prices; computed outside this project from the same series. */
test.for(
  drawnOf(
    [
      { stocks: 1, success: [100, 100, 97.6, 91.9, 80.5, 72.4, 69.9, 54.5, 41.5] },
      { stocks: 0.75, success: [100, 100, 97.6, 92.7, 77.2, 70.7, 61.8, 45.5, 30.9] },
      { stocks: 0.5, success: [100, 100, 95.1, 84.6, 70.7, 56.1, 51.2, 33.3, 17.1] },
    ],
    1,
  ),
)(
  'over all 123 starts from 1871, thirty years with $stocks in stocks succeed as often as another script found',
  ({ stocks, success: wanted }) => {
    const tried = [3, 3.5, 4, 4.5, 5, 5.5, 6, 7, 8]
    tried.forEach((rate, place) => {
      const run = replay({ stocks, rate, years: 30, timing: 'start', adjusted: true })
      const starts = startYears(1871, 1993)
      const percent = (100 * starts.filter((year) => run(year) >= 30).length) / starts.length
      // To the tenth that was noted.
      expect(percent, `${rate} percent`).toSatisfy((one: number) => Math.abs(one - wanted[place]!) < 0.051)
    })
  },
)
