// The only clock the pages see; tests set it.
import type { Day } from '#calendar/day.ts'

export interface Clock {
  now(): Date
}

/** The calendar day where this computer is. */
export const localDay = (now: Date): Day =>
  `${now.getFullYear()}-${String(now.getMonth() + 1).padStart(2, '0')}-${String(now.getDate()).padStart(2, '0')}` as Day
