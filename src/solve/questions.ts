// The list of questions that chance answers, by the name used in addresses and on the command line, and the asking of one: a first
// answer from few simulations, then the whole one, then what moves it.
import type { ChanceAnswer, ChanceQuestion } from './answers.ts'
import { solveClaim } from './claim.ts'
import { solveCushion } from './cushion.ts'
import { solveDraw } from './draw.ts'
import { solveDropMarket } from './drop-market.ts'
import { solveFrontier } from './frontier.ts'
import { gapFirst, isOnlyGap } from './gap-first.ts'
import { solveInsurance } from './insurance.ts'
import { type Moves, movesOf, savingsEarn, sayMove } from './moves.ts'
import { type Asking, partOf } from './question.ts'
import { solveSlowDown } from './slow-down.ts'
import { solveStartWith } from './start-with.ts'
import { solveWays } from './ways.ts'

export type { ChanceAnswer, ChanceQuestion } from './answers.ts'

export interface QuestionWords {
  title: string
  asks: string
  /** Simulations that answer it in some seconds on two processors, and those of its first answer. */
  paths: number
  firstPaths: number
  caution: string
  /** What can be typed besides. */
  alsoAsks?: 'laterRate' | 'weeklyHours'
}

const general = 'Answers depend on the plan and on the simulated years.'
const preparer = 'Tax of years to come is an estimate: ask your preparer before you act on it.'

export const questionWords: Readonly<Record<ChanceQuestion, QuestionWords>> = {
  draw: {
    title: 'Monthly draw',
    asks: 'How much can the farm pay us each month, and from when?',
    paths: 500,
    firstPaths: 40,
    caution: general,
  },
  'plow-back': {
    title: 'Plow back or draw',
    asks: 'How much of the farm’s surplus should stay in the farm?',
    paths: 500,
    firstPaths: 60,
    caution: general,
  },
  'start-with': {
    title: 'Savings needed today',
    asks: 'What savings do we need today for the plan to hold?',
    paths: 1000,
    firstPaths: 60,
    caution: general,
  },
  cushion: {
    title: 'Cushion',
    asks: 'How much savings do we need when we slow down, and how much must we set aside each month to get there?',
    paths: 1000,
    firstPaths: 50,
    caution: general,
  },
  claim: {
    title: 'When to claim Social Security',
    asks: 'At what age should each of us claim Social Security?',
    paths: 300,
    firstPaths: 16,
    caution: `${general} Social Security itself says what you will be paid.`,
  },
  'slow-down': {
    title: 'When to slow down',
    asks: 'From when on do the hours of our slower phases, or fewer hours that we type, hold?',
    paths: 500,
    firstPaths: 60,
    caution: general,
    alsoAsks: 'weeklyHours',
  },
  insurance: {
    title: 'A death or an injury',
    asks: 'What would insurance have to pay if one of us died or could no longer work?',
    paths: 200,
    firstPaths: 20,
    caution:
      'What a policy costs and pays, and whether one can be had, is decided by quotes, health and the contract. About one in four who are 20 today will be disabled before retirement age (Social Security’s actuaries, from memory).',
  },
  'account-order': {
    title: 'Which account first',
    asks: 'From which accounts should what is missing come, and how much should move into Roth accounts?',
    paths: 500,
    firstPaths: 20,
    caution: preparer,
    alsoAsks: 'laterRate',
  },
  losses: {
    title: 'Losses and write-offs',
    asks: 'Should farm losses go back or forward, and how fast should what we buy be written off?',
    paths: 500,
    firstPaths: 60,
    caution: preparer,
    alsoAsks: 'laterRate',
  },
  'drop-market': {
    title: 'Which market to drop',
    asks: 'Which market brings least for its hours, and what if we no longer went there?',
    paths: 500,
    firstPaths: 60,
    caution: general,
  },
}

export const isChanceQuestion = (name: string): name is ChanceQuestion => Object.hasOwn(questionWords, name)

/** What is told of a question: its answer, and what moves it once that is known. */
export interface Told {
  answer: ChanceAnswer
  moves: Moves | null
}

/** Parts of the whole work, for progress. */
const firstPart = 0.1
const movesPart = 0.7

/**
 * Asks one question; `onSoFar` hears what is known before all is: the answer of few simulations, then the whole answer. Rejects with the
 * signal's reason when it is stopped.
 */
export async function askQuestion(
  question: ChanceQuestion,
  asking: Asking,
  onSoFar: (told: Told) => void = () => {},
): Promise<Told> {
  const { firstPaths } = questionWords[question]
  if (asking.paths > 2 * firstPaths) {
    const few = { ...asking, ...partOf(asking, 0, firstPart), paths: firstPaths }
    const first = { answer: await solve(question, few), moves: null }
    // What holds in none of a few holds not nearly as often as is asked in all of them: nobody waits for these.
    if (isOnlyGap(first.answer)) return first
    onSoFar(first)
  }
  const answer = await solve(question, { ...asking, ...partOf(asking, firstPart, movesPart) })
  onSoFar({ answer, moves: null })
  return { answer, moves: await movesOf({ ...asking, ...partOf(asking, movesPart, 1) }, answer) }
}

/** What would change the answer most, in a sentence; empty where nothing tried moves it. */
export function sayMoves(moves: Moves | null): string {
  const first = moves?.moves[0]
  if (!moves || !first || [first.less, first.more].every((value) => sayMove(moves, value) === 'nothing'))
    return ''
  const moved = (value: number, of: string): string => {
    if (sayMove(moves, value) === 'nothing') return `does not move ${of}`
    if (!Number.isFinite(value)) return `puts ${of} out of reach`
    return Number.isFinite(moves.own)
      ? `${value < moves.own ? 'lowers' : 'raises'} ${of} by ${sayMove(moves, value).slice(1)}`
      : `brings ${of} within reach`
  }
  const most = `${moves.taken ? 'With the answer taken, it' : 'It'} turns most on ${first.assumption.toLowerCase()}: ${first.by} less ${moved(first.less, moves.of)}; ${first.by} more ${moved(first.more, 'it')}.`
  const earned = moves.moves.slice(1).find(({ assumption }) => assumption === savingsEarn)
  return earned === undefined
    ? most
    : `${most} Savings that earn ${earned.by} less: ${sayMove(moves, earned.less)}; ${earned.by} more: ${sayMove(moves, earned.more)}.`
}

const solve = async (question: ChanceQuestion, asking: Asking): Promise<ChanceAnswer> =>
  gapFirst(asking, await solveAlone(question, asking))

function solveAlone(question: ChanceQuestion, asking: Asking): Promise<ChanceAnswer> {
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
    case 'slow-down':
      return solveSlowDown(asking)
    case 'insurance':
      return solveInsurance(asking)
    case 'account-order':
    case 'losses':
      return solveWays(question, asking)
    case 'drop-market':
      return solveDropMarket(asking)
  }
}
