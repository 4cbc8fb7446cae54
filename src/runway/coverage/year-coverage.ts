// January: who will be covered by what in each month of the year, found from the household's expected income by the rules of the state.
import { absent, basicProgram, marketplace, medicaid } from '#rules/coverage/coverage-kinds.ts'
import { type Measure, measureFor, plainMeasure, programFor } from '#rules/coverage/measure.ts'
import { type HouseholdTax, type HouseholdYear, householdSize } from '#rules/household-year.ts'
import { countFamily } from '#rules/marketplace/premium-by-age.ts'
import { programPovertyLine } from '#rules/marketplace/premium-credit.ts'
import type { CompiledPlan } from '#runway/compile/compiled-plan.ts'
import type { CourseBuffers } from '#runway/course-buffers.ts'
import { empty } from '#runway/figures/emptied.ts'
import { assessAgain } from '#runway/household-return.ts'
import { expectHealthSavings } from '#runway/savings/health-savings.ts'
import { monthsBehind, unlikeMonths } from './cover-by-month.ts'
import type { AskedIncome } from './coverage-state.ts'
import { deductedBehind, noteIncomeBehind } from './income-behind.ts'
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
  const tax = findCover(plan, buffers, m, y, count)
  if (y === 0) buffers.state.cover.premiumsAdded = deductedBehind(buffers.state)
  return tax
}

const findCover = (
  plan: CompiledPlan,
  buffers: CourseBuffers,
  m: number,
  y: number,
  count: number,
): HouseholdTax => {
  const { householdYear } = buffers.state
  // The same household is looked at again with what it converts.
  householdYear.otherIncome = 0
  askNothing(buffers)
  const onMarketplace = placeAll(plan, buffers, m, y, count)
  noteIncomeBehind(plan, buffers, y)
  fillMarketplace(plan, buffers, m, y, count)
  let tax = raisedToLastYear(plan, buffers, y, assessAgain(plan, buffers, y))
  if (plan.coverage.limits[y] === null || plan.coverage.opens[y] === 0) return tax
  const { forAdults, forChildren } = buffers.state.cover
  ask(plan, buffers, y, forAdults, tax.householdIncome)
  ask(plan, buffers, y, forChildren, tax.householdIncome)
  if (placeAll(plan, buffers, m, y, count) === onMarketplace) return tax
  householdYear.coverMonths = 0
  householdYear.coverByMonth = null
  buffers.state.cover.premiumsBehind = 0
  // Nor does anybody on a program put money into health savings.
  householdYear.hsa = buffers.state.year.healthSavings
  tax = assessAgain(plan, buffers, y)
  ask(plan, buffers, y, forAdults, tax.householdIncome)
  ask(plan, buffers, y, forChildren, tax.householdIncome)
  const ofAdults = placeAll(plan, buffers, m, y, count)
  if (ofAdults === 0 && buffers.state.year.coverMonths === 0) return tax
  fillMarketplace(plan, buffers, m, y, count)
  householdYear.hsa = expectHealthSavings(plan, buffers, m, y, buffers.coverage)
  tax = assessAgain(plan, buffers, y)
  ask(plan, buffers, y, forChildren, tax.householdIncome)
  if (placeAll(plan, buffers, m, y, count) !== ofAdults) {
    fillMarketplace(plan, buffers, m, y, count)
    tax = assessAgain(plan, buffers, y)
  }
  return tax
}

/** A year's household income as programs ask for it, dollars of the year: in a first year that is a part of one, that of the months ahead. */
const askedFor = ({ coverage }: CompiledPlan, { state }: CourseBuffers, y: number, income: number): number =>
  y === 0 ? (income + deductedBehind(state) - state.cover.behind) * coverage.firstYearScale : income

/**
 * The same of the year, as its return counts it: for a basic health program (42 CFR 600.330(b), 155.305(f)), and in a poor year. Months
 * before the plan of which nothing is told brought nothing, there as here.
 */
const askedForYear = (plan: CompiledPlan, buffers: CourseBuffers, y: number, income: number): number =>
  y === 0 ? income : askedFor(plan, buffers, y, income)

/** In percent of the poverty level by which Medicaid measures, not cut to whole percents. */
const percentOfPoverty = (plan: CompiledPlan, buffers: CourseBuffers, y: number, income: number): number => {
  const law = plan.law.years[y]!
  const line = programPovertyLine(law, plan.law.region, householdSize(buffers.state.householdYear))
  return (income * 100) / (line * buffers.state.lasting.priceRatio)
}

