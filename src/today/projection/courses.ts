// The expected course of a plan and its bad years, worked out once and kept with the plan object, which never changes.
import { type Month, month, parseMonth } from '#calendar/month.ts'
import { Alike } from '#kept/alike.ts'
import { keeper, keptWith } from '#kept/keeper.ts'
import type { Storm } from '#plan/assumption-plan.ts'
import { firstMonthOf } from '#plan/first-month.ts'
import type { Plan } from '#plan/plan.ts'
import type { PlanOfDay } from '#runway/compile/plan-of-day.ts'
import {
  type Dollars,
  dollarsOfTheYear,
  inDollars,
  milestonesIn,
  pricesIn,
  type SeenCourse,
  seenInDollars,
} from '#runway/dollars/dollars.ts'
import {
  type CourseToFloor,
  type Milestones,
  type Projection,
  project,
  projectThrough,
  projectToFloor,
} from '#runway/project.ts'
import { publishedRules } from '#runway/published-rules.ts'
import type { RunwayRules } from '#runway/runway-rules.ts'
import { type StormCourse, stormCourse } from '#runway/storms/storm.ts'
import { stormsOf } from '#runway/storms/usual-storms.ts'
import { compareEndings } from '#runway/storms/worst-start.ts'

export interface StormRun extends StormCourse {
  storm: Storm
}

export interface StormSpread {
  /** The storm that leaves the least time above the floor; of equals, the one with the lowest savings. */
  worst: StormRun | null
  band: readonly { month: Month; low: number; high: number }[]
}

interface Known {
  rules: RunwayRules
  projection?: Projection
  /** Its years up to one. */
  through?: { year: number; projection: Projection }
  storms?: readonly StormRun[]
  spread?: StormSpread
  withoutDraws?: CourseToFloor
}

const known = new WeakMap<Plan, Known>()

/** Of a saved plan, the plans made from it lately: as it goes on from the books, and with each change that is suggested. */
const madeOf = keeper(1)

/** A plan made before, where this one says just the same: what was worked out from that is kept with it. */
export const samePlan = (saved: Plan, made: PlanOfDay): PlanOfDay =>
  madeOf(saved, 'plans', () => new Alike<PlanOfDay>(8)).foundOr(made)

export const rulesOf = (plan: Plan): RunwayRules => knownOf(plan).rules

/** The plan as expected. */
export const projectionOf = (plan: Plan): Projection => {
  const entry = knownOf(plan)
  entry.projection ??= project(plan, entry.rules)
  return entry.projection
}

/** The same through December of a year at least, for what is asked of months before: of a plan that is only tried, the rest is never run. */
export const projectionThrough = (plan: Plan, year: number): Projection => {
  const entry = knownOf(plan)
  if (entry.projection) return entry.projection
  if (entry.through === undefined || entry.through.year < year)
    entry.through = { year, projection: projectThrough(plan, entry.rules, month(year, 12)) }
  return entry.through.projection
}

/** The same as it is shown: in today's dollars, or in those of each month. */
export const projectionIn = (plan: Plan, dollars: Dollars): Projection =>
  dollars.of === 'year'
    ? projectionOf(plan)
    : keptWith(plan, `in dollars of ${dollars.month}`, () => inDollars(projectionOf(plan), dollars))

/** The same for charts and sentences. */
export const seenIn = (plan: Plan, dollars: Dollars): SeenCourse =>
  keptWith(plan, `seen in dollars of ${dollars.of === 'year' ? 'the year' : dollars.month}`, () =>
    seenInDollars(projectionOf(plan), dollars),
  )

/** Its spendable savings by month. */
export const spendableIn = (plan: Plan, dollars: Dollars): readonly SpendableMonth[] =>
  keptWith(plan, `spendable in dollars of ${dollars.of === 'year' ? 'the year' : dollars.month}`, () =>
    seenIn(plan, dollars).months.map(({ month, spendable }) => ({ month, spendable })),
  )

export interface SpendableMonth {
  month: string
  spendable: number
}

/** The plan as it was saved, run from its own first month: what the books are held against, never what is left from now. */
export const baselineOf = (saved: Plan): Projection => projectionOf(saved)

