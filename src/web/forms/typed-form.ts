// From input names and what was typed to nested values. The work grows with what was sent, whatever its shape, and ends at bounds said in words.
import { HTTPException } from 'hono/http-exception'
import type { Day } from '#calendar/day.ts'

/** Nested as the input names say: `lines.0.amount` is `{ lines: [{ amount }] }`; a name ending in `[]` collects a list. */
export interface TypedForm {
  nested: Record<string, unknown>
  /** The typed text by input name, to show again. */
  value(name: string): string
  values(name: string): readonly string[]
  file(name: string): File | undefined
  /** All files of a field that takes several, in the order in which they were chosen. */
  files(name: string): readonly File[]
  /** The day it was sent, for a form that was. */
  today?: Day
}

const mostFields = 10_000
/** A plan holds up to 720 one-off items: twelve for each of sixty years. */
const mostRows = 1000
/** Rows in which nothing was typed, between others. */
const mostGaps = 2_000
const mostSteps = 8
const longestName = 200

/** A step may be the id of a record, which has hyphens. */
const namePattern = /^[A-Za-z]\w*(\.[\w-]+)*(\[\])?$/
const forbiddenStep = /^(__proto__|constructor|prototype)$/

/** What was typed as pairs of input name and text, as a form would send it again. */
export const typedPairs = (typed: unknown, name = ''): [name: string, value: string][] => {
  if (typeof typed === 'string') return [[name, typed]]
  if (typeof typed !== 'object' || typed === null) return []
  if (Array.isArray(typed) && typed.every((one) => typeof one === 'string'))
    return typed.map((one) => [`${name}[]`, one])
  return Object.entries(typed).flatMap(([step, inner]) =>
    typedPairs(inner, name === '' ? step : `${name}.${step}`),
  )
}

export function boundFields(count: number): void {
  if (count > mostFields)
    refuse(`That form has more than ${mostFields.toLocaleString('en-US')} fields. Enter it in parts`)
}

export function typedForm(fields: Iterable<readonly [string, string | File]>): TypedForm {
  const nested: Record<string, unknown> = {}
  const typed = new Map<string, string[]>()
  const files = new Map<string, File[]>()
  let count = 0
  for (const [name, value] of fields) {
    count += 1
    boundFields(count)
    if (name.length > longestName || !namePattern.test(name)) continue
    if (typeof value !== 'string') {
      if (value.size > 0) files.set(name, [...(files.get(name) ?? []), value])
      continue
    }
    // No keyboard types a NUL, and SQLite takes it for the end of a text.
    const text = value.replaceAll('\0', '')
    const before = typed.get(name)
    if (before) before.push(text)
    else typed.set(name, [text])
    placeTyped(nested, name, text)
  }
  fillGaps(nested, { left: mostGaps })
  return {
    nested,
    value: (name) => typed.get(name)?.at(-1) ?? '',
    values: (name) => typed.get(name) ?? [],
    file: (name) => files.get(name)?.at(-1),
    files: (name) => files.get(name) ?? [],
  }
}

/** Rows of a list that were left out between others are rows in which nothing was typed. */
function fillGaps(at: unknown, gaps: { left: number }): void {
  if (typeof at !== 'object' || at === null) return
  if (Array.isArray(at))
    for (let index = 0; index < at.length; index += 1)
      if (!(index in at)) {
        gaps.left -= 1
        if (gaps.left < 0)
          refuse('That form leaves out too many rows between others. Fill the rows in one after the other')
        at[index] = {}
      }
  for (const child of Object.values(at)) fillGaps(child, gaps)
}

/** Puts a text where its input's name says, in what was typed. */
export function placeTyped(root: Record<string, unknown>, name: string, value: string): void {
  const isList = name.endsWith('[]')
  const path = (isList ? name.slice(0, -2) : name).split('.')
  if (path.some((step) => forbiddenStep.test(step))) return
  if (path.length > mostSteps)
    refuse(`A field of that form lies more than ${mostSteps} steps deep. Open the page again`)
  let at: Record<string, unknown> | unknown[] = root
  for (const [index, step] of path.entries()) {
    if (Array.isArray(at)) {
      if (!/^\d{1,9}$/.test(step)) return
      if (Number(step) >= mostRows)
        refuse(`That form has a list of more than ${mostRows} rows. Enter it in parts`)
    }
    const holder = at as Record<string, unknown>
    const known = Object.hasOwn(holder, step) ? holder[step] : undefined
    if (index === path.length - 1) {
      if (!isList) holder[step] = value
      else if (Array.isArray(known)) known.push(value)
      else holder[step] = [value]
      return
    }
    if (known === undefined) holder[step] = /^\d+$/.test(path[index + 1]!) ? [] : {}
    else if (typeof known !== 'object') return
    at = holder[step] as Record<string, unknown> | unknown[]
  }
}

function refuse(message: string): never {
  throw new HTTPException(422, { message: `${message}; nothing was stored.` })
}
