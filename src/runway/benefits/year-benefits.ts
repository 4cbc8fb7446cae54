// Social Security in the course: amounts each January and at a death, the benefits of a month, and what earnings hold back of them.
import { fullRetirementAgeMonths, survivorFromMonths } from '#rules/social-security/claim-factors.ts'
import { earningsTestWithheld, monthsGivenBack } from '#rules/social-security/earnings-test.ts'
import {
  adjustAmounts,
  childrenOn,
  householdBenefits,
  ofChildren,
  setPrimaryAmounts,
  survivorEligibleYear,
} from '#rules/social-security/household-benefits.ts'
import { familyMaximumOf } from '#rules/social-security/primary-amount.ts'
import type { CompiledPlan } from '#runway/compile/compiled-plan.ts'
import type { CourseBuffers, CourseState } from '../course-buffers.ts'
import { empty } from '../figures/emptied.ts'
import { hasParted } from '../parting.ts'
import type { BenefitState } from './benefit-state.ts'

/** January, and the plan's first month. */
export const beginYearOfBenefits = (
  plan: CompiledPlan,
  buffers: CourseBuffers,
  m: number,
  y: number,
): void => {
  empty(buffers.state.benefits.withheld)
  setAmounts(plan, buffers, m, y, true)
  setBenefits(plan, buffers, m)
  setEarningsTest(plan, buffers, m, y)
}

/** A month in which someone claims, dies or turns 60, or a child grows up. */
export const meetBenefits = (plan: CompiledPlan, buffers: CourseBuffers, m: number, y: number): void => {
  setAmounts(plan, buffers, m, y, false)
  setBenefits(plan, buffers, m)
}

/** Amounts are worked out again only while the record still changes; else last year's grow with the adjustment. */
const setAmounts = (plan: CompiledPlan, buffers: CourseBuffers, m: number, y: number, january: boolean) => {
  const law = plan.law.benefits
  if (law === null) return
  const state = buffers.state.benefits
  const year = plan.firstYear + y
  for (let p = 0; p < plan.people.length; p += 1) {
    const person = state.people[p]!
    if (hasParted(plan, buffers, p, m)) {
      // What a former spouse of ten years may claim is not worked out (42 USC 402(b)(1)(G), from memory).
      person.primary = 0
      continue
    }
    const isDead = plan.firstMonth + m >= person.deathMonth
    if (plan.people[p]!.statementPrimary > 0) {
      setByStatement(plan, person, p, m, y, january, isDead)
      continue
    }
    if (!isDead && year * 12 + 11 < person.claimMonth) continue
    const spouse = plan.people.length > 1 ? state.people[1 - p]! : null
    if (state.stale[p] === 1 || (isDead && beginsAnew(person, spouse, year))) {
      setPrimaryAmounts(law, person, spouse, year, isDead)
      state.stale[p] = 0
    } else if (january) adjustAmounts(person, law.costOfLiving[year - 1 - law.firstYear]!)
  }
}

type Person = BenefitState['people'][number]

/**
 * As the agency estimates it, in the plan's first prices: it moves with prices alone, from the plan's first month on, and counts as
 * fully insured. The family's most is by the formula of the plan's first year.
 */
const setByStatement = (
  plan: CompiledPlan,
  person: Person,
  p: number,
  m: number,
  y: number,
  january: boolean,
  isDead: boolean,
) => {
  const law = plan.law.benefits!
  if (m === 0) {
    const primary = plan.people[p]!.statementPrimary * plan.law.expectedLevel[0]!
    person.primary = primary
    person.familyMaximum = familyMaximumOf(law, primary, plan.firstYear)
  } else if (january) adjustAmounts(person, law.costOfLiving[plan.firstYear + y - 1 - law.firstYear]!)
  person.survivorPrimary = isDead ? person.primary : 0
}

/** The year from which a widow's or widower's benefit may be worked out by a later formula. */
const beginsAnew = (worker: Person, survivor: Person | null, year: number): boolean =>
  survivor !== null && year === survivorEligibleYear(worker, survivor, Math.floor(worker.deathMonth / 12))

