// Facts of depreciation for farm property: recovery periods, printed percentages, section 179, bonus depreciation.
import type { Dated } from '../dated.ts'

export type FarmAssetClass =
  | 'machinery-new'
  | 'machinery-used'
  | 'fence-or-grain-bin'
  | 'cotton-ginning'
  | 'single-purpose-structure'
  | 'orchard-or-vineyard'
  | 'farm-building'
  | 'land-improvement'
  | 'cattle'
  | 'hogs'
  | 'sheep-or-goats'
  | 'horses-to-12-years'
  | 'horses-over-12-years'
  | 'vehicle'
  | 'suv'
  | 'pickup'
  | 'heavy-truck-or-trailer'
  | 'road-tractor'
  | 'computer'
  | 'tenant-house'

/** General and alternative recovery years, by the year placed in service, from the year given on. */
export const recoveryYears: Dated<
  Readonly<Record<FarmAssetClass, readonly [general: number, alternative: number]>>
> = {
  rule: 'Recovery periods of farm property, general and alternative system',
  unit: 'years',
  source: 'IRS Pub. 946 (2025) appendix B, Rev. Proc. 87-56; Form 4562 instructions; 26 USC 168(e)',
  obtained: 'read',
  note: 'From memory: trees and vines, tenant houses, alternative years of cars and light trucks, and the periods before 2018.',
  values: {
    1989: {
      'machinery-new': [7, 10],
      'machinery-used': [7, 10],
      'fence-or-grain-bin': [7, 10],
      'cotton-ginning': [7, 12],
      'single-purpose-structure': [10, 15],
      'orchard-or-vineyard': [10, 20],
      'farm-building': [20, 25],
      'land-improvement': [15, 20],
      cattle: [5, 7],
      hogs: [3, 3],
      'sheep-or-goats': [5, 5],
      'horses-to-12-years': [7, 10],
      'horses-over-12-years': [3, 10],
      vehicle: [5, 5],
      suv: [5, 5],
      pickup: [5, 5],
      'heavy-truck-or-trailer': [5, 6],
      'road-tractor': [3, 4],
      computer: [5, 5],
      'tenant-house': [27.5, 30],
    },
    2018: {
      'machinery-new': [5, 10],
      'machinery-used': [7, 10],
      'fence-or-grain-bin': [7, 10],
      'cotton-ginning': [7, 12],
      'single-purpose-structure': [10, 15],
      'orchard-or-vineyard': [10, 20],
      'farm-building': [20, 25],
      'land-improvement': [15, 20],
      cattle: [5, 7],
      hogs: [3, 3],
      'sheep-or-goats': [5, 5],
      'horses-to-12-years': [7, 10],
      'horses-over-12-years': [3, 10],
      vehicle: [5, 5],
      suv: [5, 5],
      pickup: [5, 5],
      'heavy-truck-or-trailer': [5, 6],
      'road-tractor': [3, 4],
      computer: [5, 5],
      'tenant-house': [27.5, 30],
    },
  },
  after: { by: 'statute' },
}

export const decliningBalancePercent: Dated<number> = {
  rule: 'Declining-balance percentage of 3- to 10-year farm property, by the year placed in service',
  unit: 'percent',
  source: '26 USC 168(b)(2); Form 4562 instructions',
  obtained: 'read',
  obtainedIn: { 1989: 'memory' },
  note: '15- and 20-year property is always written off at 150 percent.',
  values: {
    1989: 150,
    2018: 200,
  },
  after: { by: 'statute' },
}

export const doubleDecliningHalfYear: Dated<Readonly<Record<number, readonly number[]>>> = {
  rule: '200 percent declining balance, half-year, percent of basis by year',
  unit: 'percent of basis',
  source: 'IRS Pub. 946 tables A-1 and A-14; Rev. Proc. 87-57',
  obtained: 'read',
  values: {
    1989: {
      3: [33.33, 44.45, 14.81, 7.41],
      5: [20, 32, 19.2, 11.52, 11.52, 5.76],
      7: [14.29, 24.49, 17.49, 12.49, 8.93, 8.92, 8.93, 4.46],
      10: [10, 18, 14.4, 11.52, 9.22, 7.37, 6.55, 6.55, 6.56, 6.55, 3.28],
    },
  },
  after: { by: 'statute' },
}

export const onePointFiveDecliningHalfYear: Dated<Readonly<Record<number, readonly number[]>>> = {
  rule: '150 percent declining balance, half-year, percent of basis by year',
  unit: 'percent of basis',
  source: 'IRS Pub. 946 tables A-1 and A-14; Rev. Proc. 87-57',
  obtained: 'read',
  values: {
    1989: {
      3: [25, 37.5, 25, 12.5],
      5: [15, 25.5, 17.85, 16.66, 16.66, 8.33],
      7: [10.71, 19.13, 15.03, 12.25, 12.25, 12.25, 12.25, 6.13],
      10: [7.5, 13.88, 11.79, 10.02, 8.74, 8.74, 8.74, 8.74, 8.74, 8.74, 4.37],
      15: [5, 9.5, 8.55, 7.7, 6.93, 6.23, 5.9, 5.9, 5.91, 5.9, 5.91, 5.9, 5.91, 5.9, 5.91, 2.95],
      20: [
        3.75, 7.219, 6.677, 6.177, 5.713, 5.285, 4.888, 4.522, 4.462, 4.461, 4.462, 4.461, 4.462, 4.461,
        4.462, 4.461, 4.462, 4.461, 4.462, 4.461, 2.231,
      ],
    },
  },
  after: { by: 'statute' },
}

