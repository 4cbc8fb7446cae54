// The return worked line by line in whole cents: the only writing of the sum, for one household as for millions of years.
import type { HouseholdYear } from '../household-year.ts'
import type { LawYear } from '../law-year.ts'
import { type BusinessLines, noBusinessLines, workBusiness } from './business-lines.ts'
import { type CoverLines, noCoverLines, workCover } from './cover-lines.ts'
import { type IncomeLines, noIncomeLines, workIncome } from './income-lines.ts'
import { type LossLines, noLossLines, takeLosses, workCarryforwards } from './loss-lines.ts'
import { noTaxLines, type TaxLines, workTaxesAndCredits } from './tax-lines.ts'
import { noTaxableLines, type TaxableLines, workTaxableIncome } from './taxable-lines.ts'

/** Every line of a worked return, in whole cents. */
export interface ReturnLines {
  business: BusinessLines
  income: IncomeLines
  cover: CoverLines
  taxable: TaxableLines
  taxes: TaxLines
  /** What the year leaves to others. */
  left: LossLines
}

/**
 * Works the whole return into `lines`, overwriting each of them, and allocates nothing. Pure but for that; amounts of
 * `household` are rounded to the cent at entry. `table` looks the tax and the earned income credit up in the printed
 * tables, as a paper return does.
 */
export const workReturn = (
  law: LawYear,
  household: HouseholdYear,
  lines: ReturnLines,
  table: boolean,
): void => {
  const { business, income, cover, taxable } = lines
  workBusiness(law, household, business)
  workIncome(law, household, business, income)
  workCover(law, household, business, income, cover)
  workTaxableIncome(law, household, business, income, cover, taxable)
  takeLosses(law, household, lines)
  workTaxesAndCredits(law, household, lines, table, lines.taxes)
  workCarryforwards(household, lines, lines.left)
}

/** Where `workReturn` writes; keep one and use it again. */
export const emptyReturnLines = (): ReturnLines => ({
  business: noBusinessLines(),
  income: noIncomeLines(),
  cover: noCoverLines(),
  taxable: noTaxableLines(),
  taxes: noTaxLines(),
  left: noLossLines(),
})
