// A month as one whole number (year × 12 + month − 1), so that spans, loops and comparisons are plain arithmetic.
declare const monthBrand: unique symbol
export type Month = number & { readonly [monthBrand]: 'Month' }

/** `month(2026, 11)` is November 2026. The second number runs from 1 to 12. */
export const month = (year: number, monthOfYear: number): Month => {
  if (!Number.isInteger(year) || !Number.isInteger(monthOfYear) || monthOfYear < 1 || monthOfYear > 12) {
    throw new Error(`Not a month: ${year}-${monthOfYear}`)
  }
  return (year * 12 + monthOfYear - 1) as Month
}

/** Of a day or a month as text. */
export const yearIn = (text: string): number => Number(text.slice(0, 4))

export const yearOf = (value: Month): number => Math.floor(value / 12)

/** 1 for January to 12 for December. */
export const monthOfYear = (value: Month): number => value - yearOf(value) * 12 + 1

/** To the January after it: 1 from December, 12 from January. */
export const monthsToNextJanuary = (value: Month): number => 13 - monthOfYear(value)

export const addMonths = (value: Month, count: number): Month => (value + count) as Month

/** Months from the first to the second: 0 for the same month, negative when the second is earlier. */
export const monthsBetween = (from: Month, to: Month): number => to - from

/** `2026-11` for storage, form fields and JSON. */
export const monthText = (value: Month): string =>
  `${String(yearOf(value)).padStart(4, '0')}-${String(monthOfYear(value)).padStart(2, '0')}`

/** Reads `2026-11`; `null` when it is not a month. */
export const parseMonth = (text: string): Month | null => {
  const plain = text.trim()
  if (plain.length !== 7 || plain[4] !== '-') return null
  const year = digitsIn(plain, 0, 4)
  const at = digitsIn(plain, 5, 7)
  return year >= 0 && at >= 1 && at <= 12 ? month(year, at) : null
}

/** Below zero when one of them is no digit. By hand: plans hold months as text, and a page reads tens of thousands. */
const digitsIn = (text: string, from: number, to: number): number => {
  let value = 0
  for (let place = from; place < to; place += 1) {
    const digit = text.charCodeAt(place) - 48
    if (digit < 0 || digit > 9) return -1
    value = value * 10 + digit
  }
  return value
}

export const monthNames = [
  'January',
  'February',
  'March',
  'April',
  'May',
  'June',
  'July',
  'August',
  'September',
  'October',
  'November',
  'December',
] as const

/** `November 2026`. */
export const monthName = (value: Month): string => `${monthNames[monthOfYear(value) - 1]} ${yearOf(value)}`

/** `November 2026` for `2026-11`, a text that is known to be a month. */
export const nameOfMonth = (text: string): string => monthName(parseMonth(text)!)

/** `Nov 2026`. */
export const monthNameShort = (value: Month): string =>
  `${monthNames[monthOfYear(value) - 1]!.slice(0, 3)} ${yearOf(value)}`
