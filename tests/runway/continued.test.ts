// A plan that is continued from a later month: prices, premiums and draws go on where they would have been.
import { expect, test } from 'vitest'
import type { Plan, PlanInput } from '#plan/plan.ts'
import { readPlan } from '#plan/upgrade.ts'
import { project } from '#runway/project.ts'

const planOf = (input: PlanInput): Plan => {
  const read = readPlan({ planVersion: 4, ...input })
  if (!read.ok) throw new Error(JSON.stringify(read.faults))
  return read.plan
}

/** From April 2026: 2,000 a month at 3% a year, a premium of 400 at 6%, and a draw of 500 from January 2026 raised 2% each January. */
const orchard = planOf({
  startMonth: '2026-04',
  household: {
    living: [{ id: 'living', name: 'Living', perMonth: 2000, extraGrowth: 0.01 }],
    floor: { kind: 'dollars', dollars: 10_000 },
  },
  health: { premiums: [{ id: 'premium', name: 'Premium', perMonth: 400 }] },
  draw: { policy: 'steps', steps: [{ from: '2026-01', perMonth: 500 }], growth: 0.02, withPrices: false },
  savings: { accounts: [{ id: 'cash', name: 'Cash', kind: 'cash', balance: 200_000 }] },
  tax: { method: 'none' },
  assumptions: { inflation: 0.03, premiumGrowth: 0.06 },
})

test('continued from what it expected itself, a plan says the same in every month that is left', () => {
  const whole = project(orchard)
  for (const continuesFrom of ['2026-04', '2026-09', '2027-01', '2028-07']) {
    const at = whole.months.findIndex((one) => one.month === continuesFrom)
    const cash = at === 0 ? 200_000 : whole.months[at - 1]!.cash
    const rest = project({
      ...orchard,
      continuesFrom,
      savings: {
        ...orchard.savings,
        accounts: [{ ...orchard.savings.accounts[0]!, balance: cash }],
      },
    })
    expect(rest.months[0]!.month).toBe(continuesFrom)
    for (const [place, month] of rest.months.entries()) {
      const expected = whole.months[at + place]!
      for (const name of ['level', 'living', 'premiums', 'draw', 'cash', 'spendable'] as const)
        expect(month[name], `${month.month} ${name}`).toBeCloseTo(expected[name], 6)
    }
    expect(rest.milestones.floorMonth).toBe(whole.milestones.floorMonth)
    expect(rest.milestones.monthsLeft).toBe(whole.milestones.monthsLeft! - at)
  }
})

test('prices step by hand: 2026 has nine months of the plan, 2027 and 2028 a whole year each', () => {
  const rest = project({ ...orchard, continuesFrom: '2028-03' })
  // 1.03^0.75 in January 2027, 1.03 more in January 2028; living costs 1% a year faster; premiums by whole years.
  expect(rest.months[0]!.level).toBeCloseTo(1.03 ** 1.75, 10)
  expect(rest.months[0]!.living).toBeCloseTo(2000 * 1.03 ** 1.75 * 1.01 ** 1.75, 6)
  expect(rest.months[0]!.premiums).toBeCloseTo(400 * 1.06 ** 2, 6)
  expect(rest.months[10]!.level).toBeCloseTo(1.03 ** 2.75, 10)
  // The draw has been raised in January 2027 and 2028.
  expect(rest.months[0]!.draw).toBeCloseTo(500 * 1.02 ** 2, 6)
})

test('a month before the plan’s first is refused at its field', () => {
  const read = readPlan({ ...orchard, continuesFrom: '2026-03' })
  expect(read.ok ? null : read.faults[0]).toMatchObject({ path: 'continuesFrom' })
})
