// What the marketplace is paid month by month, beside what a year of it costs after the credit: the rest comes, or is paid back, with the return.
import type { CoverageStep } from '#rules/coverage/coverage-steps.ts'
import type { CoverYear, MonthsPaid } from './cover-year.ts'

/** Dollars a month; null where the year has no such months. */
export interface PaidInMonths {
  over: { months: number; monthly: number } | null
  /** `from`: the first of them, 1 to 12. */
  ahead: { months: number; monthly: number; from: number } | null
  /** Dollars of credit that come with the return; below 0 what of the advance is paid back with it. */
  settles: number
}

/** Null where each month is paid what the year costs after its `credit`, and where nobody is on the marketplace. */
export const paidInMonths = ({ paidIn, runFrom }: CoverYear, credit: number): PaidInMonths | null => {
  const { over, ahead } = paidIn
  const settles = credit - over.advance - ahead.advance
  if (over.months + ahead.months === 0 || Math.abs(settles) < 1) return null
  return {
    over: over.months > 0 ? { months: over.months, monthly: monthlyOf(over) } : null,
    ahead: ahead.months > 0 ? { months: ahead.months, monthly: monthlyOf(ahead), from: runFrom } : null,
    settles,
  }
}

const monthlyOf = ({ months, charged, advance }: MonthsPaid): number => (charged - advance) / months

/** The same in other dollars. */
export const paidTimes = ({ over, ahead, settles }: PaidInMonths, factor: number): PaidInMonths => ({
  over: over && { ...over, monthly: over.monthly * factor },
  ahead: ahead && { ...ahead, monthly: ahead.monthly * factor },
  settles: settles * factor,
})

/** Months that are charged alike together; empty where all with cover are. */
export const chargesOf = ({ byMonth }: CoverageStep): { from: number; to: number; monthly: number }[] => {
  const spans: { from: number; to: number; monthly: number }[] = []
  for (const [k, monthly] of [...(byMonth?.premium ?? [])].entries()) {
    const last = spans.at(-1)
    if (monthly <= 0) continue
    if (last?.to === k && Math.abs(last.monthly - monthly) < 0.005) last.to = k + 1
    else spans.push({ from: k + 1, to: k + 1, monthly })
  }
  return spans
}
