// Minnesota's figures of 2026, as its Department of Revenue announced them on December 16, 2025: joint standard deduction 30,600, dependent
// exemption 5,300, first joint bracket to 48,700, all by 2.369 percent over 2025.
import { expect, test } from 'vitest'
import { estimate } from '../../src/cli/estimate/estimate.ts'
import { estimateSchema } from '../../src/cli/estimate/estimate-household.ts'

const taxOf = (wages: number, more: object = {}) =>
  estimate(
    estimateSchema.parse({
      taxYear: 2026,
      filingStatus: 'married_joint',
      state: 'MN',
      people: [{ age: 40 }, { age: 41 }],
      income: { wages: [wages, 0] },
      ...more,
    }),
  ).stateIncomeTax ?? Number.NaN

test('a couple without children: 5.35 percent up to 48,700, 6.8 percent of the rest', () => {
  expect(taxOf(70_600)).toBeCloseTo(40_000 * 0.0535, 2)
  expect(taxOf(100_600)).toBeCloseTo(48_700 * 0.0535 + 21_300 * 0.068, 2)
})

test('an exemption of 5,300 a dependent; one head of household has 23,000 and a first bracket to 41,010', () => {
  const grown = { dependents: [{ age: 18 }] }
  expect(taxOf(150_600) - taxOf(150_600, grown)).toBeCloseTo(5300 * 0.068, 2)
  const alone = { filingStatus: 'head_of_household', people: [{ age: 40 }], ...grown }
  expect(taxOf(90_000, alone)).toBeCloseTo(41_010 * 0.0535 + (90_000 - 23_000 - 5300 - 41_010) * 0.068, 1)
})
