// Plow back or draw: for each share of the farm's surplus left in the farm, when it carries the household and how thin savings run.
import { type Month, monthName } from '#calendar/month.ts'
import { formatDollars, formatPercent } from '#money/format.ts'
import type { Plan } from '#plan/plan.ts'
import {
  type Asking,
  type AskOptions,
  type Certainty,
  type NotReached,
  notDescribed,
  partOf,
  type Said,
  saidIn,
} from './question.ts'
import { firstOf, isSurer, type Ran, runOf, type Standing, type WorseIn, worseBy } from './standing.ts'

export interface Frontier extends Certainty, Said {
  question: 'plow-back'
  answer: BestShare | NotReached
  points: FrontierPoint[]
  /** The plan with its own draws. */
  today: FrontierPoint
}

export interface FrontierPoint extends Standing {
  /** Share of net farm cash left in the farm; null for the plan's own draws. */
  plowedBack: number | null
  /** Simulations it was run on: fewer for one that did not come near the best on those. */
  paths: number
  /** Against today's plan on the same courses, by more than chance: holds less often or is below the floor more often; the other way round. */
  worse: boolean
  worseIn: WorseIn | null
  surer: boolean
}

export interface BestShare {
  kind: 'reached'
  /** Of the shares and today's plan: carries soonest of those that are no worse than the plan and whose savings last. */
  best: FrontierPoint
  /** Of all of them the one that carries soonest where its savings last, though it be worse than the plan. */
  soonest: FrontierPoint
}

/** All shares are tried on few simulations, those near the best on all. */
const fewPaths = 200
const finalists = 4

/** Closer together where it matters: a farm that keeps half of its surplus seldom feeds a household. */
const shares = [0, 0.05, 0.1, 0.15, 0.2, 0.25, 0.3, 0.4, 0.5, 0.75, 1]

export async function solveFrontier(asking: Asking): Promise<Frontier> {
  const { plan, seed, paths, confidence } = asking
  const few = Math.min(paths, fewPaths)
  const isCoarse = few < paths
  const all = paths + shares.length * few + (isCoarse ? finalists * paths : 0)
  let done = 0
  const next = (count: number): AskOptions => {
    const from = Math.min(done, all - count) / all
    done += count
    return partOf(asking, from, Math.min(1, done / all))
  }
  const at = async (share: number, count: number) => {
    const ran = await runOf({ ...asking, paths: count }, withPlowedBack(plan, share), next(count))
    return pointOf(ran, firstOf(own, count), share, count)
  }
  const compiled = asking.compile(plan)
  const own = await runOf(asking, plan, next(paths), compiled)
  const today = pointOf(own, own, null, paths)
  const about = { question: 'plow-back', confidence, paths, seed, today } as const
  if (!compiled.farm.described) {
    const answer = { kind: 'cannot be reached', because: notDescribed } as const
    return { ...about, answer, points: [], ...saidIn(notDescribed) }
  }
  const points: FrontierPoint[] = []
  for (const share of shares) points.push(await at(share, few))
  if (isCoarse)
    for (const place of nearBest(points, confidence)) points[place] = await at(shares[place]!, paths)
  const answer = bestOf([today, ...points.filter((point) => point.paths === paths)], confidence)
  return { ...about, answer, points, ...say(answer, today, compiled.firstMonth, confidence) }
}

/** The plan with this share of its net farm cash left in the farm and the rest drawn, from when its draws begin. */
export function withPlowedBack(plan: Plan, plowedBack: number): Plan {
  const { draw } = plan
  const from = draw.policy === 'steps' ? (draw.steps[0]?.from ?? plan.startMonth) : draw.from
  const before = draw.policy === 'share' && draw.netBefore !== undefined ? { netBefore: draw.netBefore } : {}
  return { ...plan, draw: { policy: 'share', from, share: 1 - plowedBack, ...before } }
}

/** Places of the shares to run on all simulations: the best and the soonest of few, and those beside the best. */
function nearBest(points: readonly FrontierPoint[], confidence: number): number[] {
  const found = bestOf(points, confidence)
  const middle = found.kind === 'reached' ? points.indexOf(found.best) : points.indexOf(mostCarrying(points))
  const soonest = found.kind === 'reached' ? points.indexOf(found.soonest) : middle
  const near = [...new Set([middle, soonest, middle - 1, middle + 1])]
  return near.filter((place) => place >= 0 && place < points.length).slice(0, finalists)
}

