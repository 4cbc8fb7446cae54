// Retirement accounts against IRS Pub. 590-B, the limits of Notices 2023-75, 2024-80 and 2025-67 and Rev. Proc. 2026-24.
import { describe, expect, test } from 'vitest'
import {
  contributionLimits,
  deductibleIra,
  ownerSepContribution,
  rothAllowed,
} from '#rules/contribution-limits.ts'
import { uniformLifetimeDivisors } from '#rules/data/retirement-accounts.ts'
import { steadyIndexing } from '#rules/dated.ts'
import { marriedJoint } from '#rules/filing-status.ts'
import { lawFor } from '#rules/law.ts'
import { requiredDistributionOf } from '#rules/required-distributions.ts'

const indexing = steadyIndexing(0.025)

describe('required distributions', () => {
  test('IRS Pub. 590-B: 100,000 at 75 over 24.6 is 4,065', () => {
    const computed = requiredDistributionOf(1950, 2025, 100_000)
    expect(computed.divisor).toBe(24.6)
    expect(Math.round(computed.amount)).toBe(4065)
  })

  test('the Uniform Lifetime Table has 49 falling divisors from 72 to 120 (Treas. Reg. 1.401(a)(9)-9(c))', () => {
    const divisors = Object.values(uniformLifetimeDivisors.values[2022]!)
    expect(divisors).toHaveLength(49)
    expect(divisors.every((value, i) => i === 0 || value < divisors[i - 1]!)).toBe(true)
  })

  test('births from 1951 start at 73, from 1960 at 75; the first is due on April 1 of the next year', () => {
    expect(requiredDistributionOf(1951, 2024, 100_000).due).toBe('2025-04-01')
    expect(requiredDistributionOf(1959, 2031, 100_000).due).toBeNull()
    expect(requiredDistributionOf(1960, 2034, 100_000).due).toBeNull()
    expect(requiredDistributionOf(1960, 2035, 100_000).due).toBe('2036-04-01')
    expect(requiredDistributionOf(1960, 2036, 100_000).due).toBe('2036-12-31')
  })
})

describe('limits as published', () => {
  test.for([
    [2024, 7000, 8000, 23000, 7500, 69000, 4150, 8300],
    [2025, 7000, 8000, 23500, 7500, 70000, 4300, 8550],
    [2026, 7500, 8600, 24500, 8000, 72000, 4400, 8750],
  ])('%i: IRA %i (%i from 50), deferral %i (+%i), additions %i, HSA %i and %i', (row) => {
    const [year, ira, iraAt50, deferral, catchUp, additions, hsaSelf, hsaFamily] = row
    const young = contributionLimits(year!, 40, indexing)
    const older = contributionLimits(year!, 52, indexing)
    expect([young.ira, older.ira, young.deferral, older.deferralCatchUp]).toEqual([
      ira,
      iraAt50,
      deferral,
      catchUp,
    ])
    expect([young.annualAdditions, young.hsaSelfOnly, young.hsaFamily]).toEqual([
      additions,
      hsaSelf,
      hsaFamily,
    ])
  })

  test('ages 60 to 63 may defer 11,250 more in 2025 and 2026', () => {
    expect([59, 60, 63, 64].map((age) => contributionLimits(2026, age, indexing).deferralCatchUp)).toEqual([
      8000, 11250, 11250, 8000,
    ])
    expect(contributionLimits(2024, 61, indexing).deferralCatchUp).toBe(7500)
  })

  test('2027 HSA limits are published (Rev. Proc. 2026-24): 4,500 and 9,000', () => {
    const limits = contributionLimits(2027, 40, indexing)
    expect([limits.hsaSelfOnly, limits.hsaFamily]).toEqual([4500, 9000])
    expect(limits.basis).toBe('projected')
  })
})

const law = lawFor(2026, indexing)

describe('phase-outs of 2026 (Notice 2025-67): nothing lost at the lower end, all at the upper', () => {
  test('IRA deduction, joint, covered at work: 129,000 to 149,000', () => {
    const at = (income: number) => deductibleIra(law, marriedJoint, 7500, income, true, false)
    expect([at(129_000), at(139_000), at(148_990), at(149_000)]).toEqual([7500, 3750, 200, 0])
  })
  test('Roth, joint: 242,000 to 252,000', () => {
    const at = (income: number) => rothAllowed(law, marriedJoint, 7500, income)
    expect([at(242_000), at(247_000), at(252_000)]).toEqual([7500, 3750, 0])
  })
})

test('an owner’s SEP is a fifth of profit less half of self-employment tax (IRS Pub. 560, from memory)', () => {
  const limits = contributionLimits(2026, 45, indexing)
  expect(ownerSepContribution(60_000, 4_239, limits)).toBeCloseTo((60_000 - 4_239) / 5, 6)
  expect(ownerSepContribution(1_000_000, 20_000, limits)).toBe(72_000)
})

// Not reproduced: the Pub. 590-B example with a spouse more than ten years younger (divisor 25.3, 3,953). The joint table is
// not held here, because only that one divisor was read.
