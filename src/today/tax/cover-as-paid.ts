// Marketplace cover of a calendar year as the plan lists it, in months with premiums in the books: these do not say who was covered.
import { month as monthOf, monthOfYear, parseMonth } from '#calendar/month.ts'
import { keptWith } from '#kept/keeper.ts'
import type { BookYear } from '#ledger/reports/book-year.ts'
import type { EarlierIncome } from '#ledger/reports/income-of-year.ts'
import { type CoverMonth, noCoverMonth } from '#ledger/tax/cover-papers.ts'
import { ownPremiumsOf, premiumsFromPay } from '#ledger/tax/pay-before-tax.ts'
import { type Cents, cents, centsToDollars, dollarsToCents, sumCents, zeroCents } from '#money/cents.ts'
import { isGone, lived } from '#plan/life/lived.ts'
import type { Plan } from '#plan/plan.ts'
import { marketplace } from '#rules/coverage/coverage-kinds.ts'
import { premiumLevel } from '#runway/compile/compile.ts'
import { compileCoverage } from '#runway/compile/compile-coverage.ts'
import { isIn, type Span } from '#runway/span.ts'
import { premiumsOf } from '#today/cover/cover-steps.ts'
import { rulesOf } from '#today/projection/courses.ts'

/**
 * January first; without a premium where the plan lists nobody or none was paid: cover that is planned for later was not had before.
 * What the plan's own premium lines ask is taken off first: a month of these alone is none of the marketplace. What was paid less than
 * the premium, on average in these months, came in advance of the credit where the plan takes it so; else the premium was no more.
 */
export const coverAsPaid = (plan: Plan, sides: readonly BookYear[], year: number): CoverMonth[] => {
  const planned = keptWith(plan, `as listed for ${year}`, () => coverAsPlanned(plan, year))
  const home = sides.find(({ kind }) => kind === 'household')
  const paid = home
    ? leftOfPremiums(ownPremiumsOf(home), otherPremiums(plan, year, premiumsFromPay(home)))
    : Array.from({ length: 12 }, () => zeroCents)
  const counts = planned.map(({ premiumCents }, m) => premiumCents > 0 && paid[m]! > 0)
  const paidCents = sumCents(paid.filter((_, m) => counts[m]))
  const mean = centsToDollars(paidCents) / counts.filter(Boolean).length
  const takesAdvance = plan.health.marketplace.advanceCredit
  const counted = (one: CoverMonth): CoverMonth => {
    const lessPaid = dollarsToCents(Math.max(0, centsToDollars(one.premiumCents) - mean))
    return takesAdvance
      ? { ...one, advanceCents: lessPaid }
      : { ...one, premiumCents: cents(one.premiumCents - lessPaid) }
  }
  return planned.map((one, m) => (counts[m] ? counted(one) : noCoverMonth))
}

/** A bill that is up to a fifth dearer than its line of the plan is still that bill. */
const leftOfPremiums = (paid: readonly Cents[], others: readonly Cents[]): Cents[] =>
  paid.map((sum, m) => (sum > others[m]! * 1.2 ? cents(sum - others[m]!) : zeroCents))

/** Whether a line of the plan is what pay slips took: cover that counts for no deduction, or of about that amount. Dollars a month. */
export const isTakenFromPay = (
  { perMonth, deductible }: Plan['health']['premiums'][number],
  level: number,
  taken: number,
): boolean => taken > 0 && (!deductible || Math.abs(perMonth * level - taken) <= taken / 5)

/** In months in which pay slips took premiums, the plan's line of an employer's cover is paid by these. */
const otherPremiums = (plan: Plan, year: number, fromPay: readonly Cents[]): Cents[] => {
  const level = premiumLevel(plan)(year)
  return Array.from({ length: 12 }, (_, m) =>
    dollarsToCents(
      plan.health.premiums
        .filter((line) => isIn(line, monthOf(year, m + 1)))
        .filter((line) => !isTakenFromPay(line, level, centsToDollars(fromPay[m]!)))
        .reduce((sum, { perMonth }) => sum + perMonth * level, 0),
    ),
  )
}

/**
 * Months of which only sums were said, before books that begin within the year: as long as anything is said of them they lie right
 * before the plan's first month and are alike, to the cent in all. January first.
 */
export const coverAsSaid = (plan: Plan, said: CoverSaid | undefined): CoverMonth[] => {
  const start = monthOfYear(parseMonth(plan.startMonth)!) - 1
  const count = said ? Math.min(start, said.marketplaceMonths) : 0
  if (!said || count === 0) return Array.from({ length: 12 }, () => noCoverMonth)
  const share = (dollars: number, m: number): Cents => {
    const upTo = (months: number) => Math.round((dollarsToCents(dollars) * months) / count)
    const place = m - (start - count)
    return cents(upTo(place + 1) - upTo(place))
  }
  return Array.from({ length: 12 }, (_, m) =>
    m < start - count || m >= start
      ? noCoverMonth
      : {
          premiumCents: share(said.marketplacePremiums, m),
          benchmarkCents: share(said.marketplaceBenchmark, m),
          advanceCents: share(said.advanceCredit, m),
        },
  )
}

type CoverSaid = Pick<
  EarlierIncome,
  'marketplaceMonths' | 'marketplacePremiums' | 'marketplaceBenchmark' | 'advanceCredit'
>

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
