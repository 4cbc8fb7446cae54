// An instant as people read it: the day and the time of a place, with the name of its time.
import { dayName, parseDay } from './day.ts'

/** `2026-11-02T18:00:00Z` → `Nov 2, 2026, 1:00 PM EST`. */
export type TimeName = (instant: string) => string

/** For a zone by its IANA name, like `America/New_York`; the edge knows which one the computer is in. */
export const timeNameIn = (zone: string): TimeName => {
  const format = new Intl.DateTimeFormat('en-US', {
    timeZone: zone,
    year: 'numeric',
    month: '2-digit',
    day: '2-digit',
    hour: 'numeric',
    minute: '2-digit',
    timeZoneName: 'short',
  })
  return (instant) => {
    const found = new Map(format.formatToParts(new Date(instant)).map(({ type, value }) => [type, value]))
    const part = (type: Intl.DateTimeFormatPartTypes) => found.get(type) ?? ''
    const day = parseDay(`${part('year')}-${part('month')}-${part('day')}`)
    if (!day) throw new Error(`Not an instant: ${instant}`)
    return `${dayName(day)}, ${part('hour')}:${part('minute')} ${part('dayPeriod')} ${part('timeZoneName')}`
  }
}
