// Facts of retirement and health savings accounts: yearly limits, phase-outs, required distributions, early withdrawals.
import type { Dated } from '../dated.ts'

type Range = readonly [number, number]

export const iraLimit: Dated<number> = {
  rule: 'IRA contribution limit, traditional and Roth together',
  unit: 'dollars a year',
  source: 'IRS Notices 2023-75, 2024-80, 2025-67, as reported by two or more firm pages that agree',
  obtained: 'secondHand',
  note: 'Indexed from 5,000 of 2008 (26 USC 219(b)(5)(C)). Not more than the year’s taxable compensation; on a joint return a spouse may use the other’s.',
  values: {
    2024: 7000,
    2025: 7000,
    2026: 7500,
  },
  ahead: { 2027: 7500 },
  after: { by: 'prices', to: 500, rounding: 'down', unrounded: 7827 },
}

export const iraCatchUp: Dated<number> = {
  rule: 'IRA catch-up from the year of age 50',
  unit: 'dollars a year',
  source: 'IRS Notices 2023-75, 2024-80, 2025-67, as reported by two or more firm pages that agree',
  obtained: 'secondHand',
  values: {
    2024: 1000,
    2025: 1000,
    2026: 1100,
  },
  ahead: { 2027: 1100 },
  after: { by: 'prices', to: 100, rounding: 'down', unrounded: 1144 },
}

export const iraDeductionFromSingle: Dated<number> = {
  rule: 'Income from which the IRA deduction shrinks, covered at work, single or head of household',
  unit: 'dollars',
  source: 'IRS Notices 2023-75, 2024-80, 2025-67, as reported by two or more firm pages that agree',
  obtained: 'secondHand',
  values: {
    2024: 77_000,
    2025: 79_000,
    2026: 81_000,
  },
  ahead: { 2027: 83000 },
  after: { by: 'prices', to: 1000, rounding: 'nearest', unrounded: 83233.65 },
}

export const iraDeductionFromJoint: Dated<number> = {
  rule: 'The same, covered at work, joint',
  unit: 'dollars',
  source: 'IRS Notices 2023-75, 2024-80, 2025-67, as reported by two or more firm pages that agree',
  obtained: 'secondHand',
  values: {
    2024: 123_000,
    2025: 126_000,
    2026: 129_000,
  },
  ahead: { 2027: 133000 },
  after: { by: 'prices', to: 1000, rounding: 'nearest', unrounded: 133173.84 },
}

export const iraDeductionFromSpouseCovered: Dated<number> = {
  rule: 'The same, not covered but the spouse is, joint',
  unit: 'dollars',
  source: 'IRS Notices 2023-75, 2024-80, 2025-67, as reported by two or more firm pages that agree',
  obtained: 'secondHand',
  values: {
    2024: 230_000,
    2025: 236_000,
    2026: 242_000,
  },
  ahead: { 2027: 250000 },
  after: { by: 'prices', to: 1000, rounding: 'nearest', unrounded: 249700.95 },
}

export const iraRangeSeparate: Dated<Range> = {
  rule: 'Income range over which IRA deduction and Roth contribution end, separate returns',
  unit: 'dollars',
  source: '26 USC 219(g)(3)(B)(iii), 408A(c)(3)',
  obtained: 'read',
  values: {
    2024: [0, 10_000],
  },
  after: { by: 'statute' },
}

export const rothFromSingle: Dated<number> = {
  rule: 'Income from which Roth contributions shrink, single or head of household',
  unit: 'dollars',
  source: 'IRS Notices 2023-75, 2024-80, 2025-67, as reported by two or more firm pages that agree',
  obtained: 'secondHand',
  values: {
    2024: 146_000,
    2025: 150_000,
    2026: 153_000,
  },
  ahead: { 2027: 158000 },
  after: { by: 'prices', to: 1000, rounding: 'nearest', unrounded: 158143.93 },
}

