// Facts of Medicare: premiums, income-related additions by tier, deductibles. Premiums are per person and month.
import type { Dated } from '../dated.ts'

type FiveLines = readonly [number, number, number, number, number]
type SixAmounts = readonly [number, number, number, number, number, number]

export const partBStandardPremium: Dated<number> = {
  rule: 'Medicare Part B standard premium',
  unit: 'dollars a month',
  source: '90 FR 52063 (2026); CMS fact sheets (2024, 2025); 42 USC 1395r(i)',
  obtained: 'read',
  note: 'Past the last year it grows with the plan’s premium growth, to ten cents (see medicare-year.ts).',
  values: {
    2024: 174.7,
    2025: 185,
    2026: 202.9,
  },
  after: { by: 'held' },
}

export const partBDeductible: Dated<number> = {
  rule: 'Medicare Part B deductible',
  unit: 'dollars a year',
  source: '90 FR 52063 (2026); CMS fact sheets (2024, 2025); 42 USC 1395r(i)',
  obtained: 'read',
  values: {
    2024: 240,
    2025: 257,
    2026: 283,
  },
  after: { by: 'held' },
}

export const incomeLinesSingle: Dated<FiveLines> = {
  rule: 'Income over which Medicare additions begin, single, head of household, surviving spouse',
  unit: 'dollars a year',
  source: 'CMS fact sheets; 90 FR 52063; 42 USC 1395r(i)(3), (5)',
  obtained: 'read',
  note: 'Indexed from 85,000, 107,000, 133,500 and 160,000 of 2018 (42 USC 1395r(i)(5)). A line is passed by any amount, the last one is reached at the figure itself. The last line stands still until 2027 and moves with prices from 2028 (see medicare-year.ts).',
  values: {
    2024: [103_000, 129_000, 161_000, 193_000, 500_000],
    2025: [106_000, 133_000, 167_000, 200_000, 500_000],
    2026: [109_000, 137_000, 171_000, 205_000, 500_000],
  },
  ahead: { 2027: [112_000, 142_000, 177_000, 212_000, 500_000] },
  after: {
    by: 'prices',
    to: 1000,
    rounding: 'nearest',
    unrounded: [112_407, 141_501, 176_545, 211_590, 500_000],
  },
}

export const incomeLinesJoint: Dated<FiveLines> = {
  rule: 'Income over which Medicare additions begin, joint return',
  unit: 'dollars a year',
  source: 'CMS fact sheets; 90 FR 52063; 42 USC 1395r(i)(3), (5)',
  obtained: 'read',
  values: {
    2024: [206_000, 258_000, 322_000, 386_000, 750_000],
    2025: [212_000, 266_000, 334_000, 400_000, 750_000],
    2026: [218_000, 274_000, 342_000, 410_000, 750_000],
  },
  note: 'Twice the single lines, but for the last.',
  ahead: { 2027: [224_000, 284_000, 354_000, 424_000, 750_000] },
  after: {
    by: 'prices',
    to: 2000,
    rounding: 'nearest',
    unrounded: [224_814, 283_002, 353_090, 423_180, 750_000],
  },
}

export const incomeLinesSeparate: Dated<readonly [number, number]> = {
  rule: 'Income over which Medicare additions begin, separate returns of spouses who lived together: the fourth addition, then the fifth',
  unit: 'dollars a year',
  source: 'CMS fact sheets; 42 USC 1395r(i)(3)(C)',
  obtained: 'read',
  values: {
    2024: [103_000, 397_000],
    2025: [106_000, 394_000],
    2026: [109_000, 391_000],
  },
  ahead: { 2027: [112_000, 388_000] },
  after: { by: 'prices', to: 1000, rounding: 'nearest' },
}

export const partBAdditions: Dated<SixAmounts> = {
  rule: 'Part B income-related addition by tier',
  unit: 'dollars a month',
  source: '90 FR 52063 (2026); CMS fact sheets (2024, 2025); 42 USC 1395r(i)',
  obtained: 'read',
  values: {
    2024: [0, 69.9, 174.7, 279.5, 384.3, 419.3],
    2025: [0, 74, 185, 295.9, 406.9, 443.9],
    2026: [0, 81.2, 202.9, 324.6, 446.3, 487],
  },
  after: { by: 'held' },
}

