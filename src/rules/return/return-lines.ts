// The lines of a worked federal return, and the choices of how it is worked.
import type { TaxLines } from './taxes-and-credits.ts'
import type { BusinessLines, CoverLines, IncomeLines, TaxableLines } from './worksheet.ts'

/** Every line of a worked return, in whole cents. */
export interface ReturnLines {
  business: BusinessLines
  income: IncomeLines
  cover: CoverLines
  taxable: TaxableLines
  taxes: TaxLines
}

export interface ReturnOptions {
  /** Look the tax and the earned income credit up in the printed tables, as a paper return does. */
  taxTable: boolean
}
