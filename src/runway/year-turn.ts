// January: prices step up, accounts get the year's returns, benefits and required distributions are set, the year's tax is estimated.

import { distributionDivisor } from '#rules/required-distributions.ts'
import {
  type BenefitPerson,
  earningsTestWithheld,
  fullRetirementAgeMonths,
  householdBenefitsMonthly,
  monthsGivenBack,
  primaryAmountMonthly,
} from '#rules/social-security/benefits.ts'
import type { CompiledPlan } from '#runway/compile/compiled-plan.ts'
import type { CourseBuffers } from './course-buffers.ts'
import { ownerNow } from './savings/savings-month.ts'
import type { CourseShocks } from './shocks.ts'
import { estimateYear, startYearTotals } from './year-estimate.ts'
import { priceRatio } from './year-prices.ts'

/** Runs at the start of each January, and at the start of the plan's first month. */
export const turnYear = (
  plan: CompiledPlan,
  shocks: CourseShocks,
  buffers: CourseBuffers,
  m: number,
  y: number,
): void => {
  const { state } = buffers
  if (m > 0) stepPrices(plan, shocks, buffers, y)
  state.januaryLevel = state.level
  state.monthlyStep = (1 + shocks.inflation[y]!) ** (1 / 12)
  state.monthlyCareStep = (1 + shocks.careGrowth[y]!) ** (1 / 12)
  setReturns(plan, shocks, buffers, y)
  setRequired(plan, buffers, m, y)
  startYearTotals(plan, buffers, m)
  setPrimaryAmounts(plan, buffers, y)
  state.benefitWithheld.fill(0)
  setBenefits(plan, buffers, m, y)
  setEarningsTest(plan, buffers, m, y)
  estimateYear(plan, buffers, m, y)
}

/** The first year may be a part of one: prices and care then rise by that part, premiums by the whole (they are set once a year). */
const stepPrices = (plan: CompiledPlan, shocks: CourseShocks, buffers: CourseBuffers, y: number) => {
  const { state } = buffers
  const part = y === 1 ? plan.firstStep : 1
  if (!plan.priceStepsMonthly) {
    state.level *= (1 + shocks.inflation[y - 1]!) ** part
    state.careLevel *= (1 + shocks.careGrowth[y - 1]!) ** part
  }
  state.premiumLevel *= 1 + shocks.premiumGrowth[y - 1]!
}

const setReturns = (plan: CompiledPlan, shocks: CourseShocks, buffers: CourseBuffers, y: number) => {
  const { savings } = plan
  const { state } = buffers
  const twelfth = 1 / 12
  for (let account = 0; account < savings.count; account += 1) {
    const stocks = savings.stocks[account]!
    const interest = savings.bonds[account]! * shocks.bonds[y]! + savings.bills[account]! * shocks.bills[y]!
    const gross = Math.max(0, 1 + stocks * shocks.stocks[y]! + interest)
    state.growth[account] = (gross * (1 - savings.fee[account]!)) ** twelfth
    state.interestPerDollar[account] = interest > 0 ? (1 + interest) ** twelfth - 1 : 0
    state.dividendPerDollar[account] = (stocks * savings.stockYield) / 12
  }
}

/** Required distributions of the year from the balances of 31 December; a plan that begins later in a year takes them as made. */
const setRequired = (plan: CompiledPlan, buffers: CourseBuffers, m: number, y: number) => {
  const { savings } = plan
  const { state } = buffers
  state.requiredThisYear.fill(0)
  if ((plan.firstMonth + m) % 12 !== 0) return
  const year = plan.firstYear + y
  for (let account = 0; account < savings.count; account += 1) {
    if (savings.kind[account] !== 2) continue
    const owner = ownerNow(plan, buffers, account)
    if (owner < 0 || state.alive[owner] === 0) continue
    const born = plan.people[owner]!.birthYear
    if (savings.requiredFromAge > 0 && year - born < savings.requiredFromAge) continue
    state.requiredThisYear[owner] =
      state.requiredThisYear[owner]! + state.balance[account]! / distributionDivisor(born, year)
  }
}

/** Primary amounts are worked out again only while the record still changes; else last year's grows with the adjustment. */
const setPrimaryAmounts = (plan: CompiledPlan, buffers: CourseBuffers, y: number) => {
  const law = plan.law.benefits
  if (law === null) return
  const { state } = buffers
  const year = plan.firstYear + y
  for (let p = 0; p < plan.people.length; p += 1) {
    const person = plan.people[p]!
    if (year * 12 + 11 < plan.firstBenefitMonth) continue
    if (state.primaryStale[p] === 1 || year < person.bornYear + 62) {
      state.primary[p] = primaryAmountMonthly(law, state.benefitPeople[p]!.record, year)
      state.primaryStale[p] = 0
    } else state.primary[p] = state.primary[p]! * (1 + law.costOfLiving[year - 1 - law.firstYear]!)
  }
}

/** Monthly benefits now, in dollars of the course; called again in months in which someone claims or dies. */
export const setBenefits = (plan: CompiledPlan, buffers: CourseBuffers, m: number, y: number): void => {
  const { state } = buffers
  state.benefit.fill(0)
  if (plan.law.benefits === null || plan.people.length === 0) return
  const calendar = plan.firstMonth + m
  if (calendar < plan.firstBenefitMonth) return
  const second: BenefitPerson | null = plan.people.length > 1 ? state.benefitPeople[1]! : null
  householdBenefitsMonthly(
    state.benefitPeople[0]!,
    second,
    state.primary[0]!,
    state.primary[1]!,
    calendar,
    state.benefit,
  )
  const ratio = priceRatio(plan, buffers, y)
  for (let p = 0; p < plan.people.length; p += 1)
    state.benefit[p] = Math.max(0, state.benefit[p]! * ratio - state.benefitWithheld[p]!)
}

/** Before full retirement age, earnings over the year's amount hold benefits back; the months come back at that age. */
const setEarningsTest = (plan: CompiledPlan, buffers: CourseBuffers, m: number, y: number) => {
  const law = plan.law.benefits
  if (law === null) return
  const { state } = buffers
  const year = plan.firstYear + y
  const ratio = priceRatio(plan, buffers, y)
  let changed = false
  for (let p = 0; p < plan.people.length; p += 1) {
    const person = plan.people[p]!
    const fullAge = person.bornMonth + fullRetirementAgeMonths(person.bornYear)
    if (state.benefit[p] === 0 || state.alive[p] === 0) continue
    if (year * 12 > fullAge) {
      if (state.monthsBack[p]! > 0) {
        state.benefitPeople[p]!.claimMonth = Math.min(
          fullAge,
          state.benefitPeople[p]!.claimMonth + state.monthsBack[p]!,
        )
        state.monthsBack[p] = 0
        changed = true
      }
      continue
    }
    const yearly = (state.benefit[p]! * 12) / ratio
    const earned = Math.max(0, state.lastEarnings[p]! / ratio)
    const monthOfBirth = (person.bornMonth % 12) + 1
    const withheld = earningsTestWithheld(law, year, person.bornYear, monthOfBirth, earned, yearly)
    if (withheld <= 0) continue
    state.monthsBack[p] = state.monthsBack[p]! + monthsGivenBack(withheld, yearly / 12)
    state.benefitWithheld[p] = (withheld * ratio) / 12
    changed = true
  }
  if (changed) setBenefits(plan, buffers, m, y)
}
