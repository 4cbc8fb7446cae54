// Where two plan documents differ, field by field, in words a person can read.
import type { Plan } from './plan.ts'

export interface Difference {
  /** Dotted place in the document; list entries by their id or first month where they have one. */
  path: string
  /** Null where that document has no such field. */
  first: string | null
  second: string | null
}

/** Differences in document order. Lists of things with ids are matched by id, others by place. */
export const differences = (first: Plan | unknown, second: Plan | unknown): Difference[] => {
  const found: Difference[] = []
  compare('', first, second, found)
  return found
}

const compare = (path: string, first: unknown, second: unknown, found: Difference[]): void => {
  if (Object.is(first, second)) return
  const a = partsOf(first)
  const b = partsOf(second)
  if (a === null || b === null) {
    if (written(first) !== written(second))
      found.push({ path, first: written(first), second: written(second) })
    return
  }
  const below = (key: string) => (path === '' ? key : `${path}.${key}`)
  if (Array.isArray(first) && Array.isArray(second)) {
    const [before, after] = [inBoth(a, b), inBoth(b, a)]
    if (before !== after) found.push({ path: below('order'), first: before, second: after })
  }
  for (const key of new Set([...a.keys(), ...b.keys()])) compare(below(key), a.get(key), b.get(key), found)
}

/** What stands in both lists, in the order of the first. */
const inBoth = (list: Map<string, unknown>, other: Map<string, unknown>): string =>
  [...list.keys()].filter((key) => other.has(key)).join(', ')

/** The parts of an object or list by name; null for a plain value, and for a list of plain values. */
const partsOf = (value: unknown): Map<string, unknown> | null => {
  if (Array.isArray(value)) {
    if (value.every((one) => typeof one !== 'object' || one === null))
      return value.length === 0 ? new Map() : null
    return new Map(value.map((one, place) => [nameOf(one, place), one]))
  }
  if (typeof value === 'object' && value !== null) return new Map(Object.entries(value))
  return null
}

const nameOf = (one: unknown, place: number): string => {
  const { id, from, year } = (one ?? {}) as { id?: unknown; from?: unknown; year?: unknown }
  const name = id ?? from ?? year
  return typeof name === 'string' || typeof name === 'number' ? String(name) : String(place + 1)
}

const written = (value: unknown): string | null => {
  if (value === undefined) return null
  if (typeof value === 'string') return value
  return JSON.stringify(value)
}
