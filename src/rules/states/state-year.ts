// One year of a state's income tax law as plain data: safe to post to a worker.
import type { Basis } from '../dated.ts'
import type { StateCode } from '../places/state-names.ts'
import type { YearRules } from './rule-form.ts'

export interface StateLaw {
  /** The state whose law it is; null for rates that somebody typed. */
  state: StateCode | null
  year: number
  basis: Basis
  /** Year of the rules used, or the rules that somebody typed. */
  rules: number | YearRules
  /** How far prices moved: not at all, since the year of the rules, since the last year with published figures. */
  index: [none: 1, since: number, sincePublished: number]
  /** Typed: a part of the figure that local tax in the state applies to. */
  localRate: number
}
