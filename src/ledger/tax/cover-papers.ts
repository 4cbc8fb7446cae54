// Form 1095-A of a year: what the marketplace says of premium, benchmark and credit paid ahead, month by month.
import { type Cents, sumCents, zeroCents } from '#money/cents.ts'

export interface CoverMonth {
  /** Column A: the plan's premium. */
  premiumCents: Cents
  /** Column B: the second-lowest silver premium of those covered. */
  benchmarkCents: Cents
  /** Column C: credit paid to the insurer in advance. */
  advanceCents: Cents
}

/** One form: a household gets one a policy. */
export interface CoverPaper {
  /** Whom it covers, as people wrote it. */
  who: string
  /** January first. */
  months: readonly CoverMonth[]
}

export const noCoverMonth: CoverMonth = {
  premiumCents: zeroCents,
  benchmarkCents: zeroCents,
  advanceCents: zeroCents,
}

/** All forms of a year together, twelve months. */
export const coverByMonth = (papers: readonly CoverPaper[]): CoverMonth[] =>
  Array.from({ length: 12 }, (_, i) => {
    const of = papers.map(({ months }) => months[i] ?? noCoverMonth)
    return {
      premiumCents: sumCents(of.map(({ premiumCents }) => premiumCents)),
      benchmarkCents: sumCents(of.map(({ benchmarkCents }) => benchmarkCents)),
      advanceCents: sumCents(of.map(({ advanceCents }) => advanceCents)),
    }
  })

/** More is paid ahead than the premium of the month: a credit never is more (26 USC 36B(b)(2)(A), from memory), so that it is likely a slip. */
export const isAheadOfPremium = ({ premiumCents, advanceCents }: CoverMonth): boolean =>
  advanceCents > premiumCents

/** Months for which a premium stands on a form. */
export const coveredMonths = (months: readonly CoverMonth[]): CoverMonth[] =>
  months.filter(({ premiumCents }) => premiumCents > 0)

/** Every month says the same. */
export const isAlike = ([first, ...others]: readonly CoverMonth[]): boolean =>
  others.every(
    (one) =>
      one.premiumCents === first!.premiumCents &&
      one.benchmarkCents === first!.benchmarkCents &&
      one.advanceCents === first!.advanceCents,
  )
