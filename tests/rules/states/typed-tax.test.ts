// A state's tax at rates that somebody typed, worked by the same program as the states' own laws.
import { describe, expect, test } from 'vitest'
import { steadyIndexing } from '#rules/dated.ts'
import { emptyHouseholdYear } from '#rules/household-year.ts'
import { lawFor } from '#rules/law.ts'
import { fileReturn } from '#rules/return/household-return.ts'
import { type StateTax, stateLaws, stateTaxFault } from '#rules/states/typed-tax.ts'

const still = steadyIndexing(0)
const law = lawFor(2026, still)

/** One single person with this much interest; the standard deduction of 2026 is 16,100 (Rev. Proc. 2025-32). */
const taxOf = (tax: StateTax, interest: number, level = 1): number => {
  const [state] = stateLaws(tax, undefined, [{ year: 2026, level }], still)
  return fileReturn(law, { ...emptyHouseholdYear(), interest, state: state! }).figures.stateIncomeTax
}

const brackets: StateTax = {
  kind: 'brackets',
  base: 'federal-agi',
  deduction: 10_000,
  brackets: [
    { over: 0, rate: 0.02 },
    { over: 20_000, rate: 0.05 },
  ],
}

describe('state income tax as typed', () => {
  test('none, flat, brackets', () => {
    expect(taxOf({ kind: 'none' }, 60_000)).toBe(0)
    expect(taxOf({ kind: 'flat', rate: 0.04, base: 'federal-taxable', deduction: 0 }, 46_100)).toBe(1200)
    expect(taxOf(brackets, 60_000)).toBe(400 + 1500)
    expect(taxOf(brackets, 5000)).toBe(0)
  })
  test('by the law of the state it is nothing where the plan names no state', () => {
    expect(stateLaws({ kind: 'law', localRate: 0.02 }, undefined, [{ year: 2026, level: 1 }], still)).toEqual(
      [null],
    )
  })
  test('doubling income, and deduction and brackets with prices, doubles the tax', () => {
    expect(taxOf(brackets, 120_000, 2)).toBeCloseTo(3800, 9)
  })
  test('faults say what to do', () => {
    expect(stateTaxFault(brackets)).toBeNull()
    expect(stateTaxFault({ ...brackets, brackets: [{ over: 5, rate: 0.01 }] })).toBe(
      'Start the first bracket at 0',
    )
    expect(stateTaxFault({ ...brackets, brackets: [{ over: 0, rate: 5 }] })).toMatch(/between 0 and 50/)
  })
})