export const rothFromJoint: Dated<number> = {
  rule: 'The same, joint',
  unit: 'dollars',
  source: 'IRS Notices 2023-75, 2024-80, 2025-67, as reported by two or more firm pages that agree',
  obtained: 'secondHand',
  values: {
    2024: 230_000,
    2025: 236_000,
    2026: 242_000,
  },
  ahead: { 2027: 250000 },
  after: { by: 'prices', to: 1000, rounding: 'nearest', unrounded: 249700.95 },
}

export const contributionWidths: Dated<{ readonly [which: string]: number }> = {
  rule: 'Income over which the IRA deduction or the Roth contribution ends, above where it begins to shrink',
  unit: 'dollars',
  source: '26 USC 219(g)(2)(A)(ii), (3)(B), (7)(B), 408A(c)(3)(A)(ii)',
  obtained: 'computed',
  note: 'The widths do not move with prices: every published range has them.',
  values: {
    2024: { single: 10_000, joint: 20_000, spouseCovered: 10_000, rothSingle: 15_000, rothJoint: 10_000 },
  },
  after: { by: 'statute' },
}

export const deferralLimit: Dated<number> = {
  rule: 'Elective deferral to a 401(k), 403(b) or 457 plan',
  unit: 'dollars a year',
  source: 'IRS Notices 2023-75, 2024-80, 2025-67, as reported by two or more firm pages that agree',
  obtained: 'secondHand',
  values: {
    2024: 23_000,
    2025: 23_500,
    2026: 24_500,
  },
  note: 'Indexed from 15,000 of 2006 (26 USC 402(g)(4)). Computed with the consumer prices of July to September 2026, of which September is not published yet.',
  ahead: { 2027: 25_500 },
  after: { by: 'prices', to: 500, rounding: 'down', unrounded: 25_512 },
}

export const deferralCatchUp: Dated<number> = {
  rule: 'Catch-up deferral from the year of age 50',
  unit: 'dollars a year',
  source: 'IRS Notices 2023-75, 2024-80, 2025-67, as reported by two or more firm pages that agree',
  obtained: 'secondHand',
  values: {
    2024: 7500,
    2025: 7500,
    2026: 8000,
  },
  note: 'Indexed from 5,000 of 2006 (26 USC 414(v)(2)(C)). Computed with the consumer prices of July to September 2026, of which September is not published yet.',
  ahead: { 2027: 8500 },
  after: { by: 'prices', to: 500, rounding: 'down', unrounded: 8504 },
}

export const deferralCatchUpSixties: Dated<number> = {
  rule: 'Catch-up deferral in the years of age 60 to 63',
  unit: 'dollars a year',
  source: 'IRS Notices 2023-75, 2024-80, 2025-67, as reported by two or more firm pages that agree',
  obtained: 'secondHand',
  note: 'Only the increase over 11,250 is rounded (26 USC 414(v)(2)(E)). The higher catch-up starts in 2025.',
  values: {
    2025: 11_250,
    2026: 11_250,
  },
  ahead: { 2027: 11_750 },
  after: { by: 'prices', to: 500, rounding: 'down', unrounded: 11_960, above: 11_250 },
}

export const annualAdditions: Dated<number> = {
  rule: 'Limit on all additions to one person’s plan in a year',
  unit: 'dollars a year',
  source: 'IRS Notices 2023-75, 2024-80, 2025-67, as reported by two or more firm pages that agree',
  obtained: 'secondHand',
  values: {
    2024: 69_000,
    2025: 70_000,
    2026: 72_000,
  },
  note: 'Indexed from 40,000 of 2002 (26 USC 415(d)).',
  ahead: { 2027: 75_000 },
  after: { by: 'prices', to: 1000, rounding: 'down', unrounded: 75_340 },
}

export const compensationCap: Dated<number> = {
  rule: 'Compensation counted for plan contributions',
  unit: 'dollars a year',
  source: 'IRS Notices 2023-75, 2024-80, 2025-67, as reported by two or more pages that agree',
  obtained: 'secondHand',
  values: {
    2024: 345_000,
    2025: 350_000,
    2026: 360_000,
  },
  note: 'Indexed from 200,000 of 2002 (26 USC 401(a)(17)(B)).',
  ahead: { 2027: 375_000 },
  after: { by: 'prices', to: 5000, rounding: 'down', unrounded: 376_700 },
}

