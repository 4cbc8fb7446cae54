// What covers a member in a month at an income: what the plan lists, unless a program of the state takes who would buy or go without.
import { marketplace, uncovered } from '#rules/coverage/coverage-kinds.ts'
import { programOf } from '#rules/coverage/program-of.ts'
import { percentWith } from '#rules/coverage/unborn.ts'
import type { CompiledCoverage } from '#runway/compile/compiled-coverage.ts'

/**
 * Place in `coverageKinds`. `cell`: member × months of the plan + month. `percent`: household income in percent of the poverty level
 * by which programs measure; `perChild`: what one more person adds to that level, as a part of it.
 */
export const kindAt = (
  coverage: CompiledCoverage,
  cell: number,
  y: number,
  percent: number,
  perChild: number,
): number => {
  const kind = coverage.listed[cell]!
  const limits = coverage.limits[y] ?? null
  if (limits === null || (kind !== marketplace && kind !== uncovered)) return kind
  const program = programOf(
    limits,
    coverage.standing[cell]!,
    percentWith(percent, coverage.unborn[cell]!, perChild),
  )
  return program === marketplace ? kind : program
}
