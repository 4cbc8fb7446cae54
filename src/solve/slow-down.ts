// When to slow down: the earliest January from which the plan's slower phases, with the hours they say, still hold.
import {
  addMonths,
  type Month,
  monthName,
  monthOfYear,
  monthsToNextJanuary,
  monthText,
  parseMonth,
} from '#calendar/month.ts'
import { heldEachMonth, type Level, yearTotal } from '#farm/seasonal.ts'
import { formatPercent } from '#money/format.ts'
import { firstMonthOf } from '#plan/first-month.ts'
import type { Plan } from '#plan/plan.ts'
import { planSpan } from '#runway/compile/compile.ts'
import { type Asking, type Certainty, type NotReached, roundsOf, type Said, saidIn } from './question.ts'
import { runOf, type Standing, sayHolding } from './standing.ts'

export interface SlowDown extends Certainty, Said {
  question: 'slow-down'
  answer: EarliestSlower | NotReached
  /** The plan as it is, with its own slower phases; null while it has none of either. */
  today: Standing | null
  /** Every beginning tried, the earliest first. */
  tried: SlowerTried[]
  /** Each one's hours a week that were typed; null: those of the plan's phases. */
  weeklyHours: number | null
  why: string
}

export interface SlowerTried extends Standing {
  /** How many months later than planned all phases begin; below zero, sooner. */
  months: number
  /** First month of the first of them, counted from the plan's first. */
  fromMonth: number
}

export interface EarliestSlower {
  kind: 'reached'
  months: number
  fromMonth: number
  /** As planned. */
  plannedMonth: number
  /** The earliest of those from which savings are no more often below the floor than planned, or asked; null where it is the same. */
  steady: { months: number; fromMonth: number } | null
}

/** Years later than planned that are tried where the plan itself does not hold. */
const yearsLater = 15
const roundsExpected = 7

export async function solveSlowDown(asking: Asking): Promise<SlowDown> {
  const { seed, paths, confidence } = asking
  const weeklyHours = asking.weeklyHours ?? null
  const about = { question: 'slow-down', confidence, paths, seed, weeklyHours } as const
  const plan = withHours(asking.plan, asking.weeklyHours)
  const first = firstMonthOf(plan)
  const ahead = plan.farm.phases.map((phase) => parseMonth(phase.from)! as number).sort((a, b) => a - b)
  const plannedMonth = (ahead[0] ?? 0) - first
  const because = cannotAsk(plan, ahead.length > 0, plannedMonth, weeklyHours)
  if (because !== null) {
    const answer = { kind: 'cannot be reached', because } as const
    return { ...about, answer, today: null, tried: [], ...saidIn(because), why: '' }
  }
  const next = roundsOf(asking, roundsExpected)
  const known = new Map<number, SlowerTried>()
  const at = async (months: number): Promise<SlowerTried> => {
    const before = known.get(months)
    if (before) return before
    const { standing } = await runOf(asking, withPhasesMoved(plan, months), next())
    const tried = { months, fromMonth: plannedMonth + months, ...standing }
    known.set(months, tried)
    return tried
  }
  const holds = async (months: number) => (await at(months)).held.share >= confidence
  const planned = await at(0)
  const today = weeklyHours === null ? planned : (await runOf(asking, asking.plan, next())).standing
  const choices = monthsTried(first, plannedMonth)
  const earliest = await earliestOf(choices, planned.held.share >= confidence, holds)
  const asSteady = Math.min(confidence, today.aboveFloor.share)
  const isSteady = async (months: number) => {
    const one = await at(months)
    return one.held.share >= confidence && one.aboveFloor.share >= asSteady
  }
  const reached = earliest === null || earliest > 0 ? null : await earliestOf(choices, true, isSteady)
  const steady = reached !== null && (await isSteady(reached)) ? reached : null
  const tried = [...known.values()].sort((a, b) => a.months - b.months)
  const found = steady === null || steady === earliest ? null : steady
  const answer = answerOf({ earliest, steady: found }, plannedMonth, tried, confidence)
  const why =
    'Fewer hours bring less from the farm for more years, and savings carry the difference: the sooner they begin, the more savings are needed. Draws the plan names are paid as far as the smaller farm can spare them.'
  return {
    ...about,
    answer,
    tried,
    today,
    ...say(answer, tried, today, first, confidence, weeklyHours),
    why,
  }
}

