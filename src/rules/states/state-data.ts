// One state's data: read and checked when it is first asked for. All of it second hand, but for what is marked as written from memory.
import { z } from 'zod'
import type { StateCode } from '../places/state-names.ts'
import { type YearRules, yearRules } from './rule-form.ts'
import { stateFiles } from './state-files.ts'

/** How the figures were obtained, shown wherever they are. */
export const secondHand =
  'second hand: read on November 28, 2026 in the parameter files of an open rules library; statutes and forms were not opened'

/** A year whole: what its file leaves out is as in the year before, and null is no longer law. */
const wholeYear = z.strictObject({
  /** The newest year whose indexed figures the source has. */
  lastPublished: z.number(),
  /** Of what is indexed, that which still has the figures of that year. */
  carried: z.array(z.string()).optional(),
  ...yearRules.shape,
})

/** What moves with prices: thresholds, values or all of a part of the rules or of an item by its words. */
const moved = z.record(z.string(), z.enum(['all', 'bands', 'values']))

const monthDay = z.string().regex(/^\d\d-\d\d$/)

const stateFile = z.strictObject({
  code: z.string(),
  hasIncomeTax: z.boolean(),
  /** Of a state without a general income tax, what it does tax. */
  taxesOnly: z.string().optional(),
  /** Local income tax: the figure that a typed rate applies to, and what is usual. */
  /** `withState`: paid with the state’s return, from memory; else to an office of its own. */
  local: z
    .strictObject({ on: z.string(), says: z.string(), withState: z.literal(true).optional() })
    .optional(),
  /** Dates of return and payments ahead, month and day, and the part that each payment is, as far as they are not the federal ones. */
  due: z
    .strictObject({
      return: monthDay.optional(),
      estimated: z.array(monthDay).length(4).optional(),
      shares: z.array(z.number()).length(4).optional(),
      source: z.string(),
      obtained: z.enum(['read', 'memory']),
    })
    .optional(),
  indexing: z.string().optional(),
  indexed: moved.optional(),
  leftOut: z.array(z.strictObject({ rule: z.string(), usually: z.string().optional() })).default([]),
  sources: z.array(z.strictObject({ title: z.string(), address: z.string() })),
  years: z.record(z.string(), z.record(z.string(), z.unknown())),
})

export type Moved = z.infer<typeof moved>

export interface RulesOfYear {
  year: number
  lastPublished: number
  carried: readonly string[]
  rules: YearRules
}

export interface StateData extends Omit<z.infer<typeof stateFile>, 'years' | 'code'> {
  code: StateCode
  /** In order; each holds until the next. */
  years: readonly RulesOfYear[]
}

const known = new Map<StateCode, StateData>()

export const stateData = (code: StateCode): StateData => {
  const kept = known.get(code)
  if (kept !== undefined) return kept
  const data = readState(code)
  known.set(code, data)
  return data
}

const readState = (code: StateCode): StateData => {
  const { years, ...file } = stateFile.parse(stateFiles[code])
  const all: RulesRead[] = []
  let before: Record<string, unknown> = {}
  for (const [year, said] of Object.entries(years)) {
    const whole = { ...before, ...said }
    for (const [part, rules] of Object.entries(whole)) if (rules === null) delete whole[part]
    if (!('carried' in said)) delete whole.carried
    all.push(new RulesRead(Number(year), whole))
    before = whole
  }
  return { ...file, code, years: all }
}

/** Read and checked when first asked for: a household needs the newest year of one state. */
class RulesRead implements RulesOfYear {
  readonly year: number
  readonly #said: Readonly<Record<string, unknown>>
  #read: Omit<RulesOfYear, 'year'> | undefined

  constructor(year: number, said: Readonly<Record<string, unknown>>) {
    this.year = year
    this.#said = said
  }

  get lastPublished() {
    return this.#known().lastPublished
  }

  get carried() {
    return this.#known().carried
  }

  get rules() {
    return this.#known().rules
  }

  #known() {
    this.#read ??= readYear(this.#said)
    return this.#read
  }
}

const readYear = (said: Readonly<Record<string, unknown>>): Omit<RulesOfYear, 'year'> => {
  const { lastPublished, carried = [], ...rules } = wholeYear.parse(said)
  return { lastPublished, carried, rules }
}

/** Items of a year that were written from memory, by their words. */
export const uncheckedItems = ({ rules }: RulesOfYear): string[] => {
  const found = new Set<string>()
  const walk = (value: unknown, what: string): void => {
    if (typeof value !== 'object' || value === null) return
    if (Array.isArray(value)) {
      for (const one of value) walk(one, what)
      return
    }
    const { mark, what: own = what } = value as { mark?: string; what?: string }
    if (mark !== undefined) found.add(own)
    for (const part of Object.values(value)) walk(part, own)
  }
  walk(rules, '')
  return [...found]
}
