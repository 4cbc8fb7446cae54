// Marketplace coverage of the year's months that are over, as the plan expected it: no book says who was covered, and the year's return counts it.
import { type Month, month as monthOf, yearOf } from '#calendar/month.ts'
import type { Plan } from '#plan/plan.ts'
import { planSpan, premiumLevel } from '#runway/compile/compile.ts'
import { compileCoverage } from '#runway/compile/compile-coverage.ts'
import type { Projection } from '#runway/project.ts'
import { premiumsOf } from '#today/cover/cover-steps.ts'
import { rulesOf } from './courses.ts'

/** Dollars of the months. */
export type CoverSoFar = Pick<
  Plan['tax']['soFar'],
  'marketplaceMonths' | 'marketplacePremiums' | 'marketplaceBenchmark' | 'advanceCredit'
>

export const noCoverYet: CoverSoFar = {
  marketplaceMonths: 0,
  marketplacePremiums: 0,
  marketplaceBenchmark: 0,
  advanceCredit: 0,
}

/** From the course's first month, or January, to the eve of `month`; what the plan says of months before its first is not in it. */
export const coverSoFar = (plan: Plan, course: Projection | null, month: Month): CoverSoFar => {
  const span = planSpan(plan)
  const start = span.firstMonth
  const from = Math.max(start, monthOf(yearOf(month), 1))
  if (course === null || from >= month) return noCoverYet
  const coverage = compileCoverage(plan, rulesOf(plan), span, premiumLevel(plan))
  const year = yearOf(month)
  const level = premiumLevel(plan)(year)
  const within = (first: number, end: number) =>
    premiumsOf(
      coverage,
      { y: year - span.firstYear, from: first - start, to: end - start, months: span.months },
      level,
      (i, m) => course.coverage[i]!.months[m] === 'marketplace',
    )
  const behind = within(from, month)
  const whole = within(from, Math.min(monthOf(year, 12) + 1, start + course.months.length))
  const advance =
    (course.years.find((one) => one.year === year)?.advanceCredit ?? 0) -
    (yearOf(start) === year ? plan.tax.soFar.advanceCredit : 0)
  return {
    marketplaceMonths: behind.coverMonths,
    marketplacePremiums: behind.premiumMonthly * behind.coverMonths,
    marketplaceBenchmark: behind.benchmarkMonthly * behind.coverMonths,
    advanceCredit: whole.coverMonths > 0 ? (advance * behind.coverMonths) / whole.coverMonths : 0,
  }
}

type SoFar = Plan['tax']['soFar']

/** Of what the plan says came before its first month, what the books cannot know. */
export const coverOf = (said: SoFar): CoverSoFar => ({
  marketplaceMonths: said.marketplaceMonths,
  marketplacePremiums: said.marketplacePremiums,
  marketplaceBenchmark: said.marketplaceBenchmark,
  advanceCredit: said.advanceCredit,
})

/** Booked premiums hold those of the marketplace, less what was taken in advance: the rest is what else was paid. */
export const withCover = (booked: SoFar, cover: CoverSoFar): SoFar => ({
  ...booked,
  ...cover,
  healthPremiums: Math.max(0, booked.healthPremiums - (cover.marketplacePremiums - cover.advanceCredit)),
})
