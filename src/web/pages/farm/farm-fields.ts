// Reads the farm's forms into plan values by their list of fields, and writes plan values back as the text to type over.
import { parseMonth } from '#calendar/month.ts'
import { parseMoney, parsePercent, parseQuantity } from '#money/parse.ts'
import type { FieldSpec } from '#views/farm/field-hints.ts'
import type { FormErrors, TypedForm } from '#web/forms/form.ts'

export type ReadThing = { ok: true; thing: Record<string, unknown> } | { ok: false; errors: FormErrors }

/** The old thing with what was typed over it. What a form does not show is kept. */
export const readThing = (
  fields: readonly FieldSpec[],
  typed: TypedForm,
  old: Record<string, unknown>,
): ReadThing => {
  const thing = structuredClone(old)
  const errors: Record<string, string> = {}
  for (const spec of fields) {
    if (spec.kind === 'lines') continue
    const read = readField(spec, typed)
    if (!read.ok) errors[spec.name] = read.message
    else put(thing, spec.name, read.value)
  }
  return Object.keys(errors).length > 0 ? { ok: false, errors } : { ok: true, thing }
}

type Read = { ok: true; value: unknown } | { ok: false; message: string }

const readField = (spec: FieldSpec, typed: TypedForm): Read => {
  const text = typed.value(spec.name).trim()
  if (spec.kind === 'checkbox') return { ok: true, value: text === 'yes' }
  if (spec.kind === 'markets') return { ok: true, value: [...typed.values(`${spec.name}[]`)] }
  if (spec.kind === 'steps') return readLines(text, (rest) => parseQuantity(rest))
  if (spec.kind === 'level-steps') return readLines(text, readTwelve)
  if (text === '' && (spec.optional || spec.kind === 'line')) return { ok: true, value: undefined }
  switch (spec.kind) {
    case 'money': {
      const read = text === '' ? ({ ok: true, value: 0 } as const) : parseMoney(text)
      return read.ok ? { ok: true, value: read.value / 100 } : read
    }
    case 'quantity':
      return text === '' ? { ok: true, value: 0 } : parseQuantity(text)
    case 'whole':
      return text === '' ? { ok: true, value: 0 } : wholeNumber(text)
    case 'percent':
      return text === '' ? { ok: true, value: 0 } : parsePercent(text)
    case 'month':
      return parseMonth(text) === null
        ? { ok: false, message: 'Enter a month, like 2027-03' }
        : { ok: true, value: text }
    case 'seasonal':
    case 'level':
      return readTwelve(text)
    case 'choice':
      return spec.options?.some((option) => option.value === text)
        ? { ok: true, value: text }
        : { ok: false, message: 'Choose one of the list' }
    default:
      return text === ''
        ? { ok: false, message: `Enter ${spec.label.toLowerCase()}` }
        : { ok: true, value: text.slice(0, 120) }
  }
}

const wholeNumber = (text: string): Read => {
  const read = parseQuantity(text)
  if (!read.ok || (Number.isInteger(read.value) && read.value >= 0)) return read
  return { ok: false, message: 'Enter a whole number, like 12' }
}

/** `1200` or twelve figures with spaces between. */
const readTwelve = (text: string): Read => {
  const parts = text.split(/[\s;]+/).filter((part) => part !== '')
  if (parts.length === 0) return { ok: true, value: 0 }
  const wrong = { ok: false, message: 'Enter one figure, or twelve figures with spaces between' } as const
  if (parts.length !== 1 && parts.length !== 12)
    return { ...wrong, message: `${wrong.message}: there are ${parts.length}` }
  const values = parts.map((part) => parseQuantity(part.replace(/^\$/, '')))
  const bad = values.findIndex((one) => !one.ok || one.value < 0)
  if (bad >= 0) return { ok: false, message: `“${parts[bad]}” is not a figure of zero or more` }
  const numbers = values.map((one) => (one.ok ? one.value : 0))
  return { ok: true, value: numbers.length === 1 ? numbers[0] : numbers }
}

const readLines = (text: string, readRest: (rest: string) => Read): Read => {
  const steps: { from: string; value: unknown }[] = []
  for (const line of text.split('\n').map((one) => one.trim())) {
    if (line === '') continue
    const [from = '', ...rest] = line.split(/\s+/)
    if (parseMonth(from) === null)
      return { ok: false, message: `“${line}”: begin each line with a month, like 2029-01 76` }
    const value = readRest(rest.join(' '))
    if (rest.length === 0 || !value.ok)
      return { ok: false, message: `“${line}”: after the month comes a figure, like 2029-01 76` }
    steps.push({ from, value: value.value })
  }
  return { ok: true, value: steps }
}

/** Opening text of every field. Tick boxes of markets come back as a list under `NAME[]`. */
export const writeThing = (
  fields: readonly FieldSpec[],
  thing: Record<string, unknown>,
): Record<string, string> => {
  const values: Record<string, string> = {}
  for (const spec of fields) {
    const value = take(thing, spec.name)
    if (spec.kind === 'markets' || spec.kind === 'lines') continue
    values[spec.name] = writeValue(spec, value)
  }
  return values
}

const writeValue = (spec: FieldSpec, value: unknown): string => {
  if (value === undefined || value === null) return ''
  if (spec.kind === 'checkbox') return value === true ? 'yes' : ''
  if (spec.kind === 'percent') return plain((value as number) * 100)
  if (spec.kind === 'steps' || spec.kind === 'level-steps')
    return (value as { from: string; value: number | number[] }[])
      .map((step) => `${step.from} ${figures(step.value)}`)
      .join('\n')
  if (Array.isArray(value)) return figures(value as number[])
  return typeof value === 'number' ? plain(value) : String(value)
}

const figures = (value: number | number[]) => [value].flat().map(plain).join(' ')
const plain = (value: number) => String(Math.round(value * 1e6) / 1e6)

const put = (thing: Record<string, unknown>, path: string, value: unknown) => {
  const steps = path.split('.')
  let at = thing
  for (const step of steps.slice(0, -1)) {
    at[step] ??= {}
    at = at[step] as Record<string, unknown>
  }
  const last = steps.at(-1)!
  if (value === undefined) delete at[last]
  else at[last] = value
}

const take = (thing: Record<string, unknown>, path: string): unknown =>
  path.split('.').reduce<unknown>((at, step) => (at as Record<string, unknown> | undefined)?.[step], thing)
