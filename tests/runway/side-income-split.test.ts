import { expect, test } from 'vitest'
import { planSchema } from '#plan/plan.ts'
import { project } from '#runway/project.ts'
import { sideIncomeSplit } from '#runway/side-income-split.ts'

const split = (setAsideShare: number) => {
  const plan = planSchema.parse({
    startMonth: '2026-01',
    household: {
      people: [{ id: 'ada', name: 'Ada', born: '1981-06-14' }],
      living: [{ id: 'living', name: 'Living', perMonth: 2000 }],
      sideVentures: [
        { id: 'bench', name: 'Bench', person: 'ada', perMonth: 1500, costPerMonth: 300, setAsideShare },
      ],
    },
    savings: { accounts: [{ id: 'cash', name: 'Cash', kind: 'cash', balance: 50_000 }], reserveMonths: 6 },
    tax: { method: 'none' },
    assumptions: { inflation: 0, premiumGrowth: 0 },
  })
  return sideIncomeSplit(plan, project(plan).months, 2026)
}

test('side income after its costs goes to retirement by its share, the rest to the emergency fund', () => {
  const { ventures, toRetirement, toEmergencyFund, emergencyFundTarget } = split(0.25)
  // (1,500 − 300) × 12 = 14,400, a quarter of it set aside; six months of 2,000 make the reserve.
  expect(ventures[0]).toMatchObject({ net: 14_400, toRetirement: 3600 })
  expect(toRetirement).toBe(3600)
  expect(toEmergencyFund).toBeCloseTo(10_800, 6)
  expect(emergencyFundTarget).toBeCloseTo(12_000, 6)
})

test('what is set aside beyond the individual accounts of the year is told', () => {
  // 7,500 in 2026 under 50 (IRS Notice 2025-67, as in the rules' data).
  expect(split(0.25).aboveLimits).toBe(0)
  expect(split(1)).toMatchObject({ basis: 'enacted', toRetirement: 14_400, aboveLimits: 14_400 - 7500 })
})
