// What a run carries along about coverage.
import type { CoverByMonth } from '#rules/household-year.ts'
import { unwritten } from '#runway/figures/unwritten.ts'

export interface CoverageState {
  /** What last year's income left uncovered, one-offs apart, over twelve months at first prices. */
  needReal: number
  /** Household income of a last year that a program covered beyond its line, at first prices; 0 where none did. */
  incomeBeyondReal: number
  /** First year: dollars of household income that ended with the months before the plan, which programs ask for no more. */
  behind: number
  /** Dollars of the expected year that come once in it: distributions (due in January, for one-offs, converted), and gains. */
  onceTaken: number
  onceGains: number
  /** First year: marketplace premiums of the months before the plan, dollars, where the expected return counts them. */
  premiumsBehind: number
  /** What programs ask of the year for adults and for children, as it stood when that income was worked out. */
  forAdults: AskedIncome
  forChildren: AskedIncome
  /** First year: dollars that these took off the household income, which children's programs add to it again. */
  premiumsAdded: number
  /** By month of the year: sum of the age factors of those on the marketplace. */
  factors: Float64Array
  /** By month of the year: what comes in advance. */
  advance: Float64Array
  /** Premiums and benchmarks by month, for a year in which they differ. */
  byMonth: CoverByMonth
  /** By member, used again: who is on the marketplace, and what each adds to the premium. */
  isListed: Uint8Array
  adds: Float64Array
}

/** Household income in dollars of a year: that of the months a program looks at, and the whole year's. */
export interface AskedIncome {
  months: number
  year: number
}

export const noCoverage = (members: number): CoverageState => ({
  needReal: unwritten,
  incomeBeyondReal: unwritten,
  behind: 0,
  onceTaken: unwritten,
  onceGains: unwritten,
  premiumsBehind: 0,
  forAdults: { months: unwritten, year: unwritten },
  forChildren: { months: unwritten, year: unwritten },
  premiumsAdded: 0,
  factors: new Float64Array(12),
  advance: new Float64Array(12),
  byMonth: { premium: new Float64Array(12), benchmark: new Float64Array(12) },
  isListed: new Uint8Array(members),
  adds: new Float64Array(members),
})
