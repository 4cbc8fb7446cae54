// What the plan's schema says of each of its parts, and as which kind of field a form draws and reads it.
import type { FieldWords } from '#farm/field-words.ts'
import { planJsonSchema } from '../json-schema.ts'

/** The part of JSON Schema that zod writes for a plan, with the words of `FieldWords`. */
export interface Shape extends FieldWords {
  type?: string
  title?: string
  description?: string
  format?: string
  const?: unknown
  enum?: readonly string[]
  /** Items that are words typed one after another. */
  words?: boolean
  properties?: Record<string, Shape>
  items?: Shape
  anyOf?: readonly Shape[]
  oneOf?: readonly Shape[]
  additionalProperties?: Shape | boolean
  propertyNames?: Shape
  default?: unknown
  required?: readonly string[]
  minimum?: number
  maximum?: number
}

export type FieldKind =
  | 'text'
  | 'number'
  | 'percent'
  | 'money'
  | 'month'
  | 'day'
  | 'choice'
  /** Several in one field, with commas between. */
  | 'numbers'
  | 'percents'
  | 'words'

export type Kind =
  | FieldKind
  | 'flag'
  | 'group'
  | 'variants'
  /** A number or twelve of them. */
  | 'months'
  /** Rows that can be added and taken out. */
  | 'rows'
  /** One value for each person, market and so on, most of them left empty. */
  | 'each'
  /** Values under names of their own, like shares of Schedule F lines. */
  | 'weights'
  /** Things of the plan, ticked or not. */
  | 'ticks'
  /** Has a page of its own. */
  | 'page'

export type Path = readonly (string | number)[]

let whole: Shape | null = null

/** The schema never changes while the program runs: it is written out once. */
export const planShape = (): Shape => {
  whole ??= planJsonSchema() as Shape
  return whole
}

/** The shape of a place in the document, like `['farm', 'markets', 2]`. Throws on a place no plan has. */
export const shapeAt = (path: Path): Shape =>
  path.reduce<Shape>((shape, step) => {
    const below = typeof step === 'number' ? shape.items : shape.properties?.[step]
    if (!below) throw new Error(`The plan's schema has no ${path.join('.')}`)
    return below
  }, planShape())

export const kindOf = (shape: Shape): Kind => {
  if (shape.page !== undefined) return 'page'
  if (variantsOf(shape)) return 'variants'
  if (shape.months !== undefined) return 'months'
  if (shape.properties) return 'group'
  if (typeof shape.additionalProperties === 'object') return 'weights'
  if (shape.type === 'boolean') return 'flag'
  return shape.type === 'array' ? listKind(shape.items ?? {}) : fieldKind(shape)
}

const listKind = (items: Shape): Kind => {
  if (items.properties) return eachKey(items) === null ? 'rows' : 'each'
  if (items.names) return 'ticks'
  if (items.enum || items.words) return 'words'
  return fieldKind(items) === 'percent' ? 'percents' : 'numbers'
}

const fieldKind = (shape: Shape): FieldKind => {
  if (shape.enum || shape.names) return 'choice'
  if (shape.type === 'number' || shape.type === 'integer') {
    if (shape.unit === 'share' || shape.unit === 'rate a year' || isPart(shape)) return 'percent'
    return shape.unit?.startsWith('dollars') ? 'money' : 'number'
  }
  if (shape.format === 'date') return 'day'
  return shape.format === 'month' ? 'month' : 'text'
}

/** Parts of a mix and the like: 0 to 1 without a unit of their own. */
const isPart = ({ type, minimum, maximum }: Shape): boolean =>
  type === 'number' && minimum === 0 && maximum === 1

/** The field that names a thing of the plan, in rows that hold one value for it and nothing else. */
export const eachKey = (items: Shape): string | null => {
  const [first, ...others] = Object.entries(items.properties ?? {})
  return first?.[1].names && others.length === 1 ? first[0] : null
}

/** The kinds a union has, by the value of the field that tells them apart. */
export const variantsOf = (shape: Shape): { key: string; by: Map<string, Shape> } | null => {
  const list = shape.anyOf ?? shape.oneOf
  const first = list?.[0]?.properties
  if (!list || !first) return null
  const key = Object.keys(first).find((name) => first[name]!.const !== undefined)
  if (key === undefined) return null
  return { key, by: new Map(list.map((one) => [String(one.properties![key]!.const), one])) }
}

/** The variant of a value, or of what was typed; the first one where that says none. */
export const variantOf = (
  { key, by }: { key: string; by: Map<string, Shape> },
  value: unknown,
): { told: string; shape: Shape } => {
  const said = String(asRecord(value)[key] ?? '')
  const told = by.has(said) ? said : [...by.keys()][0]!
  return { told, shape: by.get(told)! }
}

/** The fields a form of this shape has, without what only tells variants apart. */
export const fieldsOf = (shape: Shape, only?: readonly string[]): [key: string, field: Shape][] =>
  Object.entries(shape.properties ?? {}).filter(
    ([key, field]) => field.const === undefined && (only === undefined || only.includes(key)),
  )

/** Without what no field draws. */
export const drawnFieldsOf = (shape: Shape, only?: readonly string[]): [key: string, field: Shape][] =>
  fieldsOf(shape, only).filter(([, field]) => field.aside !== true)

/** May be left out as a whole: then all of its fields are empty. */
export const isLeftOut = (holder: Shape, key: string): boolean =>
  holder.properties?.[key]?.default === undefined && !(holder.required ?? []).includes(key)

/** Name of the hidden field that says which row of the saved list this was, where rows have no short name. */
export const rowKey = (items: Shape): 'id' | '_row' => (items.properties?.id ? 'id' : '_row')

export const nameBelow = (name: string, step: string | number): string =>
  name === '' ? String(step) : `${name}.${step}`

export const asRecord = (value: unknown): Record<string, unknown> =>
  typeof value === 'object' && value !== null ? (value as Record<string, unknown>) : {}

/** The schema's title, else the key in words. */
export const labelOf = (shape: Shape, key: string): string =>
  shape.title ?? key.replaceAll(/([a-z])([A-Z0-9])/g, '$1 $2').replace(/^./, (letter) => letter.toUpperCase())
