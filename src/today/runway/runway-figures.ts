// The figures of the Runway page from a projection: years summed from months, storms in a table.
import { monthText, parseMonth, yearIn } from '#calendar/month.ts'
import { byPart } from '#kept/by-part.ts'
import { keptWith } from '#kept/keeper.ts'
import { firstMonthOf } from '#plan/first-month.ts'
import type { Plan } from '#plan/plan.ts'
import { compilePlan } from '#runway/compile/compile.ts'
import { type Dollars, pricesIn, type SeenCourse } from '#runway/dollars/dollars.ts'
import { mendingAmount } from '#runway/mend.ts'
import type { Milestones, ProjectedMonth, Projection } from '#runway/project.ts'
import { expectedShocks } from '#runway/shocks.ts'
import { flowsOfMonths, type StormChange, stormChanges } from '#runway/storms/storm-parts.ts'
import { hoursToGive, whyBetter, whyNoSooner, whyNothing, whyOnlyLater } from '#runway/storms/storm-words.ts'
import { compareEndings } from '#runway/storms/worst-start.ts'
import { traceMonth } from '#runway/trace.ts'
import { type Mend, whySentences } from '#runway/why.ts'
import { savingsAtEnd } from '#solve/slower-years.ts'
import type { PlanInUse } from '#today/current-plan.ts'
import {
  baselineBeside,
  projectionIn,
  projectionOf,
  rulesOf,
  type StormRun,
  seenIn,
  spendableIn,
  stormMilestonesIn,
  stormRunsOf,
} from '#today/projection/courses.ts'
import type { MonthTrace, RunwayFigures, StormLine, YearLine } from './figures.ts'

/** `plan` is what is projected: the plan of today, `ongoing`, or that with its levers pulled. `drawnSince`: the month of the first draw that is known. */
export const runwayFigures = (
  current: PlanInUse,
  ongoing: Plan,
  plan: Plan,
  dollars: Dollars,
  drawnSince: string | null,
): RunwayFigures => {
  const whole = () => projectionIn(plan, dollars)
  const seen = seenIn(plan, dollars)
  const asPlanned = plan === ongoing
  // What a pulled lever does not show is not worked out for it.
  return byPart<RunwayFigures>({
    planId: () => current.planId,
    planName: () => current.name,
    revisionNo: () => current.revisionNo,
    asPlanned: () => asPlanned,
    savingsAtEnd: () => savingsAtEnd(whole().months),
    knowsCosts: () => current.plan.household.living.length > 0,
    countedFrom: () => seen.milestones.countedFrom,
    milestones: () => seen.milestones,
    drawnSince: () => (drawnSince !== null && drawnSince < monthText(firstMonthOf(plan)) ? drawnSince : null),
    why: () => whySentences(plan, seen, mendOf(plan, seen)),
    years: () => yearLines(whole()),
    months: () => whole().months,
    yearReturns: () => whole().years,
    saved: () => (asPlanned ? null : spendableIn(ongoing, dollars)),
    baseline: () => baselineBeside(current.plan, ongoing, dollars),
  })
}

const mendOf = (plan: Plan, { milestones }: SeenCourse): Mend | null => {
  if (milestones.floorMonth === null) return null
  return keptWith(plan, 'mend', () => {
    const compiled = compilePlan(plan, rulesOf(plan))
    return mendingAmount(compiled, expectedShocks(compiled.shape))
  })
}

