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
  isOptional: boolean
}

const told = (shape: Shape, place: Place): Told => {
  const title = shape.title ?? place.title
  const unit = shape.unit ?? unitIn(shape, title ?? '')
  const required = new Set(shape.required ?? [])
  const within = (one: Shape) => told(one, { ...place, title })
  const field = ([key, child]: [string, Shape]) => [key, told(child, { key, isOptional: !required.has(key) })]
  return {
    ...shape,
    unit,
    description: shape.description ?? describe(shape, unit, place),
    ...(shape.anyOf && { anyOf: shape.anyOf.map(within) as Shape[] }),
    ...(shape.oneOf && { oneOf: shape.oneOf.map(within) as Shape[] }),
    ...(shape.items && { items: within(shape.items) as Shape }),
    ...(shape.properties && { properties: Object.fromEntries(Object.entries(shape.properties).map(field)) }),
  }
}

/** By what a title says in words, for numbers whose title has it. */
const units: readonly [RegExp, string][] = [
  [/dollars/, 'dollars'],
  [/hours/i, 'hours'],
  [/acres/i, 'acres'],
  [/miles/i, 'miles'],
  [/trips/i, 'trips'],
  [/payments/i, 'payments'],
  [/medicaid|children’s program|basic health/i, 'percent of the poverty level'],
  [/month of/i, 'month of the year, 1 to 12'],
  [/^year$/i, 'calendar year'],
  [/^years$/i, 'years'],
  [/^and months$/i, 'months'],
  [/females|males|young/i, 'heads'],
  [/units/i, 'units'],
]

const unitIn = (shape: Shape, title: string): string | undefined => {
  if (shape.const !== undefined || !(isNumber(shape) || shape.months !== undefined)) return undefined
  if (shape.minimum === 0 && shape.maximum === 1) return 'share'
  return units.find(([words]) => words.test(title))?.[1] ?? 'number'
}

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
    return `In ${unit}: one figure, the ${shape.months}, or twelve from January to December`
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
