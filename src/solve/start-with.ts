// Start with: the savings needed today for the plan to hold, at the confidence asked for.
import { chanceModel } from '#chance/chance-model.ts'
import { startingSavings } from '#chance/dials.ts'
import { formatDollars, formatPercent } from '#money/format.ts'
import type { Amount, Asking, Certainty, CurvePoint, NotReached } from './question.ts'
import { amountFor, curveOf, evenly } from './threshold-quantile.ts'

export interface StartWith extends Certainty {
  question: 'start-with'
  answer: NeededSavings | NotReached
  /** Cash and taxable savings of the plan, dollars. */
  have: number
  /** Share of courses that hold, by savings at the start. */
  curve: CurvePoint[]
  sentence: string
}

export interface NeededSavings extends Amount {
  kind: 'reached'
  /** What is missing; below zero, to spare. */
  short: number
}

/** The most that is tried: beyond it the plan is not short of savings but of sense. */
const most = 20_000_000
const closely = 250

/** Turns cash and taxable savings together, in the plan's own proportions; retirement accounts stay as they are. */
export async function solveStartWith(asking: Asking): Promise<StartWith> {
  const { plan, seed, paths, confidence } = asking
  const compiled = asking.compile(plan)
  const model = chanceModel(plan, compiled.shape)
  const have = startingSavings(compiled)
  const thresholds = await asking.courses.thresholds(
    { plan: compiled, model, seed, paths, from: 'chance', keepsMonths: false },
    {
      dial: { kind: 'savings' },
      criterion: { kind: 'held', fromMonth: 0 },
      from: 0,
      to: most,
      start: Math.min(most, Math.max(have, 10_000)),
      step: Math.max(25_000, have / 4),
      within: closely,
      moreIsBetter: true,
    },
    asking,
  )
  const amount = amountFor(thresholds, confidence, true)
  const answer = answerOf(amount, have, thresholds, confidence)
  const top = Math.min(most, Math.max(have, Number.isFinite(amount.high) ? amount.high : have) * 1.4 + 10_000)
  const curve = curveOf(thresholds, evenly(0, top, 29), true)
  return {
    question: 'start-with',
    confidence,
    paths,
    seed,
    answer,
    have,
    curve,
    sentence: say(answer, have, confidence),
  }
}

function answerOf(
  amount: Amount,
  have: number,
  thresholds: Float64Array,
  confidence: number,
): NeededSavings | NotReached {
  if (Number.isFinite(amount.value)) return { kind: 'reached', ...amount, short: amount.value - have }
  const never = thresholds.filter((each) => each === Number.POSITIVE_INFINITY).length / thresholds.length
  return {
    kind: 'cannot be reached',
    because: `This cannot be reached, because in ${formatPercent(never, 0)} of simulations even ${formatDollars(most)} at the start runs out; ${formatPercent(confidence, 0)} must hold. Look at costs that grow faster than savings do.`,
  }
}

function say(answer: NeededSavings | NotReached, have: number, confidence: number): string {
  if (answer.kind === 'cannot be reached') return answer.because
  const { value, low, high, short } = answer
  if (value === 0)
    return `The plan holds in at least ${formatPercent(confidence, 0)} of simulations even with no cash or taxable savings at the start.`
  const gap =
    short > 0
      ? `The plan starts with ${formatDollars(have)}: ${formatDollars(short)} short.`
      : `The plan starts with ${formatDollars(have)}: ${formatDollars(-short)} to spare.`
  return `With ${formatDollars(value)} of cash and taxable savings today the plan holds in ${formatPercent(confidence, 0)} of simulations (margin of error: ${formatDollars(low)} to ${formatDollars(high)}). ${gap}`
}
