// What the questions' pages are given: each question's words, its choices as typed, and where its answer stands.
import type { Day } from '#calendar/day.ts'
import type { ChanceAnswer, ChanceQuestion } from '#solve/questions.ts'
import type { JobShown } from '../parts/running.tsx'

export interface QuestionLine {
  question: ChanceQuestion
  title: string
  asks: string
}

export interface QuestionFigures extends QuestionLine {
  planName: string
  /** Calendar month of the plan's first month. */
  firstMonth: number
  choices: QuestionChoices
  run: QuestionRun
  /** What was answered of the plan as it was, where nothing was asked of it as it is, or not in these dollars. */
  before: { askedOn: Day; revisionNo: number; sentence: string } | null
}

/** Text as typed: confidence in percent. */
export interface QuestionChoices {
  confidence: string
  paths: string
  seed: string
}

export type QuestionRun = JobShown<{ answer: ChanceAnswer }>
