// Credits and the qualified business deduction. Lists by filing status, or by number of children (0, 1, 2, 3 or more).
import type { Dated } from '../dated.ts'
import { noLimit } from '../law-year.ts'

const libraries = 'read in two open rules libraries that agree and cite the yearly revenue procedure'

export const qbiRate: Dated<number> = {
  rule: 'qualified business income deduction rate',
  unit: 'fraction',
  source: '26 USC 199A(a)',
  obtained: 'read',
  values: { 2024: 0.2 },
  after: { by: 'statute' },
}

export const qbiThreshold: Dated<readonly number[]> = {
  rule: 'income at which wage and property limits of the qualified business deduction start',
  unit: 'dollars of taxable income before the deduction',
  source: `26 USC 199A(e)(2); 2024 and 2025 ${libraries}; 2026 Rev. Proc. 2025-32 sec. 4.26, text read`,
  obtained: 'read',
  values: {
    2024: [191950, 383900, 191950, 191950],
    2025: [197300, 394600, 197300, 197300],
    2026: [201750, 403500, 201750, 201775],
  },
  ahead: { 2027: [208300, 416600, 208300, 208325] },
  note: 'Joint is twice the single amount (26 USC 199A(e)(2)(A)), so it moves by 100.',
  after: {
    by: 'prices',
    to: [50, 100, 50, 25],
    rounding: 'down',
    unrounded: [208341.32, 416682.63, 208341.32, 208341.32],
  },
}

export const qbiRange: Dated<readonly number[]> = {
  rule: 'range over which the wage and property limits phase in',
  unit: 'dollars of taxable income above the threshold',
  source: `26 USC 199A(b)(3)(B); 2024 and 2025 ${libraries}; 2026 Rev. Proc. 2025-32 sec. 4.26, text read`,
  obtained: 'read',
  values: {
    2024: [50000, 100000, 50000, 50000],
    2025: [50000, 100000, 50000, 50000],
    2026: [75000, 150000, 75000, 75000],
  },
  after: { by: 'statute' },
}

export const qbiLimits: Dated<{ wages: number; wagesWithProperty: number; property: number }> = {
  rule: 'limit of the qualified business deduction at high income: part of wages, or a smaller part with part of property',
  unit: 'fraction of wages paid and of the unadjusted basis of property',
  source: '26 USC 199A(b)(2)(B)',
  obtained: 'read',
  values: { 2024: { wages: 0.5, wagesWithProperty: 0.25, property: 0.025 } },
  after: { by: 'statute' },
}

export const qbiMinimum: Dated<number> = {
  rule: 'minimum qualified business deduction',
  unit: 'dollars a year',
  source: '26 USC 199A(i), Rev. Proc. 2025-32 sec. 2.12, text read',
  obtained: 'read',
  values: { 2024: 0, 2025: 0, 2026: 400 },
  ahead: { 2027: 415 },
  after: { by: 'prices', to: 5, rounding: 'nearest', unrounded: 412.98 },
  note: 'Indexed for years after 2026; the rounding to the nearest 5 dollars is from memory.',
}

export const qbiMinimumFrom: Dated<number> = {
  rule: 'active business income needed for the minimum qualified business deduction',
  unit: 'dollars a year',
  source: '26 USC 199A(i), Rev. Proc. 2025-32 sec. 2.12, text read',
  obtained: 'read',
  values: { 2024: 1000, 2025: 1000, 2026: 1000 },
  ahead: { 2027: 1030 },
  after: { by: 'prices', to: 5, rounding: 'nearest', unrounded: 1032.45 },
}

export const childCredit: Dated<number> = {
  rule: 'child tax credit for each child under 17',
  unit: 'dollars a year',
  source: `26 USC 24; 2024 ${libraries}; 2025 Rev. Proc. 2025-32 sec. 2.03; 2026 sec. 4.05, text read`,
  obtained: 'read',
  values: { 2024: 2000, 2025: 2200, 2026: 2200 },
  ahead: { 2027: 2300 },
  note: 'Indexed from 2,200 of 2025 (26 USC 24(i)(2)).',
  after: { by: 'prices', to: 100, rounding: 'down', unrounded: 2324 },
}

export const childRefundableMax: Dated<number> = {
  rule: 'refundable part of the child tax credit, at most, for each child',
  unit: 'dollars a year',
  source: `26 USC 24(h)(5); 2024 and 2025 ${libraries}; 2026 Rev. Proc. 2025-32 sec. 4.05, text read`,
  obtained: 'read',
  values: { 2024: 1700, 2025: 1700, 2026: 1700 },
  ahead: { 2027: 1800 },
  note: 'Indexed from 1,400 of 2018 (26 USC 24(h)(5), (i)(1)).',
  after: { by: 'prices', to: 100, rounding: 'down', unrounded: 1851.92 },
}

