// Form 8962 line by line, from the figures the return was worked with: size, income, contribution, each month, and what is settled.
import type { LawYear } from '../law-year.ts'
import {
  applicableHundredths,
  creditOpen,
  repaymentLimitAt,
  wholePercent,
  yearlyContribution,
} from '../marketplace/premium-credit.ts'
import type { CoverLines } from '../return/cover-lines.ts'

/** Whole cents, a month of Form 1095-A. */
export interface PaperMonth {
  premium: number
  benchmark: number
  advance: number
}

/** Lines 12 to 23, or line 11 for the year: columns (a) to (f), whole cents. */
export interface CreditLine extends PaperMonth {
  line: string
  contribution: number
  /** The most the credit can be. */
  most: number
  credit: number
}

export interface Form8962 {
  /** Line 1. */
  size: number
  /** Line 3, whole cents. */
  incomeCents: number
  /** Line 4, whole cents. */
  povertyLineCents: number
  /** Line 5. */
  percent: number
  /** Line 7, a fraction of income. */
  applicable: number
  /** Line 8a, whole cents; 8b is a twelfth. */
  contributionCents: number
  months: readonly CreditLine[]
  /** Lines 24 to 29, whole cents; 28 is null where nothing bounds what is paid back. */
  creditCents: number
  advanceCents: number
  netCreditCents: number
  excessCents: number
  limitCents: number | null
  repaidCents: number
}

/** The form rounds 8a and 8b to dollars; here they keep cents, as the return does. */
export const form8962 = (law: LawYear, lines: CoverLines, months: readonly PaperMonth[]): Form8962 => {
  const { cover, householdIncome, size } = lines
  const percent = wholePercent(householdIncome, cover.povertyLine)
  const contribution = yearlyContribution(law, householdIncome, cover.povertyLine)
  const isOpen = creditOpen(law, cover, householdIncome)
  const worked = (line: string, of: PaperMonth, own: number): CreditLine => {
    const most = Math.max(0, of.benchmark - own)
    return { line, ...of, contribution: own, most, credit: isOpen ? Math.min(of.premium, most) : 0 }
  }
  const twelfth = Math.floor(contribution / 12 + 0.5)
  const rows =
    cover.byMonth === null
      ? [worked('11', sumOf(months), contribution)]
      : months.flatMap((month, i) => (month.premium > 0 ? [worked(String(12 + i), month, twelfth)] : []))
  const total = (of: (row: CreditLine) => number) => rows.reduce((sum, row) => sum + of(row), 0)
  const [creditCents, advanceCents] = [total((row) => row.credit), total((row) => row.advance)]
  const excessCents = Math.max(0, advanceCents - creditCents)
  const limit = repaymentLimitAt(law, cover, percent)
  return {
    size,
    incomeCents: householdIncome,
    povertyLineCents: cover.povertyLine,
    percent,
    applicable: applicableHundredths(law, percent) / 10_000,
    contributionCents: contribution,
    months: rows,
    creditCents,
    advanceCents,
    netCreditCents: Math.max(0, creditCents - advanceCents),
    excessCents,
    limitCents: excessCents > 0 && limit < Number.MAX_SAFE_INTEGER ? limit : null,
    repaidCents: excessCents > 0 ? Math.min(excessCents, limit) : 0,
  }
}

const sumOf = (months: readonly PaperMonth[]): PaperMonth => {
  const of = (column: keyof PaperMonth) => months.reduce((sum, month) => sum + month[column], 0)
  return { premium: of('premium'), benchmark: of('benchmark'), advance: of('advance') }
}
