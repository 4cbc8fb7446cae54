// The only clock the pages see; tests set it.
import type { Day } from '#calendar/day.ts'
import { type TimeName, timeNameIn } from '#calendar/instant.ts'

export interface Clock {
  now(): Date
  /** The IANA name of the zone it shows the time of; the computer's own when left out. */
  zone?: string
}

/** The calendar day where this computer is. */
export const localDay = (now: Date): Day =>
  `${now.getFullYear()}-${String(now.getMonth() + 1).padStart(2, '0')}-${String(now.getDate()).padStart(2, '0')}` as Day

/** On which day of this computer an instant of the books was: an evening here may be the next day in universal time. */
export const dayOfInstant = (instant: string): Day => localDay(new Date(instant))

/** Instants in the time of a zone; the computer's own when none is named. Zones are slow to read, and few pages tell a time. */
export const timeNameOf = (zone?: string): TimeName => {
  let name: TimeName | undefined
  return (instant) => {
    name ??= timeNameIn(zone ?? Intl.DateTimeFormat().resolvedOptions().timeZone)
    return name(instant)
  }
}
