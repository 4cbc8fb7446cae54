// Plow back or draw: for each share of the farm's surplus left in the farm, when it carries the household and how thin savings run.
import { type Month, monthName } from '#calendar/month.ts'
import { chanceModel } from '#chance/chance-model.ts'
import { figureOf } from '#chance/course-run.ts'
import { type Share, shareOf } from '#chance/percentiles.ts'
import { formatDollars, formatPercent } from '#money/format.ts'
import type { Plan } from '#plan/plan.ts'
import {
  type Amount,
  type Asking,
  type AskOptions,
  type Certainty,
  lowestOfCourses,
  type NotReached,
  roundOf,
} from './question.ts'
import { amountFor } from './threshold-quantile.ts'

export interface Frontier extends Certainty {
  question: 'plow-back'
  answer: BestShare | NotReached
  points: FrontierPoint[]
  /** The plan with its own draws. */
  today: FrontierPoint
  sentence: string
}

export interface FrontierPoint {
  /** Share of net farm cash left in the farm; null for the plan's own draws. */
  plowedBack: number | null
  /** Month, counted from the plan's first, by which the farm carries the household in the asked share of courses; Infinity: never. */
  carryMonth: Amount
  /** The same in half of the courses, and the share of courses in which it comes to carry the household at all. */
  medianCarryMonth: number
  carries: Share
  /** Savings that are not undercut in the asked share of courses. */
  lowestSavings: Amount
  held: Share
}

export interface BestShare {
  kind: 'reached'
  /** The point with the earliest carry month of those whose lowest savings stay above nothing. */
  best: FrontierPoint
}

/** Closer together where it matters: a farm that keeps half of its surplus seldom feeds a household. */
const shares = [0, 0.05, 0.1, 0.15, 0.2, 0.25, 0.3, 0.4, 0.5, 0.75, 1]

export async function solveFrontier(asking: Asking): Promise<Frontier> {
  const { plan, seed, paths, confidence } = asking
  const points: FrontierPoint[] = []
  const rounds = shares.length + 1
  const today = await pointOf(asking, plan, null, roundOf(asking, 0, rounds))
  for (const [place, share] of shares.entries()) {
    const round = roundOf(asking, place + 1, rounds)
    points.push(await pointOf(asking, withPlowedBack(plan, share), share, round))
  }
  const answer = bestOf(points, confidence)
  const { firstMonth } = asking.compile(plan)
  const sentence = say(answer, today, firstMonth, confidence)
  return { question: 'plow-back', confidence, paths, seed, answer, points, today, sentence }
}

/** The plan with this share of its net farm cash left in the farm and the rest drawn, from when its draws begin. */
export function withPlowedBack(plan: Plan, plowedBack: number): Plan {
  const { draw } = plan
  const from = draw.policy === 'steps' ? (draw.steps[0]?.from ?? plan.startMonth) : draw.from
  return { ...plan, draw: { policy: 'share', from, share: 1 - plowedBack } }
}

async function pointOf(
  asking: Asking,
  plan: Plan,
  plowedBack: number | null,
  options: AskOptions,
): Promise<FrontierPoint> {
  const { seed, paths, confidence } = asking
  const compiled = asking.compile(plan)
  const model = chanceModel(plan, compiled.shape)
  const run = { plan: compiled, model, seed, paths, from: 'chance', keepsMonths: false } as const
  const figures = await asking.courses.figures(run, options)
  const held = figureOf(figures, 'held')
  const carry = figureOf(figures, 'carryMonth')
  return {
    plowedBack,
    carryMonth: amountFor(carry, confidence, true),
    medianCarryMonth: amountFor(carry, 0.5, true).value,
    carries: shareOf(carry.filter(Number.isFinite).length, carry.length),
    lowestSavings: amountFor(lowestOfCourses(asking, figures), confidence, false),
    held: shareOf(
      held.reduce((sum, each) => sum + each, 0),
      held.length,
    ),
  }
}

function bestOf(points: FrontierPoint[], confidence: number): BestShare | NotReached {
  const sure = formatPercent(confidence, 0)
  const carrying = points.filter((point) => Number.isFinite(point.carryMonth.value))
  if (carrying.length === 0) {
    const most = points.reduce((first, point) => (point.carries.share > first.carries.share ? point : first))
    return {
      kind: 'cannot be reached',
      because: `This cannot be reached, because with no share plowed back does the farm carry the household in ${sure} of simulations: at most in ${formatPercent(most.carries.share, 0)}, with ${formatPercent(most.plowedBack!, 0)} left in the farm. In the others its surplus, taken whole or grown, stays below household costs.`,
    }
  }
  const standing = carrying.filter((point) => point.lowestSavings.value > 0)
  if (standing.length === 0)
    return {
      kind: 'cannot be reached',
      because: `This cannot be reached, because whatever share is plowed back, savings run out before the farm carries the household in more than ${formatPercent(1 - confidence, 0)} of simulations.`,
    }
  return {
    kind: 'reached',
    best: standing.reduce((first, point) => (isBetter(point, first) ? point : first)),
  }
}

/** Sooner carried; on a tie, with more left at the lowest. */
const isBetter = (point: FrontierPoint, than: FrontierPoint): boolean =>
  point.carryMonth.value < than.carryMonth.value ||
  (point.carryMonth.value === than.carryMonth.value && point.lowestSavings.value > than.lowestSavings.value)

function say(
  answer: BestShare | NotReached,
  today: FrontierPoint,
  firstMonth: number,
  confidence: number,
): string {
  const sure = formatPercent(confidence, 0)
  const by = (month: number) => `by ${monthName((firstMonth + month) as Month)}`
  const savings = ({ lowestSavings }: FrontierPoint) =>
    lowestSavings.value > 0
      ? `savings do not fall below ${formatDollars(lowestSavings.value)} in as many`
      : `savings do not last in as many`
  const now = Number.isFinite(today.carryMonth.value)
    ? `As planned, it does ${by(today.carryMonth.value)}, and ${savings(today)}.`
    : `As planned, it does in ${formatPercent(today.carries.share, 0)} of simulations, and ${savings(today)}.`
  if (answer.kind === 'cannot be reached') return `${answer.because} ${now}`
  const { best } = answer
  return `With ${formatPercent(best.plowedBack!, 0)} of its surplus left in it, the farm carries the household ${by(best.carryMonth.value)} in ${sure} of simulations, and ${savings(best)}. ${now}`
}
