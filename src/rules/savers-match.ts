// Saver's match (26 USC 6433), in force from 2027: money the Treasury puts into a saver's own pre-tax account.
import type { LawYear } from './law-year.ts'

/**
 * One person's match in dollars. `contributions` are the person's of the year, less what the couple took out of such
 * accounts in the testing period; `adjusted` is the return's adjusted gross income. The rate falls over the range of the
 * filing status, to nothing at its end, by whole percentage points: a broken one is rounded down (26 USC 6433(b)(2)).
 */
export const saversMatch = (
  law: LawYear,
  status: number,
  adjusted: number,
  contributions: number,
): number => {
  if (law.saversMatchRate === 0 || contributions <= 0) return 0
  const range = law.saversMatchRange[status]!
  const from = range[0]
  const to = range[1]
  const points = 100 * law.saversMatchRate
  const lost = Math.floor((points * Math.max(0, adjusted - from)) / (to - from) + hair)
  return Math.min(contributions, law.saversMatchCap) * (Math.max(0, points - lost) / 100)
}

/** So that a quotient that is a whole point does not fall to the one below. */
const hair = 1e-9
