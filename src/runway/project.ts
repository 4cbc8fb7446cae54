// The public function of the projection: a plan, the law and the shocks in; months, years and milestones out.
import { type Month, monthText } from '#calendar/month.ts'
import { byPart } from '#kept/by-part.ts'
import { type CoverageKind, coverageKinds } from '#rules/coverage/coverage-kinds.ts'
import { type CompileOptions, compilePlan } from '#runway/compile/compile.ts'
import type { CompiledPlan } from '#runway/compile/compiled-plan.ts'
import { monthsLeftTo, type PlanOfDay } from '#runway/compile/plan-of-day.ts'
import {
  type CourseBuffers,
  type CourseParts,
  notBought,
  type WholeCourse,
  wholeCourse,
} from './course-buffers.ts'
import { type YearSeries, yearSeries } from './figures/course-figures.ts'
import type { ProjectedMonth } from './figures/month-row.ts'
import { type MonthTable, rowsOf } from './figures/month-table.ts'
import { carryEndOf, carryMonthOf } from './milestones.ts'
import { publishedRules } from './published-rules.ts'
import { runCourse } from './run-course.ts'
import type { RunwayRules } from './runway-rules.ts'
import { type CourseShocks, expectedShocks } from './shocks.ts'

export type { ProjectedMonth }

/** One calendar year's totals and return. The first and the last may be parts of a year. */
export type ProjectedYear = { year: number; complete: boolean } & Record<YearSeries, number>

/** Months are calendar months as text; null means it does not happen before the plan ends. */
export interface Milestones {
  /** From the month of today, where the plan knows it, and else from its first. */
  monthsLeft: number | null
  /** The month on whose first day they are counted from; the lowest savings are those from it on. */
  countedFrom: string
  floorMonth: string | null
  lowestSpendable: number
  lowestMonth: string
  firstDraw: string | null
  /** First month from which draws cover all household costs for any twelve months running, up to `carryJudgedTo`. */
  carryMonth: string | null
  /** The first slower year, up to which the carry month is judged, as draws fall there by the plan; null: to the end of the plan. */
  carryJudgedTo: string | null
  /** The same kept up to the end of the plan, slower years included. */
  carryMonthToEnd: string | null
  /** First year after the last in which the household had to put money into the farm; null when it never stops. */
  farmStandsAloneFrom: number | null
  firstSlowerMonth: string | null
  savingsAtFirstSlower: number | null
  /** First month with a need that nothing could meet, and each person's age then. */
  runsShort: string | null
  agesWhenShort: { name: string; age: number }[]
  /** Needs in all that nothing could meet: told apart from savings, which do not fall below what there is. */
  unmetNeed: number
}

export interface MemberCoverage {
  id: string
  name: string
  isChild: boolean
  months: CoverageKind[]
}

export interface Projection {
  months: ProjectedMonth[]
  /** The figures that the months are written out from. */
  table: MonthTable
  years: ProjectedYear[]
  milestones: Milestones
  /** By the plan's purchases: the month each was made in, null for one that was not. */
  bought: (string | null)[]
  /** Who is covered by what, month by month: all adults and dependents of the plan, oldest first. */
  coverage: MemberCoverage[]
  /** First year, dollars: household income that ended with the months before the plan, which the state's programs ask for no more. */
  incomeBehind: number
  /** First year, dollars: what premiums of those months take off household income; for children the programs add it again. */
  premiumsAdded: number
  /** What the months' sums were made of, noted by the run; null for a course run without. */
  parts: CourseParts | null
}

/** Projects a checked plan. Without rules the published law is used; without shocks the expected course is run. */
export const project = (
  plan: PlanOfDay,
  rules: RunwayRules = publishedRules(plan),
  shocks?: CourseShocks,
  options: CompileOptions = {},
): Projection => {
  const compiled = compilePlan(plan, rules, options)
  const buffers = wholeCourse(compiled)
  runCourse(compiled, shocks ?? expectedShocks(compiled.shape), buffers)
  return readCourse(compiled, buffers)
}

/** The expected course up to the end of a month, in which a year should end: what came before is as in the whole one. */
export const projectThrough = (plan: PlanOfDay, rules: RunwayRules, last: Month): Projection => {
  const compiled = compilePlan(plan, rules)
  const buffers = wholeCourse(compiled)
  runCourse(compiled, expectedShocks(compiled.shape), buffers, (m) => compiled.firstMonth + m >= last)
  return readCourse(compiled, buffers)
}

/** Of a course that is asked for nothing but when savings fall below the floor: its months up to that one, all where they never do. */
export interface CourseToFloor {
  months: readonly ProjectedMonth[]
  milestones: Pick<Milestones, 'monthsLeft' | 'floorMonth'>
}

