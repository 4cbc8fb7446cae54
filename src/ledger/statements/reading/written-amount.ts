// Amounts and days as banks write them in files. Unlike typed money, these come without a person to ask, so doubt is a refusal.
import { type Day, parseDay } from '#calendar/day.ts'
import { CENTS_MAX, type Cents, cents } from '#money/cents.ts'

export type DecimalMark = '.' | ','

/**
 * `-12.34`, `+12`, `1,234.56`, `1.234,56`, `(12.34)`, `12.34-`, `12.34+`, `$12.34`, `12.34 CR`/`DR` → cents; `null` when it is
 * none of these. With no mark told, the last of `.` and `,` is the decimal mark unless exactly three digits follow a single one.
 */
export const readAmount = (written: string, mark?: DecimalMark): Cents | null =>
  amountFrom(written, (digits) => sizeInCents(digits, mark))

/** As `readAmount`, but fractions of a cent are rounded, half away from zero: for amounts it cannot read exactly. */
export const readAmountRounded = (written: string, mark: DecimalMark): Cents | null =>
  amountFrom(written, (digits) => {
    const exact = sizeInCents(digits, mark)
    if (exact !== null) return exact
    const finer = new RegExp(`^(.*\\${mark}\\d{2})(\\d{1,12})$`).exec(digits)
    const whole = finer && sizeInCents(finer[1]!, mark)
    return whole === null || finer === null ? null : whole + (finer[2]!.charCodeAt(0) >= fiveCode ? 1 : 0)
  })

const fiveCode = '5'.charCodeAt(0)

const amountFrom = (written: string, sizeOf: (digits: string) => number | null): Cents | null => {
  let text = written.trim().replace(/[\s\u00a0\u202f'\u2019]/g, '')
  let negative = false
  const bracketed = /^\((.*)\)$/.exec(text)
  if (bracketed) {
    negative = true
    text = bracketed[1]!
  }
  const side = /(CR|DR)$/i.exec(text)
  if (side) {
    if (/^DR$/i.test(side[1]!)) negative = !negative
    text = text.slice(0, -2)
  }
  text = text.replace(/^([-+\u2212\u2013]?)(?:[$\u20ac\u00a3]|USD|US\$)/, '$1')
  const signed = /^([-+\u2212\u2013]?)(.*?)([-+\u2212\u2013]?)$/.exec(text)!
  if (signed[1] && signed[3]) return null
  if (/[-\u2212\u2013]/.test(`${signed[1]}${signed[3]}`)) negative = !negative
  const size = sizeOf(signed[2]!.replace(/^[$\u20ac\u00a3]/, ''))
  return size === null ? null : cents(negative ? -size : size)
}

const sizeInCents = (digits: string, mark?: DecimalMark): number | null => {
  if (digits.length > 40 || !/^[\d.,]*\d[\d.,]*$/.test(digits)) return null
  const decimal = mark ?? decimalMarkOf(digits)
  const parts = decimal ? digits.split(decimal) : [digits]
  if (parts.length > 2) return null
  const [whole = '', fraction = ''] = parts
  const group = decimal === ',' ? '.' : ','
  if (whole.includes(group) && !new RegExp(`^\\d{1,3}(\\${group}\\d{3})+$`).test(whole)) return null
  const plainWhole = whole.replaceAll(group, '')
  if (!/^\d*$/.test(plainWhole) || !/^\d*$/.test(fraction)) return null
  // Banks pad with noughts; a real third digit would be a fraction of a cent.
  if (!/^\d{0,2}0*$/.test(fraction)) return null
  const size = Number(`${plainWhole || '0'}${fraction.slice(0, 2).padEnd(2, '0')}`)
  return size <= CENTS_MAX ? size : null
}

const decimalMarkOf = (digits: string): DecimalMark | null => {
  const dot = digits.lastIndexOf('.')
  const comma = digits.lastIndexOf(',')
  if (dot < 0 && comma < 0) return null
  if (dot >= 0 && comma >= 0) return dot > comma ? '.' : ','
  if (dot >= 0) return digits.indexOf('.') === dot ? '.' : ','
  return digits.indexOf(',') === comma && digits.length - comma !== 4 ? ',' : '.'
}

export const dayOrders = ['year-month-day', 'month-day-year', 'day-month-year'] as const
export type DayOrder = (typeof dayOrders)[number]

/** `Fri, ` or `Friday ` before the date says nothing more. */
const weekday = /^(mon|tue|wed|thu|fri|sat|sun)[a-z]{0,6}\.?,?\s+(?=\S)/i

const monthWords = ['jan', 'feb', 'mar', 'apr', 'may', 'jun', 'jul', 'aug', 'sep', 'oct', 'nov', 'dec']

/**
 * `2024-01-05`, `1/5/24`, `05.01.2024`, `5 Jan 2024`, `20240105`, each perhaps with a weekday before or a time after it;
 * `null` when there is no such day.
 */
export const readDay = (written: string, order: DayOrder): Day | null => {
  const parts = dayParts(written)
  if (!parts) return null
  const [first, second, third] = parts
  const ordered = orderOf(parts) ?? order
  if (ordered === 'year-month-day') return dayFrom(first, second, third)
  return ordered === 'month-day-year' ? dayFrom(third, first, second) : dayFrom(third, second, first)
}

/** The order that a date tells by itself, whatever was chosen: its year of four digits goes first, or its month is in letters. */
export const orderWritten = (written: string): DayOrder | null => {
  const parts = dayParts(written)
  return parts ? orderOf(parts) : null
}

type Parts = [first: string, second: string, third: string]

const dayParts = (written: string): Parts | null => {
  const text = written.trim().replace(weekday, '')
  const parts =
    /^(\d{4})(\d{2})(\d{2})(?:\d{4}(?:\d{2})?)?(?:[.\s[].*)?$/.exec(text) ??
    /^(\w{1,9})[\s./-]{1,3}(\w{1,9})[\s./,-]{1,3}(\d{2,4})(?:[T\s,]+\d{1,2}[:.]\d{2}.*)?$/.exec(text) ??
    /^(\d{4})[./-](\w{1,9})[./-](\d{1,2})(?:[T\s,]+\d{1,2}[:.]\d{2}.*)?$/.exec(text)
  return parts && [parts[1]!, parts[2]!, parts[3]!]
}

/** A month in letters settles the order of the other two. */
const orderOf = ([first, second]: Parts): DayOrder | null => {
  if (/^[a-z]/i.test(first)) return 'month-day-year'
  if (first.length === 4) return 'year-month-day'
  return /^[a-z]/i.test(second) ? 'day-month-year' : null
}

const dayFrom = (year: string, monthText: string, date: string): Day | null => {
  const monthNumber = /^[a-z]/i.test(monthText)
    ? monthWords.indexOf(monthText.slice(0, 3).toLowerCase()) + 1
    : /^\d{1,2}$/.test(monthText)
      ? Number(monthText)
      : 0
  if (monthNumber === 0 || !/^\d{1,2}$/.test(date) || !/^(\d{2}|\d{4})$/.test(year)) return null
  const fullYear = year.length === 4 ? year : `20${year}`
  const read = parseDay(`${fullYear}-${String(monthNumber).padStart(2, '0')}-${date.padStart(2, '0')}`)
  return read && read >= '1970-01-01' && read < '2200-01-01' ? read : null
}
