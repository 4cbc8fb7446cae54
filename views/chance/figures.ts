// What the chance part of the Runway page is given: the choices of a run, where it stands, and its outcome in months as numbers.
import type { Day } from '#calendar/day.ts'
import type { Outcome } from '#chance/outcome.ts'
import type { JobShown } from '../parts/running.tsx'

export interface ChanceFigures {
  planName: string
  revisionNo: number
  choices: ChanceChoices
  /** What is done with premiums where the plan asks for its county's own years; null where their spread is typed. */
  premiums: string | null
  /** Markets whose uncertain seat no simulation draws: it counts by its chance in each. */
  seatsByChance: readonly string[]
  run: ChanceRunFigures
  /** Where what is shown was run of the plan as it was: when, and of which revision. */
  before: {
    askedOn: Day
    revisionNo: number /** What has changed since, in a sentence. */
    since: string
  } | null
  /** Of what it was asked that holds of plan and books as they are, in a sentence; null for none. */
  asked: string | null
}

export interface ChanceChoices {
  /** Text as typed. */
  paths: string
  seed: string
  from: 'chance' | 'history'
}

export type ChanceRunFigures = JobShown<ChanceOutcomeFigures>

export interface ChanceOutcomeFigures {
  outcome: Omit<Outcome, 'atFirstPrices'>
  firstMonth: number
  from: 'chance' | 'history'
  bands: readonly BandPoint[]
  /** Spendable savings of the expected course, by month. */
  expected: readonly number[]
  /** What the worst tenth have in common, in sentences. */
  worst: readonly string[]
}

/** `month` counts from year 0 like every month. */
export interface BandPoint {
  month: number
  p10: number
  p50: number
  p90: number
  running: number
}
