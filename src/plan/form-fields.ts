// The plan's forms, made from its schema: what to ask, under which name, in which unit, and what stands in each field.
import { planJsonSchema } from './json-schema.ts'

/** The part of JSON Schema that zod writes for a plan. */
export interface Shape {
  type?: string
  title?: string
  description?: string
  unit?: string
  format?: string
  const?: unknown
  enum?: readonly string[]
  properties?: Record<string, Shape>
  items?: Shape
  anyOf?: readonly Shape[]
  oneOf?: readonly Shape[]
  default?: unknown
  required?: readonly string[]
}

export type FieldKind = 'text' | 'number' | 'percent' | 'money' | 'month' | 'day' | 'choice' | 'lines'

export type FormNode =
  | {
      kind: 'field'
      of: FieldKind
      name: string
      label: string
      hint: string
      value: string
      options: { value: string; label: string }[]
      optional: boolean
    }
  | { kind: 'flag'; name: string; label: string; hint: string; checked: boolean }
  | { kind: 'hidden'; name: string; value: string }
  | { kind: 'group'; name: string; label: string; hint: string; children: FormNode[] }
  | { kind: 'list'; name: string; label: string; rows: FormNode[][]; most: boolean }
  | { kind: 'variants'; name: string; label: string; value: string; options: string[]; children: FormNode[] }

/** Names of people and accounts, for fields that point at them. */
export type Pointers = Readonly<Record<string, readonly { id: string; name: string }[]>>

export const planSections = [
  'household',
  'health',
  'savings',
  'draw',
  'tax',
  'assumptions',
  'chance',
] as const
export type PlanSection = (typeof planSections)[number]

let shapes: Record<string, Shape> | null = null

/** The schema never changes while the program runs: it is written out once. */
export const sectionShape = (section: PlanSection): Shape => {
  shapes ??= planJsonSchema().properties as Record<string, Shape>
  return shapes[section]!
}

/** The form of a section over its value in the document (or over what was typed, when `typed` is true: then texts are kept). */
export const formOf = (section: PlanSection, value: unknown, pointers: Pointers, typed = false): FormNode =>
  nodeOf(sectionShape(section), section, section, value, { pointers, typed })

interface Making {
  pointers: Pointers
  typed: boolean
}

const nodeOf = (shape: Shape, name: string, key: string, value: unknown, making: Making): FormNode => {
  const variants = variantsOf(shape)
  if (variants) return variantNode(shape, variants, name, key, value, making)
  if (shape.properties) {
    return {
      kind: 'group',
      name,
      label: labelOf(shape, key),
      hint: shape.description ?? '',
      children: childrenOf(shape, name, value, making),
    }
  }
  if (shape.type === 'array' && shape.items?.properties && !isYearList(shape)) {
    const rows = Array.isArray(value) ? value : []
    return {
      kind: 'list',
      name,
      label: labelOf(shape, key),
      rows: rows.map((row, place) => childrenOf(shape.items!, `${name}.${place}`, row, making)),
      most: false,
    }
  }
  if (shape.type === 'boolean')
    return {
      kind: 'flag',
      name,
      label: labelOf(shape, key),
      hint: shape.description ?? '',
      checked: value === true || value === 'yes',
    }
  if (key === 'id') return { kind: 'hidden', name, value: typeof value === 'string' ? value : '' }
  return fieldNode(shape, name, key, value, making)
}

const childrenOf = (shape: Shape, name: string, value: unknown, making: Making): FormNode[] => {
  const holder = (typeof value === 'object' && value !== null ? value : {}) as Record<string, unknown>
  return Object.entries(shape.properties ?? {})
    .filter(([, child]) => child.const === undefined)
    .map(([key, child]) =>
      nodeOf(child, `${name}.${key}`, key, holder[key] ?? (making.typed ? undefined : child.default), making),
    )
}

const fieldNode = (shape: Shape, name: string, key: string, value: unknown, making: Making): FormNode => {
  const of = fieldKind(shape, key, making.pointers)
  return {
    kind: 'field',
    of,
    name,
    label: unitLabel(shape, key, of),
    hint: shape.description ?? '',
    value: making.typed && typeof value === 'string' ? value : textOf(of, value),
    options: optionsOf(shape, key, making.pointers),
    optional: shape.default === undefined,
  }
}

export const fieldKind = (shape: Shape, key: string, pointers: Pointers = {}): FieldKind => {
  if (shape.enum || key in pointers) return 'choice'
  if (shape.type === 'array') return isYearList(shape) ? 'lines' : 'text'
  if (shape.type === 'number' || shape.type === 'integer') {
    if (shape.unit === 'share' || shape.unit === 'rate a year' || isPart(shape)) return 'percent'
    return shape.unit?.startsWith('dollars') ? 'money' : 'number'
  }
  if (shape.format === 'date') return 'day'
  return monthKeys.has(key) ? 'month' : 'text'
}

const monthKeys = new Set([
  'from',
  'to',
  'month',
  'farmShareFrom',
  'growsUntil',
  'fadesFrom',
  'startMonth',
  'start',
])

/** Parts of a mix and the like: 0 to 1 without a unit of their own. */
const isPart = (shape: Shape & { minimum?: number; maximum?: number }): boolean =>
  shape.type === 'number' && shape.minimum === 0 && shape.maximum === 1

/** `[{ year, amount }]`: written as lines, a year and an amount each. */
export const isYearList = (shape: Shape): boolean => {
  const names = Object.keys(shape.items?.properties ?? {})
  return names.length === 2 && names.includes('year') && names.includes('amount')
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

const variantNode = (
  shape: Shape,
  variants: { key: string; by: Map<string, Shape> },
  name: string,
  key: string,
  value: unknown,
  making: Making,
): FormNode => {
  const holder = (typeof value === 'object' && value !== null ? value : {}) as Record<string, unknown>
  const told = String(holder[variants.key] ?? '')
  const chosen = variants.by.has(told) ? told : [...variants.by.keys()][0]!
  return {
    kind: 'variants',
    name: `${name}.${variants.key}`,
    label: labelOf(shape, key),
    value: chosen,
    options: [...variants.by.keys()],
    children: childrenOf(variants.by.get(chosen)!, name, value, making),
  }
}

export const textOf = (of: FieldKind, value: unknown): string => {
  if (value === undefined || value === null) return ''
  if (of === 'percent' && typeof value === 'number') return String(Math.round(value * 1e8) / 1e6)
  if (of === 'lines' && Array.isArray(value))
    return value.map(({ year, amount }: { year: number; amount: number }) => `${year} ${amount}`).join('\n')
  if (Array.isArray(value)) return value.join(', ')
  return String(value)
}

const optionsOf = (shape: Shape, key: string, pointers: Pointers) => {
  const pointed = pointers[key]
  if (pointed) return pointed.map(({ id, name }) => ({ value: id, label: name }))
  return (shape.enum ?? []).map((value) => ({ value, label: value }))
}

/** The schema's title, else the key in words. */
export const labelOf = (shape: Shape, key: string): string =>
  shape.title ?? key.replaceAll(/([a-z])([A-Z0-9])/g, '$1 $2').replace(/^./, (letter) => letter.toUpperCase())

const unitLabel = (shape: Shape, key: string, of: FieldKind): string => {
  const label = labelOf(shape, key)
  if (of === 'percent') return shape.unit === 'rate a year' ? `${label}, percent a year` : `${label}, percent`
  const unit = of === 'number' ? shape.unit : undefined
  return unit === undefined || label.toLowerCase().includes(unit) ? label : `${label}, ${unit}`
}