/** The expected course as far as it is asked for so; these months and milestones are those of the whole one. */
export const projectToFloor = (plan: PlanOfDay, rules: RunwayRules): CourseToFloor => {
  const compiled = compilePlan(plan, rules)
  const buffers = wholeCourse(compiled)
  runCourse(compiled, expectedShocks(compiled.shape), buffers, () => buffers.marks.floorMonth >= 0)
  return readCourse(compiled, buffers)
}

/** What the buffers hold after a run, each part written out as rows when it is first asked for: they must not be run again. */
export const readCourse = (plan: CompiledPlan, buffers: WholeCourse): Projection =>
  byPart<Projection>({
    months: () => rowsOf(buffers.table),
    table: () => buffers.table,
    years: () => readYears(plan, buffers),
    milestones: () => readMilestones(plan, buffers),
    bought: () => Array.from(buffers.boughtMonth, (m) => (m === notBought ? null : textOf(plan, m))),
    coverage: () => readCoverage(plan, buffers),
    incomeBehind: () => buffers.state.cover.behind,
    premiumsAdded: () => buffers.state.cover.premiumsAdded,
    parts: () => buffers.parts,
  })

const readCoverage = (plan: CompiledPlan, buffers: WholeCourse): MemberCoverage[] =>
  plan.coverage.members.map((member, i) => ({
    ...member,
    months: Array.from(
      buffers.coverage.subarray(i * plan.months, i * plan.months + buffers.endMonth),
      (kind) => coverageKinds[kind]!,
    ),
  }))

const textOf = (plan: CompiledPlan, m: number): string => monthText((plan.firstMonth + m) as Month)
const textOrNull = (plan: CompiledPlan, m: number): string | null => (m < 0 ? null : textOf(plan, m))

/** Rows begin as copies of one that has every figure: grown name by name they would be dictionaries, of four times the size. */
const blankFigures = Object.fromEntries(yearSeries.map((name) => [name, 0.5])) as Record<YearSeries, number>
const blankYear = { year: 0, complete: true, ...blankFigures }

const readYears = (plan: CompiledPlan, buffers: WholeCourse): ProjectedYear[] => {
  const closed = Math.floor((plan.firstMonth + buffers.endMonth) / 12) - plan.firstYear
  return Array.from({ length: closed }, (_, y) => {
    const complete = y > 0 || plan.firstMonth % 12 === 0
    const row: ProjectedYear = { ...blankYear, year: plan.firstYear + y, complete }
    for (const name of yearSeries) row[name] = buffers.years[name][y]!
    return row
  })
}

/** What the run marked, told in months and years of the calendar. */
export const readMilestones = (plan: CompiledPlan, buffers: CourseBuffers): Milestones => {
  const { marks, endMonth } = buffers
  const short = marks.firstUnmet
  const slower = plan.firstSlowerMonth
  const carryEnd = carryEndOf(plan, buffers)
  const lastYear = Math.floor((plan.firstMonth + endMonth - 1) / 12)
  const lastPutIn = marks.lastContribution < 0 ? (plan.hasPutIn ? 0 : -12) : marks.lastContribution
  const contributionYear = Math.floor((plan.firstMonth + lastPutIn) / 12)
  return {
    monthsLeft: marks.floorMonth < 0 ? null : monthsLeftTo(marks.floorMonth, plan.leftFrom),
    countedFrom: textOf(plan, plan.leftFrom),
    floorMonth: textOrNull(plan, marks.floorMonth),
    lowestSpendable: marks.lowest,
    lowestMonth: textOf(plan, Math.max(0, marks.lowestMonth)),
    firstDraw: textOrNull(plan, marks.firstDraw),
    carryMonth: textOrNull(plan, carryMonthOf(plan, buffers)),
    carryJudgedTo: carryEnd < endMonth ? textOf(plan, carryEnd) : null,
    carryMonthToEnd: textOrNull(plan, marks.carryFrom),
    farmStandsAloneFrom: contributionYear >= lastYear ? null : contributionYear + 1,
    firstSlowerMonth: slower < endMonth ? textOf(plan, slower) : null,
    savingsAtFirstSlower: slower < endMonth ? marks.savingsAtSlower : null,
    runsShort: textOrNull(plan, short),
    agesWhenShort:
      short < 0
        ? []
        : plan.people
            .filter((_, p) => !(buffers.state.deathMonth[p]! <= short))
            .map((person) => ({
              name: person.name,
              age: Math.floor((plan.firstMonth + short - person.bornMonth) / 12),
            })),
    unmetNeed: marks.unmetNeed,
  }
}
