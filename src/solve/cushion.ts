// Cushion: the savings that must stand ready at the first slower year so that the plan lasts, and the monthly set-aside that gets there.
import { type Month, monthName } from '#calendar/month.ts'
import { chanceModel } from '#chance/chance-model.ts'
import { type CourseRun, figureOf } from '#chance/course-run.ts'
import type { Dial } from '#chance/dials.ts'
import { formatDollars, formatPercent } from '#money/format.ts'
import {
  type Amount,
  type Asking,
  type Certainty,
  type CurvePoint,
  type NotReached,
  roundOf,
  shownAt,
} from './question.ts'
import { amountFor, curveOf, evenly } from './threshold-quantile.ts'

export interface Cushion extends Certainty {
  question: 'cushion'
  answer: NeededCushion | NotReached
  /** Share of courses that last from the first slower year on, by cushion. */
  curve: CurvePoint[]
  sentence: string
}

export interface NeededCushion extends Amount {
  kind: 'reached'
  /** First month of the first slower year, counted from the plan's first. */
  month: number
  /** What the plan has by then in the median course. */
  medianThen: number
  /** Dollars a month to set aside from now until then, now and rising with prices; null where no amount tried is enough. */
  setAside: Amount | null
}

const most = 20_000_000

/**
 * Per course: savings (retirement accounts included) as the slower year begins, plus the least sum received then (or the most given away)
 * with which no month from then on goes short. Courses in which nobody lives to see the slower year do not count.
 */
export async function solveCushion(asking: Asking): Promise<Cushion> {
  const { plan, seed, paths, confidence } = asking
  const compiled = asking.compile(plan)
  const month = compiled.firstSlowerMonth
  const about = { question: 'cushion', confidence, paths, seed } as const
  if (month <= 0 || month >= compiled.months)
    return {
      ...about,
      answer: { kind: 'cannot be reached', because: noSlowerYear },
      curve: [],
      sentence: noSlowerYear,
    }
  const run: CourseRun = {
    plan: compiled,
    model: chanceModel(plan, compiled.shape),
    seed,
    paths,
    from: 'chance',
    keepsMonths: false,
  }
  const figures = await asking.courses.figures(run, roundOf(asking, 0, 3))
  const lumps = await thresholdsOf(asking, 1, run, { kind: 'lump', month }, month, {
    from: -most,
    start: 0,
    step: 50_000,
  })
  const aside = { kind: 'setAside', fromMonth: 0, toMonth: month } as const
  const monthly = await thresholdsOf(asking, 2, run, aside, month, { from: 0, start: 500, step: 500 })
  const prices = figureOf(figures, 'pricesAtSlowerYear')
  // As the slower year begins: balances of the month before, in its dollars.
  const shown = shownAt(asking, month - 1)
  const aMonth = shownAt(asking, 0)
  const then = figureOf(figures, 'atSlowerYear').map((savings, path) => (savings / prices[path]!) * shown)
  const seen = (_: number, path: number) => !Number.isNaN(then[path]!)
  const needed = then
    .map((savings, path) => Math.max(0, savings + (lumps[path]! / prices[path]!) * shown))
    .filter(seen)
  const cushion = amountFor(needed, confidence, true)
  const answer = answerOf(
    cushion,
    month,
    then.filter(seen),
    amountFor(
      monthly.filter(seen).map((each) => each * aMonth),
      confidence,
      true,
    ),
  )
  const top = Number.isFinite(cushion.high) ? cushion.high * 1.4 + 10_000 : most
  return {
    ...about,
    answer,
    curve: curveOf(needed, evenly(0, top, 29), true),
    sentence: say(answer, compiled.firstMonth, confidence),
  }
}

function thresholdsOf(
  asking: Asking,
  round: number,
  run: CourseRun,
  what: Dial,
  month: number,
  search: { from: number; start: number; step: number },
): Promise<Float64Array> {
  const task = {
    dial: what,
    criterion: { kind: 'held', fromMonth: month },
    to: what.kind === 'lump' ? most : 100_000,
    within: what.kind === 'lump' ? 250 : 5,
    moreIsBetter: true,
    ...search,
  } as const
  return asking.courses.thresholds(run, task, roundOf(asking, round, 3))
}

function answerOf(
  cushion: Amount,
  month: number,
  then: Float64Array,
  setAside: Amount,
): NeededCushion | NotReached {
  if (!Number.isFinite(cushion.value))
    return {
      kind: 'cannot be reached',
      because: `This cannot be reached, because in too many simulations even ${formatDollars(most)} at the first slower year runs out. Look at costs that grow faster than savings do.`,
    }
  const sorted = then.slice().sort()
  return {
    kind: 'reached',
    ...cushion,
    month,
    medianThen: sorted[Math.floor(sorted.length / 2)]!,
    setAside: Number.isFinite(setAside.value) ? setAside : null,
  }
}

function say(answer: NeededCushion | NotReached, firstMonth: number, confidence: number): string {
  if (answer.kind === 'cannot be reached') return answer.because
  const when = monthName((firstMonth + answer.month) as Month)
  const sure = formatPercent(confidence, 0)
  const need = `By ${when}, ${formatDollars(answer.value)} must stand ready for the plan to last in ${sure} of simulations (margin of error: ${formatDollars(answer.low)} to ${formatDollars(answer.high)}); the middle one has ${formatDollars(answer.medianThen)} by then.`
  if (answer.setAside === null)
    return `${need} No monthly set-aside up to $100,000 gets there in ${sure} of simulations: the time is too short.`
  if (answer.setAside.value === 0) return `${need} Nothing more need be set aside.`
  return `${need} Setting aside ${formatDollars(answer.setAside.value)} a month from side income until then, rising with prices, gets there (between ${formatDollars(answer.setAside.low)} and ${formatDollars(answer.setAside.high)}).`
}

const noSlowerYear =
  'This cannot be reached, because the plan has no slower year ahead: add one, with a cap on weekly hours, on the Slower years page.'