export const section179Limit: Dated<number> = {
  rule: 'Most that may be deducted at once under section 179',
  unit: 'dollars a year',
  source:
    'Rev. Proc. 2025-32 sec. 3.02 and 4.24 (2025, 2026); Rev. Proc. 2023-34 sec. 3.25 (2024), read in texts that cite it; 26 USC 179(b)',
  obtained: 'read',
  values: {
    2024: 1_220_000,
    2025: 2_500_000,
    2026: 2_560_000,
  },
  note: 'Indexed from 2,500,000 of 2025 (26 USC 179(b)(6)).',
  ahead: { 2027: 2_640_000 },
  after: { by: 'prices', to: 10000, rounding: 'nearest', unrounded: 2_640_900 },
}

export const section179PhaseOut: Dated<number> = {
  rule: 'Qualifying purchases over which the section 179 limit shrinks, dollar for dollar',
  unit: 'dollars a year',
  source:
    'Rev. Proc. 2025-32 sec. 3.02 and 4.24 (2025, 2026); Rev. Proc. 2023-34 sec. 3.25 (2024), read in texts that cite it; 26 USC 179(b)',
  obtained: 'read',
  values: {
    2024: 3_050_000,
    2025: 4_000_000,
    2026: 4_090_000,
  },
  note: 'Indexed from 4,000,000 of 2025 (26 USC 179(b)(6)).',
  ahead: { 2027: 4_230_000 },
  after: { by: 'prices', to: 10000, rounding: 'nearest', unrounded: 4_225_440 },
}

export const section179SuvCap: Dated<number> = {
  rule: 'Most of a sport utility vehicle that may be deducted under section 179',
  unit: 'dollars',
  source:
    'Rev. Proc. 2025-32 sec. 3.02 and 4.24 (2025, 2026); Rev. Proc. 2023-34 sec. 3.25 (2024) and Rev. Proc. 2024-40 (2025), read in texts that quote them; 26 USC 179(b)(5)',
  obtained: 'read',
  obtainedIn: {
    2018: 'memory',
    2019: 'memory',
    2020: 'memory',
    2021: 'memory',
    2022: 'memory',
    2023: 'memory',
  },
  values: {
    2018: 25_000,
    2019: 25_500,
    2020: 25_900,
    2021: 26_200,
    2022: 27_000,
    2023: 28_900,
    2024: 30_500,
    2025: 31_300,
    2026: 32_000,
  },
  note: 'Indexed from 25,000 of 2018 (26 USC 179(b)(5), (6)).',
  ahead: { 2027: 33_100 },
  after: { by: 'prices', to: 100, rounding: 'nearest', unrounded: 33_070.05 },
}

/** By the year placed in service, for that car's first, second, third and each later year; the first year with bonus apart. */
export const passengerCarLimits: Dated<{
  readonly withBonus: number
  readonly first: number
  readonly second: number
  readonly third: number
  readonly later: number
}> = {
  rule: 'Most that may be deducted for a passenger car, or a truck or van up to 6,000 pounds, in a year',
  unit: 'dollars a year',
  source:
    '26 USC 280F(a)(1), (d)(5), (7); Rev. Proc. 2026-15 (2026), read in an accounting firm’s page that prints both tables; Rev. Proc. 2018-25 to 2025-16 for the years before',
  obtained: 'memory',
  obtainedIn: { 2026: 'read' },
  values: {
    2018: { withBonus: 18_000, first: 10_000, second: 16_000, third: 9600, later: 5760 },
    2019: { withBonus: 18_100, first: 10_100, second: 16_100, third: 9700, later: 5760 },
    2020: { withBonus: 18_100, first: 10_100, second: 16_100, third: 9700, later: 5760 },
    2021: { withBonus: 18_200, first: 10_200, second: 16_400, third: 9800, later: 5860 },
    2022: { withBonus: 19_200, first: 11_200, second: 18_000, third: 10_800, later: 6460 },
    2023: { withBonus: 20_200, first: 12_200, second: 19_500, third: 11_700, later: 6960 },
    2024: { withBonus: 20_400, first: 12_400, second: 19_800, third: 11_900, later: 7160 },
    2025: { withBonus: 20_200, first: 12_200, second: 19_600, third: 11_800, later: 7060 },
    2026: { withBonus: 20_300, first: 12_300, second: 19_800, third: 11_900, later: 7160 },
  },
  after: { by: 'held' },
  note: 'They follow the price of new vehicles, which no general price level tells: the last table is kept.',
}

export const bonusPercentEarlierPurchases: Dated<number> = {
  rule: 'Bonus depreciation by the year placed in service, property acquired before January 20, 2025',
  unit: 'percent of basis',
  source:
    '26 USC 168(k)(6)(A) as it stood before P.L. 119-21: 100 percent before 2023, then 20 points less each year, read in public texts that cite it and in the federal program inventory',
  obtained: 'secondHand',
  values: {
    2018: 100,
    2019: 100,
    2020: 100,
    2021: 100,
    2022: 100,
    2023: 80,
    2024: 60,
    2025: 40,
    2026: 20,
    2027: 0,
  },
  after: { by: 'statute' },
}

export const bonusPercentSince: Dated<number> = {
  rule: 'Bonus depreciation, property acquired after January 19, 2025',
  unit: 'percent of basis',
  source: '26 USC 168(k) as changed by P.L. 119-21 sec. 70301, read in public texts that cite it',
  obtained: 'secondHand',
  values: {
    2025: 100,
  },
  after: { by: 'statute' },
}
