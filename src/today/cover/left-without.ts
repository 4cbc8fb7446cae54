// At the line where a program ends and nothing in the plan follows it: who would be without coverage, and what the marketplace would ask for
// them there, before the credit and after it.
import type { CoverageStep } from '#rules/coverage/coverage-steps.ts'
import type { CoverByMonth, HouseholdYear } from '#rules/household-year.ts'
import type { LawYear } from '#rules/law.ts'
import type { Room } from '#rules/marketplace/income-room.ts'
import { costOf, type ExtraIncome, standAt } from '#rules/marketplace/year-standing.ts'

/** Dollars a month. */
export interface LeftWithout {
  name: string
  monthly: number
  /** With tax; null where it cannot be told apart from that of others who lose their coverage at the same line. */
  afterCreditMonthly: number | null
}

export interface AskedOf {
  law: LawYear
  household: HouseholdYear
  kind: ExtraIncome
  steps: readonly CoverageStep[]
  /** Months of the year that the plan covers. */
  months: number
  /** A month's premium and benchmark premium for one person; null where no premium is known. */
  premiumFor: (name: string) => { plan: number; benchmark: number } | null
}

export const leftWithoutAt = (asked: AskedOf, { moves, extraLeft }: Room): LeftWithout[] => {
  const left = moves.filter(({ to }) => to === 'none')
  return left.flatMap(({ name }) => {
    const premium = asked.premiumFor(name)
    if (premium === null) return []
    const after = left.length === 1 ? costWith(asked, extraLeft, premium) : null
    return [{ name, monthly: toCent(premium.plan), afterCreditMonthly: after }]
  })
}

/** What a year just beyond the line costs more with one more on the marketplace, by the month. */
const costWith = (
  { law, household, kind, steps, months }: AskedOf,
  extra: number,
  premium: { plan: number; benchmark: number },
): number => {
  const joined = steps.map((step): CoverageStep => {
    const coverMonths = Math.max(step.coverMonths, months)
    const spread = step.coverMonths / coverMonths
    return {
      ...step,
      byMonth: step.byMonth && withMore(step.byMonth, months, premium),
      coverMonths,
      premiumMonthly: step.premiumMonthly * spread + premium.plan,
      benchmarkMonthly: step.benchmarkMonthly * spread + premium.benchmark,
    }
  })
  const now = costOf(standAt(law, household, kind, extra, steps))
  const then = costOf(standAt(law, { ...household, deductibleMonths: 12 }, kind, extra, joined))
  return toCent(Math.max(0, then - now) / months)
}

/** In each of the year's last months. */
const withMore = (
  { premium, benchmark }: CoverByMonth,
  months: number,
  more: { plan: number; benchmark: number },
): CoverByMonth => ({
  premium: premium.map((monthly, k) => (k < 12 - months ? monthly : monthly + more.plan)),
  benchmark: benchmark.map((monthly, k) => (k < 12 - months ? monthly : monthly + more.benchmark)),
})

const toCent = (dollars: number): number => Math.round(dollars * 100) / 100
