// The time a plan spans, and the small arithmetic of months its compiler shares.
import { type Month, monthOfYear, parseMonth, yearOf } from '#calendar/month.ts'

export interface Span {
  firstMonth: Month
  firstYear: number
  months: number
  /** Calendar years touched. */
  years: number
}

/** True in each calendar month from `from` to `to`, both included and both optional. */
export const isIn = (line: { from?: string | undefined; to?: string | undefined }, at: number): boolean =>
  (line.from === undefined || at >= monthNumber(line.from)) &&
  (line.to === undefined || at <= monthNumber(line.to))

/** Compiling asks for the same few months many hundred times; there are only so many months a plan can name. */
const numbers = new Map<string, number>()

const monthNumber = (text: string): number => {
  const known = numbers.get(text)
  if (known !== undefined) return known
  const number = parseMonth(text)!
  numbers.set(text, number)
  return number
}

/** Januaries passed since the plan's first month: how often a yearly step has been taken. */
export const stepsTaken = (span: Span, m: number): number =>
  yearOf((span.firstMonth + m) as Month) - span.firstYear

/** 0 in January to 11 in December. */
export const seasonOf = (span: Span, m: number): number => monthOfYear((span.firstMonth + m) as Month) - 1

/** Growth beyond prices, taken in yearly steps; a first year that is part of one counts that part. */
export const grownBeyond = (span: Span, m: number, rate: number): number => {
  const steps = stepsTaken(span, m)
  if (steps === 0 || rate === 0) return 1
  const part = 1 - (span.firstMonth % 12) / 12
  return (1 + rate) ** (steps - 1 + part)
}

export const sumOfMonths = (values: Float64Array, from: number, to: number): number => {
  let sum = 0
  for (let m = from; m < to; m += 1) sum += values[m]!
  return sum
}
