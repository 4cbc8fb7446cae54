// What was typed on a form, back into the plan: texts to numbers by their unit, each laid over what was saved. What the form did
// not hold stays, and so does a field in which the saved value's own text still stands.
import type { Named } from '#farm/field-words.ts'
import { shortName } from '../short-name.ts'
import { readStrip, typedStrip } from './month-strip.ts'
import type { FormPart } from './nodes.ts'
import {
  asRecord,
  drawnFieldsOf,
  eachKey,
  type FieldKind,
  isLeftOut,
  kindOf,
  nameBelow,
  rowKey,
  type Shape,
  shapeAt,
  variantOf,
  variantsOf,
} from './shape.ts'
import { signedText } from './signed.ts'
import { textOf, valueIn } from './texts.ts'

export interface TypedPart {
  value: unknown
  /** Messages by the names of fields, like `household.living.0.perMonth`. */
  errors: Record<string, string>
  /** The field that shows a place of the document, `farm.markets.2.trips`; null where the form shows nothing of it. */
  nameOf: (path: string) => string | null
}

/** `typed` is what stands under the part's name; `shown` names the boxes and lists that the form held. */
export const readPart = (
  part: FormPart,
  saved: unknown,
  typed: unknown,
  shown: ReadonlySet<string>,
): TypedPart => {
  const reading: Reading = { shown, errors: {}, names: new Map() }
  const place = { shape: shapeAt(part.path), name: part.name, path: part.path.join('.') }
  const value = variantsOf(place.shape)
    ? readVariant(place, typed, saved, reading)
    : readGroup(place, typed, saved, reading, part.only)
  return { value, errors: reading.errors, nameOf: (path) => nameOf(reading.names, path) }
}

interface Reading {
  shown: ReadonlySet<string>
  errors: Record<string, string>
  names: Map<string, string>
}

interface Place {
  shape: Shape
  name: string
  path: string
  /** What holds it cannot be without it. */
  isRequired?: boolean
}

/** The nearest field at or above a place. */
const nameOf = (names: ReadonlyMap<string, string>, path: string): string | null => {
  for (let at = path; at !== ''; at = at.slice(0, Math.max(0, at.lastIndexOf('.')))) {
    const name = names.get(at)
    if (name !== undefined) return name
  }
  return null
}

const read = (place: Place, typed: unknown, saved: unknown, reading: Reading): unknown => {
  const { shape, name, path } = place
  const kind = kindOf(shape)
  if (kind !== 'page') reading.names.set(path, name)
  switch (kind) {
    case 'page':
      return saved
    case 'variants':
      return typed === undefined ? saved : readVariant(place, typed, saved, reading)
    case 'group':
      return typed === undefined ? saved : readGroup(place, typed, saved, reading)
    case 'months':
      return typed === undefined ? saved : readMonths(place, typed, saved, reading)
    case 'flag':
      return reading.shown.has(name) ? typed === 'yes' : saved
    case 'ticks':
      return reading.shown.has(name) ? readTicks(typed, saved) : saved
    case 'rows':
    case 'each':
      return reading.shown.has(name) ? readRows(place, typed, saved, reading) : saved
    case 'weights':
      return reading.shown.has(name) ? readWeights(place, typed, saved, reading) : saved
    default:
      return typeof typed === 'string' ? readField(place, kind, typed, saved, reading) : saved
  }
}

const readField = (
  { shape, name, isRequired }: Place,
  of: FieldKind,
  typed: string,
  saved: unknown,
  reading: Reading,
): unknown => {
  const text = typed.trim()
  if (text === '' && isRequired && shape.names) reading.errors[name] = `Choose the ${calledIn(shape.names)}`
  if (text === textOf(of, saved)) return saved
  const parsed = valueIn(of, text)
  if (parsed.ok) return parsed.value
  reading.errors[name] = parsed.message
  return undefined
}

/** People are chosen as such; all else is called what it is. */
const calledIn = (names: Named): string =>
  names === 'adult' || names === 'anyone' || names === 'worker' ? 'person' : names

const readVariant = (place: Place, typed: unknown, saved: unknown, reading: Reading): unknown => {
  const variants = variantsOf(place.shape)!
  const said = asRecord(typed)[variants.key] ?? asRecord(saved)[variants.key]
  const { told, shape } = variantOf(variants, { [variants.key]: said })
  const isSame = asRecord(saved)[variants.key] === told
  reading.names.set(`${place.path}.${variants.key}`, nameBelow(place.name, variants.key))
  const fields = readGroup({ ...place, shape }, typed, isSame ? saved : {}, reading)
  return { [variants.key]: told, ...fields }
}

