// One projection in two kinds of dollars. A couple who keep bees, invented: no tax, savings that earn nothing, prices that rise
// by a tenth each January, so that each figure can be worked by hand.
import { expect, test } from 'vitest'
import type { PlanInput } from '#plan/plan.ts'
import { readPlan } from '#plan/upgrade.ts'
import { type Dollars, dollarsOfTheYear, inDollars, pricesIn } from '#runway/dollars/dollars.ts'
import { project } from '#runway/project.ts'
import { whySentences } from '#runway/why.ts'

const beekeepers = (change: PlanInput['household'] = {}) => {
  const read = readPlan({
    planVersion: 4,
    startMonth: '2026-01',
    years: 4,
    household: {
      living: [{ id: 'living', name: 'Living', perMonth: 2000 }],
      floor: { kind: 'dollars', dollars: 5000 },
      ...change,
    },
    savings: { accounts: [{ id: 'cash', name: 'Cash', kind: 'cash', balance: 60_000 }] },
    tax: { method: 'none' },
    assumptions: { inflation: 0.1, bills: 0, premiumGrowth: 0, careGrowth: 0.1 },
  })
  if (!read.ok) throw new Error(JSON.stringify(read.faults))
  return read.plan
}

const in2026: Dollars = { of: 'today', month: '2026-01' }
const in2027: Dollars = { of: 'today', month: '2027-03' }

test('a month’s money is worth what it buys at today’s prices', () => {
  const nominal = project(beekeepers())
  const at = (dollars: Dollars, month: string) =>
    inDollars(nominal, dollars).months.find((one) => one.month === month)!
  // 24,000 in 2026, 26,400 in 2027: 60,000 − 50,400 = 9,600, at prices 1.1 times the first.
  expect(at(dollarsOfTheYear, '2027-12')).toMatchObject({
    living: expect.closeTo(2200, 9),
    spendable: expect.closeTo(9600, 6),
  })
  expect(at(in2026, '2027-12')).toMatchObject({
    living: expect.closeTo(2000, 9),
    spendable: expect.closeTo(9600 / 1.1, 6),
    floor: expect.closeTo(5000, 9),
    level: expect.closeTo(1.1, 9),
  })
  // Seen from March 2027 the year before was cheaper.
  expect(at(in2027, '2026-12')).toMatchObject({
    living: expect.closeTo(2200, 9),
    spendable: expect.closeTo(36_000 * 1.1, 6),
  })
  expect(at(in2027, '2027-12').living).toBeCloseTo(2200, 9)
})

test('what is held as a month begins is the balance of the month before, in its dollars', () => {
  const nominal = project(beekeepers())
  const { asBegins, ofMonth } = pricesIn(nominal, in2026)
  expect(asBegins('2028-01')).toBe(ofMonth('2027-12'))
  expect(asBegins('2028-01')).toBeCloseTo(1 / 1.1, 12)
  expect(asBegins('2026-01')).toBe(1)
  expect(pricesIn(nominal, dollarsOfTheYear).asBegins('2028-01')).toBe(1)
})

test('what is judged month by month does not turn on the dollars', () => {
  const nominal = project(beekeepers())
  const { monthsLeft, floorMonth, carryMonth, runsShort } = nominal.milestones
  // 9,600 are left when 2028 begins at 2,420 a month and a floor of 6,050: 7,180, then 4,760.
  expect({ monthsLeft, floorMonth }).toEqual({ monthsLeft: 25, floorMonth: '2028-02' })
  expect(inDollars(nominal, in2026).milestones).toMatchObject({
    monthsLeft,
    floorMonth,
    carryMonth,
    runsShort,
  })
})

test('the lowest month is the one that is lowest in the dollars shown', () => {
  // Costs end with 2026 and savings then stand still in dollars: 36,000 from December 2026 on, and worth less each January.
  const still = project(beekeepers({ living: [{ id: 'l', name: 'Living', perMonth: 2000, to: '2026-12' }] }))
  expect(still.milestones).toMatchObject({ lowestSpendable: 36_000, lowestMonth: '2026-12' })
  const { lowestSpendable, lowestMonth } = inDollars(still, in2026).milestones
  expect(lowestMonth).toBe('2029-01')
  expect(lowestSpendable).toBeCloseTo(36_000 / 1.331, 6)
})

test('needs that nothing meets are summed at today’s prices', () => {
  const { milestones } = inDollars(project(beekeepers()), in2026)
  // Every month costs 2,000 of 2026: 96,000 in four years. 36,000 paid 2026's 24,000 and more: in all 24,000 + 24,000 of 2027
  // and of 2028 the 9,600 that were left, 9,600 ÷ 1.21. The rest is unmet.
  expect(milestones.unmetNeed).toBeCloseTo(96_000 - 48_000 - 9600 / 1.21, 6)
  expect(milestones.lowestSpendable).toBe(0)
})

test('the sentences are told in the dollars of the figures beside them', () => {
  const plan = beekeepers({ living: [{ id: 'l', name: 'Living', perMonth: 2000, to: '2026-12' }] })
  const told = (dollars: Dollars) => whySentences(plan, inDollars(project(plan), dollars)).join(' ')
  expect(told(dollarsOfTheYear)).toContain('lowest in December 2026: $36,000')
  expect(told(in2026)).toContain('lowest in January 2029: $27,047')
})

test('an amount at the plan’s first prices has its own way to either kind', () => {
  const nominal = project(beekeepers())
  expect(pricesIn(nominal, dollarsOfTheYear).ofFirst('2028-06')).toBeCloseTo(1.21, 9)
  expect(pricesIn(nominal, in2027).ofFirst('2028-06')).toBeCloseTo(1.1, 9)
  // Beyond the plan's end its last prices stand.
  expect(pricesIn(nominal, dollarsOfTheYear).ofFirst('2040-01')).toBeCloseTo(1.331, 9)
})
