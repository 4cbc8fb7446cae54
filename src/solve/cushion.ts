// Cushion: the savings that must stand ready at the first slower year so that the plan lasts, and the monthly set-aside that gets there.

import { type Month, monthName } from '#calendar/month.ts'
import type { ThresholdTask } from '#chance/by-path/thresholds.ts'
import { chanceModel } from '#chance/chance-model.ts'
import { type CourseRun, figureOf } from '#chance/course-run.ts'
import type { Criterion, Dial } from '#chance/dials.ts'
import { formatDollars, formatPercent, formatRange } from '#money/format.ts'
import { closeIn, provenAmount, wholeCurve } from './closing-in.ts'
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
  shownAt,
} from './question.ts'
import { evenly } from './threshold-quantile.ts'

export interface Cushion extends Certainty, Said {
  question: 'cushion'
  answer: NeededCushion | NotReached
  /** Share of courses that last from the first slower year on, by cushion. */
  curve: CurvePoint[]
  /** What money is taken to earn, where what is missing lies, and until when it must last, in sentences; empty without a slower year. */
  earns: string
}

export interface NeededCushion extends Amount {
  kind: 'reached'
  /** First month of the first slower year, counted from the plan's first. */
  month: number
  /** What the plan has by then in the median course. */
  medianThen: number
  /** Cash and taxable savings by then with which savings are never below the floor either, the other accounts as they stand; null where no sum tried is enough. */
  aboveFloor: Amount | null
  /** Dollars a month to set aside from now until then, now and rising with prices; null where no amount tried is enough. */
  setAside: Amount | null
}

const most = 20_000_000

/**
 * Per course: the least that all savings together (retirement accounts included, less tax owed) may come to as the slower year begins
 * for no month from then on to go short: what is more than stands then lies where added money does, of less every account the part in
 * which it stands, so that the sum itself is neither sold nor taxed. The floor is of what can
 * be spent, and so what keeps to it is counted in cash and taxable savings alone. Courses in which nobody lives to see the slower year
 * do not count.
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
      earns: '',
      ...saidIn(noSlowerYear),
    }
  const run: CourseRun = {
    plan: compiled,
    model: chanceModel(plan, compiled.shape),
    seed,
    paths,
    from: 'chance',
    keepsMonths: false,
  }
  const figures = await asking.courses.figures(run, roundOf(asking, 0, 4))
  const prices = figureOf(figures, 'pricesAtSlowerYear')
  // As the slower year begins: balances of the month before, in its dollars.
  const shown = shownAt(asking, month - 1)
  const then = figureOf(figures, 'atSlowerYear').map((savings, path) => (savings / prices[path]!) * shown)
  const seen = (_: number, path: number) => !Number.isNaN(then[path]!)
  const counted = async (round: number, what: Dial, criterion: Criterion, factor: number) => {
    const counts = (path: number) => seen(0, path)
    const task = taskOf(what, criterion)
    const found = await closeIn(asking, run, task, roundOf(asking, round, 4), counts)
    const amount = await provenAmount(asking, run, task, found, asking, counts)
    const times = (each: number) => each * factor
    return {
      amount: { value: times(amount.value), low: times(amount.low), high: times(amount.high) },
      thresholds: { all: found.all.filter(seen).map(times), whole: found.whole.filter(seen).map(times) },
    }
  }
  const held = { kind: 'held', fromMonth: month } as const
  const needed = await counted(1, { kind: 'cushion', month }, held, shown)
  const floor = { kind: 'aboveFloor', fromMonth: month } as const
  const above = await counted(2, { kind: 'spendable', month }, floor, shown)
  const aside = { kind: 'setAside', fromMonth: 0, toMonth: month } as const
  const monthly = await counted(3, aside, held, shownAt(asking, 0))
  const cushion = needed.amount
  const answer = answerOf({
    cushion,
    aboveFloor: above.amount,
    month,
    savingsThen: then.filter(seen),
    setAside: monthly.amount,
  })
  const top = Number.isFinite(cushion.high) ? cushion.high * 1.4 + 10_000 : most
  return {
    ...about,
    answer,
    curve: wholeCurve(needed.thresholds, evenly(0, top, 29), true),
    earns: sayTerms(plan, compiled),
    ...say(answer, compiled.firstMonth, confidence),
  }
}

function taskOf(what: Dial, criterion: Criterion): ThresholdTask {
  const search =
    what.kind !== 'setAside'
      ? { to: most, within: 250, start: 200_000, step: 100_000 }
      : { to: 100_000, within: 5, start: 500, step: 500 }
  return { dial: what, criterion, from: 0, moreIsBetter: true, ...search }
}

function answerOf({
  cushion,
  aboveFloor,
  month,
  savingsThen,
  setAside,
}: {
  cushion: Amount
  aboveFloor: Amount
  month: number
  savingsThen: Float64Array
  setAside: Amount
}): NeededCushion | NotReached {
  if (!Number.isFinite(cushion.value))
    return {
      kind: 'cannot be reached',
      because: `This cannot be reached, because in too many simulations even ${formatDollars(most)} at the first slower year runs out. Look at costs that grow faster than savings do.`,
    }
  const sorted = savingsThen.slice().sort()
  return {
    kind: 'reached',
    ...cushion,
    aboveFloor: Number.isFinite(aboveFloor.value) ? aboveFloor : null,
    month,
    medianThen: sorted[Math.floor(sorted.length / 2)]!,
    setAside: Number.isFinite(setAside.value) ? setAside : null,
  }
}

function say(answer: NeededCushion | NotReached, firstMonth: number, confidence: number): Said {
  if (answer.kind === 'cannot be reached') return saidIn(answer.because)
  const when = monthName((firstMonth + answer.month) as Month)
  const sure = formatPercent(confidence, 0)
  const floor =
    answer.aboveFloor === null
      ? 'No sum keeps savings above the floor so surely from then on.'
      : answer.aboveFloor.value === 0
        ? ''
        : `Never to fall below the floor from then on takes ${formatDollars(answer.aboveFloor.value)} in cash and taxable savings, retirement accounts left as they are.`
  const missing =
    answer.value > answer.medianThen ? '; what is missing counts as cash or taxable savings' : ''
  const need = `By ${when}, ${formatDollars(answer.value)} are needed for the plan to last in ${sure} of simulations (margin of error: ${formatRange(answer.low, answer.high, formatDollars)}); the middle one has ${formatDollars(answer.medianThen)} by then${missing}.`
  if (answer.setAside === null)
    return saidIn(
      need,
      `No monthly set-aside up to $100,000 gets there in ${sure} of simulations: the time is too short.`,
      floor,
    )
  if (answer.setAside.value === 0) return saidIn(need, 'Nothing more need be set aside.', floor)
  return saidIn(
    need,
    `Setting aside ${formatDollars(answer.setAside.value)} a month from side income until then, rising with prices, gets there (between ${formatDollars(answer.setAside.low)} and ${formatDollars(answer.setAside.high)}).`,
    floor,
  )
}

const noSlowerYear =
  'This cannot be reached, because the plan has no slower year ahead: add one, with a cap on weekly hours, on the Slower years page.'
