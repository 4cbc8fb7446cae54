// January: who will be covered by what in each month of the year, found from the household's expected income by the rules of the state.
import { absent, basicProgram, marketplace, medicaid } from '#rules/coverage/coverage-kinds.ts'
import { programOf } from '#rules/coverage/program-of.ts'
import { type HouseholdTax, householdSize } from '#rules/household-year.ts'
import { countFamily } from '#rules/marketplace/premium-by-age.ts'
import { programPovertyLine } from '#rules/marketplace/premium-credit.ts'
import type { CompiledPlan } from '#runway/compile/compiled-plan.ts'
import type { CourseBuffers } from '#runway/course-buffers.ts'
import { assessAtPrices, scaleHousehold } from '#runway/household-return.ts'
import { priceRatio } from '#runway/year-prices.ts'
import { kindAt } from './kind-at.ts'

/**
 * Writes the coverage of `count` months from `m` on and gives the year's expected return with it; the expected household must be
 * filled but for marketplace cover. The income that counts for a program is that without marketplace premiums, as nobody whom it
 * takes pays any; that for the children then has the adults' premiums taken off.
 */
export const coverYear = (
  plan: CompiledPlan,
  buffers: CourseBuffers,
  m: number,
  y: number,
  count: number,
): HouseholdTax => {
  const assess = () => assessExpected(plan, buffers, y)
  const place = (forAdults: number, forChildren: number) =>
    placeAll(plan, buffers, m, y, count, forAdults, forChildren)
  const percent = (tax: HouseholdTax) => percentOfPoverty(plan, buffers, y, tax.householdIncome)
  const onMarketplace = place(noProgram, noProgram)
  fillMarketplace(plan, buffers, m, y, count)
  let tax = raisedToLastYear(buffers, assess(), assess)
  if (plan.coverage.limits[y] === null) return tax
  const least = percent(tax)
  if (place(least, least) === onMarketplace) return tax
  buffers.state.householdYear.coverMonths = 0
  tax = assess()
  const bare = percent(tax)
  if (place(bare, bare) === 0) return tax
  fillMarketplace(plan, buffers, m, y, count)
  tax = assess()
  const children = percent(tax)
  if (place(bare, children) !== place(bare, bare)) {
    place(bare, children)
    fillMarketplace(plan, buffers, m, y, count)
    tax = assess()
  }
  return tax
}

/** The household is left at the course's own prices, so that it can be assessed again. */
const assessExpected = (plan: CompiledPlan, buffers: CourseBuffers, y: number): HouseholdTax => {
  const { householdYear, householdTax } = buffers.state
  const ratio = priceRatio(plan, buffers, y)
  assessAtPrices(plan, y, ratio, householdYear, householdTax)
  if (ratio !== 1) scaleHousehold(householdYear, ratio)
  return householdTax
}

/** Household income of a year in percent of the poverty level by which its programs measure, not cut to whole percents. */
const percentOfPoverty = (plan: CompiledPlan, buffers: CourseBuffers, y: number, income: number): number => {
  const law = plan.law.years[y]!
  const line = programPovertyLine(law, plan.law.region, householdSize(buffers.state.householdYear))
  const whole = y === 0 ? plan.coverage.firstYearScale : 1
  return (income * 100 * whole) / (line * priceRatio(plan, buffers, y))
}

const noProgram = Number.POSITIVE_INFINITY

/** Writes who is covered by what at an income; returns how many months of persons are on the marketplace. */
const placeAll = (
  plan: CompiledPlan,
  buffers: CourseBuffers,
  m: number,
  y: number,
  count: number,
  forAdults: number,
  forChildren: number,
): number => {
  const { coverage } = plan
  let listed = 0
  for (let i = 0; i < coverage.members.length; i += 1) {
    const percent = coverage.person[i]! < 0 ? forChildren : forAdults
    for (let cell = i * plan.months + m; cell < i * plan.months + m + count; cell += 1) {
      const kind = kindAt(coverage, cell, y, percent)
      if (kind === marketplace) listed += 1
      buffers.coverage[cell] = kind
    }
  }
  return listed
}

/** Sum of the age factors of those on the marketplace in a month; whoever has died is covered by nothing from now on. */
export const marketplaceFactor = (
  plan: CompiledPlan,
  buffers: CourseBuffers,
  m: number,
  y: number,
): number => {
  const { coverage } = plan
  const { isListed, adds } = buffers.state.cover
  let any = 0
  for (let i = 0; i < coverage.members.length; i += 1) {
    const person = coverage.person[i]!
    const cell = i * plan.months + m
    if (person >= 0 && buffers.state.alive[person] === 0) buffers.coverage[cell] = absent
    const on = buffers.coverage[cell] === marketplace ? 1 : 0
    isListed[i] = on
    any += on
  }
  return any === 0
    ? 0
    : countFamily(coverage.rating, coverage.factor[y]!, coverage.isRatedChild[y]!, isListed, adds)
}

/** Marketplace cover of the months to come into the year's expected household. */
const fillMarketplace = (
  plan: CompiledPlan,
  buffers: CourseBuffers,
  m: number,
  y: number,
  count: number,
): void => {
  const { state } = buffers
  const input = state.householdYear
  let factors = 0
  let months = 0
  for (let k = m; k < m + count; k += 1) {
    const factor = marketplaceFactor(plan, buffers, k, y)
    if (factor > 0) months += 1
    factors += factor * plan.health.premiumFactor[k]!
  }
  const monthly = months > 0 ? (factors * state.premiumLevel) / months : 0
  input.coverMonths = months
  input.deductibleMonths = months
  input.premiumMonthly = plan.coverage.planAt21[y]! * monthly
  input.benchmarkMonthly = plan.coverage.benchmarkAt21[y]! * monthly
  input.advanceMonthly = 0
}

/** After a year that a program covered beyond its line, the next one begins with that year's income, where it expects less. */
const raisedToLastYear = (
  { state }: CourseBuffers,
  tax: HouseholdTax,
  assess: () => HouseholdTax,
): HouseholdTax => {
  const missing = state.cover.incomeBeyondReal * state.level - tax.householdIncome
  if (state.cover.incomeBeyondReal === 0 || missing <= 0) return tax
  state.householdYear.otherIncome += missing
  return assess()
}

/** December: whether a program covered someone whom it would not have taken at the income that the year really had. */
export const noteIncomeBeyond = (plan: CompiledPlan, buffers: CourseBuffers, m: number, y: number): void => {
  const { state } = buffers
  const { coverage } = plan
  const limits = coverage.limits[y]!
  state.cover.incomeBeyondReal = 0
  if (limits === null) return
  const income = state.householdTax.householdIncome
  const percent = percentOfPoverty(plan, buffers, y, income)
  const first = Math.max(0, m - 11)
  for (let i = 0; i < coverage.members.length; i += 1) {
    for (let cell = i * plan.months + first; cell <= i * plan.months + m; cell += 1) {
      const kind = buffers.coverage[cell]!
      const byProgram = kind >= medicaid && kind <= basicProgram
      if (byProgram && programOf(limits, coverage.standing[cell]!, percent) === marketplace) {
        state.cover.incomeBeyondReal = income / state.level
        return
      }
    }
  }
}
