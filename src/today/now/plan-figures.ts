// What Now says of the plan: months left, floor, carry month, lowest savings, smallest margin, and the worst bad year.
import { type Day, monthOfDay } from '#calendar/day.ts'
import { type Month, parseMonth } from '#calendar/month.ts'
import type { spanOfBooks } from '#db/ledger/balances.ts'
import { firstMonthOf } from '#plan/first-month.ts'
import type { Plan } from '#plan/plan.ts'
import type { Dollars } from '#runway/dollars/dollars.ts'
import { calledOn, calledWords } from '#runway/farm/called-on.ts'
import type { ProjectedMonth } from '#runway/project.ts'
import type { CurrentPlan } from '#today/current-plan.ts'
import type { ContinuedPlan } from '#today/projection/continued-plan.ts'
import {
  projectionIn,
  type StormRun,
  type StormSpread,
  stormMilestonesIn,
  stormRunsOf,
  withoutDrawsOf,
} from '#today/projection/courses.ts'
import { drawsFit, fitWords } from './draws-fit.ts'
import type { NowFigures } from './figures.ts'
import { floorParts } from './floor-parts.ts'
import { onProgram } from './on-program.ts'
import { workedToEnd } from './worked-to-end.ts'

interface PlanAsked {
  today: Day
  dollars: Dollars
  spread: StormSpread | null
  span: ReturnType<typeof spanOfBooks>
}

export function planFigures(
  current: CurrentPlan,
  fromBooks: ContinuedPlan | null,
  { today, dollars, spread, span }: PlanAsked,
): NowFigures['plan'] {
  if (current.status === 'unreadable') {
    const fault = current.faults[0]
    return { status: 'unreadable', says: fault ? `${fault.path}: ${fault.message}` : '' }
  }
  if (current.status === 'none') return { status: 'none' }
  if (!fromBooks) return { status: 'begun', next: span === null ? '/start/accounts' : '/start/costs' }
  const projection = projectionIn(fromBooks.plan, dollars)
  const { milestones, months } = projection
  const withoutDraws = withoutDrawsOf(fromBooks.plan)
  const now = months.find((one) => parseMonth(one.month) === monthOfDay(today)) ?? months[0]
  return {
    status: 'read',
    name: current.name,
    revisionNo: current.revisionNo,
    startMonth: parseMonth(current.plan.startMonth)!,
    projectedFromMonth: firstMonthOf(fromBooks.plan),
    monthsLeft: milestones.monthsLeft,
    floorMonth: monthOrNull(milestones.floorMonth),
    monthsLeftWithoutDraws: withoutDraws.milestones.monthsLeft,
    floorMonthWithoutDraws: monthOrNull(withoutDraws.milestones.floorMonth),
    partsWithoutDraws: floorParts(fromBooks.plan, withoutDraws),
    correction: fromBooks.correction,
    savingsFrom: fromBooks.savingsFrom,
    floorDollars: now?.floor ?? 0,
    carryMonth: monthOrNull(milestones.carryMonth),
    carryJudgedTo: monthOrNull(milestones.carryJudgedTo),
    carriesToTheEnd: milestones.carryMonth !== null && milestones.carryMonthToEnd === milestones.carryMonth,
    lowestDollars: milestones.lowestSpendable,
    lowestMonth: parseMonth(milestones.lowestMonth),
    lowestTaxOwed: months.find((one) => one.month === milestones.lowestMonth)?.taxOwed ?? 0,
    lastMonth: parseMonth(months.at(-1)?.month ?? current.plan.startMonth)!,
    ...marginOf(months.filter((one) => one.month >= milestones.countedFrom)),
    runsShort: monthOrNull(milestones.runsShort),
    calledOn: calledFigures(months),
    onProgram: onProgram(projection, monthOfDay(today)),
    workedToEnd: workedToEnd(current.plan),
    drawsFit: fitFigures(months.filter((one) => one.month >= milestones.countedFrom)),
    badYears: spread ? badYearsOf(fromBooks.plan) : { count: 0, reachFloor: 0 },
    worst: spread?.worst ? worstFigures(fromBooks.plan, spread.worst, dollars) : null,
  }
}

const marginOf = (
  months: readonly ProjectedMonth[],
): { marginDollars: number; marginMonth: Month | null } => {
  const margin = ({ spendable, floor }: ProjectedMonth) => spendable - floor
  const least = months.reduce<ProjectedMonth | null>(
    (low, one) => (low === null || margin(one) < margin(low) ? one : low),
    null,
  )
  return least
    ? { marginDollars: margin(least), marginMonth: parseMonth(least.month) }
    : { marginDollars: 0, marginMonth: null }
}

const calledFigures = (months: readonly ProjectedMonth[]) => {
  const called = calledOn(months)
  return called && { fromMonth: parseMonth(called.from)!, dollars: called.dollars, says: calledWords(called) }
}

const fitFigures = (ahead: readonly ProjectedMonth[]) => {
  const fit = drawsFit(ahead)
  return fit && { ...fit, says: fitWords(fit) }
}

const badYearsOf = (plan: Plan) => {
  const runs = stormRunsOf(plan)
  return {
    count: runs.length,
    reachFloor: runs.filter(({ milestones }) => milestones.floorMonth !== null).length,
  }
}

const worstFigures = (plan: Plan, run: StormRun, dollars: Dollars) => ({
  name: run.storm.name,
  monthsLeft: run.milestones.monthsLeft,
  floorMonth: monthOrNull(run.milestones.floorMonth),
  lowestDollars: stormMilestonesIn(plan, run, dollars).lowestSpendable,
})

/** A plan that knows no living costs yet would say that savings last for ever. */
export const hasCosts = (plan: Plan): boolean => plan.household.living.length > 0

const monthOrNull = (text: string | null): Month | null => (text === null ? null : parseMonth(text))
