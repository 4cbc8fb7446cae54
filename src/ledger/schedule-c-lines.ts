// Lines of Schedule C (Form 1040) that an account can have, in our own words; lines 10 to 39 from memory. Lines 3 to 5, 7 and 28 on are worked out.
// Other costs are line 48 of Part V, and not line 27, on which the form has put their sum under a and under b in turn.
import { formOfYear } from './form-editions.ts'
import { assetSales, type LineCaption } from './schedule-f-lines.ts'

export const scheduleCIncome: readonly LineCaption[] = [
  { line: '1', says: 'Sales and fees' },
  { line: '2', says: 'Returned goods and money given back', isCost: true },
  { line: '6', says: 'Other income, with fuel tax credits' },
]

/** Where income of a venture goes that is none of Schedule C. */
export const besideScheduleC: readonly LineCaption[] = [
  { line: assetSales, says: 'Machinery, vehicles, buildings and land sold (Form 4797)' },
]

export const scheduleCExpenses: readonly LineCaption[] = [
  { line: '8', says: 'Advertising' },
  { line: '9', says: 'Car and truck' },
  { line: '10', says: 'Commissions and fees' },
  { line: '11', says: 'Contract labor' },
  { line: '12', says: 'Depletion' },
  { line: '13', says: 'Depreciation and section 179' },
  { line: '14', says: 'Employee benefits, but for line 19' },
  { line: '15', says: 'Insurance, but for health' },
  { line: '16a', says: 'Mortgage interest paid to banks' },
  { line: '16b', says: 'Other interest' },
  { line: '17', says: 'Legal and professional work' },
  { line: '18', says: 'Office costs' },
  { line: '19', says: 'Pension and profit-sharing plans' },
  { line: '20a', says: 'Rent of vehicles, machinery, equipment' },
  { line: '20b', says: 'Rent of other property' },
  { line: '21', says: 'Repairs and upkeep' },
  { line: '22', says: 'Supplies' },
  { line: '23', says: 'Taxes and licenses' },
  { line: '24a', says: 'Travel' },
  { line: '24b', says: 'Meals, the part that can be deducted' },
  { line: '25', says: 'Utilities' },
  { line: '26', says: 'Wages, less employment credits' },
  { line: '36', says: 'Goods bought to sell (Part III)' },
  { line: '37', says: 'Labor on goods sold (Part III)' },
  { line: '38', says: 'Materials of goods sold (Part III)' },
  { line: '39', says: 'Other costs of goods sold (Part III)' },
  { line: '48', says: 'Other costs, listed in Part V' },
]

/** Part III: what goods sold had cost. */
export const goodsSoldLines: readonly string[] = ['36', '37', '38', '39']

/** Printed with the lines. */
export const scheduleCSource = (year: number): string =>
  `${formOfYear('Schedule C (Form 1040)', year)}, Parts I to V; line captions in our own words`

export const scheduleCUnread = 'Lines 10 to 48 are from memory.'
