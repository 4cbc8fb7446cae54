// The federal return of one household and year with where each figure comes from: the trace reads the lines the sum used.
import { emptyHouseholdTax, type HouseholdTax, type HouseholdYear } from '../household-year.ts'
import type { LawYear } from '../law-year.ts'
import { localTaxApart, stateTaxOf } from '../states/state-law.ts'
import { readStateReturn, type StateReturn } from '../states/state-return.ts'
import { writeFigures } from './assess-household.ts'
import { cautionsFor } from './cautions.ts'
import { emptyReturnLines, type ReturnLines, workReturn } from './return-lines.ts'
import type { Trace } from './trace.ts'
import { traceReturn } from './trace-return.ts'

export interface HouseholdReturn {
  /** The figures in dollars. */
  figures: HouseholdTax
  lines: ReturnLines
  trace: Trace
  /** What this return leaves out or assumes, where it may matter for this household. */
  cautions: string[]
  /** Null where no state tax counts. */
  state: StateReturn | null
}

export interface ReturnOptions {
  /** Look the tax and the earned income credit up in the printed tables, as a paper return does. */
  taxTable: boolean
}

/** Works the whole return. Pure; amounts of `household` are rounded to the cent at entry. */
export const fileReturn = (
  law: LawYear,
  household: HouseholdYear,
  { taxTable }: ReturnOptions = { taxTable: false },
): HouseholdReturn => {
  const lines = emptyReturnLines()
  const figures = emptyHouseholdTax()
  workReturn(law, household, lines, taxTable)
  writeFigures(lines, figures)
  figures.stateIncomeTax = stateTaxOf(law, household, lines)
  figures.localIncomeTax = household.state === null ? 0 : localTaxApart(household.state)
  return {
    figures,
    lines,
    trace: traceReturn(law, household, lines, taxTable),
    cautions: cautionsFor(law, household, lines),
    state: household.state === null ? null : readStateReturn(household.state, figures.stateIncomeTax),
  }
}
