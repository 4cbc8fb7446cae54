// Federal income tax: rates, deductions, gains, minimum tax. Lists by filing status: single, joint, head of household, separate.
import type { Dated } from '../dated.ts'

const libraries = 'read in two open rules libraries that agree and cite the yearly revenue procedure'
const proc2024 = 'Rev. Proc. 2023-34'
const proc2025 = 'Rev. Proc. 2024-40, as changed by P.L. 119-21 and Rev. Proc. 2025-32 sec. 3'
const proc2026 = 'Rev. Proc. 2025-32 sec. 4'
const yearly = `2024 ${proc2024}, 2025 ${proc2025} (${libraries}); 2026 ${proc2026}, text read`

export const ordinaryRates: Dated<readonly number[]> = {
  rule: 'income tax rates',
  unit: 'fraction of taxable income',
  source: '26 USC 1(j), made permanent by P.L. 119-21 sec. 70101',
  obtained: 'read',
  values: { 2023: [0.1, 0.12, 0.22, 0.24, 0.32, 0.35, 0.37] },
  after: { by: 'statute' },
}

export const ordinaryStarts: Dated<readonly (readonly number[])[]> = {
  rule: 'income tax brackets',
  unit: 'dollars of taxable income at which each rate starts',
  source: `26 USC 1(j); ${yearly}`,
  obtained: 'read',
  obtainedIn: { 2023: 'memory' },
  values: {
    2023: [
      [0, 11000, 44725, 95375, 182100, 231250, 578125],
      [0, 22000, 89450, 190750, 364200, 462500, 693750],
      [0, 15700, 59850, 95350, 182100, 231250, 578100],
      [0, 11000, 44725, 95375, 182100, 231250, 346875],
    ],
    2024: [
      [0, 11600, 47150, 100525, 191950, 243725, 609350],
      [0, 23200, 94300, 201050, 383900, 487450, 731200],
      [0, 16550, 63100, 100500, 191950, 243700, 609350],
      [0, 11600, 47150, 100525, 191950, 243725, 365600],
    ],
    2025: [
      [0, 11925, 48475, 103350, 197300, 250525, 626350],
      [0, 23850, 96950, 206700, 394600, 501050, 751600],
      [0, 17000, 64850, 103350, 197300, 250500, 626350],
      [0, 11925, 48475, 103350, 197300, 250525, 375800],
    ],
    2026: [
      [0, 12400, 50400, 105700, 201775, 256225, 640600],
      [0, 24800, 100800, 211400, 403550, 512450, 768700],
      [0, 17700, 67450, 105700, 201750, 256200, 640600],
      [0, 12400, 50400, 105700, 201775, 256225, 384350],
    ],
  },
  ahead: {
    2027: [
      [0, 12800, 52025, 109125, 208325, 264550, 661400],
      [0, 25600, 104050, 218250, 416650, 529100, 793650],
      [0, 18250, 69650, 109100, 208300, 264550, 661400],
      [0, 12800, 52025, 109125, 208325, 264550, 396825],
    ],
  },
  after: {
    by: 'prices',
    to: [25, 50, 50, 25],
    rounding: 'down',
    unrounded: [
      [0, 12809.03, 52042.99, 109131.17, 208341.32, 264560.4, 661401],
      [0, 25618.06, 104085.97, 218262.33, 416682.63, 529120.8, 793681.2],
      [0, 18289.01, 69659.6, 109131.17, 208341.32, 264560.4, 661401],
      [0, 12809.03, 52042.99, 109131.17, 208341.32, 264560.4, 396840.6],
    ],
  },
  note: 'Base amounts of 2018 (26 USC 1(j)(2)): the bands of 10 and 12 % from prices of 2016, the others of 2017 (P.L. 119-21 sec. 70101). 26 USC 1(f)(7) rounds down; the steps of 25 and 50 dollars by status are those of the published schedules. 2023 is held for averaging farm income alone (Rev. Proc. 2022-38).',
}