/** Why no course needs to be run: nothing is slower, or fewer hours change nothing. */
function cannotAsk(
  plan: Plan,
  hasPhase: boolean,
  plannedMonth: number,
  weeklyHours: number | null,
): string | null {
  if (!hasPhase || plannedMonth <= 0) {
    if (weeklyHours !== null)
      return 'This cannot be reached, because the plan does not say who works on the farm, or ends within two years: name its crew on the Farm page.'
    return hasPhase
      ? 'This cannot be reached, because the first slower phase has begun.'
      : 'This cannot be reached, because the plan has no slower phase: add one on the Slower years page, or type hours here.'
  }
  const lacks = slowDownLacks(plan)
  return lacks && `This cannot be reached, because ${lacks} Enter them at each enterprise on the Farm page.`
}

const hoursLacking =
  'no enterprise or herd has hours in the plan: the farm would earn the same in fewer hours a week.'

/** What has to be entered before the question can be asked of hours; null where nothing is lacking. */
export const slowDownLacks = (plan: Plan): string | null =>
  isOnlyOfHours(plan) && !hasHours(plan) ? hoursLacking : null

/** Its slower phases, or hours that are typed, change nothing but the hours. */
const isOnlyOfHours = ({ farm }: Plan): boolean =>
  farm.phases.every(
    (one) =>
      one.scales.length + one.trips.length + one.herdLimits.length + one.sales.length === 0 &&
      one.landLeasedOut === 0,
  )

/** Of enterprises, herds or overheads: those of markets alone make nothing that is sold. */
const hasHours = ({ farm }: Plan): boolean =>
  farm.enterprises.some((one) => yearTotal(one.hoursPerUnit) > 0) ||
  farm.herds.some((one) => heldTotal(one.hoursPerFemale) + heldTotal(one.hoursFixed) > 0) ||
  farm.overheads.some((one) => yearTotal(one.hours) > 0)

const heldTotal = (level: Level): number => yearTotal(heldEachMonth(level))

/** Distances to the planned month: Januaries from a year on till then, the planned month itself, then whole years later. */
function monthsTried(first: Month, plannedMonth: number): { sooner: number[]; later: number[] } {
  const toJanuary = monthsToNextJanuary(first)
  const sooner: number[] = []
  for (let month = toJanuary; month < plannedMonth; month += 12) sooner.push(month - plannedMonth)
  return { sooner, later: Array.from({ length: yearsLater }, (_, year) => 12 * (year + 1)) }
}

/** Halving between what holds and what does not, with the neighbor before tried: the answer holds and the one before it does not. */
async function earliestOf(
  { sooner, later }: { sooner: number[]; later: number[] },
  planHolds: boolean,
  holds: (months: number) => Promise<boolean>,
): Promise<number | null> {
  const choices = planHolds ? [...sooner, 0] : later
  if (!planHolds && !(await holds(choices.at(-1)!))) return null
  let [low, high] = [-1, choices.length - 1]
  while (high - low > 1) {
    const middle = Math.floor((low + high) / 2)
    if (await holds(choices[middle]!)) high = middle
    else low = middle
  }
  return choices[high]!
}

function answerOf(
  { earliest, steady }: { earliest: number | null; steady: number | null },
  plannedMonth: number,
  tried: readonly SlowerTried[],
  confidence: number,
): EarliestSlower | NotReached {
  if (earliest !== null)
    return {
      kind: 'reached',
      months: earliest,
      fromMonth: plannedMonth + earliest,
      plannedMonth,
      steady: steady === null ? null : { months: steady, fromMonth: plannedMonth + steady },
    }
  const most = Math.max(...tried.map((each) => each.held.share))
  return {
    kind: 'cannot be reached',
    because: `This cannot be reached, because even ${yearsLater} years later than planned these hours hold in at most ${formatPercent(most, 0)} of simulations; ${formatPercent(confidence, 0)} must hold.`,
  }
}

