// The list of questions that chance answers, by the name used in addresses and on the command line.
import { type Claim, solveClaim } from './claim.ts'
import { type Cushion, solveCushion } from './cushion.ts'
import { solveDraw } from './draw.ts'
import type { Draw } from './draw-answer.ts'
import { type Frontier, solveFrontier } from './frontier.ts'
import type { Asking } from './question.ts'
import { type StartWith, solveStartWith } from './start-with.ts'

export type ChanceAnswer = Draw | Frontier | StartWith | Cushion | Claim
export type ChanceQuestion = ChanceAnswer['question']

export interface QuestionWords {
  title: string
  asks: string
  /** Paths that answer it in some seconds on two processors. */
  paths: number
}

export const questionWords: Readonly<Record<ChanceQuestion, QuestionWords>> = {
  draw: { title: 'Draw', asks: 'How much can the farm pay us each month, and from when?', paths: 500 },
  'plow-back': {
    title: 'Plow back or draw',
    asks: 'How much of the farm’s surplus should stay in the farm?',
    paths: 500,
  },
  'start-with': {
    title: 'Start with',
    asks: 'What savings do we need today for the plan to hold?',
    paths: 1000,
  },
  cushion: {
    title: 'Cushion',
    asks: 'What must stand ready when we slow down, and what must we set aside each month to get there?',
    paths: 1000,
  },
  claim: { title: 'Claim', asks: 'At what age should each of us claim Social Security?', paths: 300 },
}

export const isChanceQuestion = (name: string): name is ChanceQuestion => Object.hasOwn(questionWords, name)

/** Asks one question. Rejects with the signal's reason when it is stopped. */
export function askQuestion(question: ChanceQuestion, asking: Asking): Promise<ChanceAnswer> {
  switch (question) {
    case 'draw':
      return solveDraw(asking)
    case 'plow-back':
      return solveFrontier(asking)
    case 'start-with':
      return solveStartWith(asking)
    case 'cushion':
      return solveCushion(asking)
    case 'claim':
      return solveClaim(asking)
  }
}
