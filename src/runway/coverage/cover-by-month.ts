// Marketplace cover month by month, for years in which the months differ: somebody comes to Medicare, is born, leaves or dies.
import { type CoverByMonth, type HouseholdTax, householdSize } from '#rules/household-year.ts'
import { povertyLineCents, yearlyContribution } from '#rules/marketplace/premium-credit.ts'
import type { CompiledPlan } from '#runway/compile/compiled-plan.ts'
import type { CourseBuffers, CourseState } from '#runway/course-buffers.ts'
import { empty } from '#runway/figures/emptied.ts'

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

/**
 * Notes what comes in advance in each month from `m` to the end of its year and returns their sum, dollars. `tax`: the expected return. A
 * year under way goes on as its months behind were paid.
 */
export const setAdvance = (
  plan: CompiledPlan,
  buffers: CourseBuffers,
  m: number,
  y: number,
  tax: HouseholdTax,
): number => {
  const { cover, year, householdYear } = buffers.state
  empty(cover.advance)
  if (!plan.health.advanceCredit || householdYear.coverMonths <= year.coverMonths) return 0
  if (m === 0 && year.coverMonths > 0) return keepAdvance(plan, buffers, y)
  const toCome = Math.max(0, tax.premiumTaxCredit - year.advance)
  spreadAdvance(plan, buffers, m, y, toCome, tax)
  return toCome
}

/**
 * Of a year under way the marketplace goes on paying by the own part it has set, until it is told of a change (45 CFR 155.330): what the
 * months behind imply of it. Too much and too little are settled by the return alone (26 USC 36B(f)). Where nothing was left to pay in
 * them, nothing is from now on.
 */
const keepAdvance = (plan: CompiledPlan, { state }: CourseBuffers, y: number): number => {
  const { cover, year } = state
  const { coverMonths, marketplacePremium, benchmark, advance } = year
  const own = advance < marketplacePremium - halfACent ? (benchmark - advance) / coverMonths : 0
  const at21 = { premium: plan.coverage.planAt21[y]!, benchmark: plan.coverage.benchmarkAt21[y]! }
  let sum = 0
  const season = plan.firstMonth % 12
  for (let k = season; k < 12; k += 1) {
    if (cover.factors[k]! <= 0) continue
    const priced = cover.factors[k]! * state.premiumLevel * plan.health.premiumFactor[k - season]!
    cover.advance[k] = Math.max(0, Math.min(at21.premium * priced, at21.benchmark * priced - own))
    sum += cover.advance[k]!
  }
  return sum
}

/** Spreads what is to come in advance over the months ahead by the credit that each of them brings (26 CFR 1.36B-3(d), Form 8962). */
const spreadAdvance = (
  plan: CompiledPlan,
  { state }: CourseBuffers,
  m: number,
  y: number,
  toCome: number,
  tax: HouseholdTax,
): void => {
  const { cover } = state
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
