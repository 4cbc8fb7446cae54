// The months of a standing fall between two runs where a percentile does; the table names whole months, and never where nothing comes.
import { expect, test } from 'vitest'
import { firstMonthOf } from '#plan/first-month.ts'
import { runOf } from '#solve/standing.ts'
import { Standings } from '#views/questions/standings.tsx'
import { savingsPlan } from '../chance/plans.ts'
import { asking } from './asking.ts'

// Stocks alone spread the months in which savings end, so that the tenth and the middle of an even number of runs lie between two.
const plan = savingsPlan({ savings: 200_000, perMonth: 2_000, years: 14, stocks: 1 })

test.each([20, 50, 64, 100])(
  'of %i runs of a household whose farm carries in none, every month is whole or never',
  async (paths) => {
    const question = asking(plan, paths)
    const { standing } = await runOf(question, plan, {})
    const { monthsLeft, carryMonth, medianCarryMonth } = standing
    for (const month of [monthsLeft.p10, monthsLeft.median]) expect(month === Infinity || month % 1).toBe(0)
    expect([carryMonth.value, medianCarryMonth]).toEqual([Infinity, Infinity])
    const table = String(
      Standings({
        caption: 'Every share',
        title: 'Left in the farm',
        rows: [{ name: 'As planned', standing }],
        firstMonth: firstMonthOf(plan),
        confidence: 0.9,
      }),
    )
    expect(table).toMatch(/Carries by, in half[\s\S]*never/)
    expect(table).toMatch(/[A-Z][a-z]{2} 20\d\d/)
  },
)
