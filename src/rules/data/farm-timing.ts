// Facts of estimated tax for farmers and others, and of holding periods of breeding stock.
import type { Dated } from '../dated.ts'

export const farmerShareOfGrossIncome: Dated<number> = {
  rule: 'Part of gross income from farming that makes a farmer’s year, this year or last',
  unit: 'fraction',
  source: 'IRS Topic 416; 26 USC 6654(i)(2)',
  obtained: 'read',
  values: {
    1985: 2 / 3,
  },
  after: { by: 'statute' },
}

/** Required payment: part of this year’s tax (farmer, others), part of last year’s (usual, after a year of high income), and the income over which it is high. */
export const requiredPaymentShares: Dated<{ readonly [part: string]: number }> = {
  rule: 'Required estimated payment',
  unit: 'fraction of tax; dollars',
  source: '26 USC 6654(d)(1)(B) and (C), (e)(1), (i)(1)(C), texts read',
  obtained: 'read',
  note: 'The income line is half of this for married people who file separately (6654(d)(1)(C)(ii)).',
  values: {
    2002: {
      farmerThisYear: 2 / 3,
      othersThisYear: 0.9,
      lastYear: 1,
      lastYearHighIncome: 1.1,
      highIncomeOver: 150_000,
      nothingUnder: 1000,
    },
  },
  after: { by: 'statute' },
}

/** From the end of the first year in which any of the gain came. */
export const weatherReplacementYears: Dated<{ readonly usual: number; readonly declaredArea: number }> = {
  rule: 'Years to buy stock in the place of draft, breeding or dairy stock sold because of drought, flood or other weather',
  unit: 'years after the year of the gain',
  source: '26 USC 1033(a)(2)(B)(i), (e)(2)(A); IRS Pub. 225, chapter 11, weather-related sales of livestock',
  obtained: 'memory',
  note: 'The IRS may make the four years longer for a drought that goes on (26 USC 1033(e)(2)(B)).',
  values: { 2003: { usual: 2, declaredArea: 4 } },
  after: { by: 'statute' },
}

/** 0 where the animal never qualifies. */
export const stockHoldingMonths: Dated<{ readonly [species: string]: number }> = {
  rule: 'Months breeding, dairy, draft or sporting stock must be held for a section 1231 gain',
  unit: 'months (0: never qualifies)',
  source: '26 USC 1231(b)(3); 26 CFR 1.1231-2',
  obtained: 'read',
  values: {
    1970: { cattle: 24, horses: 24, sheep: 12, goats: 12, hogs: 12, 'other-mammals': 12, poultry: 0 },
  },
  after: { by: 'statute' },
}
