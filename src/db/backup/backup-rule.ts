// Which daily backups are kept: the last of each of 7 days, 4 weeks and 12 months. Pure: days in, days out.
import { type Day, dayNumber, monthOfDay } from '#calendar/day.ts'

const keptDays = 7
const keptWeeks = 4
const keptMonths = 12

/** Of the days with a backup, those to keep: the newest 7, and the newest of each of the newest 4 weeks and 12 months that have one. */
export const daysToKeep = (days: readonly Day[]): Set<Day> => {
  const newestFirst = [...new Set(days)].sort((a, b) => (a < b ? 1 : -1))
  return new Set([
    ...newestFirst.slice(0, keptDays),
    ...newestOfEach(newestFirst, weekOf).slice(0, keptWeeks),
    ...newestOfEach(newestFirst, monthOfDay).slice(0, keptMonths),
  ])
}

/** Weeks from Monday: 1970-01-01 was a Thursday. */
const weekOf = (day: Day): number => Math.floor((dayNumber(day) + 3) / 7)

const newestOfEach = (newestFirst: readonly Day[], spanOf: (day: Day) => number): Day[] => {
  const seen = new Set<number>()
  return newestFirst.filter((day) => {
    const span = spanOf(day)
    if (seen.has(span)) return false
    seen.add(span)
    return true
  })
}