const measureOf = (plan: CompiledPlan, { state }: CourseBuffers, y: number): Measure =>
  plan.coverage.asksMeasure
    ? measureFor(plan.law.years[y]!, plan.law.region, householdSize(state.householdYear), plan.coverage.state)
    : plainMeasure

/** Noted as its own return has it: what premiums took off another one is nothing to it. */
const ask = (
  plan: CompiledPlan,
  buffers: CourseBuffers,
  y: number,
  of: AskedIncome,
  income: number,
): void => {
  of.months = askedFor(plan, buffers, y, income)
  of.year = askedForYear(plan, buffers, y, income)
}

/** No program takes anybody. */
const askNothing = ({ state: { cover } }: CourseBuffers): void => {
  for (const asked of [cover.forAdults, cover.forChildren])
    asked.months = asked.year = Number.POSITIVE_INFINITY
}

/** Writes who is covered by what at the incomes asked for, and the factors; returns how many months of persons would be on the marketplace if all lived. */
const placeAll = (
  plan: CompiledPlan,
  buffers: CourseBuffers,
  m: number,
  y: number,
  count: number,
): number => {
  const { coverage } = plan
  const { forAdults, forChildren } = buffers.state.cover
  if (coverage.opens[y] === 0) return placeAsListed(plan, buffers, m, count)
  const measure = measureOf(plan, buffers, y)
  const adults = percentOfPoverty(plan, buffers, y, forAdults.months)
  const adultsOfYear = percentOfPoverty(plan, buffers, y, forAdults.year)
  const children = percentOfPoverty(plan, buffers, y, forChildren.months)
  const childrenOfYear = percentOfPoverty(plan, buffers, y, forChildren.year)
  let listed = 0
  for (let i = 0; i < coverage.members.length; i += 1) {
    const isChild = coverage.person[i]! < 0
    const percent = isChild ? children : adults
    const ofYear = isChild ? childrenOfYear : adultsOfYear
    const first = i * plan.months + m
    let kind = absent
    for (let cell = first; cell < first + count; cell += 1) {
      if (cell === first || coverage.turns[cell] === 1)
        kind = kindAt(coverage, cell, y, percent, ofYear, measure)
      if (kind === marketplace) listed += 1
      buffers.coverage[cell] = kind
    }
  }
  countFactors(plan, buffers, m, y)
  return listed
}

/** A year in which nobody buys or goes without, as when all have come to Medicare: what is listed covers them at any income. */
const placeAsListed = (plan: CompiledPlan, buffers: CourseBuffers, m: number, count: number): 0 => {
  const { coverage } = plan
  for (let i = 0; i < coverage.members.length; i += 1)
    for (let cell = i * plan.months + m; cell < i * plan.months + m + count; cell += 1)
      buffers.coverage[cell] = coverage.listed[cell]!
  leaveOutTheDead(plan, buffers, m, count)
  empty(buffers.state.cover.factors, (plan.firstMonth + m) % 12)
  return 0
}

const leaveOutTheDead = (plan: CompiledPlan, buffers: CourseBuffers, m: number, count: number): void => {
  const { person } = plan.coverage
  const { alive } = buffers.state
  for (let i = 0; i < person.length; i += 1)
    if (person[i]! >= 0 && alive[person[i]!] === 0)
      buffers.coverage.fill(absent, i * plan.months + m, i * plan.months + m + count)
}

/**
 * Sums of the age factors of those on the marketplace, for each month from `m` to the end of its year; none in months past the plan's
 * end, which would be given a part of the credit. Anew when someone dies: the dead are covered by nothing.
 */
export const countFactors = (plan: CompiledPlan, buffers: CourseBuffers, m: number, y: number): void => {
  const { coverage } = plan
  const { factors, isListed, adds } = buffers.state.cover
  const first = (plan.firstMonth + m) % 12
  const end = Math.min(12, first + plan.months - m)
  leaveOutTheDead(plan, buffers, m, end - first)
  let factor = 0
  for (let season = first; season < end; season += 1) {
    const k = m + season - first
    if (season === first || coverage.someTurns[k] === 1) {
      listMonth(plan, buffers, k)
      factor = countFamily(coverage.rating, coverage.factor[y]!, coverage.isRatedChild[y]!, isListed, adds)
    }
    factors[season] = factor
  }
  empty(factors, end)
}

