// What a field of the farm's forms is, and the hints that several of them share.
import { asWords } from '../parts/as-words.ts'

export type SpecKind =
  | 'text'
  | 'money'
  | 'quantity'
  | 'whole'
  | 'percent'
  | 'month'
  | 'checkbox'
  /** A year's amount, or twelve amounts. */
  | 'seasonal'
  /** One figure for each month, or twelve figures. */
  | 'level'
  /** Lines of a month and a figure: `2029-01 76`. */
  | 'steps'
  /** Lines of a month and a level: `2036-01 0`, or a month and twelve figures. */
  | 'level-steps'
  /** Free lines that the page reads by itself. */
  | 'lines'
  | 'choice'
  /** Tick boxes, one for each market of the plan. */
  | 'markets'
  /** An enterprise or herd of the plan, or none. */
  | 'line'

export interface FieldSpec {
  /** Path within the thing, like `prices.youngSold`; the input's name too. */
  name: string
  label: string
  hint?: string
  kind: SpecKind
  /** Left empty, the field is left out of the plan and its default holds. */
  optional?: boolean
  options?: readonly { value: string; label: string }[]
  /** Fields under one heading stand together. */
  group: string
}

export type FarmKind = 'enterprises' | 'markets' | 'herds' | 'purchases' | 'overheads' | 'loans'

export interface KindWords {
  kind: FarmKind
  one: string
  add: string
  purpose: string
  fields: readonly FieldSpec[]
}

export const twelve = 'A year’s amount, or twelve amounts from January with spaces between'
export const level = 'One figure for every month, or twelve from January with spaces between'
export const asOptions = (values: readonly string[]) =>
  values.map((value) => ({ value, label: asWords(value) }))
