// The figures of the Runway page from a projection: years summed from months, storms in a table.
import type { Plan } from '#plan/plan.ts'
import { compilePlan } from '#runway/compile/compile.ts'
import { mendingAmount } from '#runway/mend.ts'
import type { ProjectedMonth, Projection } from '#runway/project.ts'
import { expectedShocks } from '#runway/shocks.ts'
import { projectStorm, stormsOf } from '#runway/storms.ts'
import { type Mend, whySentences } from '#runway/why.ts'
import { projectionOf, rulesOf } from '#today/courses.ts'
import type { PlanInUse } from '#today/current-plan.ts'
import type { RunwayFigures, StormLine, YearLine } from './figures.ts'

export const runwayFigures = (current: PlanInUse, pulled: Plan): RunwayFigures => {
  const projection = projectionOf(pulled)
  const asPlanned = pulled === current.plan
  return {
    planId: current.planId,
    planName: current.name,
    revisionNo: current.revisionNo,
    asPlanned,
    knowsCosts: current.plan.household.living.length > 0,
    milestones: projection.milestones,
    why: whySentences(pulled, projection, mendOf(pulled, projection)),
    years: yearLines(projection),
    months: projection.months,
    yearReturns: projection.years,
    saved: asPlanned
      ? null
      : projectionOf(current.plan).months.map(({ month, spendable }) => ({ month, spendable })),
  }
}

const mends = new WeakMap<Plan, Mend | null>()

const mendOf = (plan: Plan, projection: Projection): Mend | null => {
  if (projection.milestones.floorMonth === null) return null
  const known = mends.get(plan)
  if (known !== undefined) return known
  const compiled = compilePlan(plan, rulesOf(plan))
  const mend = mendingAmount(compiled, expectedShocks(compiled.shape))
  mends.set(plan, mend)
  return mend
}

export const yearLines = ({ months, years }: Projection): YearLine[] => {
  const byYear = new Map<number, ProjectedMonth[]>()
  for (const month of months) {
    const year = Number(month.month.slice(0, 4))
    const list = byYear.get(year)
    if (list) list.push(month)
    else byYear.set(year, [month])
  }
  return [...byYear].map(([year, list]) => {
    const last = list.at(-1)!
    const sum = (pick: (month: ProjectedMonth) => number) =>
      list.reduce((total, month) => total + pick(month), 0)
    return {
      year,
      farmSales: sum((one) => one.farmSales),
      draws: sum((one) => one.draw),
      unmetDraws: sum((one) => one.unmetDraw),
      contributions: sum((one) => one.contribution),
      otherIncome: sum((one) => one.pay + one.side + one.socialSecurity),
      householdCosts: sum((one) => one.householdCosts),
      tax: years.find((one) => one.year === year)?.tax ?? null,
      spendable: last.spendable,
      retirement: last.traditional + last.roth,
      floor: last.floor,
      coverRatio: last.coverRatio,
    }
  })
}

const stormLines = new WeakMap<Plan, StormLine[]>()

/** Each storm's milestones; worked out once for a plan. */
export const stormTable = (plan: Plan): StormLine[] => {
  const known = stormLines.get(plan)
  if (known) return known
  const own = new Set(plan.storms.map((storm) => storm.id))
  const lines = stormsOf(plan).map((storm): StormLine => {
    const { milestones } = projectStorm(plan, rulesOf(plan), storm)
    return {
      id: storm.id,
      name: storm.name,
      own: own.has(storm.id),
      monthsLeft: milestones.monthsLeft,
      carryMonth: milestones.carryMonth,
      lowestSpendable: milestones.lowestSpendable,
      lowestMonth: milestones.lowestMonth,
      runsShort: milestones.runsShort,
    }
  })
  stormLines.set(plan, lines)
  return lines
}
