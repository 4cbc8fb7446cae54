// Marketplace cover of a calendar year as the plan lists it, in months with premiums in the books: these do not say who was covered.
import { month as monthOf, parseMonth } from '#calendar/month.ts'
import { keptWith } from '#kept/keeper.ts'
import type { BookYear } from '#ledger/reports/book-year.ts'
import { type CoverMonth, noCoverMonth } from '#ledger/tax/cover-papers.ts'
import { type Cents, centsToDollars, dollarsToCents, sumCents, zeroCents } from '#money/cents.ts'
import { isGone, lived } from '#plan/life/lived.ts'
import type { Plan } from '#plan/plan.ts'
import { marketplace } from '#rules/coverage/coverage-kinds.ts'
import { premiumLevel } from '#runway/compile/compile.ts'
import { compileCoverage } from '#runway/compile/compile-coverage.ts'
import type { Span } from '#runway/span.ts'
import { premiumsOf } from '#today/cover/cover-steps.ts'
import { rulesOf } from '#today/projection/courses.ts'

/**
 * January first; without a premium where the plan lists nobody or none was paid: cover that is planned for later was not had before.
 * The credit in advance is the premium less what was paid on average in these months, where the plan takes it so.
 */
export const coverAsPaid = (plan: Plan, sides: readonly BookYear[], year: number): CoverMonth[] => {
  const paid = premiumsByMonth(sides)
  const planned = keptWith(plan, `as listed for ${year}`, () => coverAsPlanned(plan, year))
  const counts = planned.map(({ premiumCents }, m) => premiumCents > 0 && paid[m]! > 0)
  const paidCents = sumCents(paid.filter((_, m) => counts[m]))
  const mean = centsToDollars(paidCents) / counts.filter(Boolean).length
  const advanceOf = (premiumCents: Cents): Cents =>
    plan.health.marketplace.advanceCredit
      ? dollarsToCents(Math.max(0, centsToDollars(premiumCents) - mean))
      : zeroCents
  return planned.map((one, m) =>
    counts[m] ? { ...one, advanceCents: advanceOf(one.premiumCents) } : noCoverMonth,
  )
}

const premiumsByMonth = (sides: readonly BookYear[]): Cents[] => {
  const rows = sides
    .filter(({ kind }) => kind === 'household')
    .flatMap(({ accounts }) => accounts.filter(({ account }) => account.purpose === 'premium'))
  return Array.from({ length: 12 }, (_, m) => sumCents(rows.map(({ monthsCents }) => monthsCents[m]!)))
}

/**
 * January first, no advance credit; without a premium where nobody is listed, or where no benchmark is known. Who is listed without a
 * first month is so in months before the plan's first too.
 */
const coverAsPlanned = (saved: Plan, year: number): CoverMonth[] => {
  const plan = lived(saved)
  const span = spanOfYear(plan, year)
  const coverage = compileCoverage(plan, rulesOf(plan), span, premiumLevel(plan))
  const isOn = (member: number, m: number) =>
    coverage.listed[member * span.months + m] === marketplace &&
    !isGone(plan, coverage.members[member]!.id, span.firstMonth + m)
  const { byMonth } = premiumsOf(
    coverage,
    { y: 0, from: 0, to: span.months, firstSeason: 0 },
    premiumLevel(plan)(year),
    isOn,
  )
  return Array.from(byMonth.benchmark, (benchmark, m): CoverMonth => {
    if (benchmark === 0) return noCoverMonth
    const premium = byMonth.premium[m]!
    return {
      premiumCents: dollarsToCents(premium > 0 ? premium : benchmark),
      benchmarkCents: dollarsToCents(benchmark),
      advanceCents: zeroCents,
    }
  })
}

const spanOfYear = (plan: Plan, year: number): Span => ({
  firstMonth: monthOf(year, 1),
  firstYear: year,
  months: 12,
  years: 1,
  pricesOf: parseMonth(plan.startMonth)!,
  stepsMonthly: plan.assumptions.priceSteps === 'monthly',
})
