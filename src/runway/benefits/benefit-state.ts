// Social Security as a course carries it along.
import {
  type BenefitChildren,
  type BenefitPerson,
  benefitPerson,
} from '#rules/social-security/household-benefits.ts'
import type { CompiledPlan } from '#runway/compile/compiled-plan.ts'

export interface BenefitState {
  /** Per person: covered earnings of the record with the run's own, the course through the benefits, 1 where amounts are to be worked out again. */
  earnings: Float64Array[]
  people: BenefitPerson[]
  stale: Uint8Array
  children: BenefitChildren
  /** Benefits a month, laid out as `householdBenefits` does, and what the earnings test holds back of each. */
  monthly: Float64Array
  withheld: Float64Array
  /** Months the test has held back, of an own benefit and of a widow's or widower's. */
  monthsBack: Float64Array
  survivorMonthsBack: Float64Array
  /** Covered earnings of the year before, for the earnings test. */
  lastEarnings: Float64Array
}

export const noBenefits = (plan: CompiledPlan): BenefitState => {
  const earnings = plan.people.map((person) => new Float64Array(person.earnings.length))
  return {
    earnings,
    people: plan.people.map(({ bornYear, bornMonth, claimMonth }, p) =>
      benefitPerson({ bornYear, earnings: earnings[p]! }, bornMonth, claimMonth),
    ),
    stale: new Uint8Array(2),
    children: { count: 0, inCare: false },
    monthly: new Float64Array(4),
    withheld: new Float64Array(3),
    monthsBack: new Float64Array(2),
    survivorMonthsBack: new Float64Array(2),
    lastEarnings: new Float64Array(2),
  }
}

/** `deathMonth`: the first month of the course each person is no longer alive. */
export const beginBenefits = (plan: CompiledPlan, state: BenefitState, deathMonth: Float64Array): void => {
  state.withheld.fill(0)
  state.monthsBack.fill(0)
  state.survivorMonthsBack.fill(0)
  state.lastEarnings.fill(0)
  state.stale.fill(1)
  for (let p = 0; p < plan.people.length; p += 1) {
    const person = state.people[p]!
    state.earnings[p]!.set(plan.people[p]!.earnings)
    person.claimMonth = plan.people[p]!.claimMonth
    const parts = plan.people[p]!.partsMonth === deathMonth[p]
    person.deathMonth = parts ? Number.POSITIVE_INFINITY : plan.firstMonth + deathMonth[p]!
    person.survivorMonthsBack = 0
    person.primary = 0
    person.leastCounted = 0
  }
}
