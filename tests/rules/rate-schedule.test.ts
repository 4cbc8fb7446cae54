// The rate schedule to the cent: published examples are in whole dollars, and would not see a half cent fall away.
import { expect, test } from 'vitest'
import { steadyIndexing } from '#rules/dated.ts'
import { lawFor } from '#rules/law.ts'
import { scheduleTax } from '#rules/return/income-tax.ts'

const single = 0
const law = lawFor(2026, steadyIndexing(0.025))

// 2026, single: 10 % to $12,400, then 12 % (Rev. Proc. 2025-32, 26 USC 1(j)); the nearest cent, a half up, is common practice.
test.each([
  [0, 0],
  [0.04, 0],
  [0.05, 0.01],
  [1234.56, 123.46],
  [1234.54, 123.45],
  [12_400, 1240],
  // 0.29 × 12 % is 0.0348, 0.21 × 12 % is 0.0252, 0.20 × 12 % is 0.024.
  [12_400.29, 1240.03],
  [12_400.21, 1240.03],
  [12_400.2, 1240.02],
])('on %d dollars it is %d', (taxable, tax) => {
  expect(scheduleTax(law, single, Math.round(taxable * 100)) / 100).toBe(tax)
})
