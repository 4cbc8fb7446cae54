// Who could be covered by what, made ready to run: what the plan lists for each person and month, and by which lines programs take them.
import type { CoverageLimits } from '#rules/coverage/coverage-limits.ts'
import type { FamilyRating } from '#rules/marketplace/premium-by-age.ts'

/** Members are all adults and dependants of the plan, oldest first. */
export interface CompiledCoverage {
  members: { id: string; name: string; isChild: boolean }[]
  /** Member: place among the plan's people; −1 for a dependant. */
  person: Int32Array
  /** Member × month: place in `coverageKinds` before any program is asked: absent, none, other plan, marketplace or Medicare. */
  listed: Uint8Array
  /** Member × month: place in `standings`. */
  standing: Uint8Array
  /** Member × month: children not yet born who count in the household of that member, beyond those whom the year's return has; and whether there are any. */
  unborn: Uint8Array
  hasUnborn: boolean
  /** Year by year, member: own factor on the premium at 21, and 1 for one who counts among the children. */
  factor: Float64Array[]
  isRatedChild: Uint8Array[]
  rating: FamilyRating
  /** By year; null where no program covers anyone. */
  limits: (CoverageLimits | null)[]
  /** By year: 1 where a program could take someone in one of its months, who is on the marketplace or goes without. */
  opens: Uint8Array
  /**
   * Programs look at the income of a month: a first year that is part of one, of whose months before nothing is told, counts as the
   * whole year that it is a part of. 1 otherwise.
   */
  firstYearScale: number
  /** By year, at the plan's first premiums: published ones leave the plan's growth as they did. */
  benchmarkAt21: Float64Array
  planAt21: Float64Array
}
