// Earnings of a Roth account before its owner's five tax years are over (26 USC 408A(d)(2)(B); Form 8606, part III), by hand.
import { expect, test } from 'vitest'
import { planSchema } from '#plan/plan.ts'
import { project } from '#runway/project.ts'

/** Kit, 62, puts 6,000 of pay into a first Roth account in 2026, which brings 5 % a year, and takes all of it out in the year given. */
const emptiedIn = (year: number, more: object = {}, born = '1963-05-05') => {
  const { months, years } = project(
    planSchema.parse({
      startMonth: '2026-01',
      household: {
        people: [{ id: 'kit', name: 'Kit', born, planToAge: 80 }],
        pay: [{ id: 'pay', name: 'Pay', person: 'kit', perMonth: 500, from: '2026-01', to: '2026-12' }],
        oneOffs: [{ id: 'all', name: 'All', month: `${year}-01`, cost: 90_000, todaysPrices: false }],
      },
      health: { medicareFrom65: false },
      savings: {
        accounts: [
          { id: 'cash', name: 'Cash', kind: 'cash', balance: 0 },
          { id: 'roth', name: 'Roth', kind: 'roth', balance: 0, mix: { stocks: 1 }, ...more },
        ],
        contributions: [{ id: 'c', account: 'roth', perMonth: 500, to: '2026-12' }],
        reserveMonths: 0,
        spendOrder: ['cash', 'roth'],
      },
      assumptions: { inflation: 0, wageGrowth: 0, stocks: 0.05, stockYield: 0 },
    }),
  )
  const taken = months.reduce((sum, one) => sum + one.withdrawnRoth, 0)
  const row = years.find((one) => one.year === year)!
  return { taken, income: row.adjustedGrossIncome, row }
}

test('in the fourth year after, what was earned is income though Kit is past 59½, without the addition', () => {
  const { taken, income, row } = emptiedIn(2030)
  const put = taken - income
  expect(income).toBeGreaterThan(500)
  // All that went in came out free.
  expect(put).toBeGreaterThan(5400)
  expect(put).toBeLessThanOrEqual(6000)
  expect(row.tax).toBe(0)
})

test('from 2031 on nothing of it is: 2026 to 2030 are its five years', () => {
  expect(emptiedIn(2031).income).toBe(0)
  expect(emptiedIn(2031).taken).toBeGreaterThan(6000)
})

test('an older Roth account of the same owner has begun the years; a year that is told counts', () => {
  expect(emptiedIn(2028, { rothSince: 2020 }).income).toBe(0)
  expect(emptiedIn(2028, { balance: 1000 }).income).toBe(0)
  expect(emptiedIn(2028, { balance: 1000, rothSince: 2024 }).income).toBeGreaterThan(0)
  expect(emptiedIn(2029, { balance: 1000, rothSince: 2024 }).income).toBe(0)
})

test('before 59½ earnings bear tax and addition as before, however old the account', () => {
  const young = emptiedIn(2031, {}, '1985-05-05')
  expect(young.income).toBeGreaterThan(500)
  expect(young.row.tax).toBeCloseTo(young.income * 0.1, 2)
})
