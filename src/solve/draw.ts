// Draw: what the farm can pay the household with its reserve intact, as one level or as a level a year, held against today's plan.
import { addMonths, type Month, monthsToNextJanuary, monthText } from '#calendar/month.ts'
import { firstMonthOf } from '#plan/first-month.ts'
import type { Plan } from '#plan/plan.ts'
import { planSpan } from '#runway/compile/compile.ts'
import type { CompiledPlan } from '#runway/compile/compiled-plan.ts'
import type { BearableDraw, ComparedDraws, Draw, DrawStart } from './draw-answer.ts'
import {
  bearableAfter,
  bearableFrom,
  exactly,
  isWaiting,
  type Level,
  type LevelBorne,
  onFew,
  type Steps,
  settled,
  stepsBorne,
} from './draw-levels.ts'
import { sayDraw } from './draw-words.ts'
import { closely, coarsely } from './greatest-borne.ts'
import {
  type Asking,
  type AskOptions,
  type NotReached,
  notDescribed,
  roundsOf,
  saidIn,
  shownAt,
} from './question.ts'
import { type Ran, runOf, type Standing, worseBy } from './standing.ts'
import { amountFor, curveOf, evenly } from './threshold-quantile.ts'

const roundsExpected = 20

/** Months tried: the plan's first and the Januaries after it, as many as asked, all before the slower years (or the plan's end). */
export async function solveDraw(asking: Asking, startsTried = 6): Promise<Draw> {
  const { plan, seed, paths, confidence } = asking
  const compiled = asking.compile(plan)
  const planned = planSpan(plan).months
  const hasSlower = compiled.firstSlowerMonth > 0 && compiled.firstSlowerMonth < planned
  const untilMonth = hasSlower ? compiled.firstSlowerMonth : planned
  const about = { question: 'draw', confidence, paths, seed, untilMonth } as const
  if (!compiled.farm.described) {
    const answer = { kind: 'cannot be reached', because: notDescribed } as const
    return { ...about, answer, starts: [], curve: [], compared: [], ...saidIn(notDescribed) }
  }
  const next = roundsOf(asking, roundsExpected)
  const { chosen, starts, start, thresholds } = await oneLevel(
    asking,
    compiled,
    untilMonth,
    startsTried,
    next,
  )
  const until = filledLevels(compiled, chosen, untilMonth)
  const after = hasSlower ? await bearableAfter(asking, compiled, until, untilMonth, planned, next) : null
  const spans = hasSlower
    ? ([
        [0, untilMonth],
        [untilMonth, planned],
      ] as const)
    : ([[0, planned]] as const)
  const found = await stepsBorne(asking, compiled, spans, next)
  const level = [chosen, ...(after ? [levelFrom(after, untilMonth)] : [])]
  const compared = await comparedWith(asking, { level, steps: found.steps }, next)
  const answer = answerOf(asking, { chosen, start, after, untilMonth, found })
  const shown = shownAt(asking, chosen.fromMonth)
  const seen = thresholds.map((each) => each * shown)
  const curve = curveOf(seen, evenly(0, Math.max(100, ...seen.filter(Number.isFinite)), 29), false)
  const said = sayDraw(
    { answer, starts, untilMonth, compared },
    { firstMonth: compiled.firstMonth, months: planned },
    confidence,
    hasSlower,
  )
  return { ...about, answer, starts, curve, compared, ...said }
}

/** The start that keeps the household best, and what its courses bear. */
async function oneLevel(
  asking: Asking,
  compiled: CompiledPlan,
  untilMonth: number,
  startsTried: number,
  next: () => AskOptions,
): Promise<{ chosen: Level; starts: DrawStart[]; start: DrawStart; thresholds: Float64Array }> {
  const months = startMonths(compiled, untilMonth, startsTried)
  const waits = isWaiting(compiled)
  const asked = waits ? onFew(asking) : asking
  const none = new Float64Array(compiled.months)
  const first = await bearableFrom(asked, compiled, none, months, untilMonth, next)
  const from = (of: Asking, place: number, known: number) => {
    const closeness = of.paths < asking.paths ? coarsely : closely
    const span = { before: none, start: months[place]!, toMonth: untilMonth, first: known, closeness }
    return settled(of, compiled, span, next)
  }
  const borne: LevelBorne[] = []
  for (const [place, each] of first.entries()) {
    const found = exactly(asked, each)
    borne.push(waits ? await from(asked, place, found.level) : found)
  }
  const levels = borne.map((each, place) => levelFrom(each, months[place]!))
  const place = levels.indexOf(await kindest(asking, levels, next))
  // Of the starts that are not the answer's, what few courses say is told as such.
  if (asked.paths < asking.paths) borne[place] = await from(asking, place, borne[place]!.level)
  const starts = borne.map((each, k) => startOf(asking, each, months[k]!))
  const chosen = borne[place]!
  return {
    chosen: levelFrom(chosen, months[place]!),
    starts,
    thresholds: chosen.thresholds,
    start: starts[place]!,
  }
}