export const childRefundableRate: Dated<number> = {
  rule: 'refundable child credit phase-in',
  unit: 'fraction of earned income above the floor',
  source: `26 USC 24(d)(1); ${libraries}`,
  obtained: 'read',
  values: { 2024: 0.15 },
  after: { by: 'statute' },
}

export const childRefundableFrom: Dated<number> = {
  rule: 'earned income above which the refundable child credit phases in',
  unit: 'dollars a year',
  source: `26 USC 24(h)(6); ${libraries}`,
  obtained: 'read',
  values: { 2024: 2500 },
  after: { by: 'statute' },
}

export const otherDependentCredit: Dated<number> = {
  rule: 'credit for other dependents',
  unit: 'dollars for each',
  source: `26 USC 24(h)(4); ${libraries}`,
  obtained: 'read',
  values: { 2024: 500 },
  after: { by: 'statute' },
}

export const childPhaseOutFrom: Dated<readonly number[]> = {
  rule: 'income at which the child credit starts to shrink',
  unit: 'dollars of modified adjusted gross income',
  source: `26 USC 24(h)(3); ${libraries}`,
  obtained: 'read',
  values: { 2024: [200000, 400000, 200000, 200000] },
  after: { by: 'statute' },
}

export const childPhaseOutPerThousand: Dated<number> = {
  rule: 'child credit lost for each 1,000 dollars or part of it above the threshold',
  unit: 'dollars',
  source: `26 USC 24(b)(1); ${libraries}`,
  obtained: 'read',
  values: { 2024: 50 },
  after: { by: 'statute' },
}

const earnedCredit = `26 USC 32; 2024 and 2025 ${libraries}; 2026 Rev. Proc. 2025-32 sec. 4.06, text read`

export const earnedCreditRate: Dated<readonly number[]> = {
  rule: 'earned income credit phase-in',
  unit: 'fraction of earned income, by number of children',
  source: '26 USC 32(b)(1)',
  obtained: 'read',
  values: { 2024: [0.0765, 0.34, 0.4, 0.45] },
  after: { by: 'statute' },
}

export const earnedCreditAmount: Dated<readonly number[]> = {
  rule: 'earned income at which the earned income credit is full',
  unit: 'dollars a year, by number of children',
  source: earnedCredit,
  obtained: 'read',
  obtainedIn: { 2024: 'computed', 2025: 'computed' },
  values: {
    2024: [8260, 12390, 17400, 17400],
    2025: [8490, 12730, 17880, 17880],
    2026: [8680, 13020, 18290, 18290],
  },
  ahead: { 2027: [8960, 13450, 18880, 18880] },
  after: { by: 'prices', to: 10, rounding: 'nearest', unrounded: [8964, 13446, 18883.87, 18883.87] },
  note: 'The 2024 and 2025 amounts were checked: times the phase-in rate they give the published maximum.',
}

export const earnedCreditPhaseOutRate: Dated<readonly number[]> = {
  rule: 'earned income credit phase-out',
  unit: 'fraction of income above the threshold, by number of children',
  source: '26 USC 32(b)(1)',
  obtained: 'read',
  values: { 2024: [0.0765, 0.1598, 0.2106, 0.2106] },
  after: { by: 'statute' },
}

export const earnedCreditPhaseOutFrom: Dated<readonly number[]> = {
  rule: 'income at which the earned income credit starts to shrink, not joint',
  unit: 'dollars a year, by number of children',
  source: earnedCredit,
  obtained: 'read',
  values: {
    2024: [10330, 22720, 22720, 22720],
    2025: [10620, 23350, 23350, 23350],
    2026: [10860, 23890, 23890, 23890],
  },
  ahead: { 2027: [11220, 24660, 24660, 24660] },
  after: { by: 'prices', to: 10, rounding: 'nearest', unrounded: [11215.62, 24661.61, 24661.61, 24661.61] },
}

export const earnedCreditPhaseOutFromJoint: Dated<readonly number[]> = {
  rule: 'income at which the earned income credit starts to shrink, joint',
  unit: 'dollars a year, by number of children',
  source: earnedCredit,
  obtained: 'read',
  values: {
    2024: [17250, 29640, 29640, 29640],
    2025: [17730, 30470, 30470, 30470],
    2026: [18140, 31160, 31160, 31160],
  },
  ahead: { 2027: [18730, 32170, 32170, 32170] },
  after: { by: 'prices', to: 10, rounding: 'nearest', unrounded: [18726.62, 32172.61, 32172.61, 32172.61] },
}

