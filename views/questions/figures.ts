// What the questions' pages are given: each question's words, its choices as typed, and where its answer stands.
import type { Day } from '#calendar/day.ts'
import type { Moves } from '#solve/moves.ts'
import type { ChanceAnswer, ChanceQuestion } from '#solve/questions.ts'
import type { PlanFormIdsProps } from '../parts/field.tsx'
import type { JobShown } from '../parts/running.tsx'

export interface QuestionLine {
  question: ChanceQuestion
  title: string
  asks: string
  caution: string
  alsoAsks?: 'laterRate' | 'weeklyHours'
}

export interface QuestionFigures extends QuestionLine {
  planName: string
  /** Calendar month of the plan's first month. */
  firstMonth: number
  choices: QuestionChoices
  /** What the plan lacks to be asked this, and where it is entered; null for nothing. */
  lacks: { says: string; link: string; href: string } | null
  run: QuestionRun
  /** What the address names is known no more, and nothing else is of this question. */
  isForgotten: boolean
  /** What of the answer can be taken into the plan; null while there is none. */
  take: { job: string; choices: { id: string; label: string }[]; ids: PlanFormIdsProps } | null
  /** Where what is shown was asked of the plan as it was, or in other dollars: when, of which revision, whether in the dollars shown now. */
  before: {
    askedOn: Day
    revisionNo: number
    isInDollars: boolean /** What has changed since, in a sentence. */
    since: string
  } | null
  /** Of what an answer was asked that holds of plan and books as they are, in a sentence; null for none. */
  asked: string | null
}

/** Text as typed: confidence and rate in percent; empty where nothing was. */
export interface QuestionChoices {
  confidence: string
  paths: string
  seed: string
  laterRate: string
  weeklyHours: string
}

/** An answer with what moves it. */
export interface ToldAnswer {
  answer: ChanceAnswer
  moves: Moves | null
}

export type QuestionRun = JobShown<ToldAnswer>

/** What is known of a question in the list. */
export type QuestionKnown =
  | { state: 'running' /** Where the plan has another one by now. */; ofRevision: number | null }
  | { state: 'now'; askedOn: Day; revisionNo: number; sentence: string }
  | { state: 'before'; askedOn: Day; revisionNo: number; since: string; sentence: string }