export const simpleDeferral: Dated<number> = {
  rule: 'SIMPLE deferral',
  unit: 'dollars a year',
  source: 'IRS Notices 2023-75, 2024-80, 2025-67, as reported by two or more firm pages that agree',
  obtained: 'secondHand',
  values: {
    2024: 16_000,
    2025: 16_500,
    2026: 17_000,
  },
  note: 'Indexed from 10,000 of 2005 (26 USC 408(p)(2)(E)); the amount before rounding is about right.',
  ahead: { 2027: 17_500 },
  after: { by: 'prices', to: 500, rounding: 'down', unrounded: 17_660 },
}

export const simpleCatchUp: Dated<number> = {
  rule: 'SIMPLE catch-up from the year of age 50',
  unit: 'dollars a year',
  source: 'IRS Notices 2023-75, 2024-80, 2025-67, as reported by two or more firm pages that agree',
  obtained: 'secondHand',
  values: {
    2024: 3500,
    2025: 3500,
    2026: 4000,
  },
  note: 'Indexed from 2,500 of 2006 (26 USC 414(v)(2)(B)(ii)).',
  ahead: { 2027: 4000 },
  after: { by: 'prices', to: 500, rounding: 'down', unrounded: 4252 },
}

export const simpleCatchUpSixties: Dated<number> = {
  rule: 'SIMPLE catch-up in the years of age 60 to 63',
  unit: 'dollars a year',
  source: 'IRS Notices 2023-75, 2024-80, 2025-67, as reported by two or more firm pages that agree',
  obtained: 'secondHand',
  note: 'Only the increase over 5,250 is rounded (26 USC 414(v)(2)(E)). The higher catch-up starts in 2025.',
  values: {
    2025: 5250,
    2026: 5250,
  },
  ahead: { 2027: 5250 },
  after: { by: 'prices', to: 500, rounding: 'down', unrounded: 5582, above: 5250 },
}

export const simpleMatch: Dated<number> = {
  rule: 'SIMPLE match by the employer, of pay or of one’s own net earnings from self-employment',
  unit: 'fraction',
  source: '26 USC 408(p)(2)(A)(iii), (B)(i), (6)(A)(ii)',
  obtained: 'memory',
  note: 'A lower match of some years, or two percent of the pay of all, is not asked about.',
  values: { 1997: 0.03 },
  after: { by: 'statute' },
}

export const simpleDeferralSmallEmployer: Dated<number> = {
  rule: 'SIMPLE deferral at an employer with up to 25 employees',
  unit: 'dollars a year',
  source: 'IRS Notices 2023-75, 2024-80, 2025-67, as reported by two or more firm pages that agree',
  obtained: 'secondHand',
  values: {
    2024: 17_600,
    2025: 17_600,
    2026: 18_100,
  },
  note: 'Only the increase over 17,600 of 2024 is rounded (26 USC 408(p)(2)(E)(i)).',
  ahead: { 2027: 18_700 },
  after: { by: 'prices', to: 100, rounding: 'down', unrounded: 18_711, above: 17_600 },
}

export const sepRate: Dated<number> = {
  rule: 'Employer contribution to a SEP or solo 401(k), part of compensation',
  unit: 'fraction',
  source: '26 USC 404(h)(1)(C), text read; 404(a)(8), 415(c); IRS Pub. 560',
  obtained: 'read',
  note: 'For the owner 0.25 ÷ 1.25 = 20 percent of net profit less half of self-employment tax.',
  values: {
    2002: 0.25,
  },
  after: { by: 'statute' },
}