function say(
  answer: EarliestSlower | NotReached,
  tried: readonly SlowerTried[],
  today: Standing,
  first: Month,
  confidence: number,
  weeklyHours: number | null,
): Said {
  const planned = tried.find((each) => each.months === 0)!
  const name = (month: number) => monthName(addMonths(first, month))
  const hours = weeklyHours === null ? 'the hours of the slower phases' : `${weeklyHours} hours a week each`
  const asPlanned =
    weeklyHours === null
      ? `As planned, from ${name(planned.fromMonth)} on, ${sayHolding(planned)}.`
      : `With the hours of today’s plan ${sayHolding(today)}.`
  if (answer.kind === 'cannot be reached') return saidIn(answer.because, asPlanned)
  const found = tried.find((each) => each.months === answer.months)!
  const sure = formatPercent(confidence, 0)
  const low = found.aboveFloor.share < today.aboveFloor.share - 0.02
  const warning =
    low && (answer.months < 0 || weeklyHours !== null)
      ? `Savings fall below the floor more often than in today’s plan: they stay above it in ${formatPercent(found.aboveFloor.share, 0)} of simulations instead of ${formatPercent(today.aboveFloor.share, 0)}. `
      : ''
  if (answer.months === 0)
    return saidIn(
      `${warning}${weeklyHours === null ? `The planned month, ${name(answer.fromMonth)}, is` : `${name(answer.fromMonth)} is`} the earliest of those tried from which ${hours} hold in ${sure} of simulations: ${sayHolding(found)}.`,
      weeklyHours === null ? '' : asPlanned,
    )
  const before = tried.some(({ months }) => months < answer.months)
    ? 'and not a year before'
    : 'and no earlier month was tried'
  const steady =
    answer.steady === null
      ? ''
      : `No more often below the floor than planned: from ${name(answer.steady.fromMonth)} on.`
  return saidIn(
    `${warning}From ${name(answer.fromMonth)} on ${hours} hold in ${sure} of simulations, ${before}: ${sayHolding(found)}.`,
    asPlanned,
    steady,
  )
}

/** Where the plan has no slower phase to begin with: the last January before its end, so that every year before it is tried. */
const lastJanuary = (plan: Plan): Month | null => {
  const first = firstMonthOf(plan)
  const months = Math.min(planSpan(plan).months - 24, 12 * 25)
  const january = first + months - monthOfYear((first + months) as Month) + 1
  return january > first + 12 ? (january as Month) : null
}

/** One slower phase, with so many hours a week of each of the crew, in place of the plan's; without hours the plan as it is. */
export function withHours(plan: Plan, weeklyHours: number | undefined): Plan {
  if (weeklyHours === undefined) return plan
  const planned = plan.farm.phases
    .map(({ from }) => parseMonth(from)!)
    .filter((from) => from > firstMonthOf(plan))
    .sort((a, b) => a - b)[0]
  const from = planned ?? lastJanuary(plan)
  const phases =
    from === null || plan.farm.crew.length === 0
      ? []
      : [
          {
            from: monthText(from),
            name: `${weeklyHours} hours a week each`,
            weeklyHours: plan.farm.crew.map(({ who }) => ({ who, hours: weeklyHours })),
            scales: [],
            trips: [],
            herdLimits: [],
            sales: [],
            landLeasedOut: 0,
            leasePerAcreAndYear: 0,
          },
        ]
  return { ...plan, farm: { ...plan.farm, phases } }
}

/** All phases begin so many months later, below zero sooner. */
export const withPhasesMoved = (plan: Plan, months: number): Plan => ({
  ...plan,
  farm: {
    ...plan.farm,
    phases: plan.farm.phases.map((phase) => ({
      ...phase,
      from: monthText(addMonths(parseMonth(phase.from)!, months)),
    })),
  },
})
