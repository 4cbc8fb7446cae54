// The columns of a bank's CSV by their headings, and what a cell looks like.
import { dayOrders, readAmount, readAmountRounded, readDay } from './written-amount.ts'

export interface Table {
  header: readonly string[]
  columns: readonly (readonly string[])[]
  /** Numbers of all columns. */
  all: readonly number[]
}

export const titled = ({ header, all }: Table, pattern: RegExp, among = all): number | undefined =>
  among.find((at) => pattern.test(header[at] ?? ''))

export const firstTitled = (
  table: Table,
  patterns: readonly RegExp[],
  among: readonly number[],
): number | undefined =>
  patterns.map((pattern) => titled(table, pattern, among)).find((at) => at !== undefined)

export const isAmount = (text: string): boolean =>
  /\d/.test(text) && !isDayInAnyOrder(text) && readAmount(text) !== null

/** With a fraction of a cent, or with thousands set apart as elsewhere: `12.345`. */
export const isOddAmount = (text: string): boolean =>
  !isDayInAnyOrder(text) && (['.', ','] as const).some((mark) => readAmountRounded(text, mark) !== null)

export const isDayInAnyOrder = (text: string): boolean =>
  /\d/.test(text) &&
  !/^[-+]?[\d]{1,3}(,\d{3})*[.,]\d+$/.test(text) &&
  dayOrders.some((order) => readDay(text, order) !== null)

/** Half of the filled cells, and at least one. */
export const mostly = (texts: readonly string[], test: (text: string) => boolean): boolean => {
  const filled = texts.filter((text) => text !== '')
  return filled.length > 0 && filled.filter(test).length * 2 > filled.length
}