const coursesToChoose = 100

/** Of the levels that are any, the one with which savings stay above the floor longest, tried on a part of the courses; on a tie the earliest. */
async function kindest(asking: Asking, levels: Level[], next: () => AskOptions): Promise<Level> {
  const borne = levels.filter((each) => each.perMonth > 0)
  if (borne.length < 2) return borne[0] ?? levels[0]!
  const few = { ...asking, paths: Math.min(asking.paths, coursesToChoose) }
  let best: { level: Level; standing: Standing } | null = null
  for (const level of borne) {
    const draw = drawOfLevels(asking.plan, [level])
    const { standing } = await runOf(few, { ...asking.plan, draw }, next())
    if (best === null || lastsLonger(standing, best.standing)) best = { level, standing }
  }
  return best!.level
}

function lastsLonger(one: Standing, than: Standing): boolean {
  const order = ({ monthsLeft, lowestSavings }: Standing) => [
    monthsLeft.median,
    monthsLeft.p10,
    lowestSavings.value,
  ]
  const [first, second] = [order(one), order(than)]
  const place = first.findIndex((each, k) => each !== second[k])
  return place >= 0 && first[place]! > second[place]!
}

const levelFrom = ({ level }: LevelBorne, fromMonth: number): Level => ({
  fromMonth,
  perMonth: Math.floor(level),
})

const startOf = (asking: Asking, { level, thresholds }: LevelBorne, fromMonth: number): DrawStart => {
  const shown = shownAt(asking, fromMonth)
  const borne = thresholds.map((each) => Math.max(0, each) * shown)
  const { low, high } = amountFor(borne, asking.confidence, false)
  const value = level * shown
  return {
    fromMonth,
    level: { value, low: Math.min(low, value), high: Math.max(high, value) },
    paths: thresholds.length,
  }
}

const filledLevels = (compiled: CompiledPlan, { fromMonth, perMonth }: Level, to: number): Float64Array =>
  new Float64Array(compiled.months).fill(perMonth, fromMonth, to)

function startMonths(plan: CompiledPlan, untilMonth: number, count: number): number[] {
  const toJanuary = monthsToNextJanuary(plan.firstMonth as Month)
  const months = [0, ...Array.from({ length: count - 1 }, (_, year) => toJanuary + year * 12)]
  return months.filter((month) => month < untilMonth - 12 || month === 0)
}

/** The plan with these draws in place of its own, in today's prices. */
export const drawOfLevels = (plan: Plan, levels: readonly Level[]): Plan['draw'] => ({
  policy: 'steps',
  steps: levels.map(({ fromMonth, perMonth }) => ({
    from: monthText(addMonths(firstMonthOf(plan), fromMonth)),
    perMonth,
  })),
  growth: 0,
  withPrices: true,
})

async function comparedWith(
  asking: Asking,
  others: { level: Level[]; steps: Level[] },
  next: () => AskOptions,
): Promise<ComparedDraws[]> {
  const { plan } = asking
  const own = await runOf(asking, plan, next())
  const row = (as: ComparedDraws['as'], draw: Plan['draw'], ran: Ran) => {
    const worse = worseBy(ran, own)
    return { as, draw, standing: ran.standing, worse: worse !== null, worseIn: worse }
  }
  const rows = [row('plan', plan.draw, own)]
  for (const as of ['level', 'steps'] as const) {
    const draw = drawOfLevels(plan, others[as])
    rows.push(row(as, draw, await runOf(asking, { ...plan, draw }, next())))
  }
  return rows
}

function answerOf(
  asking: Asking,
  {
    chosen,
    start,
    after,
    untilMonth,
    found,
  }: {
    chosen: Level
    start: DrawStart
    after: LevelBorne | null
    untilMonth: number
    found: Steps
  },
): BearableDraw | NotReached {
  const share = Math.round((1 - asking.confidence) * 100)
  if (chosen.perMonth === 0 && found.steps.length === 0)
    return {
      kind: 'cannot be reached',
      because: `This cannot be reached, because in more than ${share}% of simulations the farm cannot pay its own costs and keep its reserve even with no draw at all.`,
    }
  return {
    kind: 'reached',
    ...start,
    after: after ? startOf(asking, after, untilMonth) : null,
    steps: found.steps.map(({ fromMonth, perMonth }) => ({
      fromMonth,
      perMonth: perMonth * shownAt(asking, fromMonth),
    })),
    paidInWorstYear: found.paidInWorstYear,
  }
}
