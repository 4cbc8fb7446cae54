// Published withdrawal studies as chance runs over history: one course for each starting year, through the same kernel as plans.
import { describe, expect, test } from 'vitest'
import { takeThresholds } from '#chance/by-path/thresholds.ts'
import { courseMemory, figureOf } from '#chance/course-run.ts'
import { makeWorkspace, takePaths } from '#chance/paths.ts'
import { prepareChance } from '#chance/prepare.ts'
import { type Plan, planSchema } from '#plan/plan.ts'
import { publishedRules } from '#runway/published-rules.ts'
import { drawnOf } from '../fuzz/batches.ts'
import { largestLasting, longHistorySuccess, publishedSuccess } from './withdrawal-cases.ts'

interface Study {
  /** Percent in stocks, the rest in 10-year bonds; percent of $1,000,000 withdrawn in the first year. */
  stocks: number
  rate: number
  years: number
  growsWithPrices: boolean
  /** Withdrawals at the end of each year are those of the next January, once the year's prices are known. */
  atEndOfYear: boolean
}

/** One cost every January; everything else is left out. */
function studyPlan({ stocks, rate, years, growsWithPrices, atEndOfYear }: Study): Plan {
  return planSchema.parse({
    startMonth: '2026-01',
    years: atEndOfYear ? years + 1 : years,
    household: {
      living: [
        {
          id: 'withdrawal',
          name: 'Withdrawal',
          perMonth: rate * 10_000,
          months: [1],
          growth: growsWithPrices ? 'inflation' : 'fixed',
          ...(atEndOfYear ? { from: '2027-01' } : {}),
        },
      ],
      floor: { kind: 'dollars', dollars: 0 },
    },
    savings: {
      accounts: [
        {
          id: 'all',
          name: 'Savings',
          kind: 'cash',
          balance: 1_000_000,
          mix: { stocks: stocks / 100, bonds: 1 - stocks / 100 },
        },
      ],
    },
    tax: { method: 'none' },
    chance: { markets: 'january', centre: 'source' },
  })
}

function replay(study: Study) {
  const plan = studyPlan(study)
  const run = prepareChance(plan, publishedRules(plan), {
    seed: 1,
    paths: 1,
    from: 'history',
    keepsMonths: false,
  })
  const memory = courseMemory(run)
  const work = makeWorkspace(run)
  takePaths(run, memory, work)
  const figures = (name: 'held' | 'firstShortMonth') => figureOf(memory.figures, name)
  return { run, held: figures('held'), firstShortMonth: figures('firstShortMonth'), work }
}

const percent = (held: Float64Array) => (100 * held.reduce((sum, each) => sum + each, 0)) / held.length

describe('a replay of history from every January since 1871', () => {
  test.for(drawnOf(longHistorySuccess.rows, 4))(
    'lasts $years years with $stocks percent in stocks as often as the plain loop said',
    (row) => {
      for (const [place, rate] of longHistorySuccess.rates.entries()) {
        const { held } = replay({ ...row, rate, growsWithPrices: true, atEndOfYear: false })
        expect(held).toHaveLength(row.starts)
        // The cells were kept to one decimal of a percent.
        expect(Math.abs(percent(held) - row.success[place]!)).toBeLessThanOrEqual(0.051)
      }
    },
  )

  test.for(drawnOf(largestLasting, 2))(
    'bears $worst percent at worst with $stocks percent in stocks',
    (row) => {
      const { run, work } = replay({
        stocks: row.stocks,
        rate: 4,
        years: 30,
        growsWithPrices: true,
        atEndOfYear: false,
      })
      const counters = new Int32Array(new SharedArrayBuffer(12))
      const needed = new Float64Array(run.paths)
      const task = {
        dial: { kind: 'savings' },
        criterion: { kind: 'held', fromMonth: 0 },
        from: 0,
        to: 10_000_000,
        start: 1_000_000,
        step: 200_000,
        within: 20,
        moreIsBetter: true,
      } as const
      takeThresholds(run, task, { counters }, needed, work)
      const rateFrom = (year: number) => (100 * 40_000) / needed[year - 1871]!
      expect(rateFrom(1929)).toBeCloseTo(row.from1929, 2)
      expect(rateFrom(1966)).toBeCloseTo(row.from1966, 2)
      expect(rateFrom(1969)).toBeCloseTo(row.from1969, 2)
      const since1926 = Array.from(needed.subarray(1926 - 1871))
      const worst = Math.max(...since1926)
      expect(1926 + since1926.indexOf(worst)).toBe(row.worstStart)
      expect(4_000_000 / worst).toBeCloseTo(row.worst, 2)
    },
  )
})

describe('the tables of 1998, withdrawals at the end of each year', () => {
  // The study held long corporate bonds; ours are 10-year government bonds, and January averages instead of year ends.
  // With half or more in stocks the difference measured once is 1.4 points on average and 10.2 in the worst cell (fixed),
  // 1.7 and 8.6 (raised with prices); a single period in forty-one is 2.4 points. Held to 2 points, and 11 in any cell.
  test.for([
    { table: 'fixed', growsWithPrices: false },
    { table: 'withPrices', growsWithPrices: true },
  ] as const)('come out within two points on average, $table', ({ table, growsWithPrices }) => {
    const differences: number[] = []
    for (const stocks of [100, 75, 50])
      for (let rate = publishedSuccess.firstRate; rate <= 12; rate += 1) {
        // Its first fifteen withdrawals are those of a replay of fifteen years: one of thirty has all four horizons.
        const { firstShortMonth } = replay({ stocks, years: 30, rate, growsWithPrices, atEndOfYear: true })
        for (const row of publishedSuccess[table].filter((one) => one.stocks === stocks)) {
          const { years, success } = row
          const paid = firstShortMonth.map((month) => (month > 12 * years ? 1 : 0))
          const periods = paid.subarray(1926 - 1871, 1995 - years + 2 - 1871)
          expect(periods).toHaveLength(71 - years)
          differences.push(Math.abs(percent(periods) - success[rate - publishedSuccess.firstRate]!))
        }
      }
    expect(differences).toHaveLength(120)
    expect(differences.reduce((sum, each) => sum + each, 0) / 120).toBeLessThan(2)
    expect(Math.max(...differences)).toBeLessThan(11)
  })
})
