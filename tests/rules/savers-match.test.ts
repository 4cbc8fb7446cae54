// The saver's match of 2027, worked by hand from 26 USC 6433(b) as read in a public copy of the Code.
import { expect, test } from 'vitest'
import { steadyIndexing } from '#rules/dated.ts'
import { type FilingStatus, statusIndex } from '#rules/filing-status.ts'
import { lawFor } from '#rules/law.ts'
import { saversMatch } from '#rules/savers-match.ts'

const steady = steadyIndexing(0)
const match = (status: FilingStatus, adjusted: number, contributions = 2000, year = 2027) =>
  saversMatch(lawFor(year, steady), statusIndex(status), adjusted, contributions)

test('is half of up to 2,000 at an income up to 41,000 of a couple, and nothing from 71,000', () => {
  expect(match('married_joint', 0)).toBe(1000)
  expect(match('married_joint', 41_000)).toBe(1000)
  expect(match('married_joint', 41_000, 600)).toBe(300)
  expect(match('married_joint', 41_000, 7500)).toBe(1000)
  expect(match('married_joint', 71_000)).toBe(0)
  expect(match('married_joint', 200_000)).toBe(0)
  expect(match('married_joint', 30_000, -500)).toBe(0)
})

test('falls by one point for each whole 600 dollars of a couple’s income above that', () => {
  expect(match('married_joint', 41_599)).toBe(1000)
  expect(match('married_joint', 41_600)).toBe(980)
  expect(match('married_joint', 56_000)).toBe(500)
  expect(match('married_joint', 70_399)).toBeCloseTo(40, 9)
  expect(match('married_joint', 70_999)).toBeCloseTo(20, 9)
})

test('has half the range for one person and three quarters for a head of household', () => {
  expect(match('single', 28_000)).toBe(500)
  expect(match('single', 35_500)).toBe(0)
  expect(match('head_of_household', 42_000)).toBe(500)
  expect(match('head_of_household', 53_250)).toBe(0)
})

test('takes the place of the credit: none before 2027, both never in one year', () => {
  expect(match('married_joint', 30_000, 2000, 2026)).toBe(0)
  for (const year of [2024, 2026, 2027, 2035]) {
    const law = lawFor(year, steady)
    expect(law.saversMatchRate > 0 !== law.saversRates.some((rate) => rate > 0)).toBe(true)
  }
})