export const standardDeduction: Dated<readonly number[]> = {
  rule: 'standard deduction',
  unit: 'dollars a year',
  source: `26 USC 63(c); 2024 ${proc2024} (${libraries}); 2025 Rev. Proc. 2025-32 sec. 3.01; 2026 sec. 4.14, text read`,
  obtained: 'read',
  values: {
    2024: [14600, 29200, 21900, 14600],
    2025: [15750, 31500, 23625, 15750],
    2026: [16100, 32200, 24150, 16100],
  },
  ahead: { 2027: [16600, 33200, 24950, 16600] },
  note: 'Indexed from 15,750 and 23,625 of 2025 (26 USC 63(c)(7)); a joint return has twice the single amount, so it moves by 100.',
  after: {
    by: 'prices',
    to: [50, 100, 50, 50],
    rounding: 'down',
    unrounded: [16637.67, 33275.34, 24956.5, 16637.67],
  },
}

export const agedOrBlindAddition: Dated<readonly number[]> = {
  rule: 'addition to the standard deduction for age 65 or blindness, each',
  unit: 'dollars a year',
  source: `26 USC 63(f); ${yearly}`,
  obtained: 'read',
  values: {
    2024: [1950, 1550, 1950, 1550],
    2025: [2000, 1600, 2000, 1600],
    2026: [2050, 1650, 2050, 1650],
  },
  ahead: { 2027: [2100, 1700, 2100, 1700] },
  note: 'Indexed from 600 and 750 of 1988 (26 USC 63(f)); the amounts before rounding are the middle of what all published years allow.',
  after: { by: 'prices', to: 50, rounding: 'down', unrounded: [2139.75, 1711.8, 2139.75, 1711.8] },
}

export const seniorDeduction: Dated<number> = {
  rule: 'senior deduction for each person 65 or older',
  unit: 'dollars a year',
  source: '26 USC 151(d)(5)(C), P.L. 119-21 sec. 70103; Schedule 1-A Part V',
  obtained: 'read',
  values: { 2024: 0, 2025: 6000, 2026: 6000, 2027: 6000, 2028: 6000, 2029: 0 },
  after: { by: 'statute' },
  note: 'In force 2025 to 2028, not indexed; married people must file jointly.',
}

export const seniorPhaseOutRate: Dated<number> = {
  rule: 'phase-out of the senior deduction',
  unit: 'fraction of income above the threshold, taken from each person’s deduction',
  source: '26 USC 151(d)(5)(C)(iii), Schedule 1-A lines 31-37',
  obtained: 'read',
  values: { 2024: 0.06 },
  after: { by: 'statute' },
}

export const seniorPhaseOutFrom: Dated<readonly number[]> = {
  rule: 'income at which the senior deduction starts to shrink',
  unit: 'dollars of modified adjusted gross income',
  source: '26 USC 151(d)(5)(C)(iii)',
  obtained: 'read',
  values: { 2024: [75000, 150000, 75000, 75000] },
  after: { by: 'statute' },
}

export const survivingSpouseYears: Dated<number> = {
  rule: 'years after a spouse’s death with the rates of a joint return, while a child is in the household',
  unit: 'years',
  source: '26 USC 2(a)(1)',
  obtained: 'memory',
  values: { 2024: 2 },
  after: { by: 'statute' },
}

export const gainRates: Dated<readonly number[]> = {
  rule: 'rates on long-term gains and qualified dividends',
  unit: 'fraction',
  source: '26 USC 1(h)',
  obtained: 'read',
  values: { 2023: [0, 0.15, 0.2] },
  after: { by: 'statute' },
}

export const gainZeroMax: Dated<readonly number[]> = {
  rule: 'taxable income up to which gains are taxed at 0 %',
  unit: 'dollars of taxable income',
  source: `26 USC 1(h), 1(j)(5); ${yearly}`,
  obtained: 'read',
  obtainedIn: { 2023: 'memory' },
  values: {
    2023: [44625, 89250, 59750, 44625],
    2024: [47025, 94050, 63000, 47025],
    2025: [48350, 96700, 64750, 48350],
    2026: [49450, 98900, 66200, 49450],
  },
  ahead: { 2027: [51050, 102100, 68350, 51050] },
  after: { by: 'prices', to: 50, rounding: 'down', unrounded: [51060.16, 102120.31, 68388.86, 51060.16] },
}

