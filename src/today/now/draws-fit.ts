// Whether the farm can pay the draws of the coming year as they are planned, and what of them fits.
import { formatDollars } from '#money/format.ts'
import type { ProjectedMonth } from '#runway/project.ts'

/** Dollars a month, on average over the months of the coming twelve for which a draw is planned. */
export interface DrawsFit {
  planned: number
  fits: number
}

const monthsLookedAt = 12
/** What of the planned draws may go unpaid before it is said. */
const leastShare = 0.05

/** Null where they are paid, but for a twentieth, and where none are planned. `months`: from the month of today on. */
export const drawsFit = (months: readonly ProjectedMonth[]): DrawsFit | null => {
  const withDraws = months.slice(0, monthsLookedAt).filter(({ plannedDraw }) => plannedDraw > 0.5)
  if (withDraws.length === 0) return null
  const mean = (dollars: (one: ProjectedMonth) => number) =>
    withDraws.reduce((sum, one) => sum + dollars(one), 0) / withDraws.length
  const planned = mean((one) => one.plannedDraw)
  const unmet = mean((one) => one.unmetDraw)
  return unmet < leastShare * planned ? null : { planned, fits: Math.max(0, planned - unmet) }
}

export const fitWords = ({ planned, fits }: DrawsFit): string =>
  `Of the draws planned for the coming twelve months, ${formatDollars(planned)} a month on average, the farm can pay ${fits < 1 ? 'none' : `about ${formatDollars(roundly(fits))}`}.`

const roundly = (dollars: number): number => (dollars < 100 ? dollars : Math.round(dollars / 10) * 10)