export const earnedCreditInvestmentMax: Dated<number> = {
  rule: 'investment income above which there is no earned income credit',
  unit: 'dollars a year',
  source: `26 USC 32(i); 2024 and 2025 ${libraries}; 2026 Rev. Proc. 2025-32 sec. 4.06, text read`,
  obtained: 'read',
  values: { 2024: 11600, 2025: 11950, 2026: 12200 },
  ahead: { 2027: 12600 },
  note: 'Indexed from 10,000 of 2021 and rounded down (26 USC 32(j)): 11,631.92, 11,952.80 and 12,230.42 gave the published amounts.',
  after: { by: 'prices', to: 50, rounding: 'down', unrounded: 12627.3 },
}

export const saversRates: Dated<readonly number[]> = {
  rule: 'saver’s credit rates',
  unit: 'fraction of contributions, for the three income bands',
  source:
    '26 USC 25B(b); from 2027 a match paid into the account replaces the credit, 26 USC 6433 (SECURE 2.0 sec. 103), read in the federal program inventory',
  obtained: 'read',
  values: { 2024: [0.5, 0.2, 0.1], 2025: [0.5, 0.2, 0.1], 2026: [0.5, 0.2, 0.1], 2027: [0, 0, 0] },
  after: { by: 'statute' },
}

export const saversLimits: Dated<readonly (readonly number[])[]> = {
  rule: 'income limits of the saver’s credit',
  unit: 'dollars of adjusted gross income up to which each rate applies',
  source:
    'Notices 2023-75, 2024-80 and 2025-67, read in an open rules library; 2026 read a second time, equal',
  obtained: 'secondHand',
  values: {
    2024: [
      [23000, 25000, 38250],
      [46000, 50000, 76500],
      [34500, 37500, 57375],
      [23000, 25000, 38250],
    ],
    2025: [
      [23750, 25500, 39500],
      [47500, 51000, 79000],
      [35625, 38250, 59250],
      [23750, 25500, 39500],
    ],
    2026: [
      [24250, 26250, 40250],
      [48500, 52500, 80500],
      [36375, 39375, 60375],
      [24250, 26250, 40250],
    ],
  },
  after: { by: 'held' },
}

export const saversCap: Dated<number> = {
  rule: 'contributions that count for the saver’s credit, at most',
  unit: 'dollars a year for each person',
  source: '26 USC 25B(a)',
  obtained: 'read',
  values: { 2024: 2000 },
  after: { by: 'statute' },
}

const care =
  '26 USC 21(a)(2), (c), (d), texts read as quoted, before and after P.L. 119-21 sec. 70405; 2024 and 2025 also in an open rules library'

export const careCap: Dated<readonly [one: number, more: number]> = {
  rule: 'costs of care that count for the child and dependent care credit, one child or more',
  unit: 'dollars a year',
  source: care,
  obtained: 'secondHand',
  values: { 2024: [3000, 6000] },
  after: { by: 'statute' },
}

/** By status; the second stretch has no start in the years that do not know it. */
export const careRates: Dated<{
  top: number
  middle: number
  from: number
  step: number
  least: number
  secondFrom: readonly number[]
  secondStep: readonly number[]
}> = {
  rule: 'child and dependent care credit, percentage of costs',
  unit: 'fraction, less a point for each step of adjusted gross income over the starts, dollars',
  source: care,
  obtained: 'secondHand',
  values: {
    2024: {
      top: 0.35,
      middle: 0.2,
      from: 15_000,
      step: 2000,
      least: 0.2,
      secondFrom: [noLimit, noLimit, noLimit, noLimit],
      secondStep: [2000, 4000, 2000, 2000],
    },
    2025: {
      top: 0.35,
      middle: 0.2,
      from: 15_000,
      step: 2000,
      least: 0.2,
      secondFrom: [noLimit, noLimit, noLimit, noLimit],
      secondStep: [2000, 4000, 2000, 2000],
    },
    2026: {
      top: 0.5,
      middle: 0.35,
      from: 15_000,
      step: 2000,
      least: 0.2,
      secondFrom: [75_000, 150_000, 75_000, 75_000],
      secondStep: [2000, 4000, 2000, 2000],
    },
  },
  after: { by: 'statute' },
}

/** Ages at the end of a year: a qualifying child of the earned income credit is younger, or a full-time student below the second. */
export const earnedCreditChildBelow: Dated<{ child: number; student: number }> = {
  rule: 'age under which a child, or a full-time student, counts as a qualifying child',
  unit: 'years',
  source: '26 USC 152(c)(3)(A), 32(c)(3)(A)',
  obtained: 'memory',
  values: { 2024: { child: 19, student: 24 } },
  after: { by: 'statute' },
}

/** A child’s care counts until this birthday. */
export const careChildBelow: Dated<number> = {
  rule: 'age under which a child’s care counts for the child and dependent care credit',
  unit: 'years',
  source: '26 USC 21(b)(1)(A), read as quoted',
  obtained: 'secondHand',
  values: { 2024: 13 },
  after: { by: 'statute' },
}