/** Monthly benefits now, in dollars of the course. */
const setBenefits = (plan: CompiledPlan, buffers: CourseBuffers, m: number): void => {
  const { alive, benefits: state } = buffers.state
  empty(state.monthly)
  if (plan.law.benefits === null || plan.people.length === 0) return
  const calendar = plan.firstMonth + m
  const someoneDied = plan.people.length > 1 && alive[0]! + alive[1]! < 2
  // Before the first claim only a death pays benefits.
  if (!someoneDied && isBeforeClaims(plan, calendar)) return
  state.children.count = plan.household.benefitChildren[m]!
  state.children.inCare = plan.household.childrenInCare[m]! > 0
  householdBenefits(
    state.people[0]!,
    plan.people.length > 1 ? state.people[1]! : null,
    state.children,
    calendar,
    state.monthly,
  )
  const ratio = buffers.state.lasting.priceRatio
  for (let part = 0; part <= ofChildren; part += 1)
    state.monthly[part] = Math.max(0, state.monthly[part]! * ratio - state.withheld[part]!)
}

const isBeforeClaims = ({ people }: CompiledPlan, calendar: number): boolean => {
  for (let p = 0; p < people.length; p += 1) if (calendar >= people[p]!.claimMonth) return false
  return true
}

/**
 * Before full retirement age, earnings over the year's amount hold benefits back, a worker's with those of the children on the
 * same record; the months come back at that age to a benefit that was reduced for age.
 */
const setEarningsTest = (plan: CompiledPlan, buffers: CourseBuffers, m: number, y: number) => {
  const law = plan.law.benefits
  if (law === null) return
  const { alive, benefits: state } = buffers.state
  const ratio = buffers.state.lasting.priceRatio
  let changed = false
  for (let p = 0; p < plan.people.length; p += 1) {
    const person = plan.people[p]!
    const fullAge = person.bornMonth + fullRetirementAgeMonths(person.bornYear)
    if (state.monthly[p] === 0 || alive[p] === 0) continue
    if ((plan.firstYear + y) * 12 > fullAge) {
      if (giveMonthsBack(buffers.state, p, fullAge)) changed = true
      continue
    }
    const withChildren = state.monthly[childrenOn] === p ? state.monthly[ofChildren]! : 0
    const yearly = ((state.monthly[p]! + withChildren) * 12) / ratio
    const withheld = earningsTestWithheld(
      law,
      plan.firstYear + y,
      person.bornYear,
      (person.bornMonth % 12) + 1,
      Math.max(0, state.lastEarnings[p]! / ratio),
      yearly,
    )
    if (withheld <= 0) continue
    const part = withheld / yearly
    noteMonths(buffers.state, p, plan.firstMonth + m, monthsGivenBack(withheld, yearly / 12))
    state.withheld[p] = part * state.monthly[p]!
    state.withheld[ofChildren] = state.withheld[ofChildren]! + part * withChildren
    changed = true
  }
  if (changed) setBenefits(plan, buffers, m)
}

/** A parent's benefit for a child in care is not reduced for age, so that nothing comes back to it. */
const noteMonths = ({ benefits: state }: CourseState, p: number, calendar: number, months: number) => {
  const person = state.people[p]!
  if (calendar >= person.claimMonth) state.monthsBack[p] = state.monthsBack[p]! + months
  else if (calendar >= person.bornMonth + survivorFromMonths)
    state.survivorMonthsBack[p] = state.survivorMonthsBack[p]! + months
}

const giveMonthsBack = ({ benefits: state }: CourseState, p: number, fullAge: number): boolean => {
  if (state.monthsBack[p]! + state.survivorMonthsBack[p]! === 0) return false
  const person = state.people[p]!
  person.claimMonth = Math.max(person.claimMonth, Math.min(fullAge, person.claimMonth + state.monthsBack[p]!))
  person.survivorMonthsBack += state.survivorMonthsBack[p]!
  state.monthsBack[p] = 0
  state.survivorMonthsBack[p] = 0
  return true
}