/** Notes who is on the marketplace in a month. */
const listMonth = (plan: CompiledPlan, buffers: CourseBuffers, m: number): void => {
  const { isListed } = buffers.state.cover
  for (let i = 0; i < isListed.length; i += 1)
    isListed[i] = buffers.coverage[i * plan.months + m] === marketplace ? 1 : 0
}

/** Marketplace cover of the months behind and to come into the year's expected household. */
const fillMarketplace = (
  plan: CompiledPlan,
  buffers: CourseBuffers,
  m: number,
  y: number,
  count: number,
): void => {
  const { state } = buffers
  const input = state.householdYear
  if (plan.coverage.opens[y] === 0 && state.year.coverMonths === 0) {
    leaveMarketplace(input)
    state.cover.premiumsBehind = 0
    return
  }
  const first = (plan.firstMonth + m) % 12
  const byMonth = monthsBehind(state, first)
  let sum = 0
  let months = 0
  for (let k = m; k < m + count; k += 1) {
    const season = first + k - m
    const factor = state.cover.factors[season]!
    if (factor <= 0) continue
    const priced = factor * plan.health.premiumFactor[k]!
    months += 1
    sum += priced
    byMonth.premium[season] = plan.coverage.planAt21[y]! * priced * state.premiumLevel
    byMonth.benchmark[season] = plan.coverage.benchmarkAt21[y]! * priced * state.premiumLevel
  }
  input.coverByMonth = unlikeMonths(byMonth)
  const ahead = sum * state.premiumLevel
  const all = months + state.year.coverMonths
  const { marketplacePremium, benchmark } = state.year
  input.coverMonths = all
  input.deductibleMonths = all
  const premiums = marketplacePremium + plan.coverage.planAt21[y]! * ahead
  state.cover.premiumsBehind = y === 0 && all > 0 ? plan.law.soFar.marketplacePremiums : 0
  input.premiumMonthly = all > 0 ? premiums / all : 0
  input.benchmarkMonthly = all > 0 ? (benchmark + plan.coverage.benchmarkAt21[y]! * ahead) / all : 0
  // What was taken in advance already is settled with the return, and keeps a credit open below the poverty line.
  input.advanceMonthly = all > 0 ? state.year.advance / all : 0
}

const leaveMarketplace = (input: HouseholdYear): void => {
  input.coverByMonth = null
  input.coverMonths = 0
  input.deductibleMonths = 0
  input.premiumMonthly = 0
  input.benchmarkMonthly = 0
  input.advanceMonthly = 0
}

/**
 * After a year that a program covered beyond its line, the next one begins with that year's income, where it expects less. More income
 * brings less credit and so more premiums to deduct, so that what is missing is added until nothing is.
 */
const raisedToLastYear = (
  plan: CompiledPlan,
  buffers: CourseBuffers,
  y: number,
  tax: HouseholdTax,
): HouseholdTax => {
  const { cover, householdYear, level } = buffers.state
  if (cover.incomeBeyondReal === 0) return tax
  let raised = tax
  for (;;) {
    const missing = cover.incomeBeyondReal * level - raised.householdIncome
    if (!(missing > halfACent)) return raised
    householdYear.otherIncome += Math.max(aCent, missing)
    raised = assessAgain(plan, buffers, y)
  }
}

/** The law counts in whole cents. */
const aCent = 0.01
const halfACent = aCent / 2

/** December: whether a program covered someone whom it would not have taken at the income that the year really had. */
export const noteIncomeBeyond = (plan: CompiledPlan, buffers: CourseBuffers, m: number, y: number): void => {
  const { state } = buffers
  const { coverage } = plan
  const limits = coverage.limits[y]!
  state.cover.incomeBeyondReal = 0
  if (limits === null) return
  const income = state.householdTax.householdIncome
  const asked = askedFor(plan, buffers, y, income)
  const percent = percentOfPoverty(plan, buffers, y, asked)
  const ofYear = percentOfPoverty(plan, buffers, y, askedForYear(plan, buffers, y, income))
  const measure = measureOf(plan, buffers, y)
  const first = Math.max(0, m - 11)
  for (let i = 0; i < coverage.members.length; i += 1) {
    for (let cell = i * plan.months + first; cell <= i * plan.months + m; cell += 1) {
      const kind = buffers.coverage[cell]!
      const byProgram = kind >= medicaid && kind <= basicProgram
      if (!byProgram) continue
      const standing = coverage.standing[cell]!
      if (programFor(limits, standing, percent, ofYear, coverage.more[cell]!, measure) === marketplace) {
        state.cover.incomeBeyondReal = asked / state.level
        return
      }
    }
  }
}