export const gainFifteenMax: Dated<readonly number[]> = {
  rule: 'taxable income up to which gains are taxed at 15 %',
  unit: 'dollars of taxable income',
  source: `26 USC 1(h), 1(j)(5); ${yearly}`,
  obtained: 'read',
  obtainedIn: { 2023: 'memory' },
  values: {
    2023: [492300, 553850, 523050, 276900],
    2024: [518900, 583750, 551350, 291850],
    2025: [533400, 600050, 566700, 300000],
    2026: [545500, 613700, 579600, 306850],
  },
  ahead: { 2027: [563200, 633600, 598400, 316800] },
  after: { by: 'prices', to: 50, rounding: 'down', unrounded: [563249.09, 633622.16, 598435.62, 316811.08] },
}

export const capitalLossLimit: Dated<readonly number[]> = {
  rule: 'net capital loss allowed against other income',
  unit: 'dollars a year',
  source: '26 USC 1211(b)',
  obtained: 'read',
  values: { 2024: [3000, 3000, 3000, 1500] },
  after: { by: 'statute' },
}

export const businessLossLimit: Dated<readonly number[]> = {
  rule: 'net business loss allowed against other income',
  unit: 'dollars a year',
  source: `26 USC 461(l); 2024 and 2025 read in an open rules library; 2026 Rev. Proc. 2025-32 sec. 4.31, text read`,
  obtained: 'read',
  obtainedIn: { 2024: 'secondHand', 2025: 'secondHand' },
  values: {
    2024: [305000, 610000, 305000, 305000],
    2025: [313000, 626000, 313000, 313000],
    2026: [256000, 512000, 256000, 256000],
  },
  ahead: { 2027: [264000, 528000, 264000, 264000] },
  note: 'Indexed from 250,000 of 2025 again (26 USC 461(l)(3)(C) as changed by P.L. 119-21 sec. 70601); joint is twice the amount.',
  after: {
    by: 'prices',
    to: [1000, 2000, 1000, 1000],
    rounding: 'nearest',
    unrounded: [264090, 528180, 264090, 264090],
  },
}

export const netOperatingLossShare: Dated<number> = {
  rule: 'net operating losses of other years, at most',
  unit: 'fraction of taxable income before them and before the qualified business deduction',
  source: '26 USC 172(a)(2)(B)(ii), for losses that arose from 2018',
  obtained: 'memory',
  values: { 2024: 0.8 },
  after: { by: 'statute' },
}

export const farmLossYearsBack: Dated<number> = {
  rule: 'years a farming loss may be carried back',
  unit: 'years',
  source: '26 USC 172(b)(1)(B)',
  obtained: 'memory',
  values: { 2021: 2 },
  after: { by: 'statute' },
}

export const minimumTaxExemption: Dated<readonly number[]> = {
  rule: 'alternative minimum tax exemption',
  unit: 'dollars a year',
  source: `26 USC 55(d); 2024 and 2025 read in an open rules library that cites ${proc2024} and Rev. Proc. 2024-40; 2026 Rev. Proc. 2025-32 sec. 4.10, text read`,
  obtained: 'read',
  obtainedIn: { 2024: 'secondHand', 2025: 'secondHand' },
  values: {
    2024: [85700, 133300, 85700, 66650],
    2025: [88100, 137000, 88100, 68500],
    2026: [90100, 140200, 90100, 70100],
  },
  ahead: { 2027: [93000, 144700, 93000, 72400] },
  after: { by: 'prices', to: 100, rounding: 'nearest', unrounded: [92992.98, 144714.54, 92992.98, 72357.27] },
}

export const minimumTaxPhaseOutFrom: Dated<readonly number[]> = {
  rule: 'income at which the alternative minimum tax exemption starts to shrink',
  unit: 'dollars of alternative minimum taxable income',
  source: `26 USC 55(d)(2); 2024 and 2025 read in an open rules library that cites ${proc2024} and Rev. Proc. 2024-40; 2026 Rev. Proc. 2025-32 sec. 4.10, text read`,
  obtained: 'read',
  obtainedIn: { 2024: 'secondHand', 2025: 'secondHand' },
  values: {
    2024: [609350, 1218700, 609350, 609350],
    2025: [626350, 1252700, 626350, 626350],
    2026: [500000, 1000000, 500000, 500000],
  },
  ahead: { 2027: [516200, 1032400, 516200, 516200] },
  after: {
    by: 'prices',
    to: [50, 100, 50, 50],
    rounding: 'nearest',
    unrounded: [516220, 1032440, 516220, 516220],
  },
}

