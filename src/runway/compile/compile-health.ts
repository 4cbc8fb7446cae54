// Health cover to months: premium lines, who is on the marketplace at which age factor, and what care is expected to cost.
import { day, monthOfDay } from '#calendar/day.ts'
import type { Plan } from '#plan/plan.ts'
import { medicareStart } from '#rules/age-by-law.ts'
import type { RunwayRules } from '#runway/runway-rules.ts'
import { isIn, type Span } from '#runway/span.ts'
import type { Weather } from '#runway/storms/weather.ts'
import type { CompiledHealth } from './compiled-plan.ts'

export const compileHealth = (
  plan: Plan,
  rules: RunwayRules,
  span: Span,
  weather: Weather,
): CompiledHealth => {
  const { health } = plan
  const row = () => new Float64Array(span.months)
  const out: CompiledHealth = {
    premiumsDeductible: row(),
    premiumsOther: row(),
    personFactor: new Float64Array(2 * span.months),
    dependantFactor: row(),
    benchmarkAt21: health.marketplace.benchmarkAt21,
    planAt21: health.marketplace.planAt21,
    advanceCredit: health.marketplace.advanceCredit,
    medicaidExpansion: health.medicaidExpansion,
    medicareFrom65: health.medicareFrom65,
    partDPlan: health.medicare.partDPlan ?? -1,
    supplement: health.medicare.supplement,
    careBefore65: health.careBefore65,
    careFrom65: health.careFrom65,
    dependantCare: row(),
    premiumFactor: weather.premiumFactor,
  }
  for (const line of health.premiums) {
    const into = line.deductible ? out.premiumsDeductible : out.premiumsOther
    for (let m = 0; m < span.months; m += 1) if (isIn(line, span.firstMonth + m)) into[m]! += line.perMonth
  }
  addMembers(plan, rules, span, out)
  addDependantCare(plan, span, out)
  return out
}

/**
 * Premiums follow the age on the first day of the policy year by the curve of the place, and of dependants under 21 only the
 * three oldest count (45 CFR 147.102); members leave at 65 or when no longer at home. What children add where the family is
 * rated rests on the adults listed in the month, also in a course in which one of them has died.
 */
const addMembers = (plan: Plan, rules: RunwayRules, span: Span, out: CompiledHealth) => {
  const members = plan.health.marketplace.members.map((member) => ({
    member,
    person: plan.household.people.findIndex((one) => one.id === member.person),
    ...bornAndLast(plan, member.person),
  }))
  for (let m = 0; m < span.months; m += 1) {
    const at = span.firstMonth + m
    const present = members.filter(
      ({ member, bornMonth, lastMonth }) => at <= lastMonth && at >= bornMonth && isIn(member, at),
    )
    const rated = present.map(({ person, bornMonth }) => ({
      age: Math.max(0, Math.floor((at - (at % 12) - bornMonth) / 12)),
      isDependant: person < 0,
    }))
    rules.memberFactors(plan.health.marketplace.ageRating, rated).forEach((factor, index) => {
      const { person } = present[index]!
      if (person >= 0) out.personFactor[person * span.months + m]! += factor
      else out.dependantFactor[m]! += factor
    })
  }
}

const bornAndLast = (plan: Plan, id: string): { bornMonth: number; lastMonth: number } => {
  const person = plan.household.people.find((one) => one.id === id)
  if (person) {
    const bornMonth = monthOfDay(day(person.born))
    if (!plan.health.medicareFrom65) return { bornMonth, lastMonth: Number.POSITIVE_INFINITY }
    return { bornMonth, lastMonth: medicareStart(person.born) - 1 }
  }
  const child = plan.household.dependants.find((one) => one.id === id)!
  const bornMonth = monthOfDay(day(child.born))
  return { bornMonth, lastMonth: bornMonth + child.untilAge * 12 - 1 }
}

const addDependantCare = (plan: Plan, span: Span, out: CompiledHealth) => {
  for (const child of plan.household.dependants) {
    const bornMonth = monthOfDay(day(child.born))
    for (let m = 0; m < span.months; m += 1) {
      const age = span.firstMonth + m - bornMonth
      if (age >= 0 && age < child.untilAge * 12) out.dependantCare[m]! += plan.health.careEachDependant
    }
  }
}
