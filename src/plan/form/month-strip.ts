// A value that is one figure or twelve: one field for the figure, twelve for the months. Whichever was typed anew counts.
import { type Parsed, parseQuantity } from '#money/parse.ts'
import { asRecord } from './shape.ts'
import { withoutDollarSign } from './texts.ts'

/** The texts of a strip's fields, by the ends of their names: `one`, and `m1` to `m12`. */
export interface StripTexts {
  one: string
  months: readonly string[]
}

export const stripTexts = (value: unknown): StripTexts =>
  Array.isArray(value)
    ? { one: '', months: monthNumbers.map((k) => figure(value[k])) }
    : { one: typeof value === 'number' ? String(value) : '', months: monthNumbers.map(() => '') }

export const typedStrip = (typed: unknown): StripTexts => {
  const text = (name: string) => String(asRecord(typed)[name] ?? '').trim()
  return { one: text('one'), months: monthNumbers.map((k) => text(`m${k + 1}`)) }
}

export const isStripEmpty = ({ one, months }: StripTexts): boolean => one === '' && months.every(isEmpty)

/** What the fields add up to over a year; null where they are no figures. */
export const stripTotal = ({ one, months }: StripTexts, isEachMonth: boolean): number | null => {
  const texts = months.every(isEmpty) ? [one] : months
  const figures = texts.map((text) => amount(text === '' ? '0' : text))
  if (!figures.every((read) => read.ok)) return null
  const sum = figures.reduce((total, read) => total + (read.ok ? read.value : 0), 0)
  return texts.length === 1 && isEachMonth ? sum * 12 : sum
}

export type ReadStrip = { ok: true; value: unknown } | { ok: false; errors: Record<string, string> }

/**
 * Reads the fields over what was saved, or over the default that the form opened with: what was not touched stays as it was.
 * Messages by the end of the field's name.
 */
export const readStrip = (typed: StripTexts, saved: unknown, byDefault?: unknown): ReadStrip => {
  const before = stripTexts(saved ?? byDefault)
  const isOneNew = typed.one !== before.one
  const areMonthsNew = typed.months.some((text, k) => text !== before.months[k])
  if (!isOneNew && !areMonthsNew) return { ok: true, value: saved }
  if (typed.months.every(isEmpty)) return readOne(typed.one)
  // Nothing as the one figure beside months that were typed leaves it to the months, whatever it opened with.
  if (isOneNew && areMonthsNew && !isNothing(typed.one))
    return { ok: false, errors: { one: 'Enter the one figure or the months, not both' } }
  return areMonthsNew || typed.one === '' ? readMonths(typed.months) : readOne(typed.one)
}

const isNothing = (text: string): boolean => {
  const read = amount(text === '' ? '0' : text)
  return read.ok && read.value === 0
}

const readOne = (text: string): ReadStrip => {
  if (text === '') return { ok: true, value: undefined }
  const read = amount(text)
  return read.ok ? read : { ok: false, errors: { one: read.message } }
}

const readMonths = (texts: readonly string[]): ReadStrip => {
  const errors: Record<string, string> = {}
  const value = texts.map((text, k) => {
    const read = text === '' ? { ok: true as const, value: 0 } : amount(text)
    if (read.ok) return read.value
    errors[`m${k + 1}`] = read.message
    return 0
  })
  return Object.keys(errors).length > 0 ? { ok: false, errors } : { ok: true, value }
}

const amount = (text: string): Parsed<number> => parseQuantity(withoutDollarSign(text))

const monthNumbers = Array.from({ length: 12 }, (_, k) => k)
const isEmpty = (text: string): boolean => text === ''
/** A month without anything is an empty field. */
const figure = (value: unknown): string => (value === 0 || value === undefined ? '' : String(value))