const readGroup = (
  { shape, name, path }: Place,
  typed: unknown,
  saved: unknown,
  reading: Reading,
  only?: readonly string[],
): Record<string, unknown> => {
  const [holder, before] = [asRecord(typed), asRecord(saved)]
  const out = { ...before }
  for (const [key, field] of drawnFieldsOf(shape, only)) {
    if (key === 'id') continue
    const place = {
      shape: field,
      name: nameBelow(name, key),
      path: nameBelow(path, key),
      isRequired: shape.required?.includes(key) === true && field.default === undefined,
    }
    const value =
      kindOf(field) === 'group' && isLeftOut(shape, key) && isEmpty(holder[key])
        ? leftOut(place, holder[key], before[key], reading)
        : read(place, signedText(field, key, holder), before[key], reading)
    if (value === undefined) delete out[key]
    else out[key] = value
  }
  return out
}

const leftOut = (place: Place, typed: unknown, saved: unknown, reading: Reading): unknown => {
  reading.names.set(place.path, place.name)
  return typed === undefined ? saved : undefined
}

const isEmpty = (typed: unknown): boolean =>
  typed === undefined ||
  (typeof typed === 'string' ? typed.trim() === '' : Object.values(asRecord(typed)).every(isEmpty))

const readMonths = ({ name, shape }: Place, typed: unknown, saved: unknown, reading: Reading): unknown => {
  const strip = readStrip(typedStrip(typed), saved, shape.default)
  if (strip.ok) return strip.value
  for (const [end, message] of Object.entries(strip.errors)) reading.errors[`${name}.${end}`] = message
  return undefined
}

/** What stays ticked keeps its order; what is ticked anew comes after it. */
const readTicks = (typed: unknown, saved: unknown): string[] => {
  const ticked = (Array.isArray(typed) ? typed : []).filter(
    (one): one is string => typeof one === 'string' && one !== '',
  )
  const before: unknown[] = Array.isArray(saved) ? saved : []
  const kept = before.filter((one): one is string => typeof one === 'string' && ticked.includes(one))
  return [...kept, ...ticked.filter((one) => !kept.includes(one))]
}

/** Each row over the saved one that it was; a new row gets a short name of its own from what it is called. */
const readRows = (place: Place, typed: unknown, saved: unknown, reading: Reading): unknown[] => {
  const items = place.shape.items!
  const each = eachKey(items)
  const rows = (Array.isArray(typed) ? typed : []).map(asRecord)
  const before: unknown[] = Array.isArray(saved) ? saved : []
  const taken = new Set([...rows, ...before.map(asRecord)].map((row) => String(row.id ?? '')).filter(Boolean))
  const out: unknown[] = []
  for (const [index, row] of rows.entries()) {
    if (Object.keys(row).length === 0 || (each !== null && isEmpty({ ...row, [each]: '', _row: '' })))
      continue
    const below = { shape: items, name: `${place.name}.${index}`, path: `${place.path}.${out.length}` }
    reading.names.set(below.path, below.name)
    const value = readGroup(below, row, savedRow(items, row, before), reading)
    out.push(items.properties?.id ? { ...value, id: idOf(row, value, taken) } : value)
  }
  return out
}

const savedRow = (items: Shape, row: Record<string, unknown>, before: readonly unknown[]): unknown => {
  if (rowKey(items) === 'id') return before.find((one) => asRecord(one).id === row.id)
  const place = String(row._row ?? '')
  return /^\d{1,4}$/.test(place) ? before[Number.parseInt(place, 10)] : undefined
}

const idOf = (row: Record<string, unknown>, value: Record<string, unknown>, taken: Set<string>): string => {
  if (typeof row.id === 'string' && row.id !== '') return row.id
  const id = shortName(String(value.name ?? ''), taken, 'line')
  taken.add(id)
  return id
}

const readWeights = (place: Place, typed: unknown, saved: unknown, reading: Reading): unknown => {
  const before = asRecord(saved)
  const out: Record<string, unknown> = {}
  for (const [index, row] of (Array.isArray(typed) ? typed : []).map(asRecord).entries()) {
    const called = String(row.key ?? '').trim()
    const key = Object.keys(before).find((one) => textOf('text', one) === called) ?? called
    const text = String(row.value ?? '')
    if (text.trim() === '' && (key === '' || place.shape.names !== undefined)) continue
    const name = `${place.name}.${index}`
    if (key === '') reading.errors[`${name}.key`] = 'Say what this is a part of'
    else if (Object.hasOwn(out, key)) reading.errors[`${name}.key`] = `${key} is here twice`
    else {
      const below = { shape: place.shape.additionalProperties as Shape, name: `${name}.value` }
      const value = read({ ...below, path: `${place.path}.${key}` }, text, before[key], reading)
      if (value === undefined) reading.errors[`${name}.value`] ??= 'Enter a number, or take the row out'
      else out[key] = value
    }
  }
  return out
}
