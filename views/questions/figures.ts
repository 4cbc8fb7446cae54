// What the questions' pages are given: each question's words, its choices as typed, and where its answer stands.
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
}

/** Text as typed: confidence in percent. */
export interface QuestionChoices {
  confidence: string
  paths: string
  seed: string
}

export type QuestionRun = JobShown<{ answer: ChanceAnswer }>
