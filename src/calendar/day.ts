// A calendar day as its ISO text. Never a Date: a day has no time zone, and text sorts as days do.
import { type Month, month, monthNames, monthOfYear, yearIn, yearOf } from './month.ts'

declare const dayBrand: unique symbol
export type Day = string & { readonly [dayBrand]: 'Day' }

const pattern = /^(\d{4})-(\d{2})-(\d{2})$/

/** Reads `2026-11-25`; `null` when the calendar has no such day. */
export const parseDay = (text: string): Day | null => {
  const match = pattern.exec(text.trim())
  if (!match) return null
  const [year, monthNumber, date] = [Number(match[1]), Number(match[2]), Number(match[3])]
  if (monthNumber < 1 || monthNumber > 12 || date < 1 || date > daysInMonth(month(year, monthNumber)))
    return null
  return match[0] as Day
}

/** As `parseDay`, for days known to be right. Throws on anything else. */
export const day = (text: string): Day => {
  const parsed = parseDay(text)
  if (!parsed) throw new Error(`Not a calendar day: ${text}`)
  return parsed
}

export const daysInMonth = (value: Month): number => {
  const year = yearOf(value)
  const lengths = [31, isLeapYear(year) ? 29 : 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31]
  return lengths[monthOfYear(value) - 1]!
}

const isLeapYear = (year: number): boolean => (year % 4 === 0 && year % 100 !== 0) || year % 400 === 0

export const monthOfDay = (value: Day): Month => month(yearIn(value), Number(value.slice(5, 7)))

export const dateOfDay = (value: Day): number => Number(value.slice(8, 10))

/** The given date of a month, or the month's last day when it is shorter: standing transfers on the 31st. */
export const dayInMonth = (value: Month, date: number): Day => {
  const kept = Math.min(Math.max(1, date), daysInMonth(value))
  return `${String(yearOf(value)).padStart(4, '0')}-${String(monthOfYear(value)).padStart(2, '0')}-${String(kept).padStart(2, '0')}` as Day
}

export const firstDayOf = (value: Month): Day => dayInMonth(value, 1)
export const lastDayOf = (value: Month): Day => dayInMonth(value, 31)

/** The first and the last day of a year. Years that four digits cannot write have the nearest end of the calendar for both. */
export const firstDayOfYear = (year: number): Day =>
  year > lastYear ? lastDayOfYear(lastYear) : firstDayOf(month(Math.max(0, year), 1))
export const lastDayOfYear = (year: number): Day =>
  year < 0 ? firstDayOfYear(0) : lastDayOf(month(Math.min(lastYear, year), 12))

const lastYear = 9999

/** Days since 1970-01-01, for differences and weekdays. */
export const dayNumber = (value: Day): number =>
  Math.round(Date.UTC(yearIn(value), Number(value.slice(5, 7)) - 1, Number(value.slice(8, 10))) / 86_400_000)

export const addDays = (value: Day, count: number): Day =>
  new Date((dayNumber(value) + count) * 86_400_000).toISOString().slice(0, 10) as Day

/** 0 Sunday to 6 Saturday. */
export const weekdayOf = (value: Day): number => (((dayNumber(value) + 4) % 7) + 7) % 7

/** `Nov 25, 2026`. */
export const dayName = (value: Day): string =>
  `${monthNames[Number(value.slice(5, 7)) - 1]!.slice(0, 3)} ${dateOfDay(value)}, ${value.slice(0, 4)}`

/** Whole years of age on a day. Someone born on February 29 has a birthday on March 1 in common years. */
export const ageOn = (born: Day, on: Day): number => {
  const years = yearIn(on) - yearIn(born)
  return on.slice(5) < born.slice(5) ? years - 1 : years
}