export const hsaSelfOnly: Dated<number> = {
  rule: 'HSA limit, self-only cover',
  unit: 'dollars a year',
  source: 'Rev. Proc. 2023-23, 2024-25, 2025-19 (firm pages), Rev. Proc. 2026-24 (2027, text)',
  obtained: 'read',
  obtainedIn: { 2024: 'secondHand', 2025: 'secondHand', 2026: 'secondHand' },
  values: {
    2024: 4150,
    2025: 4300,
    2026: 4400,
    2027: 4500,
  },
  after: { by: 'prices', to: 50, rounding: 'nearest' },
}

export const hsaFamily: Dated<number> = {
  rule: 'HSA limit, family cover',
  unit: 'dollars a year',
  source: 'Rev. Proc. 2023-23, 2024-25, 2025-19 (firm pages), Rev. Proc. 2026-24 (2027, text)',
  obtained: 'read',
  obtainedIn: { 2024: 'secondHand', 2025: 'secondHand', 2026: 'secondHand' },
  values: {
    2024: 8300,
    2025: 8550,
    2026: 8750,
    2027: 9000,
  },
  after: { by: 'prices', to: 50, rounding: 'nearest' },
}

export const hsaCatchUp: Dated<number> = {
  rule: 'HSA catch-up from the year of age 55',
  unit: 'dollars a year',
  source: '26 USC 223(b)(3)',
  obtained: 'read',
  note: 'No contribution for months enrolled in Medicare.',
  values: {
    2009: 1000,
  },
  after: { by: 'statute' },
}

export const conversionWaitYears: Dated<number> = {
  rule: 'tax years, its own first, in which what was converted into a Roth account bears the addition when it comes out early',
  unit: 'years',
  source: '26 USC 408A(d)(3)(F)(i)(I); from memory',
  obtained: 'memory',
  values: { 1998: 5 },
  after: { by: 'statute' },
}

export const rothWaitYears: Dated<number> = {
  rule: 'tax years, the first with a contribution on, in which earnings of a person’s Roth accounts are taxed at any age',
  unit: 'years',
  source: '26 USC 408A(d)(2)(B); from memory',
  obtained: 'memory',
  values: { 1998: 5 },
  after: { by: 'statute' },
}

export const hsaAdditionRate: Dated<number> = {
  rule: 'addition on health savings that are spent on other things than care',
  unit: 'fraction of what is included in income',
  source: '26 USC 223(f)(4)(A); instructions for Form 8889 (2017), lines 17a and 17b, second hand',
  obtained: 'secondHand',
  values: { 2011: 0.2 },
  after: { by: 'statute' },
}

export const hsaFreeAge: Dated<number> = {
  rule: 'age from which health savings spent on other things bear no addition',
  unit: 'years',
  source:
    '26 USC 223(f)(4)(C) with 42 USC 1395c; instructions for Form 8889 (2017), lines 17a and 17b, second hand',
  obtained: 'secondHand',
  values: { 2004: 65 },
  after: { by: 'statute' },
}

export const bronzeAllowsHsa: Dated<number> = {
  rule: 'whether any bronze or catastrophic plan of a marketplace goes with health savings: 1 for yes',
  unit: 'yes or no',
  source: '26 USC 223(c)(2)(H), as added by Public Law 119-21, section 71307; from memory',
  obtained: 'memory',
  values: { 2004: 0, 2026: 1 },
  after: { by: 'statute' },
}

export const earlyWithdrawalAge: Dated<number> = {
  rule: 'Age from which withdrawals carry no additional tax',
  unit: 'years',
  source: '26 USC 72(t)(2)(A)(i), text read',
  obtained: 'read',
  values: {
    1987: 59.5,
  },
  after: { by: 'statute' },
}

export const distributionStartAges: Dated<number> = {
  rule: 'Age whose year is the first with a required distribution, by year of birth, from the year given on',
  unit: 'years',
  source: '26 USC 401(a)(9)(C); SECURE 2.0 sec. 107',
  obtained: 'read',
  note: 'Keyed by year of birth. Births from July 1, 1949 start at 72; earlier ones started at 70 and a half, long before these tables, and are taken as 71.',
  values: { 1900: 71, 1949: 72, 1951: 73, 1960: 75 },
  after: { by: 'statute' },
}