export const partDAdditions: Dated<SixAmounts> = {
  rule: 'Part D income-related addition by tier',
  unit: 'dollars a month',
  source:
    'CMS Part D announcements; 42 USC 1395w-113(a)(7); 2027 the base premium of 41.33 times (share − 25.5) ÷ 25.5, which gives 2026 too',
  obtained: 'read',
  obtainedIn: { 2027: 'computed' },
  values: {
    2024: [0, 12.9, 33.3, 53.8, 74.2, 81],
    2025: [0, 13.7, 35.3, 57, 78.6, 85.8],
    2026: [0, 14.5, 37.5, 60.4, 83.3, 91],
    2027: [0, 15.4, 39.7, 64, 88.3, 96.4],
  },
  after: { by: 'held' },
}

export const partDBasePremium: Dated<number> = {
  rule: 'Part D national base beneficiary premium',
  unit: 'dollars a month',
  source: 'CMS Part D bid announcements, July 2023 to 2026',
  obtained: 'read',
  note: 'Read in secondary text; each is the year before and 6 percent.',
  values: {
    2024: 34.7,
    2025: 36.78,
    2026: 38.99,
    2027: 41.33,
  },
  after: { by: 'held' },
}

export const partDOutOfPocketCap: Dated<number> = {
  rule: 'Part D yearly out-of-pocket cap',
  unit: 'dollars a year',
  source:
    '42 USC 1395w-102(b)(4) (P.L. 117-169 sec. 11201: 2,000 for 2025), read as described in public text; 2027 CMS rate announcement of April 6, 2026, second hand in three pages',
  obtained: 'secondHand',
  values: {
    2025: 2000,
    2026: 2100,
    2027: 2400,
  },
  after: { by: 'held' },
}

export const partAFullPremium: Dated<number> = {
  rule: 'Part A premium with fewer than 30 quarters',
  unit: 'dollars a month',
  source:
    'FR notices of November 19, 2025 (2025, 2026); rules library and a transcription of the 2023 notice (2024); 42 USC 1395e, 1395i-2',
  obtained: 'read',
  obtainedIn: { 2024: 'secondHand' },
  values: {
    2024: 505,
    2025: 518,
    2026: 565,
  },
  after: { by: 'held' },
}

export const partAReducedPremium: Dated<number> = {
  rule: 'Part A premium with 30 to 39 quarters',
  unit: 'dollars a month',
  source:
    'FR notices of November 19, 2025 (2025, 2026); rules library and a transcription of the 2023 notice (2024); 42 USC 1395e, 1395i-2',
  obtained: 'read',
  obtainedIn: { 2024: 'secondHand' },
  values: {
    2024: 278,
    2025: 285,
    2026: 311,
  },
  after: { by: 'held' },
}

export const partAInpatientDeductible: Dated<number> = {
  rule: 'Part A inpatient deductible',
  unit: 'dollars a benefit period',
  source:
    'FR notices of November 19, 2025 (2025, 2026); rules library and a transcription of the 2023 notice (2024); 42 USC 1395e, 1395i-2',
  obtained: 'read',
  obtainedIn: { 2024: 'secondHand' },
  values: {
    2024: 1632,
    2025: 1676,
    2026: 1736,
  },
  after: { by: 'held' },
}

export const medicareAge: Dated<number> = {
  rule: 'Age at which Medicare begins',
  unit: 'years',
  source: '42 USC 1395o, 426',
  obtained: 'read',
  values: { 1966: 65 },
  after: { by: 'statute' },
}

export const premiumFreeQuarters: Dated<readonly [number, number]> = {
  rule: 'Quarters of coverage for a reduced Part A premium, and for none',
  unit: 'quarters',
  source: '42 USC 426, 1395i-2(d)',
  obtained: 'read',
  values: { 1994: [30, 40] },
  after: { by: 'statute' },
}

export const lookBackYears: Dated<number> = {
  rule: 'Years between the return and the Medicare premium that rests on it',
  unit: 'years',
  source: '42 USC 1395r(i)(4)(B); 20 CFR 418.1101 and following',
  obtained: 'read',
  note: 'A later year can be used after a life-changing event such as stopping work (form SSA-44; from memory).',
  values: { 2007: 2 },
  after: { by: 'statute' },
}

export const lateEnrollment: Dated<{ readonly [part: string]: number }> = {
  rule: 'Addition for late enrollment: Part B for each full 12 months, Part D for each month',
  unit: 'fraction of the standard or base premium',
  source: '42 USC 1395r(b); 42 CFR 408.22 and 408.26 (examples), read; 42 USC 1395w-113(b)(3), text read',
  obtained: 'read',
  note: 'For Part D the law takes the larger of 1 percent and an actuarial amount; 1 percent is what is charged.',
  values: { 2006: { partBPer12Months: 0.1, partDPerMonth: 0.01 } },
  after: { by: 'statute' },
}
