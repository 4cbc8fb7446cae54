// How a kind of coverage is called on pages.
import type { CoverageKind } from '#rules/coverage/coverage-kinds.ts'

export const coverageWords: Record<CoverageKind, string> = {
  absent: 'not at home',
  none: 'no coverage',
  'other plan': 'another plan',
  marketplace: 'marketplace',
  Medicaid: 'Medicaid',
  'children’s program': 'children’s program (CHIP)',
  'basic health program': 'basic health program',
  Medicare: 'Medicare',
  'not told': 'coverage not told',
}

/** The same within a sentence, after “has”. */
export const coverageHad: Record<CoverageKind, string> = {
  ...coverageWords,
  absent: 'no place at home',
  'not told': 'no coverage that is told',
  marketplace: 'a marketplace plan',
  'children’s program': 'the children’s program',
  'basic health program': 'the basic health program',
}

/** The poverty level by the year of its guidelines: the credit of a year goes by those of the year before, programs mostly by its own. */
export const povertyOf = (year: number, ofYearBefore: boolean): string =>
  `FPL of ${ofYearBefore ? year - 1 : year}`
