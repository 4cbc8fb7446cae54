// When to slow down: the earliest January from which the plan's slower phases, with the hours they say, still hold.
import { addMonths, type Month, monthName, monthOfYear, monthText, parseMonth } from '#calendar/month.ts'
import { formatPercent } from '#money/format.ts'
import { firstMonthOf } from '#plan/first-month.ts'
import type { Plan } from '#plan/plan.ts'
import { type Asking, type Certainty, type NotReached, roundsOf } from './question.ts'
import { runOf, type Standing } from './standing.ts'

export interface SlowDown extends Certainty {
  question: 'slow-down'
  answer: EarliestSlower | NotReached
  /** Every beginning tried, the earliest first. */
  tried: SlowerTried[]
  sentence: string
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
  const { plan, seed, paths, confidence } = asking
  const about = { question: 'slow-down', confidence, paths, seed } as const
  const first = firstMonthOf(plan)
  const ahead = plan.farm.phases.map((phase) => parseMonth(phase.from)! as number).sort((a, b) => a - b)
  const plannedMonth = (ahead[0] ?? 0) - first
  if (ahead.length === 0 || plannedMonth <= 0) {
    const because =
      ahead.length === 0
        ? 'This cannot be reached, because the plan has no slower phase: add one, with the hours you want to give, on the Slower years page.'
        : 'This cannot be reached, because the first slower phase has begun.'
    return { ...about, answer: { kind: 'cannot be reached', because }, tried: [], sentence: because, why: '' }
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
  const choices = monthsTried(first, plannedMonth)
  const earliest = await earliestOf(choices, planned.held.share >= confidence, holds)
  const asSteady = Math.min(confidence, planned.aboveFloor.share)
  const steady =
    earliest === null || earliest > 0
      ? null
      : await earliestOf(choices, true, async (months) => {
          const one = await at(months)
          return one.held.share >= confidence && one.aboveFloor.share >= asSteady
        })
  const tried = [...known.values()].sort((a, b) => a.months - b.months)
  const found = steady === null || steady === earliest ? null : steady
  const answer = answerOf({ earliest, steady: found }, plannedMonth, tried, confidence)
  const why =
    'Fewer hours bring less from the farm for more years, and savings carry the difference: the sooner they begin, the more must stand ready. Draws the plan names are paid as far as the smaller farm can spare them.'
  return { ...about, answer, tried, sentence: say(answer, tried, first, confidence), why }
}

/** Distances to the planned month: Januaries from a year on till then, the planned month itself, then whole years later. */
function monthsTried(first: Month, plannedMonth: number): { sooner: number[]; later: number[] } {
  const toJanuary = (13 - monthOfYear(first)) % 12 || 12
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
  first: Month,
  confidence: number,
): string {
  const planned = tried.find((each) => each.months === 0)!
  const name = (month: number) => monthName(addMonths(first, month))
  const share = ({ held, aboveFloor }: SlowerTried) =>
    `nothing goes unpaid in ${formatPercent(held.share, 1)} of simulations, and savings stay above the floor in ${formatPercent(aboveFloor.share, 1)}`
  const asPlanned = `As planned, from ${name(planned.fromMonth)} on, ${share(planned)}.`
  if (answer.kind === 'cannot be reached') return `${answer.because} ${asPlanned}`
  const found = tried.find((each) => each.months === answer.months)!
  const sure = formatPercent(confidence, 0)
  if (answer.months === 0)
    return `The planned month, ${name(answer.fromMonth)}, is the earliest of those tried from which the hours of the slower phases hold in ${sure} of simulations: ${share(found)}.`
  const low = found.aboveFloor.share < planned.aboveFloor.share - 0.02
  const warning =
    answer.months < 0 && low
      ? `Savings fall below the floor more often than in today’s plan: they stay above it in ${formatPercent(found.aboveFloor.share, 0)} of simulations instead of ${formatPercent(planned.aboveFloor.share, 0)}. `
      : ''
  const steady =
    answer.steady === null
      ? ''
      : ` No more often below the floor than planned: from ${name(answer.steady.fromMonth)} on.`
  return `${warning}From ${name(answer.fromMonth)} on the hours of the slower phases hold in ${sure} of simulations, and not a year before: ${share(found)}. ${asPlanned}${steady}`
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
