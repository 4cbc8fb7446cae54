// A plan that begins within a year, with what was put into savings before it: it uses up the year's limits, and the return takes it off.
// An invented beekeeper of 44 with 3,500 of pay a month, prices that stand still, and what is left over going to an IRA from August on.
import { expect, test } from 'vitest'
import { type PlanInput, planSchema } from '#plan/plan.ts'
import { project } from '#runway/project.ts'

const beekeeper = (putInSoFar: object, kind: 'traditional' | 'roth' = 'traditional'): PlanInput => ({
  startMonth: '2026-01',
  continuesFrom: '2026-08',
  years: 2,
  household: {
    people: [{ id: 'noor', name: 'Noor', born: '1982-01-20', putInSoFar }],
    pay: [{ id: 'pay', name: 'Workshop', person: 'noor', perMonth: 3500 }],
    living: [{ id: 'living', name: 'Living', perMonth: 500 }],
  },
  savings: {
    accounts: [
      { id: 'cash', name: 'Cash', kind: 'cash', balance: 20_000, mix: { bills: 1 } },
      { id: 'ira', name: 'IRA', kind, balance: 0, mix: { bills: 1 } },
    ],
    contributions: [{ id: 'ira', account: 'ira', perMonth: 2000, to: '2026-12' }],
  },
  tax: { soFar: { wages: 24_500 } },
  assumptions: { inflation: 0, premiumGrowth: 0, wageGrowth: 0, bills: 0 },
})

const first = (putIn: object, kind?: 'roth') => {
  const { months, years } = project(planSchema.parse(beekeeper(putIn, kind)))
  const december = months.find(({ month }) => month === '2026-12')!
  return { year: years[0]!, ira: december.traditional, roth: december.roth }
}

// 2026: 7,500 a person under 50 (IRS Notice 2025-67, in the program's own data).
test('a traditional and a Roth IRA have one limit, of which what went in before is used', () => {
  expect(first({}).ira).toBeCloseTo(7500, 6)
  expect(first({ traditional: 3000 }).ira).toBeCloseTo(4500, 6)
  expect(first({ traditional: 3000, roth: 1500 }).ira).toBeCloseTo(3000, 6)
  expect(first({ roth: 7500 }, 'roth').roth).toBe(0)
  // An own plan and health savings have limits of their own.
  expect(first({ ownPlan: 4000, health: 2000 }).ira).toBeCloseTo(7500, 6)
})

test('the return takes a traditional IRA and health savings off, a Roth IRA not', () => {
  // 42,000 of wages less the 7,500 of the year, whenever they went in.
  expect(first({}).year.adjustedGrossIncome).toBeCloseTo(42_000 - 7500, 2)
  expect(first({ traditional: 3000 }).year.adjustedGrossIncome).toBeCloseTo(42_000 - 7500, 2)
  expect(first({ roth: 3000 }).year.adjustedGrossIncome).toBeCloseTo(42_000 - 4500, 2)
  expect(first({ health: 2000 }).year.adjustedGrossIncome).toBeCloseTo(42_000 - 7500 - 2000, 2)
})

test('the year after has its whole limit again', () => {
  const plan = beekeeper({ traditional: 7500 })
  const months = project(
    planSchema.parse({
      ...plan,
      savings: { ...plan.savings, contributions: [{ id: 'ira', account: 'ira', perMonth: 2000 }] },
    }),
  ).months
  const held = (month: string) => months.find((one) => one.month === month)!.traditional
  expect(held('2026-12')).toBe(0)
  // 7,500 of 2027 at least: the limit as it is carried on.
  expect(held('2027-12')).toBeGreaterThanOrEqual(7500)
})
