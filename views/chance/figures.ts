// What the chance part of the Runway page is given: the choices of a run, where it stands, and its outcome in months as numbers.
import type { Outcome } from '#chance/outcome.ts'

export interface ChanceFigures {
  planName: string
  revisionNo: number
  choices: ChanceChoices
  run: ChanceRunFigures
}

export interface ChanceChoices {
  /** Text as typed. */
  paths: string
  seed: string
  from: 'chance' | 'history'
}

export type ChanceRunFigures =
  | { status: 'none' }
  | { status: 'running'; id: string; done: number; of: number }
  | { status: 'stopped' }
  | { status: 'failed'; says: string }
  | ({ status: 'done'; seconds: number } & ChanceOutcomeFigures)

export interface ChanceOutcomeFigures {
  outcome: Outcome
  firstMonth: number
  from: 'chance' | 'history'
  bands: readonly BandPoint[]
  /** Spendable savings of the expected course, by month. */
  expected: readonly number[]
  /** What the worst tenth have in common, in sentences. */
  worst: readonly string[]
}

/** Dollars of the month; `month` counts from year 0 like every month. */
export interface BandPoint {
  month: number
  p10: number
  p50: number
  p90: number
  running: number
}