const yearLines = ({ months, years }: Projection): YearLine[] => {
  const byYear = new Map<number, ProjectedMonth[]>()
  for (const month of months) {
    const year = yearIn(month.month)
    const list = byYear.get(year)
    if (list) list.push(month)
    else byYear.set(year, [month])
  }
  const taxOf = new Map(years.map(({ year, tax }) => [year, tax]))
  return [...byYear].map(([year, list]) => {
    const last = list.at(-1)!
    const sum = (pick: (month: ProjectedMonth) => number) =>
      list.reduce((total, month) => total + pick(month), 0)
    return {
      year,
      months: list.length,
      farmSales: sum((one) => one.farmSales),
      draws: sum((one) => one.draw),
      unmetDraws: sum((one) => one.unmetDraw),
      contributions: sum((one) => one.contribution),
      otherIncome: sum((one) => one.pay + one.side + one.socialSecurity),
      benefits: sum((one) => one.socialSecurity),
      householdCosts: sum((one) => one.householdCosts),
      tax: taxOf.get(year) ?? null,
      spendable: last.spendable,
      retirement: last.traditional + last.roth + last.health,
      floor: last.floor,
      coverRatio: last.coverRatio,
    }
  })
}

/** Each storm's milestones. */
export const stormTable = (plan: Plan, dollars: Dollars): StormLine[] => {
  const own = new Set(plan.storms.map((storm) => storm.id))
  const expected = projectionOf(plan)
  const prices = pricesIn(expected, dollars)
  return stormRunsOf(plan).map((run) => {
    const { storm } = run
    const milestones = stormMilestonesIn(plan, run, dollars)
    const from = parseMonth(storm.from)! - firstMonthOf(plan)
    const changes = stormChanges(run.flows, flowsOfMonths(expected.months, from), dollars, prices)
    return {
      id: storm.id,
      name: storm.name,
      from: storm.from,
      own: own.has(storm.id),
      monthsLeft: milestones.monthsLeft,
      carryMonth: milestones.carryMonth,
      lowestSpendable: milestones.lowestSpendable,
      lowestMonth: milestones.lowestMonth,
      runsShort: milestones.runsShort,
      unmetNeed: milestones.unmetNeed,
      changes,
      lacks: hoursToGive(plan, expected.months, storm),
      says: stormSays(plan, expected, { run, milestones, changes }, dollars),
    }
  })
}

/** Where a bad year does nothing, does good, or begins too late for months left to tell, that asks for a reason. */
const stormSays = (plan: Plan, expected: Projection, told: StormTold, dollars: Dollars): string | null => {
  const { from } = told.run.storm
  const reason = reasonOf(plan, expected, told, dollars)
  if (!isBelowBy(expected.milestones, from) || !isBelowBy(told.milestones, from)) return reason
  return reason === null ? belowAlready : `${belowAlready} ${reason}`
}

const isBelowBy = ({ floorMonth }: Milestones, from: string): boolean =>
  floorMonth !== null && floorMonth <= from

const belowAlready =
  'Savings are below the floor as it begins, with or without it: months left cannot show what it does.'

interface StormTold {
  run: StormRun
  milestones: Milestones
  changes: readonly StormChange[]
}

const reasonOf = (
  plan: Plan,
  { months }: Projection,
  { run, milestones, changes }: StormTold,
  dollars: Dollars,
): string | null => {
  const isSame =
    changes.length === 0 && run.spendable.every((dollars, m) => Math.abs(dollars - months[m]!.spendable) < 1)
  if (isSame) return whyNothing(plan, months, run.storm)
  if (changes.length === 0 && run.storm.drawsLateMonths > 0) return whyOnlyLater(run.isCalledOn)
  const planned = projectionIn(plan, dollars).milestones
  if (compareEndings(milestones, planned) > 0) return whyBetter(changes)
  return milestones.monthsLeft === planned.monthsLeft && !isBelowBy(planned, run.storm.from)
    ? whyNoSooner(changes, planned.floorMonth)
    : null
}

/** A month opened into what made it, all of it at the same prices; null when the plan has no such month. */
export const monthTrace = (plan: Plan, month: string, dollars: Dollars): MonthTrace | null => {
  const projection = projectionOf(plan)
  const groups = traceMonth(plan, projection, month)
  if (groups === null) return null
  const factor = pricesIn(projection, dollars).ofMonth(month)
  return {
    month,
    groups: groups.map(({ lines, total, ...group }) => ({
      ...group,
      total: total * factor,
      lines: lines.map((line) => ({ ...line, dollars: line.dollars * factor })),
    })),
  }
}
