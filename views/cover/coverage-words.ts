// How a kind of coverage is called on pages.
import { monthNames } from '#calendar/month.ts'
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
  'not known': 'coverage not known',
}

/** The same within a sentence, after “has”. */
export const coverageHad: Record<CoverageKind, string> = {
  ...coverageWords,
  absent: 'no place at home',
  'not known': 'no known coverage',
  marketplace: 'a marketplace plan',
  'children’s program': 'the children’s program',
  'basic health program': 'the basic health program',
}

/** Which income is meant by a limit: in a year that has begun that of the months ahead, else the year's. */
export const limitOf = (
  percent: string,
  level: string,
  { ofMonths, runFrom }: { ofMonths: boolean; runFrom: number },
): string => {
  if (!ofMonths) return `${percent} of ${level}`
  const months =
    runFrom === 12 ? 'December alone comes' : `the months from ${monthNames[runFrom - 1]} on come`
  return `in the whole year, where ${months} to ${percent} of ${level}`
}

/** The poverty level by the year of its guidelines: the credit of a year goes by those of the year before, programs mostly by its own. */
export const povertyOf = (year: number, ofYearBefore: boolean): string =>
  `FPL of ${ofYearBefore ? year - 1 : year}`
