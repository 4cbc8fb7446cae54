// A difference between two plans as a person reads it: where by the titles of the schema, what by its unit.
import { nameOfMonth, parseMonth } from '#calendar/month.ts'
import { formatDollars, formatDollarsAndCents } from '#money/format.ts'
import type { Difference } from './difference.ts'
import {
  asRecord,
  fieldsOf,
  kindOf,
  labelOf,
  planShape,
  type Shape,
  variantOf,
  variantsOf,
} from './form/shape.ts'
import { textOf } from './form/texts.ts'

export interface DifferenceWords {
  where: string
  first: string
  second: string
}

export const inWords = ({ path, first, second }: Difference): DifferenceWords => {
  const { labels, shape } = walk(path === '' ? [] : path.split('.'))
  const said = (text: string | null) => (text === null ? 'nothing' : say(shape, valueOfText(shape, text)))
  return { where: labels.join(', '), first: said(first), second: said(second) }
}

/** Steps of the schema by their titles; short names of rows, and `order`, stay as they are. */
const walk = (steps: readonly string[]): { labels: string[]; shape: Shape | null } => {
  let shape: Shape | null = planShape()
  const labels: string[] = []
  for (const step of steps) {
    const below: Shape | undefined = shape ? propertyOf(shape, step) : undefined
    labels.push(below ? labelOf(below, step) : step)
    shape = below ?? (shape && step !== 'order' ? rowOf(shape) : null)
  }
  return { labels, shape }
}

/** A field that several variants have, under other titles, is called by its key. */
const propertyOf = (shape: Shape, step: string): Shape | undefined => {
  const found = [shape, ...(variantsOf(shape)?.by.values() ?? [])].flatMap(({ properties }) =>
    properties && Object.hasOwn(properties, step) ? [properties[step]!] : [],
  )
  const isOne = found.every(({ title }) => title === found[0]!.title)
  return isOne ? found[0] : { ...found[0], title: labelOf({}, step) }
}

const rowOf = ({ items, additionalProperties }: Shape): Shape | null =>
  items ?? (typeof additionalProperties === 'object' ? additionalProperties : null)

/** Differences hold texts as they are, and everything else as JSON. */
const valueOfText = (shape: Shape | null, text: string): unknown => {
  if (shape?.type === 'string' || shape?.const !== undefined) return text
  try {
    return JSON.parse(text)
  } catch {
    return text
  }
}

const say = (shape: Shape | null, value: unknown): string => {
  if (value === undefined || value === null) return 'nothing'
  if (shape === null) return typeof value === 'object' ? JSON.stringify(value) : plain(value)
  const variants = variantsOf(shape)
  if (variants) {
    const { told, shape: chosen } = variantOf(variants, value)
    return [chosen.title ?? told, sayFields(chosen, value)].filter(Boolean).join('; ')
  }
  const kind = kindOf(shape)
  switch (kind) {
    case 'variants':
    case 'group':
      return sayFields(shape, value)
    case 'flag':
      return value === true ? 'yes' : 'no'
    case 'money':
      return typeof value === 'number' ? dollars(value) : String(value)
    case 'number':
      return typeof value === 'number' ? number(value, 4) : String(value)
    case 'percent':
      return typeof value === 'number' ? `${number(value * 100, 4)}%` : String(value)
    case 'month':
      return parseMonth(String(value)) === null ? String(value) : nameOfMonth(String(value))
    case 'choice':
      return shape.labels?.[String(value)] ?? String(value)
    case 'months':
      return [value]
        .flat()
        .map((one) => number(Number(one), 2))
        .join(', ')
    case 'rows':
    case 'each':
    case 'page':
      return sayRows(shape, value)
    case 'weights':
      return (
        Object.entries(asRecord(value))
          .map(([key, part]) => `${key} ${number(Number(part), 4)}`)
          .join(', ') || 'none'
      )
    case 'ticks':
      return textOf('words', value) || 'none'
    default:
      return textOf(kind, value) || 'none'
  }
}

/** The fields that say something; what stands at its default says nothing. */
const sayFields = (shape: Shape, value: unknown): string =>
  fieldsOf(shape)
    .filter(([key]) => key !== 'id')
    .flatMap(([key, field]) => {
      const own = asRecord(value)[key]
      return own === undefined || JSON.stringify(own) === JSON.stringify(field.default)
        ? []
        : [key === 'name' ? String(own) : `${labelOf(field, key)}: ${say(field, own)}`]
    })
    .join('; ')

const sayRows = (shape: Shape, value: unknown): string => {
  const rows: unknown[] = Array.isArray(value) ? value : []
  const names = rows.map((row) => asRecord(row).name).filter((name) => typeof name === 'string')
  return names.length === rows.length && rows.length > 0
    ? names.join(', ')
    : rows.map((row) => sayFields(shape.items ?? {}, row)).join(' / ') || 'none'
}

const number = (value: number, digits: number): string =>
  value.toLocaleString('en-US', { maximumFractionDigits: digits })

/** Whole dollars as they are, others to the cent. */
const dollars = (value: number): string =>
  Number.isInteger(value) ? formatDollars(value) : formatDollarsAndCents(value)

const plain = (value: unknown): string => (typeof value === 'number' ? number(value, 4) : String(value))
