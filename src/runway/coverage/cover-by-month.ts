// Marketplace cover month by month, for years in which the months differ: somebody comes to Medicare, is born, leaves or dies.
import { type CoverByMonth, type HouseholdTax, householdSize } from '#rules/household-year.ts'
import { povertyLineCents, yearlyContribution } from '#rules/marketplace/premium-credit.ts'
import type { CompiledPlan } from '#runway/compile/compiled-plan.ts'
import type { CourseBuffers, CourseState } from '#runway/course-buffers.ts'

/** Months that differ by less are the same. */
const halfACent = 0.005

/** Null where all months with cover are alike: then the year's sum is the sum of its months. */
export const unlikeMonths = (byMonth: CoverByMonth): CoverByMonth | null => {
  const { premium, benchmark } = byMonth
  let known = -1
  for (let k = 0; k < 12; k += 1) {
    if (premium[k] === 0 && benchmark[k] === 0) continue
    if (known < 0) known = k
    else if (
      Math.abs(premium[k]! - premium[known]!) > halfACent ||
      Math.abs(benchmark[k]! - benchmark[known]!) > halfACent
    )
      return byMonth
  }
  return null
}

/** What a year under way has had of them, up to its month `season`, not included; the rest is emptied. */
export const monthsBehind = ({ cover, year }: CourseState, season: number): CoverByMonth => {
  const { premium, benchmark } = cover.byMonth
  for (let k = 0; k < 12; k += 1) {
    premium[k] = k < season ? year.premiumByMonth[k]! : 0
    benchmark[k] = k < season ? year.benchmarkByMonth[k]! : 0
  }
  return cover.byMonth
}

/** First month: those behind of which only sums are told lie right before it and are alike. */
export const noteMonthsBehind = (year: MonthsNoted, season: number): void => {
  const { coverMonths, marketplacePremium, benchmark } = year
  for (let k = Math.max(0, season - coverMonths); k < season; k += 1) {
    year.premiumByMonth[k] = marketplacePremium / coverMonths
    year.benchmarkByMonth[k] = benchmark / coverMonths
  }
}

/** Dollars of all months behind together, and where each month's are noted. */
type MonthsNoted = Pick<
  CourseState['year'],
  'coverMonths' | 'marketplacePremium' | 'benchmark' | 'premiumByMonth' | 'benchmarkByMonth'
>

/** Spreads what is to come in advance over the months ahead by the credit that each of them brings (26 CFR 1.36B-3(d), Form 8962). */
export const spreadAdvance = (
  plan: CompiledPlan,
  { state }: CourseBuffers,
  m: number,
  y: number,
  toCome: number,
  tax: HouseholdTax,
): void => {
  const { cover } = state
  cover.advance.fill(0)
  if (toCome === 0) return
  const season = (plan.firstMonth + m) % 12
  const own = state.householdYear.coverByMonth === null ? 0 : ownMonthly(plan, state, y, tax)
  let weights = 0
  for (let k = season; k < 12; k += 1) weights += creditWeight(state, k, own)
  if (weights === 0) return
  for (let k = season; k < 12; k += 1) cover.advance[k] = (toCome * creditWeight(state, k, own)) / weights
}

/** By how much a month's credit counts among those of the year: alike, or what its benchmark is above `own`, within its premium. */
const creditWeight = ({ cover, householdYear }: CourseState, k: number, own: number): number => {
  if (cover.factors[k]! <= 0) return 0
  if (householdYear.coverByMonth === null) return 1
  const { premium, benchmark } = householdYear.coverByMonth
  return Math.min(premium[k]!, Math.max(0, benchmark[k]! - own))
}

/** A twelfth of what the household itself is expected to pay for the benchmark. */
const ownMonthly = (
  plan: CompiledPlan,
  { householdYear, lasting }: CourseState,
  y: number,
  tax: HouseholdTax,
): number => {
  const law = plan.law.years[y]!
  const line = povertyLineCents(law, plan.law.region, householdSize(householdYear))
  const income = Math.round((tax.householdIncome / lasting.priceRatio) * 100)
  return (yearlyContribution(law, income, line) / 1200) * lasting.priceRatio
}
