// The time a plan spans, and the small arithmetic of months its compiler shares.
import { type Month, monthOfYear, parseMonth, yearOf } from '#calendar/month.ts'

export interface Span {
  firstMonth: Month
  firstYear: number
  months: number
  /** Calendar years touched. */
  years: number
  /** The month in whose prices the plan's amounts are: its own first, before which a continued plan does not begin. */
  pricesOf: Month
  /** Prices, and all that grows with or beyond them, step a little each month in place of each January. */
  stepsMonthly: boolean
}

/** True in each calendar month from `from` to `to`, both included and both optional. */
export const isIn = (line: { from?: string | undefined; to?: string | undefined }, at: number): boolean =>
  (line.from === undefined || at >= monthNumber(line.from)) &&
  (line.to === undefined || at <= monthNumber(line.to))

/** True in each of the months of the year that a line names, and in every month where it names none. */
export const isInSeason = ({ months }: { months: readonly number[] }, at: number): boolean =>
  months.length === 0 || months.includes(monthOfYear(at as Month))

/** The months of the plan in which a line runs, `end` not with them. */
export const monthsOf = (
  line: { from?: string | undefined; to?: string | undefined },
  span: Span,
): { first: number; end: number } => ({
  first: line.from === undefined ? 0 : Math.max(0, monthNumber(line.from) - span.firstMonth),
  end:
    line.to === undefined ? span.months : Math.min(span.months, monthNumber(line.to) - span.firstMonth + 1),
})

/** Compiling asks for the same few months many hundred times; there are only so many months a plan can name. */
const numbers = new Map<string, number>()

const monthNumber = (text: string): number => {
  const known = numbers.get(text)
  if (known !== undefined) return known
  const number = parseMonth(text)!
  numbers.set(text, number)
  return number
}

/** Januaries passed since the first month: the place of its year. */
export const stepsTaken = (span: { firstMonth: number; firstYear: number }, m: number): number =>
  yearOf((span.firstMonth + m) as Month) - span.firstYear

/** 0 in January to 11 in December. */
export const seasonOf = (span: Span, m: number): number => monthOfYear((span.firstMonth + m) as Month) - 1

/** Growth since the month of the plan's prices, in the steps in which prices step; a first year that is part of one counts that part. */
export const grownBeyond = (span: Span, m: number, rate: number): number => {
  if (span.stepsMonthly) return (1 + rate) ** (Math.max(0, span.firstMonth + m - span.pricesOf) / 12)
  const steps = yearOf((span.firstMonth + m) as Month) - yearOf(span.pricesOf)
  if (steps <= 0 || rate === 0) return 1
  return (1 + rate) ** (steps - 1 + partOfFirstYear(span.pricesOf))
}

/** The first January steps prices by the part of a year that the plan's first year is; every later one by a whole year. */
export const firstStep = (span: Span): number =>
  span.firstYear === yearOf(span.pricesOf) ? partOfFirstYear(span.pricesOf) : 1

const partOfFirstYear = (first: Month): number => 1 - (first % 12) / 12

/** The same by month for a line of the plan: growth of one that begins later begins with it. */
export const grownSince = (span: Span, from: string | undefined, rate: number): ((m: number) => number) => {
  if (rate === 0) return () => 1
  const begins = from === undefined ? span.pricesOf : (Math.max(span.pricesOf, monthNumber(from)) as Month)
  return grownByMonth({ ...span, pricesOf: begins }, rate)
}

/** A power is worked out once a step, not once a month. */
const grownByMonth = (span: Span, rate: number): ((m: number) => number) => {
  if (span.stepsMonthly) return (m) => grownBeyond(span, m, rate)
  let year = Number.NaN
  let grown = 1
  return (m) => {
    const now = yearOf((span.firstMonth + m) as Month)
    if (now !== year) grown = grownBeyond(span, m, rate)
    year = now
    return grown
  }
}

/** Growth beyond prices of each month. */
export const growthRow = (span: Span, rate: number): Float64Array => {
  const row = new Float64Array(span.months)
  const grown = grownByMonth(span, rate)
  for (let m = 0; m < row.length; m += 1) row[m] = grown(m)
  return row
}

export const sumOfMonths = (values: Float64Array, from: number, to: number): number => {
  let sum = 0
  for (let m = from; m < to; m += 1) sum += values[m]!
  return sum
}

/** Numbers of each year from the span's first on; 0 for those that are not told. */
export const byYear = (told: readonly number[], { years }: Pick<Span, 'years'>): Float64Array =>
  Float64Array.from({ length: years }, (_, y) => told[y] ?? 0)
