// One value of the plan as the text of a field, and the text of a field as a value: both ways beside each other.
import { parseMonth } from '#calendar/month.ts'
import { type Parsed, parsePercent, parseQuantity } from '#money/parse.ts'
import type { FieldKind } from './shape.ts'

/** As a field can hold it: one line, nothing at its ends. */
export const textOf = (of: FieldKind, value: unknown): string => {
  if (value === undefined || value === null) return ''
  if (of === 'percent' && typeof value === 'number') return inPercent(value)
  if (of === 'percents' && Array.isArray(value)) return value.map(inPercent).join(', ')
  if (Array.isArray(value)) return value.join(', ')
  const text = String(value)
    .replace(/\0/g, '')
    .replace(/\s*[\r\n]+\s*/g, ' ')
    .trim()
  // A browser's month field is empty for anything but a month.
  return of === 'month' && parseMonth(text) === null ? '' : text
}

/** Nothing typed is no value: the plan's default holds. */
export const valueIn = (of: FieldKind, text: string): Parsed<unknown> => {
  if (text === '') return { ok: true, value: undefined }
  switch (of) {
    case 'percent':
      return parsePercent(text)
    case 'number':
      return parseQuantity(text)
    case 'money': {
      const read = parseQuantity(withoutDollarSign(text))
      return read.ok ? read : { ok: false, message: 'Enter an amount, like 1200 or 1200.50' }
    }
    case 'numbers':
      return eachOf(text, parseQuantity, 'Enter numbers with commas between, like 4, 9')
    case 'percents':
      return eachOf(text, parsePercent, 'Enter percentages with commas between, like 50, 80')
    case 'words':
      return { ok: true, value: words(text) }
    default:
      return { ok: true, value: text }
  }
}

export const withoutDollarSign = (text: string): string => text.replace(/^\s*([-\u2212]?)\s*\$/, '$1')

const inPercent = (share: number): string => String(Math.round(share * 1e8) / 1e6)

const words = (text: string): string[] => text.split(/[\s,;]+/).filter(Boolean)

const eachOf = (text: string, read: (word: string) => Parsed<number>, message: string): Parsed<number[]> => {
  const numbers: number[] = []
  for (const word of words(text)) {
    const one = read(word)
    if (!one.ok) return { ok: false, message }
    numbers.push(one.value)
  }
  return { ok: true, value: numbers }
}
