// Marketplace cover: poverty lines, applicable percentages, repayment limits, cost sharing. Lists by region: contiguous states, Alaska, Hawaii.
import type { Dated } from '../dated.ts'
import { noLimit } from '../law-year.ts'

const guidelines =
  'HHS poverty guidelines: 88 FR 3424 (2023), 89 FR 2961 (2024), 90 FR 5917 (2025), 91 FR 1797 (2026), read in an open rules library; the 2025 and 2026 figures of the contiguous states read a second time'

/** Under the year of the guidelines; a credit of cover year Y uses those of Y − 1, Medicaid those of Y. */
export const povertyFirst: Dated<readonly number[]> = {
  rule: 'federal poverty level, first person',
  unit: 'dollars a year',
  source: guidelines,
  obtained: 'secondHand',
  values: {
    2023: [14580, 18210, 16770],
    2024: [15060, 18810, 17310],
    2025: [15650, 19550, 17990],
    2026: [15960, 19950, 18360],
  },
  after: { by: 'prices', to: 10, rounding: 'nearest' },
}

export const povertyAdditional: Dated<readonly number[]> = {
  rule: 'federal poverty level, each further person',
  unit: 'dollars a year',
  source: guidelines,
  obtained: 'secondHand',
  values: {
    2023: [5140, 6430, 5910],
    2024: [5380, 6730, 6190],
    2025: [5500, 6880, 6330],
    2026: [5680, 7100, 6530],
  },
  after: { by: 'prices', to: 10, rounding: 'nearest' },
}

/** Bands: start of each in percent of the poverty line, first and last percentage of income in it. */
export const applicablePercentage: Dated<{
  from: readonly number[]
  initial: readonly number[]
  final: readonly number[]
}> = {
  rule: 'percentage of income a household pays for the benchmark plan',
  unit: 'percent of household income, by percent of the federal poverty level',
  source:
    '26 USC 36B(b)(3); 2024 and 2025 Form 8962 (2025) instructions Table 2, read; 2026 Rev. Proc. 2025-25, 2027 Rev. Proc. 2026-26, texts read',
  obtained: 'read',
  values: {
    2024: {
      from: [0, 150, 200, 250, 300, 400],
      initial: [0, 0, 2, 4, 6, 8.5],
      final: [0, 2, 4, 6, 8.5, 8.5],
    },
    2025: {
      from: [0, 150, 200, 250, 300, 400],
      initial: [0, 0, 2, 4, 6, 8.5],
      final: [0, 2, 4, 6, 8.5, 8.5],
    },
    2026: {
      from: [0, 133, 150, 200, 250, 300],
      initial: [2.1, 3.14, 4.19, 6.6, 8.44, 9.96],
      final: [2.1, 4.19, 6.6, 8.44, 9.96, 9.96],
    },
    2027: {
      from: [0, 133, 150, 200, 250, 300],
      initial: [2.15, 3.23, 4.3, 6.78, 8.66, 10.22],
      final: [2.15, 4.3, 6.78, 8.66, 10.22, 10.22],
    },
  },
  after: { by: 'held' },
  note: 'Later years follow the growth of premiums over incomes, which no price level tells: the last table is kept.',
}

export const creditFromPercent: Dated<number> = {
  rule: 'income from which there is a premium credit',
  unit: 'percent of the federal poverty level',
  source: '26 USC 36B(c)(1)(A)',
  obtained: 'read',
  values: { 2024: 100 },
  after: { by: 'statute' },
}

export const creditToPercent: Dated<number> = {
  rule: 'income up to which there is a premium credit',
  unit: 'percent of the federal poverty level',
  source: '26 USC 36B(c)(1)(A), (E): the line at 400 % is lifted for 2021 to 2025 and stands again from 2026',
  obtained: 'read',
  values: { 2024: noLimit, 2025: noLimit, 2026: 400 },
  after: { by: 'statute' },
  note: 'No extension of the 2021-2025 rule was in force on 2026-10-04: the House passed one on 2026-01-08, the Senate had not acted. Later news was not checked.',
}

/** Bands up to (not including) each percentage; above the last the whole excess is repaid. Empty: no limit at all. */
export const repaymentLimit: Dated<{
  to: readonly number[]
  single: readonly number[]
  other: readonly number[]
}> = {
  rule: 'excess advance credit that must be paid back, at most',
  unit: 'dollars a year, by percent of the federal poverty level',
  source:
    '26 USC 36B(f)(2)(B); 2024 Rev. Proc. 2023-34 sec. 3.07, amounts read in a health policy institute’s table; 2025 Form 8962 instructions Table 5, read; repealed from 2026 by P.L. 119-21 sec. 71305',
  obtained: 'read',
  values: {
    2024: { to: [200, 300, 400], single: [375, 950, 1575], other: [750, 1900, 3150] },
    2025: { to: [200, 300, 400], single: [375, 975, 1625], other: [750, 1950, 3250] },
    2026: { to: [], single: [], other: [] },
  },
  after: { by: 'statute' },
}

/** Upper end of each band, included, and the share of costs a silver plan covers in it. */
export const costSharing: Dated<{ to: readonly number[]; value: readonly number[]; standard: number }> = {
  rule: 'share of costs a silver plan covers at low income',
  unit: 'fraction, by percent of the federal poverty level from 100',
  source: '45 CFR 156.420, 155.305(g), read in an open rules library',
  obtained: 'secondHand',
  values: { 2024: { to: [150, 200, 250], value: [0.94, 0.87, 0.73], standard: 0.7 } },
  after: { by: 'statute' },
}

export const medicaidPercent: Dated<number> = {
  rule: 'income up to which adults get Medicaid where the state has taken up the expansion',
  unit: 'percent of the federal poverty level',
  source: '42 CFR 435.119, 435.603(d)(4): 133 plus a disregard of 5 points; read in an open rules library',
  obtained: 'secondHand',
  values: { 2024: 138 },
  after: { by: 'statute' },
}