export const minimumTaxPhaseOutRate: Dated<number> = {
  rule: 'phase-out of the alternative minimum tax exemption',
  unit: 'fraction of income above the threshold',
  source: '26 USC 55(d)(2), P.L. 119-21 sec. 70107',
  obtained: 'read',
  values: { 2024: 0.25, 2025: 0.25, 2026: 0.5 },
  after: { by: 'statute' },
}

export const minimumTaxRates: Dated<readonly number[]> = {
  rule: 'alternative minimum tax rates',
  unit: 'fraction',
  source: '26 USC 55(b)(1)(A), text read',
  obtained: 'read',
  values: { 2024: [0.26, 0.28] },
  after: { by: 'statute' },
}

export const minimumTaxUpperFrom: Dated<readonly number[]> = {
  rule: 'income at which the 28 % minimum tax rate starts',
  unit: 'dollars of alternative minimum taxable income above the exemption',
  source: `26 USC 55(b)(1); 2024 and 2025 read in a tax publisher’s page, 2024 also in an open rules library (${proc2024}, Rev. Proc. 2024-40); 2026 Rev. Proc. 2025-32 sec. 4.10, text read`,
  obtained: 'read',
  obtainedIn: { 2024: 'secondHand', 2025: 'secondHand' },
  values: {
    2024: [232600, 232600, 232600, 116300],
    2025: [239100, 239100, 239100, 119550],
    2026: [244500, 244500, 244500, 122250],
  },
  ahead: { 2027: [252500, 252500, 252500, 126250] },
  note: 'To the nearest 100 (26 USC 55(d)(4)(B)); separate returns have half.',
  after: {
    by: 'prices',
    to: [100, 100, 100, 50],
    rounding: 'nearest',
    unrounded: [252466, 252466, 252466, 126233],
  },
}

export const investmentTaxRate: Dated<number> = {
  rule: 'net investment income tax rate',
  unit: 'fraction',
  source: '26 USC 1411(a)',
  obtained: 'read',
  values: { 2024: 0.038 },
  after: { by: 'statute' },
}

export const investmentTaxFrom: Dated<readonly number[]> = {
  rule: 'income above which the net investment income tax applies',
  unit: 'dollars of modified adjusted gross income',
  source: '26 USC 1411(b), not indexed',
  obtained: 'read',
  values: { 2024: [200000, 250000, 200000, 125000] },
  after: { by: 'statute' },
}

export const benefitsBase: Dated<readonly number[]> = {
  rule: 'income above which half of Social Security benefits are taxed',
  unit: 'dollars of adjusted gross income, tax-exempt interest and half of benefits',
  source: '26 USC 86(c)(1), not indexed; separate: living with the spouse at any time of the year',
  obtained: 'read',
  values: { 2024: [25000, 32000, 25000, 0] },
  after: { by: 'statute' },
}

export const benefitsUpperBase: Dated<readonly number[]> = {
  rule: 'income above which 85 % of Social Security benefits are taxed',
  unit: 'dollars of adjusted gross income, tax-exempt interest and half of benefits',
  source: '26 USC 86(c)(2), not indexed; separate: living with the spouse at any time of the year',
  obtained: 'read',
  values: { 2024: [34000, 44000, 34000, 0] },
  after: { by: 'statute' },
}

export const benefitsShares: Dated<readonly [lower: number, upper: number]> = {
  rule: 'parts of Social Security benefits that are taxed between the two incomes and above the upper one, at most',
  unit: 'fraction',
  source: '26 USC 86(a)(1) and (2)',
  obtained: 'read',
  values: { 2024: [0.5, 0.85] },
  after: { by: 'statute' },
}

export const earlyWithdrawalRate: Dated<number> = {
  rule: 'addition for early withdrawals from retirement accounts',
  unit: 'fraction of the amount withdrawn before 59½ without an exception',
  source: '26 USC 72(t)(1), text read',
  obtained: 'read',
  values: { 2024: 0.1 },
  after: { by: 'statute' },
}
