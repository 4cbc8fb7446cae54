// The income map of a year as its January found cover: what a year brings unexpectedly moves nobody before the next January.

import type { Plan } from '#plan/plan.ts'
import { type CoverageStep, lastStepWithout } from '#rules/coverage/coverage-steps.ts'
import type { LawYear } from '#rules/law.ts'
import { standAt } from '#rules/marketplace/year-standing.ts'
import type { ProjectedYear } from '#runway/project.ts'
import { householdOfYear } from './cover-household.ts'
import type { YearMonths } from './cover-steps.ts'
import type { CoverAsRun } from './cover-year.ts'

/** By how much the year's income is beyond what January asked, in dollars: for adults, of the whole year, and for children. */
export interface BeyondJanuary {
  adults: number
  year: number
  children: number
}

export interface FoundInJanuary {
  steps: CoverageStep[]
  /** Dollars of household income that January expected, where the year's own would have found other cover; else null. */
  expected: number | null
}

export interface Looked {
  plan: Plan
  law: LawYear
  cover: CoverAsRun
  /** Dollars that premiums of months before the plan take off the year's income: none of a month ahead. */
  premiumsAdded: number
  /** Of a first year that is a part of one: by how much its months ahead are more over twelve; else 1. */
  scale: number
  stepsAt(beyond: BeyondJanuary | null): CoverageStep[]
  /** Whether on a step everyone is covered as the run has it. */
  isAsRun(step: CoverageStep): boolean
}

/**
 * The lines of the programs as the law draws them, where the year's income stands on the cover that the run has; else moved by what the
 * year brings beyond what January asked, so that it does.
 */
export const foundInJanuary = (looked: Looked): FoundInJanuary => {
  const { plan, law, cover, stepsAt, isAsRun } = looked
  const drawn = { steps: stepsAt(null), expected: null }
  if (drawn.steps.length < 2) return drawn
  const household = householdOfYear(plan, law, cover)
  const standsOn = (steps: readonly CoverageStep[]) =>
    steps[standAt(law, household, 'otherIncome', 0, steps).step]!
  if (isAsRun(standsOn(drawn.steps))) return drawn
  const without = standAt(law, household, 'otherIncome', 0, [lastStepWithout]).householdIncome
  const beyond = beyondJanuary(cover.projected, without, looked)
  const steps = stepsAt(beyond)
  return isAsRun(standsOn(steps))
    ? { steps, expected: cover.projected.householdIncome - beyond.adults }
    : drawn
}

/** Adults are asked for the income without marketplace premiums, as nobody whom a program takes pays any; children for that with them. */
const beyondJanuary = (
  projected: ProjectedYear,
  without: number,
  { premiumsAdded, scale }: Pick<Looked, 'premiumsAdded' | 'scale'>,
): BeyondJanuary => ({
  adults: without - premiumsAdded - projected.programIncome / scale,
  year: without - projected.programIncomeOfYear,
  children: projected.householdIncome - projected.childProgramIncome / scale,
})

/** The percents of a year with what came beyond January's look in place of what lies behind it: that is in it already. */
export const movedBy = (
  year: YearMonths,
  beyond: BeyondJanuary | null,
  percentOf: (dollars: number) => number,
): YearMonths =>
  beyond === null
    ? year
    : {
        ...year,
        behindPercent: percentOf(beyond.adults),
        childrenBehindPercent: percentOf(beyond.children),
        yearBehindPercent: percentOf(beyond.year),
      }