export const uniformLifetimeDivisors: Dated<Readonly<Record<number, number>>> = {
  rule: 'Uniform Lifetime Table: divisor by the age reached in the year; the last row is 120 and over',
  unit: 'years',
  source: 'Treas. Reg. 1.401(a)(9)-9(c), in force from 2022',
  obtained: 'read',
  note: 'Not for a sole beneficiary spouse more than ten years younger, whose joint table is not held here.',
  values: {
    2022: {
      72: 27.4,
      73: 26.5,
      74: 25.5,
      75: 24.6,
      76: 23.7,
      77: 22.9,
      78: 22,
      79: 21.1,
      80: 20.2,
      81: 19.4,
      82: 18.5,
      83: 17.7,
      84: 16.8,
      85: 16,
      86: 15.2,
      87: 14.4,
      88: 13.7,
      89: 12.9,
      90: 12.2,
      91: 11.5,
      92: 10.8,
      93: 10.1,
      94: 9.5,
      95: 8.9,
      96: 8.4,
      97: 7.8,
      98: 7.3,
      99: 6.8,
      100: 6.4,
      101: 6,
      102: 5.6,
      103: 5.2,
      104: 4.9,
      105: 4.6,
      106: 4.3,
      107: 4.1,
      108: 3.9,
      109: 3.7,
      110: 3.5,
      111: 3.4,
      112: 3.3,
      113: 3.1,
      114: 3,
      115: 2.9,
      116: 2.8,
      117: 2.7,
      118: 2.5,
      119: 2.3,
      120: 2,
    },
  },
  after: { by: 'statute' },
}

export const evenPaymentRules: Dated<{ readonly [rule: string]: number }> = {
  rule: 'Even payments: years they go on at least, the rate that is always allowed, and the share of the federal mid-term rate that is',
  unit: 'years, rate, fraction',
  source: '26 USC 72(t)(2)(A)(iv), (4); Notice 2022-6 sec. 3.02(c)',
  obtained: 'read',
  values: { 2022: { years: 5, rate: 0.05, midTermShare: 1.2 } },
  after: { by: 'statute' },
}

export const separationAge: Dated<number> = {
  rule: 'Age from whose year on a plan’s money is free of the additional tax for who leaves that employer',
  unit: 'years',
  source: '26 USC 72(t)(2)(A)(v), (3)(A)',
  obtained: 'memory',
  values: { 1987: 55 },
  after: { by: 'statute' },
}

export const missedDistributionTax: Dated<Range> = {
  rule: 'Tax on a missed required distribution; when mended in time',
  unit: 'fraction',
  source: '26 USC 4974(a), (e)(1), texts read as quoted in public text',
  obtained: 'secondHand',
  values: {
    2023: [0.25, 0.1],
  },
  after: { by: 'statute' },
}

/** Lists by filing status: single, joint, head of household, separate. */
export const saversMatchRange: Dated<readonly Range[]> = {
  rule: 'Income range over which the saver’s match ends, by filing status',
  unit: 'dollars',
  source:
    '26 USC 6433(b)(3), read in a public copy of the Code: joint 41,000 and 30,000 more; half and three quarters of both for others',
  obtained: 'secondHand',
  values: {
    2027: [
      [20_500, 35_500],
      [41_000, 71_000],
      [30_750, 53_250],
      [20_500, 35_500],
    ],
  },
  after: { by: 'prices', to: 1000, rounding: 'nearest' },
}

export const saversMatch: Dated<readonly [rate: number, contribution: number]> = {
  rule: 'Saver’s match: part of a contribution matched, and the contribution counted',
  unit: 'fraction; dollars a year',
  source: '26 USC 6433(a), (b)(1), as told in comments on Notice 2024-65; SECURE 2.0 sec. 103, P.L. 117-328',
  obtained: 'secondHand',
  note: 'Takes the place of the saver’s credit for retirement accounts from 2027; it is paid into a pre-tax account, not refunded.',
  values: { 2024: [0, 0], 2027: [0.5, 2000] },
  after: { by: 'statute' },
}
