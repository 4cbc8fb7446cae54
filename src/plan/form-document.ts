// What was typed on a plan's form, back into the document: texts to numbers by their unit, rows kept, blanks left to the defaults.
import { parsePercent, parseQuantity } from '#money/parse.ts'
import {
  fieldKind,
  isYearList,
  type PlanSection,
  type Shape,
  sectionShape,
  variantsOf,
} from './form-fields.ts'
import { shortName } from './short-name.ts'

export interface TypedSection {
  document: unknown
  /** Messages by field name, like `household.living.0.perMonth`. */
  errors: Record<string, string>
}

export const sectionFromForm = (section: PlanSection, typed: unknown): TypedSection => {
  const errors: Record<string, string> = {}
  return { document: read(sectionShape(section), section, section, typed, errors), errors }
}

type Errors = Record<string, string>

const read = (shape: Shape, name: string, key: string, typed: unknown, errors: Errors): unknown => {
  const variants = variantsOf(shape)
  if (variants) {
    const holder = asObject(typed)
    const told = String(holder[variants.key] ?? '')
    const chosen = variants.by.get(told) ?? [...variants.by.values()][0]!
    return {
      ...readObject(chosen, name, typed, errors),
      [variants.key]: chosen.properties![variants.key]!.const,
    }
  }
  if (shape.properties) return readObject(shape, name, typed, errors)
  if (shape.type === 'array' && shape.items?.properties && !isYearList(shape))
    return readRows(shape, name, typed, errors)
  if (shape.type === 'boolean') return typed === 'yes'
  return readField(shape, name, key, typeof typed === 'string' ? typed.trim() : '', errors)
}

const asObject = (typed: unknown): Record<string, unknown> =>
  typeof typed === 'object' && typed !== null ? (typed as Record<string, unknown>) : {}

const readObject = (shape: Shape, name: string, typed: unknown, errors: Errors): Record<string, unknown> => {
  const holder = asObject(typed)
  const out: Record<string, unknown> = {}
  for (const [key, child] of Object.entries(shape.properties ?? {})) {
    if (child.const !== undefined) continue
    const value = read(child, `${name}.${key}`, key, holder[key], errors)
    if (value !== undefined) out[key] = value
  }
  return out
}

/** Rows get a short name of their own from what they are called; a row in which nothing was typed is left out. */
const readRows = (shape: Shape, name: string, typed: unknown, errors: Errors): unknown[] => {
  const rows = Array.isArray(typed) ? typed : []
  const taken = new Set(rows.map((row) => String(asObject(row).id ?? '')).filter(Boolean))
  return rows.map((row, place) => {
    const out = readObject(shape.items!, `${name}.${place}`, row, errors)
    if (shape.items!.properties?.id && out.id === undefined) {
      const id = shortName(String(out.name ?? ''), taken, 'line')
      taken.add(id)
      out.id = id
    }
    return out
  })
}

const readField = (shape: Shape, name: string, key: string, text: string, errors: Errors): unknown => {
  if (text === '') return undefined
  const of = fieldKind(shape, key)
  if (of === 'lines') return readLines(name, text, errors)
  if (shape.type === 'array')
    return shape.items?.enum ? text.split(/[\s,;]+/).filter(Boolean) : readNumbers(name, text, errors)
  if (shape.type !== 'number' && shape.type !== 'integer') return text
  const parsed = of === 'percent' ? parsePercent(text) : parseQuantity(text.replace(/^\s*([-−]?)\s*\$/, '$1'))
  if (parsed.ok) return parsed.value
  errors[name] = of === 'money' ? 'Enter an amount, like 1200 or 1200.50' : parsed.message
  return undefined
}

const readNumbers = (name: string, text: string, errors: Errors): number[] | undefined => {
  const words = text.split(/[\s,;]+/).filter(Boolean)
  if (words.every((word) => /^\d{1,2}$/.test(word))) return words.map((word) => Number.parseInt(word, 10))
  errors[name] = 'Enter months by their numbers, like 4, 9'
  return undefined
}

const readLines = (
  name: string,
  text: string,
  errors: Errors,
): { year: number; amount: number }[] | undefined => {
  const out: { year: number; amount: number }[] = []
  for (const [place, line] of text.split(/\r?\n/).entries()) {
    if (line.trim() === '') continue
    const match = /^\s*(\d{4})[\s,;:]+\$?([\d,]+(?:\.\d{1,2})?)\s*$/.exec(line)
    if (!match) {
      errors[name] = `Line ${place + 1}: enter a year and an amount, like 2019 41250`
      return undefined
    }
    out.push({
      year: Number.parseInt(match[1]!, 10),
      amount: Number.parseFloat(match[2]!.replaceAll(',', '')),
    })
  }
  return out
}
