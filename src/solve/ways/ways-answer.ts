// What the answer about ways of doing one thing says, for whoever works it out, puts it in words or shows it.
import type { CoverageKind } from '#rules/coverage/coverage-kinds.ts'
import type { Certainty, NotReached, Said } from '../question.ts'
import type { Standing, Surer, WorseIn } from '../standing.ts'
import type { YearAhead } from './years-ahead.ts'

export type WaysQuestion = 'account-order' | 'losses'

export interface Ways extends Certainty, Said {
  question: WaysQuestion
  answer: BestWay | NotReached
  /** As planned first; then those run on all simulations, then the others. */
  ways: WayTried[]
  /** Year by year: the plan's expected course, beside it that of the best of the others, and how far that one is ahead by then. */
  years: WayYear[]
  beside: string
  /** Fraction of what lies untaxed in accounts at the end that is taken off it. */
  laterRate: number
  why: string
}

export interface BestWay {
  kind: 'reached'
  /** Short name of it; `plan` where none is better. */
  best: string
  /** The one that keeps savings above the floor most often by more than chance, where that is another: it may leave less. Null for none. */
  steadiest: string | null
}

export interface WayTried extends Standing {
  id: string
  name: string
  says: string
  /** Simulations it was run on: fewer for one that did not come near the best on those. */
  paths: number
  worse: boolean
  worseIn: WorseIn | null
  surer: boolean
  /** Month in which money runs short, counted from the plan's first, in the middle of all courses and on the expected one; Infinity for never. */
  runsShort: { median: number; expected: number }
  /**
   * Against the plan: the share of courses in which nothing goes unpaid, that in which money runs short later, and that in which less goes
   * unpaid, each less those in which it is the other way round.
   */
  holdsMore: Surer
  paysLonger: Surer
  paysMore: Surer
  /** What goes unpaid, in the middle of all courses. */
  unpaid: number
  /** On the expected course over all years: federal and state tax less what comes back, and the premium credit. */
  tax: number
  credit: number
  /** What covers in place of the credit on that course: programs with the months in which they do, counted for each person. */
  programs: { program: CoverageKind; months: number }[]
  /** Left at the end more than by the plan: in the middle of all courses, and the share of courses in which it is more less the share in which it is less. */
  leftMore: number
  endsWithMore: Surer
}

export interface WayYear {
  year: number
  plan: WayFlows
  other: WayFlows
  /** Null for a year that no course comes to. */
  more: YearAhead | null
}

export interface WayFlows {
  taxable: number
  traditional: number
  roth: number
  health: number
  /** Moved from traditional into Roth accounts. */
  converted: number
  tax: number
  credit: number
}
