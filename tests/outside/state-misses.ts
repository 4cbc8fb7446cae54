// The worked cases of the rules library that differ by more than a dollar, each with the rule that explains it. Of 504 cases 490 agree
// (97.2 percent): this program worked all of them on 2026-11-30, those of 2021 to 2023 by the rules of their years in the same form, which
// are not kept here. Of the 264 of 2024 to 2026 seven miss.
import type { StateCode } from '#rules/places/state-names.ts'

export interface StateMiss {
  state: StateCode
  year: number
  /** The file among the library’s tests of state law, and the case in it. */
  source: string
  /** What the case checks, what it expects and what these rules come to. */
  check: string
  expected: number
  here: number
  why: string
  /** A word of the rule as the state’s data names it among those left out; null where the difference is no rule of the state. */
  leftOut: string | null
}

export const stateMisses: readonly StateMiss[] = [
  {
    state: 'CA',
    year: 2021,
    source: 'ca/tax/income/credits/earned_income/ca_eitc_integration.yaml#13',
    check: 'earned income credit',
    expected: 38,
    here: 36.31,
    why: 'the state’s table of the credit goes by steps of income, the formula to the dollar',
    leftOut: 'table',
  },
  {
    state: 'CA',
    year: 2021,
    source: 'ca/tax/income/credits/earned_income/ca_eitc_integration.yaml#4',
    check: 'earned income credit',
    expected: 578,
    here: 579.87,
    why: 'the same table',
    leftOut: 'table',
  },
  {
    state: 'CA',
    year: 2021,
    source: 'ca/tax/income/credits/earned_income/ca_eitc_integration.yaml#6',
    check: 'earned income credit',
    expected: 209,
    here: 198.76,
    why: 'the same table',
    leftOut: 'table',
  },
  {
    state: 'CA',
    year: 2022,
    source: 'ca/tax/income/credits/earned_income/ca_eitc_integration.yaml#2',
    check: 'earned income credit',
    expected: 184,
    here: 163.13,
    why: 'the same table',
    leftOut: 'table',
  },
  {
    state: 'CO',
    year: 2025,
    source: 'co/tax/income/credits/eitc/co_eitc.yaml#8',
    check: 'earned income credit',
    expected: 324.5,
    here: 0,
    why: 'the state pays its credit to those of 19 to 24 without children, whom the federal one leaves out',
    leftOut: 'under 25',
  },
  {
    state: 'HI',
    year: 2021,
    source: 'hi/tax/income/exemptions/integration.yaml#1',
    check: 'exemptions',
    expected: 2288,
    here: 5720,
    why: 'the case’s three children are not claimed by the filer: it has two exemptions of 1,144, one of them for age; here five',
    leftOut: null,
  },
  {
    state: 'HI',
    year: 2021,
    source: 'hi/tax/income/integration.yaml#2',
    check: 'tax',
    expected: -485.1,
    here: -268.91,
    why: 'credits for food, excise and renters of that year, before those that are kept here',
    leftOut: null,
  },
  {
    state: 'KS',
    year: 2024,
    source: 'ks/tax/income/ks_income_tax_before_credits.yaml#3',
    check: 'tax',
    expected: 1223,
    here: 1224.18,
    why: 'the printed tax table goes by steps of 50 dollars, the schedule to the dollar',
    leftOut: null,
  },
  {
    state: 'MD',
    year: 2025,
    source: 'md/tax/income/credits/eitc/md_married_childless_age_disregard.yaml#0',
    check: 'earned income credit',
    expected: 292.05,
    here: 0,
    why: 'the state pays its credit to those under 25 without children, whom the federal one leaves out',
    leftOut: 'under 25',
  },
  {
    state: 'ME',
    year: 2026,
    source: 'me/tax/income/me_income_tax_before_credits.yaml#17',
    check: 'tax before credits',
    expected: 89_280.3,
    here: 85_280.3,
    why: 'the surcharge from 2026: 2 percent of 200,000, the part of 1,200,000 above 1,000,000',
    leftOut: 'Surcharge of 2 percent',
  },
  {
    state: 'MI',
    year: 2024,
    source: 'mi/tax/income/integration.yaml#4',
    check: 'tax',
    expected: -410,
    here: 0,
    why: 'the home heating credit of a household of two without income: half of the allowance where heat is in the rent',
    leftOut: 'Home heating credit',
  },
  {
    state: 'OH',
    year: 2026,
    source: 'oh/tax/income/integration_2025.yaml#8',
    check: 'tax',
    expected: 329.18,
    here: 333.63,
    why: 'the case moves the two exemptions of 2,400 with prices, to 2,480.91 each (R.C. 5747.025(C)); they stand still through 2026, as here',
    leftOut: null,
  },
  {
    state: 'VA',
    year: 2023,
    source: 'va/tax/income/integration.yaml#7',
    check: 'tax',
    expected: 7718,
    here: 7719.58,
    why: 'the printed tax table goes by steps of income, the schedule to the dollar',
    leftOut: null,
  },
  {
    state: 'WA',
    year: 2024,
    source: 'wa/tax/income/credits/wa_working_families_tax_credit.yaml#17',
    check: 'credit paid out',
    expected: 640,
    here: 0,
    why: 'the working families’ credit for who files separately, whom the federal credit leaves out',
    leftOut: 'separate',
  },
]
