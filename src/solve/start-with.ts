// Start with: the savings needed today for the plan to hold, at the confidence asked for: never short, and never below the floor.
import { chanceModel } from '#chance/chance-model.ts'
import type { Criterion } from '#chance/dials.ts'
import { startingSavings } from '#chance/dials.ts'
import { formatDollars, formatPercent, formatRange } from '#money/format.ts'
import { closeIn, provenAmount, type Thresholds, wholeCurve } from './closing-in.ts'
import { sayTerms } from './earnings.ts'
import {
  type Amount,
  type Asking,
  type Certainty,
  type CurvePoint,
  type NotReached,
  roundOf,
  type Said,
  saidIn,
} from './question.ts'
import { evenly } from './threshold-quantile.ts'

export interface StartWith extends Certainty, Said {
  question: 'start-with'
  /** With which no month goes short. */
  answer: NeededSavings | NotReached
  /** With which savings are never below the floor. */
  aboveFloor: NeededSavings | NotReached
  /** Cash and taxable savings of the plan, dollars. */
  have: number
  /** Share of courses that hold, by savings at the start. */
  curve: CurvePoint[]
  /** What money is taken to earn, where what is missing lies, and until when it must last, in sentences. */
  earns: string
}

export interface NeededSavings extends Amount {
  kind: 'reached'
  /** What is missing; below zero, to spare. */
  short: number
}

/** The most that is tried: beyond it the plan is not short of savings but of sense. */
const most = 20_000_000
const closely = 250

/** Turns cash and taxable savings together, what is more than the plan has where added money lies; retirement accounts stay as they are. */
export async function solveStartWith(asking: Asking): Promise<StartWith> {
  const { plan, seed, paths, confidence } = asking
  const compiled = asking.compile(plan)
  const have = startingSavings(compiled)
  const model = chanceModel(plan, compiled.shape)
  const run = { plan: compiled, model, seed, paths, from: 'chance', keepsMonths: false } as const
  const needed = async (criterion: Criterion, start: number, round: number): Promise<Needed> => {
    const task = {
      dial: { kind: 'savings' },
      criterion,
      from: 0,
      to: most,
      start: Math.min(most, Math.max(start, 10_000)),
      step: Math.max(25_000, have / 4),
      within: closely,
      moreIsBetter: true,
    } as const
    const thresholds = await closeIn(asking, run, task, roundOf(asking, round, 2))
    return { thresholds, amount: await provenAmount(asking, run, task, thresholds, asking) }
  }
  const held = await needed({ kind: 'held', fromMonth: 0 }, have, 0)
  const { amount } = held
  const floorStart = Number.isFinite(amount.value) ? Math.max(have, amount.value) : have
  const above = await needed({ kind: 'aboveFloor', fromMonth: 0 }, floorStart, 1)
  const answer = answerOf(held, have, confidence, 'runs out')
  const aboveFloor = answerOf(above, have, confidence, 'falls below the floor')
  const top = Math.min(most, Math.max(have, Number.isFinite(amount.high) ? amount.high : have) * 1.4 + 10_000)
  return {
    question: 'start-with',
    confidence,
    paths,
    seed,
    answer,
    aboveFloor,
    have,
    curve: wholeCurve(held.thresholds, evenly(0, top, 29), true),
    earns: sayTerms(plan, compiled),
    ...say(answer, aboveFloor, have, confidence),
  }
}

interface Needed {
  thresholds: Thresholds
  amount: Amount
}

function answerOf(
  { thresholds, amount }: Needed,
  have: number,
  confidence: number,
  fails: string,
): NeededSavings | NotReached {
  if (Number.isFinite(amount.value)) return { kind: 'reached', ...amount, short: amount.value - have }
  const never =
    thresholds.all.filter((each) => each === Number.POSITIVE_INFINITY).length / thresholds.all.length
  return {
    kind: 'cannot be reached',
    because: `This cannot be reached, because in ${formatPercent(never, 0)} of simulations even ${formatDollars(most)} at the start ${fails}; ${formatPercent(confidence, 0)} must hold. Look at costs that grow faster than savings do.`,
  }
}

function say(
  answer: NeededSavings | NotReached,
  aboveFloor: NeededSavings | NotReached,
  have: number,
  confidence: number,
): Said {
  if (answer.kind === 'cannot be reached') return saidIn(answer.because)
  const sure = formatPercent(confidence, 0)
  const gap = ({ short }: NeededSavings) =>
    short > 0 ? `${formatDollars(short)} short` : `${formatDollars(-short)} to spare`
  const margin = ({ low, high }: Amount) => `margin of error: ${formatRange(low, high, formatDollars)}`
  const floor =
    aboveFloor.kind === 'cannot be reached'
      ? 'No sum keeps savings above the floor so surely.'
      : aboveFloor.value === 0
        ? ''
        : `Never to fall below the floor in as many takes ${formatDollars(aboveFloor.value)} (${margin(aboveFloor)}): ${gap(aboveFloor)}.`
  if (answer.value === 0)
    return saidIn(
      `Nothing goes unpaid in at least ${sure} of simulations even with no cash or taxable savings at the start.`,
      floor,
    )
  return saidIn(
    `With ${formatDollars(answer.value)} of cash and taxable savings today nothing goes unpaid in ${sure} of simulations (${margin(answer)}).`,
    `The plan starts with ${formatDollars(have)}: ${gap(answer)}.`,
    floor,
  )
}
