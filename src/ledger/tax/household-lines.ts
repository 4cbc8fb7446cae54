// Lines of the household's own return that its income accounts can have; pay and interest find theirs by what the account is for.
import { formOfYear } from '../form-editions.ts'
import type { LineCaption } from '../schedule-f-lines.ts'

export const householdForm = 'Form 1040'

/** Printed with the lines. From memory. */
export const householdLinesSource = (year: number): string =>
  `${formOfYear('Form 1040 and Schedule 1', year)}, irs.gov: lines 1a to 6b and Schedule 1 lines 7 and 8, in our own words`

/** Chosen for money that no tax knows, so that it is told as left out and not asked about. */
export const notTaxed = 'none'

export const householdIncomeLines: readonly LineCaption[] = [
  { line: '2a', says: 'Interest that is not taxed' },
  { line: '2b', says: 'Interest' },
  { line: '3a', says: 'Dividends taxed as long-term gains (qualified)' },
  { line: '3b', says: 'Other dividends' },
  { line: '4b', says: 'Taken from IRAs, all of it taxed' },
  { line: '5b', says: 'Pensions and annuities, all of it taxed' },
  { line: '6a', says: 'Social Security benefits' },
  { line: 'S1-7', says: 'Unemployment pay (Schedule 1)' },
  { line: 'S1-8', says: 'Other taxed income (Schedule 1)' },
  { line: notTaxed, says: 'Not taxed: gifts, inheritances, aid by need, money given back' },
]