/**
 * Spendable savings by the baseline in the months of the plan that goes on from it, to be drawn thin beside that one and never to
 * be spoken of there; null where the two are one. `through`: no further than December of that year, as what follows is not shown.
 */
export const baselineBeside = (
  saved: Plan,
  ongoing: Plan,
  dollars: Dollars,
  through: number | null = null,
): readonly SpendableMonth[] | null =>
  ongoing.continuesFrom === undefined
    ? null
    : besideOnce(ongoing, `${dollars.of === 'year' ? '' : dollars.month} ${through}`, () =>
        savedBeside(saved, ongoing, dollars, through),
      )

/** A plan goes on from one saved plan only; Now shows less of it than Runway. */
const besideOnce = keeper(4)

function savedBeside(
  saved: Plan,
  ongoing: Plan,
  dollars: Dollars,
  through: number | null,
): readonly SpendableMonth[] | null {
  const { ofMonth } = pricesIn(projectionOf(ongoing), dollars)
  const course =
    through === null
      ? seenIn(saved, dollarsOfTheYear)
      : seenInDollars(projectionThrough(saved, through), dollarsOfTheYear)
  const planned = new Map(course.months.map((one) => [one.month, one.spendable] as const))
  const beside = seenIn(ongoing, dollarsOfTheYear).months.flatMap(({ month }) => {
    const spendable = planned.get(month)
    return spendable === undefined ? [] : [{ month, spendable: spendable * ofMonth(month) }]
  })
  return beside.length === 0 ? null : beside
}

/** The same when the household draws nothing: what savings alone would carry. */
export const withoutDrawsOf = (plan: Plan): CourseToFloor => {
  const entry = knownOf(plan)
  const draw = { policy: 'steps' as const, steps: [], growth: 0, withPrices: false }
  const savings = { ...plan.savings, drawsToHoldFloor: false }
  entry.withoutDraws ??= projectToFloor({ ...plan, draw, savings }, entry.rules)
  return entry.withoutDraws
}

/** Whether the storms of this plan were run already: the first page after a start does not wait for them. */
export const knowsStorms = (plan: Plan): boolean => knownOf(plan).storms !== undefined

export const stormRunsOf = (plan: Plan): readonly StormRun[] => {
  const entry = knownOf(plan)
  entry.storms ??= stormsOf(plan, entry.rules).map((storm) => ({
    storm,
    ...stormCourse(plan, entry.rules, storm),
  }))
  return entry.storms
}

/** What a bad year comes to, as it is shown: it changes nothing in the prices of its months. */
export const stormMilestonesIn = (plan: Plan, run: StormRun, dollars: Dollars): Milestones =>
  milestonesIn(run, firstMonthOf(plan), pricesIn(projectionOf(plan), dollars))

/** Spendable savings month by month between the expected course and the worst of the storms. */
export const stormSpreadOf = (plan: Plan): StormSpread => {
  const entry = knownOf(plan)
  entry.spread ??= findSpread(plan)
  return entry.spread
}

function findSpread(plan: Plan): StormSpread {
  const storms = stormRunsOf(plan)
  return {
    worst: storms.reduce<StormRun | null>(
      (worst, one) => (worst === null || compareEndings(one.milestones, worst.milestones) < 0 ? one : worst),
      null,
    ),
    band: projectionOf(plan).months.map((month, index) => {
      const spendable = [month.spendable, ...storms.flatMap((one) => one.spendable[index] ?? [])]
      return { month: parseMonth(month.month)!, low: Math.min(...spendable), high: Math.max(...spendable) }
    }),
  }
}

function knownOf(plan: Plan): Known {
  const entry = known.get(plan) ?? knownOfAlike(plan)
  known.set(plan, entry)
  return entry
}

/** A copy of a plan, or one read again, says the same as the plan it was made from: its courses are the same. */
function knownOfAlike(plan: Plan): Known {
  const first = lately.foundOr(plan)
  const entry = known.get(first) ?? { rules: publishedRules(plan) }
  known.set(first, entry)
  return entry
}

const lately = new Alike<Plan>(6)
