// Who is taken by which program at an income: the lines of a state with the expansion, of one without, and of one with a basic program.
import { expect, test } from 'vitest'
import { coverageKinds } from '#rules/coverage/coverage-kinds.ts'
import { coverageLimits, noLimits } from '#rules/coverage/coverage-limits.ts'
import { makesParents, programOf, standingOf } from '#rules/coverage/program-of.ts'
import { workRequirement } from '#rules/coverage/work-requirement.ts'
import { steadyIndexing } from '#rules/dated.ts'
import { lawFor } from '#rules/law.ts'
import { programPovertyLine } from '#rules/marketplace/premium-credit.ts'
import { stateNames } from '#rules/places/state-names.ts'

const at = (
  state: string,
  years: number,
  percent: number,
  is: { parent?: boolean; pregnant?: boolean } = {},
) =>
  coverageKinds[
    programOf(
      coverageLimits(state, '2026-01'),
      standingOf(years * 12, is.parent ?? false, is.pregnant ?? false),
      percent,
    )
  ]

test('an adult in an expansion state belongs to Medicaid to 138 percent, the line itself included', () => {
  expect([at('PA', 40, 138), at('PA', 40, 138.01), at('PA', 64.9, 100)]).toEqual([
    'Medicaid',
    'marketplace',
    'Medicaid',
  ])
  expect(at('PA', 65, 50)).toBe('marketplace')
})

test('without the expansion only parents far below the poverty line are taken, in Wisconsin all adults to it', () => {
  expect([at('TX', 40, 15), at('TX', 40, 15, { parent: true }), at('TX', 40, 20, { parent: true })]).toEqual([
    'marketplace',
    'Medicaid',
    'marketplace',
  ])
  // A year of loss is no income, and still no program takes an adult without children.
  expect(at('TX', 40, -20)).toBe('marketplace')
  expect([at('WI', 40, 100), at('WI', 40, 101)]).toEqual(['Medicaid', 'marketplace'])
})

test('children have lines by age, and the children’s program above them', () => {
  expect([
    at('PA', 0.5, 220),
    at('PA', 3, 162),
    at('PA', 3, 163),
    at('PA', 12, 160),
    at('PA', 12, 319),
  ]).toEqual(['Medicaid', 'Medicaid', 'children’s program', 'children’s program', 'children’s program'])
  expect(at('PA', 12, 320)).toBe('marketplace')
  // From 19 on the adults’ line holds.
  expect(at('PA', 19, 160)).toBe('marketplace')
})

test('a basic health program takes adults between Medicaid and 200 percent', () => {
  expect([at('MN', 40, 138), at('MN', 40, 160), at('MN', 40, 200), at('MN', 40, 201)]).toEqual([
    'Medicaid',
    'basic health program',
    'basic health program',
    'marketplace',
  ])
})

test('pregnancy lifts the line', () => {
  expect([at('TX', 30, 200, { pregnant: true }), at('TX', 30, 204, { pregnant: true })]).toEqual([
    'Medicaid',
    'marketplace',
  ])
})

test('without any limits nobody is taken, and a child at home makes parents until 19', () => {
  expect(coverageKinds[programOf(noLimits, standingOf(40 * 12, true, true), 1)]).toBe('marketplace')
  expect([makesParents(-1), makesParents(0), makesParents(227), makesParents(228)]).toEqual([
    false,
    true,
    true,
    false,
  ])
})

test('from 2027 Medicaid asks adults for 80 hours a month or 580 dollars of household income (42 CFR 435.550, second hand)', () => {
  const worker = { age: 45, hoursMonthly: 79, householdIncomeMonthly: 579, youngestChild: null }
  expect(workRequirement(2026, worker)).toBeNull()
  expect(workRequirement(2027, worker)).toBe('not met')
  expect(workRequirement(2027, { ...worker, hoursMonthly: 80 })).toBe('met by hours')
  expect(workRequirement(2027, { ...worker, householdIncomeMonthly: 580 })).toBe('met by income')
  expect(workRequirement(2027, { ...worker, youngestChild: 13 })).toBe(
    'not asked of parents of a young child',
  )
  expect(workRequirement(2027, { ...worker, youngestChild: 14 })).toBe('not met')
  expect(workRequirement(2030, { ...worker, age: 65 })).toBe('not asked at this age')
})

test('an income is compared to a line by the cent, at every line of every state and size of household', () => {
  for (const year of [2026, 2027, 2030]) {
    const law = lawFor(year, steadyIndexing(0.025))
    for (let size = 1; size <= 9; size += 1) {
      const line = programPovertyLine(law, 0, size)
      for (const state of Object.keys(stateNames)) {
        const limits = coverageLimits(state, '2026-01')
        if (limits.adult === 0) continue
        // Whole cents, as the return has its income.
        const atLine = Math.floor(line * limits.adult)
        const kindAt = (cents: number) =>
          coverageKinds[programOf(limits, standingOf(480, false, false), (cents / 100) * (100 / line))]
        expect(kindAt(atLine)).toBe('Medicaid')
        expect(kindAt(atLine + 1)).not.toBe('Medicaid')
      }
    }
  }
})
