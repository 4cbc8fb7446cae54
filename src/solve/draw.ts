// Draw: the highest level of draws the farm can bear with its reserve intact, for each month in which they might begin,
// and the start that brings the household most until the first slower year.

import { addMonths, type Month, monthName, monthOfYear } from '#calendar/month.ts'
import { chanceModel } from '#chance/chance-model.ts'
import { formatDollars, formatPercent } from '#money/format.ts'
import type { CompiledPlan } from '#runway/compile/compiled-plan.ts'
import {
  type Amount,
  type Asking,
  type AskOptions,
  type Certainty,
  type CurvePoint,
  type NotReached,
  roundOf,
  shownAt,
} from './question.ts'
import { amountFor, curveOf, evenly } from './threshold-quantile.ts'

export interface Draw extends Certainty {
  question: 'draw'
  answer: BearableDraw | NotReached
  /** For each month in which draws might begin: the level borne in the asked share of courses. */
  starts: DrawStart[]
  /** Share of courses in which the farm bears a level, for the start of the answer. */
  curve: CurvePoint[]
  /** The first month, counted from the plan's first, for which the draws need no longer be borne. */
  untilMonth: number
  sentence: string
}

export interface DrawStart {
  /** Counted from the plan's first month. */
  fromMonth: number
  /** Dollars a month as draws begin, rising with prices from then on. */
  level: Amount
}

export interface BearableDraw extends DrawStart {
  kind: 'reached'
}

const most = 100_000
const closely = 10

/** Months tried: the plan's first and the Januaries after it, as many as asked, all before the slower years (or the plan's end). */
export async function solveDraw(asking: Asking, startsTried = 6): Promise<Draw> {
  const { plan, seed, paths, confidence } = asking
  const compiled = asking.compile(plan)
  const untilMonth = compiled.firstSlowerMonth > 0 ? compiled.firstSlowerMonth : compiled.months
  const about = { question: 'draw', confidence, paths, seed, untilMonth } as const
  if (!compiled.farm.described) {
    const because =
      'This cannot be reached, because the plan does not describe the farm yet: add its enterprises and costs on the Farm page.'
    return {
      ...about,
      answer: { kind: 'cannot be reached', because },
      starts: [],
      curve: [],
      sentence: because,
    }
  }
  const starts: DrawStart[] = []
  const all: Float64Array[] = []
  const months = startMonths(compiled, untilMonth, startsTried)
  for (const [place, fromMonth] of months.entries()) {
    const round = roundOf(asking, place, months.length)
    const shown = shownAt(asking, fromMonth)
    const thresholds = (await bearable(asking, compiled, fromMonth, untilMonth, round)).map(
      (each) => each * shown,
    )
    all.push(thresholds)
    starts.push({ fromMonth, level: amountFor(thresholds, confidence, false) })
  }
  const answer = answerOf(asking, starts, untilMonth)
  const chosen =
    answer.kind === 'reached' ? starts.findIndex((each) => each.fromMonth === answer.fromMonth) : 0
  const top = Math.max(100, ...all[chosen]!.filter(Number.isFinite))
  const curve = curveOf(all[chosen]!, evenly(0, top, 29), false)
  return {
    ...about,
    answer,
    starts,
    curve,
    sentence: say(answer, starts, compiled.firstMonth, untilMonth, confidence),
  }
}

function startMonths(plan: CompiledPlan, untilMonth: number, count: number): number[] {
  const toJanuary = (13 - monthOfYear(plan.firstMonth as Month)) % 12 || 12
  const months = [0, ...Array.from({ length: count - 1 }, (_, year) => toJanuary + year * 12)]
  return months.filter((month) => month < untilMonth - 12 || month === 0)
}

function bearable(
  asking: Asking,
  compiled: CompiledPlan,
  fromMonth: number,
  toMonth: number,
  options: AskOptions,
): Promise<Float64Array> {
  const { plan, seed, paths, courses } = asking
  const model = chanceModel(plan, compiled.shape)
  return courses.thresholds(
    { plan: compiled, model, seed, paths, from: 'chance', keepsMonths: false },
    {
      dial: { kind: 'draw', fromMonth, toMonth },
      criterion: { kind: 'drawsMet', fromMonth, toMonth },
      from: 0,
      to: most,
      start: 500,
      step: 500,
      within: closely,
      moreIsBetter: false,
    },
    options,
  )
}

/** The start that brings most in all at first prices until the draws end; on a tie the earlier one. */
function answerOf(
  asking: Asking,
  starts: readonly DrawStart[],
  untilMonth: number,
): BearableDraw | NotReached {
  const inAll = ({ level, fromMonth }: DrawStart) =>
    (level.value / shownAt(asking, fromMonth)) * (untilMonth - fromMonth)
  const borne = starts.filter((start) => start.level.value > 0)
  if (borne.length === 0)
    return {
      kind: 'cannot be reached',
      because: `This cannot be reached, because in more than ${formatPercent(1 - asking.confidence, 0)} of simulations the farm cannot pay its own costs and keep its reserve even with no draw at all.`,
    }
  const best = borne.reduce((first, start) => (inAll(start) > inAll(first) ? start : first))
  return { kind: 'reached', ...best }
}

function say(
  answer: BearableDraw | NotReached,
  starts: readonly DrawStart[],
  firstMonth: number,
  untilMonth: number,
  confidence: number,
): string {
  if (answer.kind === 'cannot be reached') return answer.because
  const name = (month: number) => monthName(addMonths(firstMonth as Month, month))
  const { level } = answer
  const first = `The farm bears draws of ${formatDollars(level.value)} a month from ${name(answer.fromMonth)} until ${name(untilMonth)}, rising with prices, with its reserve intact in ${formatPercent(confidence, 0)} of simulations (margin of error: ${formatDollars(level.low)} to ${formatDollars(level.high)}).`
  const others = starts
    .filter((start) => start.fromMonth !== answer.fromMonth)
    .map((start) =>
      start.level.value > 0
        ? `${formatDollars(start.level.value)} from ${name(start.fromMonth)}`
        : `nothing yet from ${name(start.fromMonth)}`,
    )
  return others.length === 0 ? first : `${first} Begun at other times: ${others.join(', ')}.`
}
