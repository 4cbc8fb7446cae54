// What the answer about draws says, for whoever works it out, puts it in words or shows it.
import type { Plan } from '#plan/plan.ts'
import type { Level } from './draw-levels.ts'
import type { Amount, Certainty, CurvePoint, NotReached, Said } from './question.ts'
import type { Standing, WorseIn } from './standing.ts'

export interface Draw extends Certainty, Said {
  question: 'draw'
  answer: BearableDraw | NotReached
  /** For each month in which draws might begin: the level borne in the asked share of courses until `untilMonth`. */
  starts: DrawStart[]
  /** Share of courses in which the farm bears a level, for the start of the answer. */
  curve: CurvePoint[]
  /** The first slower year, or the plan's end: from then on another level is told. Counted from the plan's first month. */
  untilMonth: number
  /** Today's plan, the one level, and the steps, each as a plan of its own on the same courses. */
  compared: ComparedDraws[]
}

export interface DrawStart {
  /** Counted from the plan's first month. */
  fromMonth: number
  /** Dollars a month as draws begin, rising with prices from then on. */
  level: Amount
  /** Courses it was read off: fewer for a start that is not the answer's, where something waits for cash. */
  paths: number
}

export interface BearableDraw extends DrawStart {
  kind: 'reached'
  /** What the slower years bear after that level. */
  after: DrawStart | null
  /** A level a year, never falling but for the first slower year. */
  steps: Level[]
  /** Share of courses in which all draws of a year are paid by these steps, in the worst of the years. */
  paidInWorstYear: number
}

export interface ComparedDraws {
  as: 'plan' | 'level' | 'steps'
  /** What of the plan changes. */
  draw: Plan['draw']
  standing: Standing
  /** Holds less often, or is below the floor more often, than today's plan by more than chance. */
  worse: boolean
  worseIn: WorseIn | null
}