const mostCarrying = (points: readonly FrontierPoint[]): FrontierPoint =>
  points.reduce((first, point) => (point.carries.share > first.carries.share ? point : first))

function pointOf(ran: Ran, plan: Ran, plowedBack: number | null, paths: number): FrontierPoint {
  const worseIn = plowedBack === null ? null : worseBy(ran, plan)
  const surer = plowedBack !== null && isSurer(ran, plan)
  return { plowedBack, paths, ...ran.standing, worse: worseIn !== null, worseIn, surer }
}

/** Today's plan is the first of all: on a tie it stays as it is. */
function bestOf(all: readonly FrontierPoint[], confidence: number): BestShare | NotReached {
  const sure = formatPercent(confidence, 0)
  const carrying = all.filter((point) => Number.isFinite(point.carryMonth.value))
  if (carrying.length === 0) {
    const most = mostCarrying(all)
    const mostly =
      most.carries.share > 0
        ? `at most in ${formatPercent(most.carries.share, 0)}, ${named(most)}`
        : 'in none'
    const inThose = most.carries.share > 0 ? 'In the others' : 'In all of them'
    return {
      kind: 'cannot be reached',
      because: `This cannot be reached, because the farm carries the household in fewer than ${sure} of simulations whichever share is plowed back: ${mostly}. ${inThose} its surplus, taken whole or grown, stays below household costs.`,
    }
  }
  const standing = carrying.filter((point) => point.lowestSavings.value > 0)
  if (standing.length === 0)
    return {
      kind: 'cannot be reached',
      because: `This cannot be reached, because whichever share is plowed back, savings run out in more than ${formatPercent(1 - confidence, 0)} of simulations.`,
    }
  const soonest = standing.reduce((first, point) => (isBetter(point, first) ? point : first))
  const safe = standing.filter((point) => !point.worse)
  return {
    kind: 'reached',
    best:
      safe.length === 0 ? soonest : safe.reduce((first, point) => (isBetter(point, first) ? point : first)),
    soonest,
  }
}

const named = ({ plowedBack }: FrontierPoint): string =>
  plowedBack === null ? 'as planned' : `with ${formatPercent(plowedBack, 0)} left in the farm`

/** Sooner carried; on a tie, with more left at the lowest. */
const isBetter = (point: FrontierPoint, than: FrontierPoint): boolean =>
  point.carryMonth.value < than.carryMonth.value ||
  (point.carryMonth.value === than.carryMonth.value && point.lowestSavings.value > than.lowestSavings.value)

function say(
  answer: BestShare | NotReached,
  today: FrontierPoint,
  firstMonth: number,
  confidence: number,
): Said {
  const sure = formatPercent(confidence, 0)
  const by = (month: number) => `by ${monthName((firstMonth + month) as Month)}`
  const savings = ({ lowestSavings }: FrontierPoint) =>
    lowestSavings.value > 0
      ? `savings do not fall below ${formatDollars(lowestSavings.value)} in as many`
      : `savings do not last in as many`
  const holds = ({ held, aboveFloor }: FrontierPoint) =>
    `nothing goes unpaid in ${formatPercent(held.share, 1)}, and savings stay above the floor in ${formatPercent(aboveFloor.share, 1)}`
  const now = Number.isFinite(today.carryMonth.value)
    ? `As planned, it does ${by(today.carryMonth.value)}, and ${savings(today)}; ${holds(today)}.`
    : `As planned, it does in ${formatPercent(today.carries.share, 0)} of simulations, and ${savings(today)}; ${holds(today)}.`
  if (answer.kind === 'cannot be reached') return saidIn(answer.because, now)
  const { best, soonest } = answer
  const carried = (point: FrontierPoint) =>
    `the farm carries the household ${by(point.carryMonth.value)} in ${sure} of simulations, and ${savings(point)}; ${holds(point)}`
  const other = soonest === best ? '' : `Sooner, but not so sure: ${named(soonest)} ${carried(soonest)}.`
  if (best.plowedBack === null)
    return saidIn(`Today’s plan is the best of those tried: ${carried(best)}.`, other)
  const worse = best.worse ? 'Not so sure as today’s plan: ' : ''
  return saidIn(
    `${worse}${worse ? 'with' : 'With'} ${formatPercent(best.plowedBack, 0)} of its surplus left in it, ${carried(best)}.`,
    now,
    other,
  )
}
