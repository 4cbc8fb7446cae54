// Who could be covered by what, made ready to run: what the plan lists for each person and month, and by which lines programs take them.
import type { CoverageLimits } from '#rules/coverage/coverage-limits.ts'
import type { FamilyRating } from '#rules/marketplace/premium-by-age.ts'

/** Members are all adults and dependents of the plan, oldest first. */
export interface CompiledCoverage {
  members: { id: string; name: string; isChild: boolean }[]
  /** Member: place among the plan's people; −1 for a dependent. */
  person: Int32Array
  /** Member × month: place in `coverageKinds` before any program is asked: absent, none, other plan, marketplace or Medicare. */
  listed: Uint8Array
  /** Member × month: place in `standings`. */
  standing: Uint8Array
  /**
   * Member × month: how many more count in the household of that member than on the year's return. A child expected counts before it is
   * born; one born later in the year is on that return already, and is one fewer until then.
   */
  more: Int8Array
  /** Member × month: 1 where the member is listed or asked by other lines than in the month before. */
  turns: Uint8Array
  /** By month: 1 where anybody's does. */
  someTurns: Uint8Array
  /** Two letters, empty where no state is known; and whether how programs measure must be asked at all. */
  state: string
  asksMeasure: boolean
  /** Year by year, member: own factor on the premium at 21, and 1 for one who counts among the children. */
  factor: Float64Array[]
  isRatedChild: Uint8Array[]
  rating: FamilyRating
  /** By year; null where no program covers anyone. */
  limits: (CoverageLimits | null)[]
  /** By year: 1 where a program could take someone in one of its months, who is on the marketplace or goes without. */
  opens: Uint8Array
  /**
   * Programs look at the income of a month: a first year that is part of one counts as the whole year that it is a part of. 1 where
   * it is whole. Where something is told of the months before (`tellsBefore`), what ended with them is taken off first.
   */
  firstYearScale: number
  tellsBefore: boolean
  /** By year, at the plan's first premiums: published ones leave the plan's growth as they did. */
  benchmarkAt21: Float64Array
  planAt21: Float64Array
}
