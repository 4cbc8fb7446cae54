// Facts of what a farm or venture may deduct, and of the papers it owes to those it paid.
import type { Dated } from '../dated.ts'

export const conservationShare: Dated<number> = {
  rule: 'Most of the year’s gross income from farming that soil and water conservation may take off',
  unit: 'fraction of gross income from farming',
  source: '26 USC 175(b); IRS Pub. 225, Soil and water conservation',
  obtained: 'memory',
  note: 'What is more is deducted in later years, under the same limit.',
  values: { 1954: 0.25 },
  after: { by: 'statute' },
}

export const prepaidSuppliesShare: Dated<number> = {
  rule: 'Most of the other deductible farm expenses that supplies paid ahead may take off',
  unit: 'fraction of the other deductible farm expenses',
  source: '26 USC 464 (its paragraph (f) before 2018); IRS Pub. 225, Prepaid farm supplies',
  obtained: 'read',
  note: 'Read in Pub. 225 of 2000 and 2001; the rest is deducted in the year of use.',
  values: { 1986: 0.5 },
  after: { by: 'statute' },
}

export const startUpDeduction: Dated<{
  readonly atOnce: number
  readonly over: number
  readonly months: number
}> = {
  rule: 'Deduction of start-up costs: at once in the year the business begins, what they are over that lowers it, months for the rest',
  unit: 'dollars, dollars, months from the one it begins in',
  source: '26 USC 195(b)(1)',
  obtained: 'read',
  note: 'Interest, taxes and research are none (195(c)(1)). 2010 had other amounts (195(b)(3)).',
  values: { 2011: { atOnce: 5000, over: 50_000, months: 180 } },
  after: { by: 'statute' },
}

export const standardMileageRate: Dated<number> = {
  rule: 'Standard mileage rate for business miles of a car, van, pickup or panel truck',
  unit: 'dollars a mile',
  source:
    'IRS Notice 2026-10 (2026 and 2025), read in texts that tell of it; Notice 2024-08 (2024) from memory; Rev. Proc. 2019-46',
  obtained: 'secondHand',
  obtainedIn: { 2024: 'memory' },
  values: { 2024: 0.67, 2025: 0.7, 2026: 0.725 },
  after: { by: 'held' },
}

/** Excise tax that comes back on fuel used on a farm for farming; dyed diesel was never taxed. */
export const farmFuelCredit: Dated<{ readonly gasoline: number; readonly diesel: number }> = {
  rule: 'Credit for tax on fuel used on a farm for farming (Form 4136)',
  unit: 'dollars a gallon of gasoline and of undyed diesel',
  source: '26 USC 34, 6420, 6427(l); Form 4136 lines 1b and 3b',
  obtained: 'memory',
  values: { 2006: { gasoline: 0.183, diesel: 0.243 } },
  after: { by: 'statute' },
}

/** For business use of the home by area; a month with fewer days of it counts as none. */
export const homeOfficeByArea: Dated<{
  readonly perSquareFoot: number
  readonly mostSquareFeet: number
  readonly fewestDays: number
}> = {
  rule: 'Business use of the home by its area',
  unit: 'dollars a square foot; square feet at most; days a month at least',
  source: 'Rev. Proc. 2013-13, sec. 4.08 for the months; IRS Pub. 587',
  obtained: 'memory',
  values: { 2013: { perSquareFoot: 5, mostSquareFeet: 300, fewestDays: 15 } },
  after: { by: 'statute' },
}

export const informationReturnLine: Dated<number> = {
  rule: 'Paid in a year to one who is no corporation, for work or rent: from here on a Form 1099 is due',
  unit: 'dollars a year for each payee',
  source: '26 USC 6041(a), 6041A(a) as changed by P.L. 119-21 sec. 70433, read in texts that tell of it',
  obtained: 'secondHand',
  values: {
    2018: 600,
    2019: 600,
    2020: 600,
    2021: 600,
    2022: 600,
    2023: 600,
    2024: 600,
    2025: 600,
    2026: 2000,
  },
  after: { by: 'prices', to: 100, rounding: 'nearest', unrounded: 2000 },
}

/** Each of worker and employer pays them. */
export const payrollTaxRates: Dated<{ readonly socialSecurity: number; readonly medicare: number }> = {
  rule: 'Social Security and Medicare on wages, of the worker and of the employer alike',
  unit: 'fraction of wages',
  source: '26 USC 3101, 3111; IRS Pub. 51 (rev. 1/2003), in a copy',
  obtained: 'secondHand',
  values: { 1990: { socialSecurity: 0.062, medicare: 0.0145 } },
  after: { by: 'statute' },
}

export const qualifiedUseShare: Dated<number> = {
  rule: 'Business use of listed property that must be exceeded for more than straight line',
  unit: 'fraction of all use',
  source: '26 USC 280F(b)(3); IRS Pub. 946, chapter 5',
  obtained: 'memory',
  values: { 1987: 0.5 },
  after: { by: 'statute' },
}
