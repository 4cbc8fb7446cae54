// The plan's schema for people who write a plan by hand or by a program: every field says what it is, in which unit, and what leaving it out means.

import { planJsonSchema } from '../json-schema.ts'
import { type Shape, variantsOf } from './shape.ts'

/** A shape whose unit is said in any word. */
type Told = Omit<Shape, 'unit'> & { unit?: string | undefined }

/** The JSON Schema with a unit at every number and a description at every field. */
export const planSchemaTold = (): Told => told(planJsonSchema() as Shape, { key: '', isOptional: false })

interface Place {
  key: string
  title?: string | undefined
  /** Of the field, for its single figure and its twelve. */
  unit?: string | undefined
  isOptional: boolean
}

const told = (shape: Shape, place: Place): Told => {
  const title = shape.title ?? place.title
  const unit = unitOf(shape) ?? place.unit
  const required = new Set(shape.required ?? [])
  const isFigures = shape.months !== undefined || place.unit !== undefined
  const within = (one: Shape) =>
    told(one, { ...place, title, unit: isFigures ? ofItems(one, unit) : undefined })
  const field = ([key, child]: [string, Shape]) => [key, told(child, { key, isOptional: !required.has(key) })]
  const { told: _, ...said } = shape
  return {
    ...said,
    unit,
    description:
      shape.belowZero === undefined
        ? (shape.description ?? describe(shape, unit, place))
        : [describe(shape, unit, place), shape.description].filter(Boolean).join(' '),
    ...(shape.anyOf && { anyOf: shape.anyOf.map(within) as Shape[] }),
    ...(shape.oneOf && { oneOf: shape.oneOf.map(within) as Shape[] }),
    ...(shape.items && { items: within(shape.items) as Shape }),
    ...(typeof shape.additionalProperties === 'object' && {
      additionalProperties: told(shape.additionalProperties, { key: '*', isOptional: true }) as Shape,
    }),
    ...(shape.properties && { properties: Object.fromEntries(Object.entries(shape.properties).map(field)) }),
  }
}

/** What a field of numbers is counted in, and per what; of one figure or twelve, what the one is. */
const unitOf = (shape: Shape): string | undefined => {
  if (shape.const !== undefined || !(isNumber(shape) || shape.months !== undefined)) return undefined
  return shape.told ?? shape.unit ?? (shape.minimum === 0 && shape.maximum === 1 ? 'share' : undefined)
}

/** Twelve figures of what one figure says for a year are those of its months. */
const ofItems = (shape: Shape, unit: string | undefined): string | undefined =>
  shape.type === 'array' ? unit?.replace(/year$/, 'month') : unit

const isNumber = ({ type }: Shape): boolean => type === 'number' || type === 'integer'

const describe = (shape: Shape, unit: string | undefined, { key, isOptional }: Place): string => {
  const what = whatIs(shape, unit, key)
  if (!isOptional) return `${what}.`
  const { default: filled } = shape
  const isPlain = ['number', 'string', 'boolean'].includes(typeof filled)
  return `${what}. ${isPlain ? `Left out: ${JSON.stringify(filled)}` : 'May be left out'}.`
}

const whatIs = (shape: Shape, unit: string | undefined, key: string): string => {
  if (shape.const !== undefined) return `Always ${JSON.stringify(shape.const)}`
  if (shape.months !== undefined)
    return shape.months === 'each month'
      ? `One figure in ${unit} that holds in each month, or twelve, from January to December`
      : `One figure in ${unit}, or twelve in ${unit?.replace(/year$/, 'month')}, from January to December`
  if (shape.belowZero !== undefined) return `In ${unit}; below zero: ${shape.belowZero.toLowerCase()}`
  if (isNumber(shape)) return unit === 'share' ? 'A share, 0 to 1' : `In ${unit}`
  if (shape.type === 'boolean') return 'true or false'
  if (shape.enum)
    return `One of ${shape.enum.map((one) => (shape.labels?.[one] ? `${one} (${shape.labels[one]})` : one)).join(', ')}`
  if (shape.names) return `The short name (id) of: ${shape.names}`
  if (shape.format === 'month') return 'A month, like 2027-04'
  if (shape.format === 'date') return 'A day, like 2027-04-30'
  if (shape.type === 'array') return 'A list'
  if (variantsOf(shape)) return 'One of several kinds'
  if (shape.properties || shape.additionalProperties) return 'A group of fields'
  return key === 'id' ? 'A short name, by which other parts point at it' : 'Text'
}
