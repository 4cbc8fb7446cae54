// Marketplace coverage of the year's months that are over, as the plan expected it: no book says who was covered, and the year's return counts it.
import { type Month, month as monthOf, monthOfYear, yearOf } from '#calendar/month.ts'
import type { Books } from '#db/open.ts'
import { type CoverMonth, coverByMonth, coveredMonths } from '#ledger/tax/cover-papers.ts'
import { centsToDollars, sumCents } from '#money/cents.ts'
import type { Plan } from '#plan/plan.ts'
import { planSpan, premiumLevel } from '#runway/compile/compile.ts'
import { compileCoverage } from '#runway/compile/compile-coverage.ts'
import type { Projection } from '#runway/project.ts'
import { premiumsOf } from '#today/cover/cover-steps.ts'
import { booksYear } from '#today/tax/books-year.ts'
import { coverAsPaid } from '#today/tax/cover-as-paid.ts'
import { coverPapers } from '#today/tax/cover-papers.ts'
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

/**
 * From the course's first month, or January, to the eve of `month`; what the plan says of months before its first is not in it.
 * `counts`: which months the course speaks for, 1 to 12; all when missing.
 */
export const coverSoFar = (
  plan: Plan,
  course: Projection | null,
  month: Month,
  counts: (monthOfYear: number) => boolean = () => true,
): CoverSoFar => {
  const span = planSpan(plan)
  const start = span.firstMonth
  const from = Math.max(start, monthOf(yearOf(month), 1))
  if (course === null || from >= month) return noCoverYet
  const coverage = compileCoverage(plan, rulesOf(plan), span, premiumLevel(plan))
  const year = yearOf(month)
  const level = premiumLevel(plan)(year)
  const within = (first: number, end: number, asked: (m: number) => boolean) =>
    premiumsOf(
      coverage,
      { y: year - span.firstYear, from: first - start, to: end - start, firstSeason: first % 12 },
      level,
      (i, m) => asked(m) && course.coverage[i]!.months[m] === 'marketplace',
    )
  const behind = within(from, month, (m) => counts(monthOfYear((start + m) as Month)))
  const whole = within(from, Math.min(monthOf(year, 12) + 1, start + course.months.length), () => true)
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

/**
 * As Forms 1095-A say it, where a month behind stands on one; else as the books hold premiums for whom the plan lists on the
 * marketplace, as the year's worksheet reads them, and of months without any as the plan expected them. `from`: where the plan itself says
 * nothing of the marketplace before its first month, the books and forms speak for the year's months before it too.
 */
export const coverBehind = (
  books: Books,
  plan: Plan,
  course: Projection | null,
  month: Month,
  from: Month,
): CoverSoFar => {
  const year = yearOf(month)
  const first = Math.max(from, monthOf(year, 1))
  const isBehind = (_: CoverMonth, i: number) => monthOf(year, i + 1) >= first && monthOf(year, i + 1) < month
  const onPapers = coveredMonths(coverByMonth(coverPapers(books, year).papers).filter(isBehind))
  if (onPapers.length > 0) return sumOf(onPapers)
  const asPaid = coverAsPaid(plan, booksYear(books, year).sides, year)
  const expected = coverSoFar(plan, course, month, (m) => asPaid[m - 1]!.premiumCents === 0)
  return together(sumOf(coveredMonths(asPaid.filter(isBehind))), expected)
}

const sumOf = (months: readonly CoverMonth[]): CoverSoFar => {
  const sum = (column: keyof CoverMonth) => centsToDollars(sumCents(months.map((one) => one[column])))
  return {
    marketplaceMonths: months.length,
    marketplacePremiums: sum('premiumCents'),
    marketplaceBenchmark: sum('benchmarkCents'),
    advanceCredit: sum('advanceCents'),
  }
}

const together = (a: CoverSoFar, b: CoverSoFar): CoverSoFar => ({
  marketplaceMonths: a.marketplaceMonths + b.marketplaceMonths,
  marketplacePremiums: a.marketplacePremiums + b.marketplacePremiums,
  marketplaceBenchmark: a.marketplaceBenchmark + b.marketplaceBenchmark,
  advanceCredit: a.advanceCredit + b.advanceCredit,
})

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
