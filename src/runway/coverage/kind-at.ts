// What covers a member in a month at an income: what the plan lists, unless a program of the state takes who would buy or go without.
import { marketplace, uncovered } from '#rules/coverage/coverage-kinds.ts'
import { type Measure, programFor } from '#rules/coverage/measure.ts'
import type { CompiledCoverage } from '#runway/compile/compiled-coverage.ts'

/**
 * Place in `coverageKinds`. `cell`: member × months of the plan + month. Incomes in percent of the poverty level by which Medicaid
 * measures the year's household: `percent` that of the month, `ofYear` that of the year.
 */
export const kindAt = (
  coverage: CompiledCoverage,
  cell: number,
  y: number,
  percent: number,
  ofYear: number,
  measure: Measure,
): number => {
  const kind = coverage.listed[cell]!
  const limits = coverage.limits[y] ?? null
  if (limits === null || (kind !== marketplace && kind !== uncovered)) return kind
  const program = programFor(limits, coverage.standing[cell]!, percent, ofYear, coverage.more[cell]!, measure)
  return program === marketplace ? kind : program
}
