// Lines of Schedule F (Form 1040) in our own words, by the numbering of 2011 and later forms.
import { formOfYear } from './form-editions.ts'

export interface LineCaption {
  line: string
  says: string
  /** Stands among the form's income, but is money spent: what goods sold had cost. */
  isCost?: true
}

/** Printed with the lines. */
export const scheduleFSource = (year: number): string =>
  `${formOfYear('Schedule F (Form 1040)', year)}, lines 1a to 34; line captions in our own words`

export const scheduleFUnread =
  'Lines 8, 9, 33, 34 and those of a vehicle (Form 4562, Part V) are from memory.'

/** Part I, cash method. Lines 1c, 3b, 4b, 5c, 6b and 9 are worked out. */
export const scheduleFIncome: readonly LineCaption[] = [
  { line: '1a', says: 'Livestock and other things bought for resale, sold' },
  { line: '1b', says: 'What they cost', isCost: true },
  { line: '2', says: 'Raised livestock, produce, grain and other things raised, sold' },
  { line: '3a', says: 'Cooperative distributions' },
  { line: '4a', says: 'Agricultural program payments' },
  { line: '5a', says: 'Commodity loans reported by election' },
  { line: '5b', says: 'Commodity loans forfeited' },
  { line: '6a', says: 'Crop insurance and disaster payments' },
  { line: '6d', says: 'Amount put off from last year' },
  { line: '7', says: 'Custom work for others' },
  { line: '8', says: 'Other income, with fuel tax credits' },
]

/** Where the form's instructions list bartering income (Instructions for Schedule F, line 8: from memory). */
export const barterLine = '8'

/** Of these lines the form asks what is taxed beside what came in. */
export const taxedLineOf: Readonly<Record<string, string>> = {
  '3a': '3b',
  '4a': '4b',
  '5b': '5c',
  '6a': '6b',
}

/** What is sold there is no income of Schedule F or C: it goes to Form 4797, and no self-employment tax is due on it. */
export const assetSales = '4797'

/** Interest is no income from farming, also where the farm’s account earned it. */
export const farmInterest = '2b'

/** Where income of the farm goes that is none of Schedule F. */
export const besideScheduleF: readonly LineCaption[] = [
  { line: farmInterest, says: 'Interest on the farm’s money, for line 2b of Form 1040' },
  { line: assetSales, says: 'Breeding stock, machinery, buildings and land sold (Form 4797)' },
]

/** Part II. Line 14 is depreciation with section 179. */
export const scheduleFExpenses: readonly LineCaption[] = [
  { line: '10', says: 'Car and truck' },
  { line: '11', says: 'Chemicals' },
  { line: '12', says: 'Conservation' },
  { line: '13', says: 'Custom hire' },
  { line: '14', says: 'Depreciation and section 179' },
  { line: '15', says: 'Employee benefits, but for line 23' },
  { line: '16', says: 'Feed' },
  { line: '17', says: 'Fertilizer and lime' },
  { line: '18', says: 'Freight and trucking' },
  { line: '19', says: 'Gasoline, fuel and oil' },
  { line: '20', says: 'Insurance, but for health' },
  { line: '21a', says: 'Mortgage interest paid to banks' },
  { line: '21b', says: 'Other interest' },
  { line: '22', says: 'Hired labor, less employment credits' },
  { line: '23', says: 'Pension and profit-sharing plans' },
  { line: '24a', says: 'Rent of vehicles, machinery, equipment' },
  { line: '24b', says: 'Rent of land, animals and other' },
  { line: '25', says: 'Repairs and upkeep' },
  { line: '26', says: 'Seeds and plants' },
  { line: '27', says: 'Storage' },
  { line: '28', says: 'Supplies' },
  { line: '29', says: 'Taxes' },
  { line: '30', says: 'Utilities' },
  { line: '31', says: 'Veterinary, breeding, medicine' },
  { line: '32a', says: 'Other: a' },
  { line: '32b', says: 'Other: b' },
  { line: '32c', says: 'Other: c' },
  { line: '32d', says: 'Other: d' },
  { line: '32e', says: 'Other: e' },
  { line: '32f', says: 'Other: f' },
]
